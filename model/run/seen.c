/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/seen.c - see run/seen.h.
 *
 * A reading of the day on which the pile is built is of the first moment after it, at the earliest. A
 * handful is taken from where an arm reaches in comfort, 20 cm [trade].
 */
#include "run/seen.h"
#include "flow/gas.h"

static const double DAY_S = 86400, STANDS_S = 36060; /* a minute after it stands */
static const double ARM_M = 0.20;

static double over_cells(const struct watch_probe *at, const lane *amount, int member)
{
    double sum = 0;
    for (int k = 0; k < 4; k++)
        sum += at->weight[k] * lane_get(amount[at->cell[k]], member);
    return sum;
}

static double temp_at(const struct watch *w, double depth_m, double share, int member)
{
    struct watch_probe at;
    watch_place(w, depth_m, member, &at);
    double before = over_cells(&at, w->before_K, member), now = over_cells(&at, w->over_K, member);
    return before + share * (now - before) + GAS_ICE_POINT_K;
}

static double value_of(const struct watch *w, const struct plan_reading *reading, double share,
                       int member)
{
    const struct balance *balance = w->balance;
    struct watch_probe at;
    switch (reading->what) {
    case PLAN_READ_MIDDLE:
        return temp_at(w, WATCH_AXIS, share, member);
    case PLAN_READ_INSIDE:
        return temp_at(w, reading->depth_m, share, member);
    case PLAN_READ_AIR:
        return lane_get(balance->outside.over_K, member) + GAS_ICE_POINT_K;
    case PLAN_READ_SQUEEZE:
        watch_place(w, ARM_M, member, &at);
        return over_cells(&at, w->wet_share, member);
    case PLAN_READ_HEIGHT:
        break;
    }
    return lane_get(mesh_height(balance->pile->mesh), member);
}

void seen_step(const struct watch *w, const struct scenario *scenario, lane from_s, lane took_s,
               struct record record[LANES])
{
    for (int k = 0; k < scenario->readings; k++) {
        const struct plan_reading *reading = &scenario->reading[k];
        double at_s = reading->day * DAY_S < STANDS_S ? STANDS_S : reading->day * DAY_S;
        for (int i = 0; i < LANES; i++) {
            double from = lane_get(from_s, i), took = lane_get(took_s, i);
            if (at_s > from && at_s <= from + took)
                record[i].seen[k] = value_of(w, reading, (at_s - from) / took, i);
        }
    }
}
