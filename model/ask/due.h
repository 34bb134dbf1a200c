/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/due.h - what is due on one day of one pile, as its possible piles have it.
 *
 * A deed with a date is done by all of them; a deed by a rule by some, and that share is its
 * chance. Work, water and weight are those of the members that do it.
 */
#ifndef ASK_DUE_H
#define ASK_DUE_H
#include "know/param.h"
#include "run/record.h"
#include <stddef.h>

enum { DUE_READS = 2 };

/* one pile and its possible seasons, up to some day after the one asked of */
struct due_pile {
    const struct scenario *scenario;
    int plan;
    const struct param *param;
    const struct record *record; /* [members] */
    int members;
    double *room; /* [members], for sorting */
    int last_day; /* of the season; the records may end earlier */
};

struct due_task {
    const struct plan_event *event;
    int did;            /* members that do it */
    struct span chance; /* with its sampling error */
    struct span person_s, lifted_kg, water_kg, added_kg, picked_kg;
    int into; /* bay the pile is in afterwards; PLAN_NEXT_BAY where none does it, so none tells */
};

struct due_reading {
    int day;              /* from 0; -1 = none */
    struct span middle_K; /* NAN = the records end before */
};

struct due {
    int day;    /* from 0 */
    bool build; /* the pile is built that day */
    int from;   /* bay it stands in that morning */
    int tasks;  /* deeds that can fall on that day, in the plan's order */
    struct due_task task[PLAN_EVENTS];
    struct span person_s, water_kg, lifted_kg; /* of the whole day, building included */
    struct span middle_K, air_K;               /* of the day before; NAN on the first day */
    double deep_m;                             /* how deep its innermost lies then; NAN where not known */
    struct due_reading read[DUE_READS];        /* when to read next, and what it should show */
    int next_day;                              /* next work or look; -1 = none */
    bool next_look;                            /* it is a look, by a rule */
};

void due_on(struct due *due, const struct due_pile *pile, int day);
/* Day up to which records are wanted to answer for a day. */
int due_horizon(const struct scenario *scenario, int plan, int day);
/* Is anything due: building, a deed for certain, or a look? */
bool due_any(const struct due *due);

/* The range of a temperature of a day, by its place in struct record_day; NAN beyond the records. */
struct span due_temp_K(const struct due_pile *pile, int day, size_t offset);

/* So many vessels of it were counted; 0 where it was weighed or measured otherwise. */
double due_vessels(const struct plan_portion *portion);

/* how water is carried: vessels of one fill that those who work may lift */
struct due_load {
    double each_l;
    int parts; /* 1 = buckets, 2 = half buckets, 4 = quarter buckets */
    int count;
};
struct due_load due_load(const struct scenario *scenario, double water_l);

/* Hands that help at a pile: whole people, no more than find room around it. */
int due_hands(double helpers);
/* Minutes by the clock: few hands for the most work, many for the least. */
struct span due_clock(struct span person_s, struct span helpers);
#endif
