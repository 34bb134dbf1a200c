/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/space.h - the plans a search may choose from: which of the days people have, how to turn, into
 * which bin, with water or without, covered or not.
 */
#ifndef ASK_SPACE_H
#define ASK_SPACE_H
#include "run/plan.h"

enum { SPACE_DAYS = 64, SPACE_TURNS = 8, SPACE_WAYS = 4, SPACE_MOVES = 128 };

struct space {
    const struct scenario *scenario;
    int days;
    int day[SPACE_DAYS];        /* of the season, 0 = the start date; ascending */
    int coarse;                 /* every so many of them are enough for a first look */
    int ways;
    enum plan_way way[SPACE_WAYS];
    bool moves_on;              /* there is another bin to turn into */
    int cover;                  /* row of know/bound that some plan lays on, -1 = none at hand */
    double cover_m;
};

/* one plan: a turn on some of the days */
struct candidate {
    int turns;
    struct {
        int day;                /* row of space.day */
        enum plan_way way;
        int into;               /* bay, PLAN_SAME_BAY or PLAN_NEXT_BAY */
        bool wet;               /* watered until it drips */
    } turn[SPACE_TURNS];
    bool covered;               /* from the first of the days, and again after each turn */
};

/* Days people have from the day `first` (0 = the start date) to the need, or to the season's end; the
 * day of building is none of them. */
void space_of(struct space *space, const struct scenario *scenario, int first);
/* The candidate as a plan of events. */
void space_plan(struct plan *plan, const struct space *space, const struct candidate *candidate);
/* Candidates that differ from this one in one thing: a turn a day of the list earlier or later, made
 * otherwise, into another bin, with water or without; a cover. Returns how many. */
int space_moves(struct candidate move[SPACE_MOVES], const struct space *space,
                const struct candidate *candidate);
/* The same with one turn more on this row of days; false where that day is taken or there are enough. */
bool space_add(struct candidate *more, const struct space *space, const struct candidate *candidate,
               int day, enum plan_way way);
bool space_same(const struct candidate *a, const struct candidate *b);
#endif
