/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/why.h - a pile on a day: where its heat goes, what holds decay back, what one change would do.
 *
 * Every change is run, not looked up: with the same possible piles and the same weather, so that
 * differences are taken pile by pile (common random numbers). All that can be done are tried on a few
 * members and a coarser mesh; the three that matter most are run again with all, and only those are
 * told.
 */
#ifndef ASK_WHY_H
#define ASK_WHY_H
#include "ask/budget.h"
#include "ask/cause.h"
#include "ask/change.h"
#include "ask/held.h"
#include "many/able.h"

enum { WHY_TOLD = 3, WHY_SCREENED = 8, WHY_AFTER_DAYS = 14 };

struct why_effect {
    struct change change;
    /* against the plan as it is, member by member */
    struct span middle_K;       /* mean of the days after, by how much it is warmer */
    struct span ready_days;     /* negative is sooner; never counts as the day after the season */
    int members;                /* that both could be run for; 0 = it was only tried, or not even that */
    int warmer, sooner;         /* of them: by what can be seen */
    int never_with, never_without; /* of them: not ready within the season */
    double score;               /* of the trial: days sooner, and half a day for each kelvin */
    char stuff[64];             /* what is added, by name */
};

enum why_day { WHY_NAMED, WHY_READING, WHY_FURTHEST };

struct why_ask {
    const struct scenario *scenario;
    int plan;
    int day, hour;              /* from 0; hour -1 = the whole day */
    struct crew crew;           /* scenario, plan and members of the forecast; hours are set here */
    /* told before each crew of all members: which of how many; NULL = nobody asks */
    void (*part)(void *listener, int part, int parts);
};

struct why_found {
    struct crew_done done;
    struct able able;           /* of the plan as it is; its records hold the day's hours */
    struct budget_range budget;
    struct span middle_K, air_K, water_share, made_W; /* of the day: means, at its end, decay's heat */
    double deep_m;              /* how deep its innermost lies that day */
    struct cause_odds odds[CAUSES]; /* what ails it at that day's end, the commonest first */
    int causes;
    int after_days;             /* days after it that there are, at most WHY_AFTER_DAYS */
    int use;                    /* whose ready date */
    struct why_effect effect[CHANGE_KINDS];     /* by kind */
    int told[WHY_TOLD], tells;  /* kinds run with all members, what matters most first */
    int tried;                  /* kinds that could be tried */
    int screened;               /* members they were tried on */
};

/* The day (from 0) that speaks most of the pile: the middle's median, of a few members, stands
 * furthest above the air's; the warmest may only be a summer's. -1 with a trouble. */
int why_furthest(const struct why_ask *ask, struct trouble *why);
/* why_free in any case. Fails as crew_run does. */
bool why_run(struct why_found *found, const struct why_ask *ask, struct trouble *why);
void why_free(struct why_found *found);

/* Does it, in 8 of 10 piles or more: make the middle warmer by what a thermometer shows, be ready
 * sooner by a day? A range that holds nought says no. */
bool why_warms(const struct why_effect *effect);
bool why_hastens(const struct why_effect *effect);
bool why_cools(const struct why_effect *effect);
bool why_delays(const struct why_effect *effect);
#endif
