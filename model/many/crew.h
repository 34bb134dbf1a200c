/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/crew.h - the seasons of many possible piles under one plan, on several threads.
 *
 * Members are numbered from 1. A member's season depends on (draw, member) and the scenario alone,
 * so threads, slices and order never change a digit.
 */
#ifndef MANY_CREW_H
#define MANY_CREW_H
#include "many/unknown.h"
#include "run/record.h"
#include "sky/curve.h"
#include <signal.h>

struct crew {
    const struct scenario *scenario;
    int plan;
    const struct param *param;  /* the usual values, with what was set by hand */
    const bool *fixed;          /* [PARAM_ROWS] which were set by hand */
    const struct curve *sky;    /* weather of a file; NULL = made up for each member */
    uint64_t draw;
    const bool *other;          /* [unknowns] which take their chance from another draw; NULL = none */
    uint64_t other_draw;
    const double *chance;       /* [members][chance_of->count]: what members hold, in place of a draw, for */
    const struct unknowns *chance_of; /* these, by their names; NULL = all are drawn */
    int first, last;            /* members, from 1 */
    int threads;                /* at least 1 */
    int hours_day;              /* from 1: the day whose hours are kept; 0 = none */
    const volatile sig_atomic_t *stop;
    /* told now and then, from one thread at a time; NULL = nobody asks */
    void (*told)(void *listener, int done, int of);
    void *listener;
};

/* what became of members first to last; crew_free in any case */
struct crew_done {
    int first, members;
    struct record *record;      /* [members] */
    char **failed;              /* [members] why a season could not be run; NULL = it was */
    int failures;
    bool defect;                /* one of them is the solver's failure, not the pile's */
};

/* Runs them all. A pile that can't stand or a plan that can't be done fails every member alike, and
 * then the whole with the same trouble. A member that fails alone is kept with its reason. Fails
 * with TROUBLE_LEDGER where a balance didn't close, naming the member, and TROUBLE_MEMORY. */
bool crew_run(struct crew_done *done, const struct crew *crew, struct trouble *why);
/* One member alone, as crew_run would have it; the season's own trouble. */
bool crew_member(struct record *record, const struct crew *crew, int member, struct trouble *why);
/* What a member holds for each unknown of the list. */
void crew_chances(const struct crew *crew, const struct unknowns *unknowns, int member,
                  double chance[UNKNOWN_MOST]);
void crew_free(struct crew_done *done);
/* How many threads this machine runs at once. */
int crew_threads(void);
#endif
