/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hands.h - what a gardener does to the pile: each deed a map on amounts, named fluxes, work. */
#ifndef RUN_HANDS_H
#define RUN_HANDS_H
#include "base/trouble.h"
#include "run/balance.h"
#include "run/lay.h"
#include "run/record.h"

enum { HANDS_COVERS = 8 };

struct hands {
    struct lay lay;
    struct balance *balance;
    struct pile *pile, *spare;
    struct mesh *mesh_of_bay;       /* [PLAN_BAYS]; laid for the bays the plan uses */
    int bay;                        /* where the pile is */
    int covers;
    struct { int row; double thick_m; } cover[HANDS_COVERS];
    lane flux[FLUXES];              /* of the deeds since it was last cleared */
    lane turn_air, turn_lift, mixed_share, stray_share, fork_kg_per_s, pour_s_per_kg;
    lane top_absorbs, heap_rain;
};

void hands_param(struct hands *hands, const struct param param[LANES]);
/* The skins of the pile as it stands, into balance->outside. */
void hands_skin(struct hands *hands);
/* Lays the recipe into the empty pile: the first deed. */
void hands_build(struct hands *hands);
/* Does one event; the record rows (one a member) tell what it was and what it cost. */
bool hands_do(struct hands *hands, const struct plan_event *event, int day,
              struct record_event done[LANES], struct trouble *why);
#endif
