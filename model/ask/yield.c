/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/yield.c - see ask/yield.h. */
#include "ask/yield.h"
#include <math.h>

double yield_of(const struct record *record, int which, int day)
{
    if (day < 1 || day > record->days)
        return NAN;
    const struct record_day *first = &record->day[0], *row = &record->day[day - 1];
    const double things[] = {
        [YIELD_VOLUME_M3] = row->volume_m3,
        [YIELD_LAID_M3] = first->volume_m3,
        [YIELD_OF_LAID] = row->volume_m3 / first->volume_m3,
        [YIELD_WET_KG] = row->wet_kg,
        [YIELD_DRY_KG] = row->dry_kg,
        [YIELD_NITROGEN_KG] = row->nitrogen_kg,
        [YIELD_C_TO_N] = row->carbon_kg / row->nitrogen_kg,
        [YIELD_WATER_SHARE] = row->water_share,
        [YIELD_HEIGHT_M] = row->height_m,
        [YIELD_STICKS_KG] = row->sticks_share * row->wet_kg,
        [YIELD_STICKS_M3] = row->sticks_share * row->volume_m3,
    };
    return things[which];
}

double yield_bed_m2(const struct plan_need *need, double volume_m3)
{
    return need->is && need->bed_depth_m > 0 ? volume_m3 / need->bed_depth_m : (double)NAN;
}

double yield_bed_share(const struct plan_need *need, double volume_m3)
{
    if (!need->is || !(need->bed_area_m2 > 0))
        return NAN;
    return fmin(yield_bed_m2(need, volume_m3) / need->bed_area_m2, 1);
}

struct span yield_first_year_kg(struct span nitrogen_kg)
{
    static const double LEAST = 0.05, USUAL = 0.1, MOST = 0.2;
    return (struct span){LEAST * nitrogen_kg.low, USUAL * nitrogen_kg.mid, MOST * nitrogen_kg.high};
}
