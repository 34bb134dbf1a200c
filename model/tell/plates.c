/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plates.c - see tell/plates.h. */
#include "tell/plates.h"
#include "tell/curves.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include "tell/section.h"
#include "tell/sketch.h"
#include "tell/stack.h"
#include <math.h>
#include <stdlib.h>

static const double ICE_POINT_K = 273.15;
static const double HALF_DEEP_M = 0.2; /* deeper than this a reading is told as "30 cm in" */

struct order {
    const struct plates *plates;
    enum plate plate;
    int nth;
};

static const struct {
    const char *script, *title, *meaning;
    int width, height;
} looks[] = {
    [PLATE_TEMPERATURE] = {"report_temperature", "Temperatures day by day",
                           "Means of each day in the middle, 30 cm in, a hand deep and of the air: the "
                           "numbers stand in the table below",
                           600, 470},
    [PLATE_WATER] = {"report_water", "Water, free air and oxygen day by day",
                     "Shares of the whole pile at each day's end, and oxygen where it is least", 600, 520},
    [PLATE_HEAT] = {"report_heat", "Heat gained and lost day by day",
                    "Daily means by the way heat takes: the shares stand in the table below", 600, 620},
    [PLATE_SECTION] = {"day", "A cross-section of the pile",
                       "Temperature, water and oxygen from the axis to the walls", 420, 470},
};

void plates_tics(FILE *script, date_count start, int days, int most)
{
    static const int step[] = {1, 2, 7, 14, 28, 56, 112, 364};
    int pick = 0;
    while (pick < 7 && days / step[pick] >= most)
        pick++;
    fputs("set xtics (", script);
    for (int day = 1; day <= days; day += step[pick]) {
        char date[CHART_DATE];
        chart_date(date, start + day - 1);
        fprintf(script, "%s\"%s\" %d", day > 1 ? ", " : "", date, day);
    }
    putc(')', script);
}

static enum paint paint_of(const struct plan_reading *reading)
{
    return reading->what == PLAN_READ_MIDDLE ? PAINT_middle
           : reading->what == PLAN_READ_AIR  ? PAINT_outside
           : reading->depth_m > HALF_DEEP_M  ? PAINT_deep_30cm
                                             : PAINT_hand_deep;
}

void plates_readings(FILE *script, const struct scenario *scenario)
{
    int count = 0;
    fputs("$READ << END\n", script);
    for (int i = 0; i < scenario->readings; i++) {
        const struct plan_reading *reading = &scenario->reading[i];
        if (reading->what > PLAN_READ_AIR)
            continue;
        const struct paint_row *paint = &paint_rows[paint_of(reading)];
        count++;
        fprintf(script, "%.6g %.6g %u %d\n", reading->day + 0.5, reading->value - ICE_POINT_K,
                paint->colour, paint->marker);
    }
    fprintf(script, "-1e6 0 0 1\nEND\nreadings = %d\n", count);
}

bool plates_course(FILE *script, const struct plates *plates, struct trouble *why)
{
    struct chart chart = {script, plates->typical, plates->scenario,
                          plates->scenario->plan[plates->plan].name, plates->middle_K};
    chart_head(&chart, "");
    if (!curves_temperature(&chart, why))
        return false;
    plates_readings(script, plates->scenario);
    return true;
}

/* The rooms of plots/day.gp, as shares of the picture at its full height. */
static int day_high(const struct plates *plates)
{
    double wide = looks[PLATE_SECTION].width, high = looks[PLATE_SECTION].height;
    return (int)lround(high - section_spare(plates->central, 0.72 * wide, 0.45 * high) -
                       section_spare(plates->central, 0.31 * wide, 0.19 * high));
}

static bool figures(FILE *script, const void *what, struct trouble *why)
{
    const struct order *order = what;
    const struct plates *plates = order->plates;
    bool section = order->plate == PLATE_SECTION, good = true;
    struct chart chart = {script, section ? plates->central : plates->typical, plates->scenario,
                          plates->scenario->plan[plates->plan].name, plates->middle_K};
    if (order->plate == PLATE_TEMPERATURE) {
        good = plates_course(script, plates, why);
    } else {
        chart_head(&chart, "");
        fprintf(script, "full = %d\n", looks[order->plate].height);
        good = section                        ? section_some(&chart, order->nth, 1, why)
               : order->plate == PLATE_HEAT ? stack_heat(&chart, why)
                                            : curves_water(&chart, why);
    }
    if (!section)
        plates_tics(script, plates->scenario->start, plates->typical->days, 6);
    putc('\n', script);
    return good;
}

bool plates_accept(const struct plates *plates, struct trouble *why)
{
    if (plates->typical->days < 1)
        return trouble_set(why, TROUBLE_NO, "the season has no day to tell of");
    return gnuplot_accept(plates->scenario->name, "the name of the scenario", why) &&
           gnuplot_accept(plates->scenario->plan[plates->plan].name, "the name of the plan", why);
}

bool plates_embed(FILE *page, const struct plates *plates, enum plate plate, int nth,
                  struct trouble *why)
{
    static const char *const name[] = {"temperature", "water", "heat", "section"};
    struct order order = {plates, plate, nth};
    char own[32];
    size_t size = 0;
    snprintf(own, sizeof own, "%s%d", name[plate], nth);
    struct sketch sketch = {.script = looks[plate].script, .name = own, .title = looks[plate].title,
                            .meaning = looks[plate].meaning, .width = looks[plate].width,
                            .height = looks[plate].height, .type = 16.0, .what = &order,
                            .write = figures};
    if (plate == PLATE_SECTION)
        sketch.height = day_high(plates);
    char *svg = sketch_draw(&sketch, &size, why);
    if (!svg)
        return false;
    sketch_embed(page, svg, own);
    free(svg);
    return true;
}
