/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/chart.c - what all pictures of a season share. */
#include "tell/chart.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include <math.h>
#include <string.h>

void chart_value(FILE *script, double value)
{
    if (isfinite(value))
        fprintf(script, " %.6g", value);
    else
        fputs(" NaN", script);
}

static const char *month(int number)
{
    static const char *const name[12] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return name[(number - 1) % 12];
}

void chart_date(char text[CHART_DATE], date_count number)
{
    struct date date = date_of(number);
    snprintf(text, CHART_DATE, "%d %s", date.day, month(date.month));
}

/* Weeks, so that tics of a season that began on a Saturday are Saturdays. */
void chart_tics(FILE *script, date_count start, int days, bool numbered)
{
    static const int step[] = {1, 2, 7, 14, 28, 56, 112, 364};
    int pick = 0;
    while (pick < 7 && days / step[pick] > 11)
        pick++;
    fputs("set xtics (", script);
    for (int day = 1; day <= days; day += step[pick]) {
        char date[CHART_DATE], number[24] = "";
        chart_date(date, start + day - 1);
        if (numbered)
            snprintf(number, sizeof number, "\\nday %d", day);
        fprintf(script, "%s\"%s%s\" %d", day > 1 ? ", " : "", date, number, day);
    }
    fputs(")\n", script);
}

void chart_text(FILE *script, const char *name, const char *text)
{
    fprintf(script, "%s = ", name);
    gnuplot_quote(script, text);
    putc('\n', script);
}

void chart_head(const struct chart *chart, const char *finding)
{
    char from[2 * PLAN_NAME + 128];
    struct date start = date_of(chart->scenario->start);
    snprintf(from, sizeof from, "%s; plan: %s; day 1 is %d %s %d", chart->scenario->name,
             chart->plan_name, start.day, month(start.month), start.year);
    chart_text(chart->script, "finding", finding);
    chart_text(chart->script, "from", from);
    fprintf(chart->script, "days = %d\nspacing = %d\n", chart->record->days,
            1 + chart->record->days / 10);
    chart_tics(chart->script, chart->scenario->start, chart->record->days, true);
    paint_write(chart->script);
}

struct place_label chart_label(const char *text, double panel_width, double panel_height)
{
    const double letter = 8.6, line = 20.0; /* points, of the 15 point type of plots/common.gp */
    struct place_label label = {(letter * (double)strlen(text) + 8.0) / (CHART_WIDTH * panel_width),
                                line / (CHART_HEIGHT * panel_height), NAN, NAN};
    return label;
}

void chart_name(FILE *script, double day, double value, const char *text, unsigned colour)
{
    chart_value(script, day);
    chart_value(script, value);
    fprintf(script, " \"%s\" %u\n", text, colour);
}

/* gnuplot 5.4 crashes on a block of names that has no point: the last row is one, far outside. */
void chart_names_end(FILE *script)
{
    chart_name(script, -1e6, 0.0, "", 0);
    fputs("END\n", script);
}
