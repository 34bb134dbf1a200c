/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/mix.h - the recipe before building: what it adds up to, and what would put it right.
 *
 * No season is run. What the recipe adds up to is asked of every possible pile; what to add is the
 * least number of whole vessels that brings a typical one, whose figures are the medians, to its
 * targets (ask/amend). Where nothing is built yet the stock is the recipe, all of it, in a bin that
 * takes it.
 */
#ifndef ASK_MIX_H
#define ASK_MIX_H
#include "ask/amend.h"
#include "many/unknown.h"
#include <stdint.h>

struct mix_ask {
    const struct scenario *scenario;
    const struct plan_layer *offer; /* what might be found: rows of its stuff */
    const struct param *param;
    const bool *fixed;          /* [PARAM_ROWS] which were set by hand */
    uint64_t draw;
    int first, last;            /* members; first 0 = the central pile alone */
};

/* what is advised, of all possible piles */
struct mix_advice {
    struct amend_advice advice;
    struct span need[AMEND_ITEMS];      /* of each item, in the unit of its kind's step */
    struct span then[BLEND_FIGURES];
    int works;                  /* members that would work with it */
    bool right;                 /* asked again with it the mix would be right; else it goes part of the way */
};

struct mix_unknown {
    struct unknown unknown;
    double swing;               /* how far the figure goes from its 10 % to its 90 % point, all else
                                 * usual; 0 = there is none */
};

struct mix {
    struct scenario *recipe;    /* the scenario as it was mixed */
    bool stock;                 /* of its stock, since nothing is built */
    int members;
    struct span now[BLEND_FIGURES];
    struct blend typical, central;
    struct blend part[PLAN_STUFF];  /* of the central pile: each of the recipe's `stuff` by itself */
    bool idle;                  /* mostly soil, compost or ash, which advice can't mend */
    bool woody, poured;         /* poured: water is in the recipe by itself already */
    bool wrong[AMEND_FAULTS];   /* of the typical pile: not the best */
    bool fails[AMEND_FAULTS];   /* doesn't even work */
    int works;                  /* members whose C:N and water work */
    struct amend_kinds kinds;
    struct mix_advice advice, instead; /* instead: another way, where a stock alone doesn't do */
    enum blend_figure open;     /* the figure most in question */
    struct mix_unknown least_known, testable; /* of it; and among those that a test at home narrows */
};

/* mix_free in any case. Fails as setting_make does: a pile can't stand, memory is short. */
bool mix_run(struct mix *mix, const struct mix_ask *ask, struct trouble *why);
void mix_free(struct mix *mix);
#endif
