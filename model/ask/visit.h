/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/visit.h - do a plan and its keepers' calendar fit: days away, visits that take too long. */
#ifndef ASK_VISIT_H
#define ASK_VISIT_H
#include "run/record.h"

enum visit_odd_what {
    VISIT_AWAY,     /* a dated visit on a day away; it is made all the same */
    VISIT_WEEKDAY,  /* on another weekday than theirs */
    VISIT_NEVER     /* a rhythm that meets none of their days: it is never made */
};

struct visit_odd {
    enum visit_odd_what what;
    int plan, day;  /* day of the season, 0 = the start date; of VISIT_NEVER its first turn */
};

/* Visits that don't fit the calendar, each once, plan by plan; how many there are, of which at most
 * `most` are put down. */
int visit_odds(const struct scenario *scenario, struct visit_odd odd[], int most);

/* one morning's work by the clock: all of it, shared among the helpers there are in the middle */
struct visit_long {
    int day;                /* 0 = the start date */
    enum plan_deed deed;    /* what takes longest that morning */
    double clock_s;
};

/* The longest visit of a season; clock_s is 0 where nothing was done. */
struct visit_long visit_longest(const struct record *record, const struct plan_people *people);

/* many members' longest visits against the time that a visit may take */
struct visit_too_long {
    struct span clock_s;
    struct visit_long usual; /* of the member in the middle */
    double allowed_s, over_s; /* over_s <= 0: half of them and more keep to it */
    int over;               /* members in which it takes longer */
};
/* `room` holds a number for each member. */
struct visit_too_long visit_too_long(const struct record *record, int members,
                                     const struct plan_people *people, double *room);
#endif
