/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/able.h - of the members of a crew those that could be run, closed up. */
#ifndef MANY_ABLE_H
#define MANY_ABLE_H
#include "many/crew.h"

struct able {
    struct record *record;      /* [members] what they hold stays with the crew */
    int members;
    int *failed;                /* [failures] numbers of the others */
    int failures;
    double *room;               /* a number for each member, for sorting */
};

/* Fails for want of memory; able_free in any case. */
bool able_of(struct able *able, const struct crew_done *done, struct trouble *why);
void able_free(struct able *able);
/* The range over members of something of a day, from 0. */
struct span able_span(const struct able *able, double (*of)(const struct record_day *), int day);
/* The range over members of each day's mean of the middle; NULL without memory. The caller frees
 * it. */
struct span *able_middle_K(const struct able *able, int days);
/* The day, from 0, on which the median of the middle stands furthest above the median of the air: the
 * warmest may only be a summer's. */
int able_furthest(const struct able *able, int days);
#endif
