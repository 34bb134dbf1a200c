/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/trial.h - one experiment with a pile, run with many members, and numbers asked of it.
 *
 * Trials with the same members hold the same possible piles, so that two are compared pile by pile.
 * A number that belongs to a day takes that day, from 0; the others leave it out.
 */
#ifndef ASK_TRIAL_H
#define ASK_TRIAL_H
#include "many/able.h"

struct trial {
    struct scenario *scenario;
    int plan;
    struct crew_done done;
    struct able able;
};

enum { TRIAL_AFTER_TURN = 10 }; /* days in which a pile that was turned gets warm again */

enum trial_thing {
    /* of a day */
    TRIAL_DRY_KG,
    TRIAL_QUICK_KG,
    TRIAL_WATER_KG,
    TRIAL_FREE_AIR,
    TRIAL_WATER_SHARE,
    TRIAL_MIDDLE_K,
    TRIAL_DEEP_30CM_K,
    TRIAL_HAND_DEEP_K,
    TRIAL_AIR_K,
    TRIAL_OXYGEN,
    TRIAL_MADE_W,
    /* of a season */
    TRIAL_USED_KG,
    TRIAL_HEAT_PER_KG,
    TRIAL_DRIED_PER_KG,
    TRIAL_PEAK_K,
    TRIAL_WARM_DAYS,
    TRIAL_USED_SHARE,
    TRIAL_OXYGEN_LEAST,
    TRIAL_OVER_55,
    /* of a member's own coldest day: which it is from 0, means of that day; the most heat made
       after it */
    TRIAL_COLD_DAY,
    TRIAL_COLD_AIR_K,
    TRIAL_COLD_MIDDLE_K,
    TRIAL_COLD_HAND_K,
    TRIAL_COLD_MADE_W,
    TRIAL_LATER_MADE_W,
    /* of a turn on a day: the least of that day's and the next day's middle; the most of the days
     * after, and how many days after */
    TRIAL_TURN_LOW_K,
    TRIAL_TURN_TOP_K,
    TRIAL_TURN_TOP_AFTER
};

/* A member's coldest day after its first week and a half, from 0. */
int trial_coldest(const struct record *record);
double trial_number(const struct record *record, enum trial_thing thing, int day);
/* Over all members that could be run; `room` has a number for each. */
struct span trial_span(const struct trial *trial, enum trial_thing thing, int day, double *room);
/* Of how many piles is it more in a than in b, by at least so much? Asks those that ran in both. */
int trial_more(const struct trial *a, enum trial_thing in_a, int day_a, const struct trial *b,
               enum trial_thing in_b, int day_b, double more, int *pairs);
/* By how much a number of a day is more in a than in b, on the coldest day that b had. */
struct span trial_gain_cold(const struct trial *a, const struct trial *b, enum trial_thing thing,
                            double *room);
#endif
