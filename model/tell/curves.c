/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/curves.c - figures of the pictures that draw lines against days. */
#include "tell/curves.h"
#include "tell/strip.h"
#include "tell/paint.h"
#include <math.h>
#include <stdlib.h>

static const double ICE_POINT_K = 273.15;
static const double HOT_C = 55.0; /* the line drawn; see tell/finding */
/* Panels as placed by plots/temperature.gp and plots/water.gp, for the size of names in them. */
static const double PANEL_WIDTH = 0.86, HIGH_PANEL = 0.6, LOW_PANEL = 0.34;

struct lines {
    int count, points;
    double least, most; /* of the axis */
    double *value;      /* [count][points], in shares of the axis */
};

static double everyday(const struct record_day *day, enum paint paint)
{
    switch (paint) {
    case PAINT_middle:
        return day->middle_K - ICE_POINT_K;
    case PAINT_deep_30cm:
        return day->deep_30cm_K - ICE_POINT_K;
    case PAINT_hand_deep:
        return day->hand_deep_K - ICE_POINT_K;
    case PAINT_outside:
        return day->air_K - ICE_POINT_K;
    case PAINT_water:
        return 100.0 * day->water_share;
    case PAINT_free_air:
        return 100.0 * day->free_air_share;
    case PAINT_oxygen:
        return 100.0 * day->oxygen_lowest_share;
    default:
        return NAN;
    }
}

static bool lines_make(struct lines *lines, const struct chart *chart, const enum paint *paint,
                       int count, struct trouble *why)
{
    lines->count = count + 1; /* and a level one */
    lines->points = chart->record->days;
    lines->value = calloc((size_t)lines->count * (size_t)lines->points, sizeof *lines->value);
    if (!lines->value)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
    for (int j = 0; j < count; j++)
        for (int i = 0; i < lines->points; i++)
            lines->value[j * lines->points + i] = everyday(&chart->record->day[i], paint[j]);
    return true;
}

/* The axis holds every value and goes to whole steps. */
static void lines_axis(struct lines *lines, double least, double most, double step)
{
    int all = (lines->count - 1) * lines->points;
    for (int i = 0; i < all; i++)
        if (isfinite(lines->value[i])) {
            least = fmin(least, lines->value[i]);
            most = fmax(most, lines->value[i]);
        }
    lines->least = step * floor(least / step);
    lines->most = step * ceil(most / step);
}

/* Names stand on their lines; false if there is no room for one, then the script shows a legend in
 * their stead. The level line, the last, is named by itself unless it is NAN. */
static bool lines_names(struct lines *lines, const char *const *name, double level,
                        double panel_height, const struct chart *chart, const double *upright,
                        int uprights)
{
    double span = lines->most - lines->least;
    const double *line[8];
    struct place_label label[8];
    for (int i = 0; i < lines->points; i++)
        lines->value[(lines->count - 1) * lines->points + i] = level;
    for (int i = 0; i < lines->count * lines->points; i++)
        lines->value[i] = (lines->value[i] - lines->least) / span;
    for (int j = 0; j < lines->count; j++)
        line[j] = lines->value + j * lines->points;
    struct place_panel panel = {lines->points, lines->count, line, uprights, upright};
    int names = lines->count - isnan(level);
    bool all = true;
    for (int j = 0; j < names; j++) {
        label[j] = chart_label(name[j], PANEL_WIDTH, panel_height);
        if (!place_on_line(&label[j], j, &panel, label, j)) {
            all = all && j == lines->count - 1;
            label[j].x = label[j].y = -9.0;
        }
    }
    for (int j = 0; j < names; j++)
        if (label[j].x > 0.0 && (all || j == lines->count - 1))
            chart_name(chart->script, label[j].x * lines->points + 0.5,
                       lines->least + label[j].y * span, name[j], 0x222222);
    chart_names_end(chart->script);
    return all;
}

