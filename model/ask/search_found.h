/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search_found.h - a search, what it tried and what came out. */
#ifndef ASK_SEARCH_FOUND_H
#define ASK_SEARCH_FOUND_H
#include "ask/outcome.h"
#include "ask/space.h"
#include "many/crew.h"

/* trials: more than a search of six turns has, 96 and two times 128 moves for each (ask/search.c) */
enum { SEARCH_MEMBERS = 64, SEARCH_TRIALS = 2304, SEARCH_FRONT = 16, SEARCH_LOOK = 8 };

/* a candidate and what became of the first so many members */
struct search_trial {
    struct candidate candidate;
    bool possible;              /* false: there is no free bin, or a visit would take too long */
    bool refuted;               /* it did it with its own members, and with others it didn't */
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
#endif
