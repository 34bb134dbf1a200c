/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/csv.c - a season as CSV: one row a day.
 *
 * Comma, decimal point and CR LF at the end of each line as in RFC 4180; no field needs quotes,
 * since names are ours and the rest are numbers. Ten digits, so that sums over the days can be
 * compared with the season's totals. With several possible piles a column is their median, and its
 * 10 and 90 % points stand in two columns beside it.
 */
#include "tell/csv.h"
#include "tell/column.h"
#include "tell/range.h"
#include <math.h>

static void number(FILE *out, double value)
{
    if (isfinite(value))
        fprintf(out, ",%.10g", value == 0.0 ? 0.0 : value); /* no minus before nothing */
    else
        fputc(',', out);
}

/* A column, and beside it its range where there are several possible piles. */
static void name(FILE *out, const struct tale *tale, const char *text, const char *unit)
{
    fprintf(out, ",%s%s", text, unit);
    if (tale->members > 1)
        fprintf(out, ",%s%s_low,%s%s_high", text, unit, text, unit);
}

static void header(FILE *out, const struct tale *tale)
{
    fputs("day,date", out);
    for (int i = 0; i < column_count; i++)
        name(out, tale, column_rows[i].name, "");
    for (int i = 0; i < FLUXES; i++) {
        char unit[32];
        snprintf(unit, sizeof unit, "_%s", flux_unit((enum flux)i));
        name(out, tale, flux_rows[i].name, unit);
    }
    fputs(",events", out);
    if (tale->members == 1)
        fputs(",steps,refused", out);
    fputs("\r\n", out);
}

static double ask_flux(const struct record *record, int row, int flux)
{
    return column_flux(record->day[row].flux, (enum flux)flux);
}

static double ask_events(const struct record *record, int row, int unused)
{
    (void)unused;
    return record->day[row].events;
}

static void numbers(FILE *out, const struct tale *tale,
                    double (*ask)(const struct record *, int, int), int row, int which)
{
    struct span range = range_of(tale, ask, row, which);
    number(out, range.mid);
    if (tale->members == 1)
        return;
    number(out, range.low);
    number(out, range.high);
}

void csv_season(FILE *out, const struct tale *tale)
{
    header(out, tale);
    for (int k = 0; k < tale->record->days; k++) {
        char date[DATE_TEXT];
        date_write(tale->scenario->start + k, date);
        fprintf(out, "%d,%s", k + 1, date);
        for (int i = 0; i < column_count; i++)
            numbers(out, tale, column_of_day, k, i);
        for (int i = 0; i < FLUXES; i++)
            numbers(out, tale, ask_flux, k, i);
        fprintf(out, ",%g", range_of(tale, ask_events, k, 0).mid);
        if (tale->members == 1)
            fprintf(out, ",%d,%d", tale->record->day[k].steps, tale->record->day[k].refused);
        fputs("\r\n", out);
    }
}
