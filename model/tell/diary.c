/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/diary.c - a season as a table for the eye: a line a day. */
#include "tell/diary.h"
#include "tell/range.h"
#include <math.h>

static const double ICE_POINT_K = 273.15;

/* Whole degrees, without a minus before nothing. */
static double shown(const struct phrase_style *style, double temp_K)
{
    double temp_C = temp_K - ICE_POINT_K;
    return round(style->show == PLAN_SHOW_US ? temp_C * 1.8 + 32.0 : temp_C) + 0.0;
}

static const char *deed(const struct record *record, const struct record_day *day)
{
    static const char *const words[] = {"turn",    "water",  "add",     "cover",
                                        "uncover", "loosen", "pick out"};
    return day->events ? words[record->event[day->first_event].deed] : "";
}

enum thing { AIR, MIDDLE, DEEP_30CM, HAND_DEEP, HOTTEST, WATER, OXYGEN, HEIGHT, DRY };

static double ask(const struct record *record, int row, int thing)
{
    const struct record_day *day = &record->day[row];
    const double things[] = {day->air_K, day->middle_K, day->deep_30cm_K, day->hand_deep_K,
                             day->hottest_K, 100.0 * day->water_share,
                             100.0 * day->oxygen_lowest_share, 100.0 * day->height_m, day->dry_kg};
    return things[thing];
}

/* A line a day; of many piles the medians, and the range of the middle. Oxygen is the lowest share
 * of the pore gas; water the share of the wet mass. */
void diary_write(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    const char *unit = style->show == PLAN_SHOW_US ? "F" : "C";
    bool many = tale->members > 1;
    fprintf(out, "\n day date%s air %s middle%s 30 cm hand%s water oxygen  cm  dry kg did\n",
            many ? " " : "      ", unit, many ? "  (range)" : "", many ? "" : "  hottest");
    for (int i = 0; i < tale->record->days; i++) {
        const struct record_day *day = &tale->record->day[i];
        struct span middle = range_of(tale, ask, i, MIDDLE);
        char date[DATE_TEXT], range[32] = "", hottest[32] = "";
        double of[DRY + 1];
        for (int k = 0; k <= DRY; k++)
            of[k] = range_of(tale, ask, i, k).mid;
        if (many)
            snprintf(range, sizeof range, " %3.0f to %-2.0f", shown(style, middle.low),
                     shown(style, middle.high));
        else
            snprintf(hottest, sizeof hottest, " %8.0f", shown(style, of[HOTTEST]));
        date_write(tale->scenario->start + i, date);
        fprintf(out, "%4d %s %5.0f %6.0f%s %5.0f %4.0f%s %4.0f %% %4.1f %% %4.0f %7.1f%s%s\n", i + 1,
                many ? date + 5 : date, shown(style, of[AIR]), shown(style, of[MIDDLE]), range,
                shown(style, of[DEEP_30CM]), shown(style, of[HAND_DEEP]), hottest, of[WATER],
                of[OXYGEN], of[HEIGHT], of[DRY], day->events ? " " : "", deed(tale->record, day));
    }
}
