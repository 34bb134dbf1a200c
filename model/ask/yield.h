/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/yield.h - what there is to spread on a day: volume, mass, nitrogen, beds, what the sieve
 * keeps.
 *
 * A bed takes area times depth of it, as it lies in the pile: what forking loosens, rain and feet
 * press again. Of its nitrogen plants get little in the first year.
 */
#ifndef ASK_YIELD_H
#define ASK_YIELD_H
#include "run/record.h"

enum yield_thing {
    YIELD_VOLUME_M3,
    YIELD_LAID_M3, /* on the first day */
    YIELD_OF_LAID,
    YIELD_WET_KG,
    YIELD_DRY_KG,
    YIELD_NITROGEN_KG,
    YIELD_C_TO_N,
    YIELD_WATER_SHARE,
    YIELD_HEIGHT_M,
    YIELD_STICKS_KG,
    YIELD_STICKS_M3, /* both: still to be told as leaf, stalk or stick; wet, as it lies */
};

/* Of a day from 1; NAN where there are no days. */
double yield_of(const struct record *record, int which, int day);
/* Area that a volume covers at a depth, and the share of the beds asked for, at most all; NAN where
 * nobody said how deep or how much. */
double yield_bed_m2(const struct plan_need *need, double volume_m3);
double yield_bed_share(const struct plan_need *need, double volume_m3);
/* Nitrogen that plants can have from so much of it within a year: a tenth, 5 to 20 % [trade]. The
 * least and the most of the mass go with the least and the most of the share. */
struct span yield_first_year_kg(struct span nitrogen_kg);
#endif
