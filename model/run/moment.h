/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/moment.h - which members stand at a moment of their day: at midnight, or when somebody comes.
 *
 * Members side by side take steps of their own length, each through days of its own; none waits for
 * the others (docs/numerics.md). So whatever is done at such a moment is done for some of them.
 */
#ifndef RUN_MOMENT_H
#define RUN_MOMENT_H
#include "base/lane.h"

struct moment {
    lane_mask who;
    int day[LANES];     /* from 0: the day it belongs to */
};

static inline struct moment moment_all(int day)
{
    struct moment m = {.who = lane_everybody()};
    for (int i = 0; i < LANES; i++)
        m.day[i] = day;
    return m;
}

static inline bool moment_has(const struct moment *m, int member)
{
    return lane_mask_get(m->who, member) != 0;
}

/* Each member's time, so long after the beginning of its day. */
static inline lane moment_s(const struct moment *m, double after_s)
{
    lane time_s = lane_of(0);
    for (int i = 0; i < LANES; i++)
        lane_put(&time_s, i, m->day[i] * 86400.0 + after_s);
    return time_s;
}
#endif
