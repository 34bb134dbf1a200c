/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/keeper.h - what a gardener works with: the pile, its bins, what lies on it, and the notebook. */
#ifndef RUN_KEEPER_H
#define RUN_KEEPER_H
#include "run/balance.h"
#include "run/lay.h"
#include "run/record.h"

enum { KEEPER_COVERS = 8 };

struct keeper_covers {
    int count;
    struct { int row; double thick_m; } of[KEEPER_COVERS];
};

struct keeper_notes {               /* nothing but lanes (run/some) */
    lane flux[FLUXES];              /* of the deeds since it was last cleared */
    lane pool_laid_kg[POOLS], seeds_laid[SEEDS], germs_laid[GERMS]; /* put in so far, less what was
                                       taken out */
};

struct keeper {
    struct lay lay;
    struct balance *balance;
    struct pile *pile, *spare;
    struct mesh **mesh_of_bay;      /* [PLAN_BAYS]; of the bays the plan uses; bays alike share one */
    int bay[LANES];                 /* where the pile is */
    struct keeper_covers covers[LANES];
    struct keeper_notes notes;
    struct pile *passed_by;         /* and */
    struct keeper_notes noted;      /* as they were before a deed for some (run/some) */
    lane turn_air, turn_lift, mixed_share, stray_share, fork_kg_per_s, pour_s_per_kg;
    lane top_absorbs, heap_rain, gaps, resist, laid_warmer;
};

void keeper_param(struct keeper *keeper, const struct param param[LANES]);
/* The skins of the pile as it stands, into balance->outside. */
void keeper_skin(struct keeper *keeper);
/* Books all that a batch brings under the names of what is added, or removed; of its water and heat,
 * so much was poured. */
void keeper_book(struct keeper *keeper, const struct move_batch *batch, lane poured_kg, lane poured_J,
                 bool removed);
/* A layer as a batch, booked; water poured with it has a temperature of its own. */
void keeper_batch(struct keeper *keeper, const struct plan_layer *layer, struct move_batch *batch);
lane keeper_air_K(const struct keeper *keeper);      /* over the ice point */
/* Of a layer's ingredients when they are laid. */
lane keeper_laid_K(const struct keeper *keeper, const struct plan_layer *layer);
lane keeper_pour_K(const struct keeper *keeper, const struct plan_layer *layer);
/* Undisturbed soil beneath: those piles stand where none stood. */
void keeper_warm_soil(struct keeper *keeper, lane_mask who);
/* Of the water in the uppermost layer, what is ice. */
lane keeper_frozen_crust(const struct keeper *keeper);
lane keeper_wet_kg(const struct pile *pile);
#endif
