/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/death.h - weed seeds and germs dying of heat, and of rot, sprouting and time.
 *
 * log10 N falls by dt/D(T), D(T) = D55 10^((55 C - T)/z), none of it below a floor.
 *
 * Seeds: easy z 9 K, moderate z 6.5 K, hard z 12 K [Dahlquist et al. 2007, memory; hard derived from
 * wattle seed in hot compost], floors 42, 42 and 50 C (that pigweed, nightshade and purslane survive
 * 39 to 46 C: seen). Of each class a hardy tail has no death of heat below 70 C, and the hard class's
 * above [Egley 1990, memory: survivors after a week at 60 C in moist soil]. Where it is mild and moist some
 * rot, or sprout and die [Larney and Blackshaw 2003: a third of species in a week at 39 C].
 *
 * Germs: gut bacteria z 6.5 K, floor 45 C [Jiang, Morgan and Doyle 2003: 135, 35 and 3.9 min at 50, 55 and
 * 60 C in manure compost, seen]; worm eggs z 4.7 K [derived from 1 d at 50 C and 1 week at 46 C,
 * Feachem et al. 1983], floor 45 C. Both lessen slowly with time; none grow again here, though compost
 * that is moist and only partly killed can be settled anew.
 *
 * What is dry is hardier: five times D below 30 % water, no death of heat below 60 C under 20 % [trade].
 */
#ifndef LIFE_DEATH_H
#define LIFE_DEATH_H
#include "base/lane.h"
#include "know/param.h"
#include "pile/amount.h"

/* what lives and dies, in the order of its stocks: classes of seeds, their hardy tails, germs */
enum { DEATH_LIVES = 2 * SEEDS + GERMS, DEATH_GERMS = 2 * SEEDS, DEATH_HEATS = SEEDS + GERMS };

struct death_law {
    lane tenfold_s[DEATH_HEATS];    /* at 55 C: seeds, germs */
    lane rot_per_s, germ_per_s[GERMS];
};

struct death_law death_law_of(const struct param param[LANES]);
/* Natural logarithm of the share that stays alive while temperature goes from one value to another
 * in a step; Simpson's rule on the rate. */
void death_log_left(const struct death_law *law, lane from_over_K, lane to_over_K, lane wet_share,
                    lane step_s, lane log_left[DEATH_LIVES]);
/* The share that dies: 1 - exp(log_left), a series where it is small (error below 1e-10 of it). */
lane death_share(lane log_left);
#endif
