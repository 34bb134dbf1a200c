/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/lesson_found.h - what a lesson shows of one pile: experiments that a class can't wait for.
 *
 * Its heat by the way it takes; the same mix as a small and as a large cube; turned once; dry, damp
 * and wet; on the coldest day with and without a blanket; two plans by their work. All with the
 * same possible piles in the same weather, so that differences are taken pile by pile.
 */
#ifndef ASK_LESSON_FOUND_H
#define ASK_LESSON_FOUND_H
#include "ask/budget.h"
#include "ask/compare.h"
#include "ask/trial.h"

enum lesson_kind {
    LESSON_ASKED,
    LESSON_ALONE,
    LESSON_OTHER, /* to the end of the season */
    LESSON_TURNED,
    LESSON_SMALL,
    LESSON_LARGE,
    LESSON_DRY,
    LESSON_DAMP,
    LESSON_WET, /* left alone but for that */
    LESSON_BARE,
    LESSON_COVERED,
    LESSON_KINDS
};
enum {
    LESSON_SIZES = 2,
    LESSON_WETS = 3,
    LESSON_TRIAL_DAYS = 21,
    LESSON_LEAST_DAYS = 14,
    LESSON_WEEK = 7,
    LESSON_MOST_MEMBERS = 256
};

enum lesson_day { LESSON_NAMED, LESSON_READING, LESSON_FURTHEST };

struct lesson_ask {
    const struct scenario *scenario;
    int plan, other;     /* other: row of the plan it is set beside, -1 = chosen here */
    int day;             /* from 0; -1 = the middle furthest above the air */
    enum lesson_day how; /* that day was chosen, where it was */
    struct crew crew;    /* scenario, plan and members are those of LESSON_ASKED */
    void (*part)(void *listener, int part,
                 int parts); /* told before each run; NULL = nobody asks */
};

struct lesson_warmth {
    struct span peak_K, warm_days;           /* of the middle; days at 45 C and more */
    struct span last_K;                      /* of the middle, on the last day */
    struct span used_share;                  /* of the dry mass laid, gone when the trial ends */
    struct span oxygen_least_share;          /* of the day's ends */
    struct span water_share, free_air_share; /* at the end of day 1 */
};

struct lesson_found {
    struct trial run[LESSON_KINDS];
    const struct trial *asked, *alone, *other, *bare; /* which of them; some are the same */
    double *room;                                     /* [members] */
    int members;                                      /* asked for */

    struct span dry_kg, quick_kg, water_kg, free_air_share; /* at the end of day 1; quick: pools
                                                             * that are used up within a season */
    struct span used_kg, heat_MJ_per_kg, dried_kg_per_kg;   /* of dry matter used up, left alone */

    int day; /* from 0 */
    enum lesson_day how;
    struct budget_range budget;
    struct span asked_peak_K; /* of the season */
    struct span middle_K, deep_30cm_K, hand_deep_K, air_K;
    int next_day; /* a week later; -1 = not in the season */
    struct span next_middle_K, next_deep_30cm_K, next_hand_deep_K;

    struct lesson_warmth size[LESSON_SIZES], wet[LESSON_WETS];
    int larger_warmer, size_pairs; /* pairs in which the larger is warmer on the last day, by 1 K */
    int damp_most, wet_sets;       /* piles of which the damp one used up most */

    int turn_day; /* from 0 */
    /* middle: the day before; the least of the turn's day and the next; the most within ten days,
     * and in that time left alone */
    struct span turn_before_K, turn_low_K, turn_top_K, turn_alone_K;
    struct span turn_after_days;                         /* from the turn to that most */
    struct span oxygen_before_share, oxygen_after_share; /* where it is least: the evening before,
                                                          * and that of the turn */
    int turn_drops, turn_rises, turn_pairs; /* by 1 K: at first; above what it is left alone */
    struct span hottest_over_55_share;      /* of the dry mass, at once, at most; left alone */

    bool winter_moved; /* the season has no frost: the pile was begun in winter instead */
    int cover_day;
    struct span cold_air_K, cold_day;               /* each pile's own coldest day, from 0 */
    struct span bare_K[2], covered_K[2], gain_K[2]; /* there: middle, a hand deep */
    struct span cold_made_W, later_made_W;          /* bare: on that day; the most after it */
    int wakes, winter_pairs; /* piles that made more heat after it than on it */

    struct contender contender[2];
    struct standing standing[2];
    struct pair pair; /* of the one with more work against the other */
    int busy;         /* which that is */
};
#endif
