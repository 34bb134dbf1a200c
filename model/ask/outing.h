/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/outing.h - several piles looked after on one day: order, all the work, and what clashes. */
#ifndef ASK_OUTING_H
#define ASK_OUTING_H
#include "ask/due.h"

enum { OUTING_CLASHES = 16 };
/* Turning is put off where the air or the middle is colder than this, or the crust rings: a pile
 * that is opened then loses the heat it would begin again with, and frozen it only sleeps [trade].
 */
enum { OUTING_FROST_C = -5, OUTING_ASLEEP_C = 5 };

struct outing_stop {
    struct due_pile pile;
    struct due due;
    const char *file; /* the scenario as it was named */
    bool plan_named;  /* false: the first was taken because none was named */
    int failures;     /* possible piles that could not be run */
};

/* two stops that turn or build into a bay of the same name */
struct outing_clash {
    int one, other, bay; /* stops, and the bay in the scenario of the first */
};

struct outing {
    date_count date;
    struct outing_stop *stop; /* [stops], in the order of work once joined */
    int stops;
    long long draw;
    const char *version;
    struct span helpers;
    double visit_s; /* how long people stay */
    struct span person_s, clock_s, water_kg,
        lifted_kg; /* of all; ends are added, so on the wide side */
    bool away;     /* nobody is said to come that day */
    int clashes;
    struct outing_clash clash[OUTING_CLASHES];
};

/* Puts the stops in order, heaviest work first while people are fresh, and fills the rest from
 * them. */
void outing_join(struct outing *visit);
/* The bay a stop's pile ends the day in where it is built or turned for certain; -1 = it isn't. */
int outing_bay(const struct outing_stop *stop);
#endif
