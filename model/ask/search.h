/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search.h - the least work that is ready by the day of need with the asked chance.
 *
 * A plan is judged by seasons of possible piles, and seasons are dear. So every candidate is tried
 * on the same few members first; the worse half goes, the better half meets twice as many, until few
 * are left (sequential halving; Karnin, Koren and Somekh 2013, Proc. ICML 28, 1238-1246, memory). One
 * turn is added at a time to the best plans of a turn less, then single things are changed as long
 * as that helps. Turning at fixed intervals is always among the candidates.
 *
 * Candidates are tried on a coarser mesh, four times as fast and near enough to rank by; what is chosen
 * is confirmed on the mesh of a forecast. Chances that chose a plan flatter it: the one told comes from
 * members that no part of the search has used.
 */
#ifndef ASK_SEARCH_H
#define ASK_SEARCH_H
#include "ask/outcome.h"
#include "ask/space.h"
#include "many/crew.h"

/* trials: more than a search of six turns has, 96 and two times 128 moves for each (ask/search.c) */
enum { SEARCH_MEMBERS = 64, SEARCH_TRIALS = 2304, SEARCH_FRONT = 16, SEARCH_LOOK = 8 };

/* a candidate and what became of the first so many members */
struct search_trial {
    struct candidate candidate;
    bool possible;              /* false: there is no free bin, or a visit would take too long */
    int members;
    struct outcome *outcome;    /* [members] */
    double score;               /* mean over members, 0 to 1: 1 is ready long before the need */
    double chance, person_s;    /* share of members in time; median of work */
    double ready_day;           /* median, as outcome_day */
};

struct search_front {
    struct candidate candidate;
    double chance, person_s, ready_day;
    int members;
};

struct search {
    struct crew crew;           /* how seasons are run; its scenario, plan and members are set here */
    struct scenario *scenario;  /* a copy whose plan 0 is the candidate's */
    struct space space;
    struct param coarse;        /* of the trials */
    const struct param *fine;   /* of what is told */
    bool fresh;                 /* check with fresh members at the end */
    int most_turns;             /* of a plan; search_open sets six, */
    int members;                /* that a candidate meets at most: SEARCH_MEMBERS */
    /* what came out */
    int trials;
    struct search_trial trial[SEARCH_TRIALS];
    int seasons;                /* run in all */
    int too_long;               /* candidates with a visit longer than people have */
    bool finished, found;
    int best;                   /* row of trial */
    struct span chance;         /* of the best, with its sampling error */
    struct span person_s, ready_day, water_kg; /* of the same members */
    int told_members;           /* that these come from */
    bool told_fresh;            /* none of which the search had used */
    int fronts;
    struct search_front front[SEARCH_FRONT]; /* more work, more chance: the curve */
    /* told after each candidate; NULL = nobody asks */
    void (*told)(void *listener, const struct search *search);
    void *listener;
};

/* Takes a copy of the scenario, which needs a `need`; days before `first_day` (0 = start) are past.
 * The crew and what else is set by the caller stay. search_free in any case. */
bool search_open(struct search *search, const struct scenario *scenario, int first_day,
                 struct trouble *why);
/* Searches. When crew.stop is set it ends with what there is, not finished. Fails as crew_run does, but
 * for plans that can't be done. */
bool search_run(struct search *search, struct trouble *why);
/* A candidate tried on so many members, from the first; NULL with a trouble. */
struct search_trial *search_try(struct search *search, const struct candidate *candidate, int members,
                                struct trouble *why);
void search_free(struct search *search);
#endif
