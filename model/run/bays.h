/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/bays.h - which bays a plan uses, and whether one mesh does for all of them.
 *
 * A mesh follows from a bay's shape and floor; walls, lid and ground are a member's own. So members
 * whose piles stand in different bays can go side by side where these bays are alike.
 */
#ifndef RUN_BAYS_H
#define RUN_BAYS_H
#include "run/plan.h"

static inline bool bays_used(const struct scenario *scenario, const struct plan *plan, int bay)
{
    if (bay == scenario->home)
        return true;
    for (int e = 0; e < plan->events; e++) {
        int into = plan->event[e].into;
        if (plan->event[e].deed == PLAN_TURN && (into == bay || into == PLAN_NEXT_BAY))
            return true;
    }
    return false;
}

/* The first bay of the same shape and floor among those used; itself if there is none before it. */
static inline int bays_like(const struct scenario *scenario, const struct plan *plan, int bay)
{
    const struct plan_bay *one = &scenario->bay[bay];
    for (int i = 0; i < bay; i++) {
        const struct plan_bay *other = &scenario->bay[i];
        if (bays_used(scenario, plan, i) && other->shape == one->shape &&
            other->length_m == one->length_m && other->width_m == one->width_m)
            return i;
    }
    return bay;
}

static inline bool bays_alike(const struct scenario *scenario, const struct plan *plan)
{
    int meshes = 0;
    for (int bay = 0; bay < scenario->bays; bay++)
        meshes += bays_used(scenario, plan, bay) && bays_like(scenario, plan, bay) == bay;
    return meshes <= 1;
}
#endif