static void days_write(const struct chart *chart, const enum paint *paint, int count)
{
    fputs("$DAYS << END\n", chart->script);
    for (int i = 0; i < chart->record->days; i++) {
        fprintf(chart->script, "%d", i + 1);
        for (int j = 0; j < count; j++)
            chart_value(chart->script, everyday(&chart->record->day[i], paint[j]));
        putc('\n', chart->script);
    }
    fputs("END\n", chart->script);
}

/* Where eight in ten possible piles have their middle; nothing that is drawn where there is one. */
static void band_write(const struct chart *chart, struct lines *lines)
{
    const struct span *middle_K = chart->middle_K;
    fprintf(chart->script, "band = %d\n$BAND << END\n", middle_K != NULL);
    for (int i = 0; middle_K && i < chart->record->days; i++) {
        fprintf(chart->script, "%d %.6g %.6g\n", i + 1, middle_K[i].low - ICE_POINT_K,
                middle_K[i].high - ICE_POINT_K);
        lines->least = fmin(lines->least, 10.0 * floor((middle_K[i].low - ICE_POINT_K) / 10.0));
        lines->most = fmax(lines->most, 10.0 * ceil((middle_K[i].high - ICE_POINT_K) / 10.0));
    }
    if (!middle_K)
        fputs("0 NaN NaN\n", chart->script);
    fputs("END\n", chart->script);
}

bool curves_temperature(const struct chart *chart, struct trouble *why)
{
    static const enum paint paint[] = {PAINT_middle, PAINT_deep_30cm, PAINT_hand_deep,
                                       PAINT_outside};
    const char *const name[] = {"middle", "30 cm in", "a hand deep", "outside air",
                                chart->scenario->show != PLAN_SHOW_METRIC ? "55 °C = 131 °F" : "55 °C"};
    double *upright = calloc(2 * (size_t)chart->record->events + 1, sizeof *upright);
    int uprights = 0;
    struct lines lines = {0};
    bool good = upright ? lines_make(&lines, chart, paint, 4, why) &&
                              strip_write(chart, upright, &uprights, why)
                        : trouble_set(why, TROUBLE_MEMORY, "there is no memory for a picture");
    if (good) {
        days_write(chart, paint, 4);
        lines_axis(&lines, 0.0, HOT_C + 6.0, 10.0);
        band_write(chart, &lines);
        fprintf(chart->script, "least = %g\nmost = %g\nhot = %g\n$NAMES << END\n", lines.least,
                lines.most, HOT_C);
        bool named = lines_names(&lines, name, HOT_C, HIGH_PANEL, chart, upright, uprights);
        fprintf(chart->script, "legend = %d\n", !named);
    }
    free(lines.value);
    free(upright);
    return good;
}

bool curves_water(const struct chart *chart, struct trouble *why)
{
    static const enum paint all[] = {PAINT_water, PAINT_free_air, PAINT_oxygen};
    static const char *const above[] = {"water, of the wet mass", "free air, of the volume"};
    static const char *const below[] = {"oxygen where it is least", "5 %"};
    struct lines high = {0}, low = {0};
    bool good = lines_make(&high, chart, all, 2, why) && lines_make(&low, chart, all + 2, 1, why);
    if (good) {
        days_write(chart, all, 3);
        lines_axis(&high, 0.0, 100.0, 20.0);
        lines_axis(&low, 0.0, 21.0, 5.0);
        fprintf(chart->script, "most = %g\noxygen_most = %g\n$NAMES << END\n", high.most, low.most);
        bool named = lines_names(&high, above, NAN, LOW_PANEL, chart, NULL, 0);
        fputs("$OXYGEN_NAMES << END\n", chart->script);
        bool low_named = lines_names(&low, below, 5.0, LOW_PANEL, chart, NULL, 0);
        fprintf(chart->script, "legend = %d\noxygen_legend = %d\n", !named, !low_named);
    }
    free(high.value);
    free(low.value);
    return good;
}
