/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/held.h - what holds decay back on a day: from the limits of a record, most first.
 *
 * A limit is decay as it goes over decay with that one thing at its best, all else as it is; for food,
 * what is left of it. They don't multiply up to anything: two that hold back alike hide each other.
 */
#ifndef ASK_HELD_H
#define ASK_HELD_H
#include "run/record.h"

struct held {
    enum record_limit what;
    double factor;              /* 1 doesn't hold back, 0 stops it */
    bool too_hot;               /* of warmth: above what suits best, not below */
};

/* At one place of one pile at the end of a day (from 0), what holds back most comes first. Returns how
 * many there are: all, or none where the pile has no such place. */
int held_rank(struct held rank[RECORD_LIMITS], const struct record *record, int day,
              enum record_place place);
/* Median and range over members; NAN where there is no such place. */
struct span held_range(const struct record *record, int members, int day, enum record_place place,
                       enum record_limit what, double *room);
/* The same of many piles: ranked by medians. */
int held_rank_of(struct held rank[RECORD_LIMITS], const struct record *record, int members, int day,
                 enum record_place place, double *room);
#endif
