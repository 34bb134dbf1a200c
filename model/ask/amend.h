/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/amend.h - what to add to a mix, or leave out of a stock, in whole vessels.
 *
 *   C:N by mass    25 to 35 best, 20 to 40 works  [Rynk (ed.) 1992, On-Farm Composting Handbook,
 *                  NRAES-54: 25-30 preferred, 20-40 reasonable, memory;
 *                  7 CFR 205.203(c)(2): 25 to 40, seen]
 *   water          50 to 60 % best, 45 to 65 works [NRAES-54: 50-60 preferred, 40-65 reasonable,
 *                  memory]; of woody mixes up to 65 is as good [trade]
 *   free air       at least 30 % of the volume    [Haug 1993, Practical Handbook of Compost
 *                  Engineering; Jeris and Regan 1973, Compost Sci. 14: 20-35 %; memory]
 *
 * A bound on a ratio is linear in what is added: C:N of at most r is C - r N <= 0, a water share of
 * at least m is m D - (1 - m) W <= 0, free air of at least a is solids + water - (1 - a) V <= 0.
 */
#ifndef ASK_AMEND_H
#define ASK_AMEND_H
#include "ask/blend.h"
#include "ask/least.h"

/* what can be wrong with a mix */
enum amend_fault { AMEND_DRY, AMEND_WET, AMEND_BROWN, AMEND_GREEN, AMEND_AIRLESS, AMEND_FAULTS };

struct amend_goal {
    double bound[AMEND_FAULTS];     /* least water, most water, most C:N, least C:N, least free air */
};
/* A pile found standing has lost carbon and may be lower in it: ripe compost is 10 to 15 [trade].
 * With half of the last figure told, so that what reads 60 % is 60 %. */
struct amend_goal amend_best(bool woody, bool found);
struct amend_goal amend_works(bool found);
/* By how much a blend breaks a bound, in the linear form above, kg or m3; at most 0 where it keeps
 * it. */
double amend_broken(const struct blend *blend, const struct amend_goal *goal,
                    enum amend_fault fault);

/* something that may be added, in steps that a person can measure */
struct amend_kind {
    int stuff;                  /* row of scenario.stuff; AMEND_WATER */
    struct plan_portion one;    /* one step of it */
    enum plan_vessel vessel;
    double step;                /* vessels, kg or litres in a step: 1 bag, half a bucket of water */
    double water_kg;            /* in one step of water, as carried */
    int most;                   /* steps that may be added */
    int here;                   /* whole steps that the recipe or stock holds already */
    bool elsewhere;             /* neither in the recipe nor in stock: to be found */
};
enum { AMEND_WATER = -1, AMEND_ITEMS = 3 };

struct amend_kinds {
    int count;                  /* water is the last */
    struct amend_kind kind[LEAST_KINDS];
};

/* What might go in: what is in stock, as far as it goes; more of what the recipe has; what is
 * offered; water. Where there is a stock alone (`stock`), its layers are the recipe and more can only
 * be found. */
void amend_list(struct amend_kinds *kinds, const struct scenario *scenario, bool stock,
                const struct plan_layer *offer);

/* Green or brown: soil, compost, sand and ash mend nothing, and little in them decays. */
bool amend_mends(const struct stuff *stuff);

struct amend_item {
    int kind, steps;
    enum amend_fault mends;
};

struct amend_advice {
    bool is, leave_out;         /* leave_out: items but water are left out, not added */
    bool merely_works;          /* the best is out of reach; this is what works */
    struct amend_goal goal;     /* the bounds it keeps */
    int items;
    struct amend_item item[AMEND_ITEMS];
};

/* a blend and, kind by kind, what one step of each adds to it */
struct amend_problem {
    const struct amend_kinds *kinds;
    const struct blend *base, *step;
    bool woody, found;
    struct amend_goal lean;     /* added to each bound of the best: the medians of many piles that are
                                 * told aren't quite the ratios of a typical one */
};

/* The least number of vessels, no more than three times the pile, that reaches the best, of what is at hand; failing that, of what may be
 * found too; failing that, what works. `without` is a kind left aside, or -1. */
void amend_find(struct amend_advice *advice, const struct amend_problem *problem, int without);
/* The least that can be left out of a stock, with water poured, to reach the best. */
void amend_leave_out(struct amend_advice *advice, const struct amend_problem *problem);
/* How many steps of an item, whole or not, this blend wants of it, the other items as advised. */
double amend_need(const struct amend_advice *advice, int item, const struct amend_problem *problem);
/* Steps of an item that go in; negative where it is left out. */
double amend_steps(const struct amend_advice *advice, int item, const struct amend_problem *problem);
/* The blend with what is advised. */
struct blend amend_done(const struct amend_advice *advice, const struct amend_problem *problem);
#endif
