/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/strip.c - the work done on a pile, as rows of marks above its temperatures. */
#include "tell/strip.h"
#include "base/unit.h"
#include "tell/finding.h"
#include "tell/paint.h"
#include "tell/steps.h"
#include <stdlib.h>
#include <string.h>

static const double GALLON_US_KG = 3.785411784; /* of water at 1 kg/L */
static const double PANEL_WIDTH = 0.86;         /* as placed by plots/temperature.gp */

enum { MARK_TEXT = FINDING_NUMBER + 8 };

enum strip { TURNED, WATERED, ADDED, COVERED, LOOSENED, PICKED, STRIPS };

struct mark {
    int day;
    char text[MARK_TEXT];
};

static const char *const strip_name[STRIPS] = {"turned", "watered", "added", "covered", "loosened",
                                               "picked"};

static void amount(char text[MARK_TEXT], double mass_kg, bool US, bool water)
{
    double size = !US ? 1.0 : water ? GALLON_US_KG : UNIT_POUND_KG;
    const char *unit = US ? (water ? "gal" : "lb") : (water ? "L" : "kg");
    char number[FINDING_NUMBER];
    if (mass_kg < size)
        snprintf(text, MARK_TEXT, "under 1 %s", unit);
    else
        snprintf(text, MARK_TEXT, "%s %s", finding_number(number, mass_kg / size), unit);
}

/* What an event means for a strip; false when it doesn't concern it. */
static bool concerns(const struct record_event *event, enum strip strip, bool US,
                     char text[MARK_TEXT])
{
    text[0] = '\0';
    if (strip == TURNED && event->deed == PLAN_TURN)
        return snprintf(text, MARK_TEXT, "%s", steps_way(event->way)) > 0;
    if (strip == COVERED && (event->deed == PLAN_COVER || event->deed == PLAN_UNCOVER))
        return snprintf(text, MARK_TEXT, "%s", event->deed == PLAN_COVER ? "on" : "off") > 0;
    if (strip == LOOSENED)
        return event->deed == PLAN_LOOSEN;
    double mass_kg = strip == WATERED ? event->water_kg
                     : strip == ADDED ? event->added_kg
                     : strip == PICKED ? event->picked_out_kg : 0.0;
    if (mass_kg > 0.0)
        amount(text, mass_kg, US, strip == WATERED);
    return mass_kg > 0.0;
}

/* All marks of a strip in the order of days; `mark` has room for every event. */
static int row_marks(const struct chart *chart, enum strip strip, struct mark *mark)
{
    int count = 0;
    for (int i = 0; i < chart->record->days; i++) {
        const struct record_day *day = &chart->record->day[i];
        for (int e = day->first_event; e < day->first_event + day->events; e++)
            if (e >= 0 && e < chart->record->events && count < chart->record->events &&
                concerns(&chart->record->event[e], strip, chart->scenario->show == PLAN_SHOW_US,
                         mark[count].text))
                mark[count++].day = i + 1;
    }
    return count;
}

/* The text stands right of its mark, or left if only there is room before the next mark, or isn't
 * there. */
static void row_write(const struct chart *chart, int row, enum paint paint,
                      const struct mark *mark, int count)
{
    int days = chart->record->days;
    double taken = 0.0; /* up to this day */
    for (int i = 0; i < count; i++) {
        double need = (chart_label(mark[i].text, PANEL_WIDTH, 1.0).width + 0.012) * days;
        double next = i + 1 < count ? mark[i + 1].day - 0.01 * days : days + 1;
        bool right = mark[i].day + need < next, left = !right && mark[i].day - need > taken;
        fprintf(chart->script, "%d %d %d \"%s\" %u \"%s\"\n", mark[i].day, row,
                paint_rows[paint].marker, right ? mark[i].text : "", paint_rows[paint].colour,
                left ? mark[i].text : "");
        taken = mark[i].day + (right ? need : 0.01 * days);
    }
}

/* A block is never empty, for gnuplot's sake: the last row is far outside (see tell/chart). */
static void block_end(FILE *script)
{
    fputs("-1e6 0 1 \" \" 0 \" \"\nEND\n", script);
}

static void rows_write(const struct chart *chart, struct mark *mark)
{
    int rows = 0;
    char names[256] = "";
    fputs("$WORK << END\n", chart->script);
    for (int s = STRIPS - 1; s >= 0; s--) {
        int count = row_marks(chart, (enum strip)s, mark);
        enum paint paint = s == TURNED    ? PAINT_turn
                           : s == WATERED ? PAINT_watering
                                          : PAINT_other_deed;
        if (!count)
            continue;
        row_write(chart, ++rows, paint, mark, count);
        size_t used = strlen(names);
        snprintf(names + used, sizeof names - used, "%s\"%s\" %d", used ? ", " : "", strip_name[s],
                 rows);
    }
    block_end(chart->script);
    fprintf(chart->script, "rows = %d\nset_rows = 'set ytics (%s)'\n", rows, names);
}

bool strip_write(const struct chart *chart, double *upright, int *uprights, struct trouble *why)
{
    struct mark *mark = calloc((size_t)chart->record->events + 1, sizeof *mark);
    if (!mark)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
    *uprights = 0;
    rows_write(chart, mark);
    for (int s = TURNED; s <= WATERED; s++) {
        fprintf(chart->script, "$%s << END\n", s == TURNED ? "TURNED" : "WATERED");
        int count = row_marks(chart, (enum strip)s, mark);
        for (int i = 0; i < count; i++) {
            fprintf(chart->script, "%d 0\n", mark[i].day);
            upright[(*uprights)++] = (mark[i].day - 0.5) / chart->record->days;
        }
        block_end(chart->script);
    }
    free(mark);
    return true;
}
