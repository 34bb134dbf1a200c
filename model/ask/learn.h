/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/learn.h - what readings say: which fit, what they taught, and what they could not. */
#ifndef ASK_LEARN_H
#define ASK_LEARN_H
#include "ask/cause.h"
#include "many/posterior.h"

/* one reading, and what the piles say of it */
struct learn_reading {
    const struct plan_reading *reading;
    struct span before, after;  /* what its instrument would have shown: K, m or share of water; NAN where
                                 * no season reaches it. Air is not asked. */
    double wild;                /* the chance that no pile explains it */
    bool suspect;
};

/* one unknown */
struct learn_unknown {
    const struct unknown *unknown;
    const char *unit;           /* "C", "share", "times as usual", ... */
    struct span before, after;
    double moved;               /* how far its distribution went, as a share of what is tried: the
                                 * statistic of Kolmogorov and Smirnov against what was drawn */
    bool taught;                /* further than chance takes any of all the unknowns once in twenty */
};

struct learnt {
    int readings, unknowns, suspects;
    struct learn_reading reading[PLAN_READINGS];
    struct learn_unknown unknown[UNKNOWN_MOST]; /* the most learnt first */
    int taught;                 /* so many of them */
};

/* Fills it from what was learnt under a scenario and parameters. */
bool learn_tell(struct learnt *learnt, const struct posterior *posterior, const struct crew *crew,
                struct trouble *why);
#endif
