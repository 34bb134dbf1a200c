/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/death.h - weed seeds dying of heat, and of rotting or sprouting where it is warm and moist.
 *
 * log10 N falls by dt/D(T), D(T) = D55 10^((55 C - T)/z). Classes: easy z 9 K, moderate z 6.5 K, hard
 * z 12 K [Dahlquist et al. 2007, memory; hard derived from wattle seed in hot compost]. None of it
 * below 42, 42 and 50 C (that pigweed, nightshade and purslane survive 39 to 46 C: seen). Dry seeds
 * are hardier: five times D below 30 % water, no death below 60 C under 20 % [trade].
 */
#ifndef LIFE_DEATH_H
#define LIFE_DEATH_H
#include "base/lane.h"
#include "know/param.h"
#include "pile/amount.h"

struct death_law {
    lane tenfold_s[SEEDS];  /* at 55 C */
    lane rot_per_s;
};

struct death_law death_law_of(const struct param param[LANES]);
/* Natural logarithm of the share that stays alive while temperature goes from one value to another
 * in a step; Simpson's rule on the rate. */
void death_log_left(const struct death_law *law, lane from_over_K, lane to_over_K, lane wet_share,
                    lane step_s, lane log_left[SEEDS]);
#endif
