/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/midnight.h - which members have come to a day's end, each to its own.
 *
 * Members side by side take steps of their own length. Where nobody works on the pile they need not wait
 * for each other at every midnight (docs/numerics.md).
 */
#ifndef RUN_MIDNIGHT_H
#define RUN_MIDNIGHT_H
#include "base/lane.h"

struct midnight {
    lane_mask who;
    int day[LANES];     /* from 0: the day that ends */
};

static inline struct midnight midnight_all(int day)
{
    struct midnight m = {.who = lane_everybody()};
    for (int i = 0; i < LANES; i++)
        m.day[i] = day;
    return m;
}

static inline bool midnight_has(const struct midnight *m, int member)
{
    return lane_mask_get(m->who, member) != 0;
}
#endif
