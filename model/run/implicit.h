/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/implicit.h - the implicit part of a step: (I - h g A) z = r, and what it moved, by name.
 *
 * A has two factors, in fine meshes three. Drainage only goes down, so its part is solved from the top
 * cell downward. In fine meshes water that seeps by capillarity is stiff too: kg/kg is solved for in a
 * symmetric system and the water moved over the faces by it, with its heat.
 * Heat and water together take one banded solve: T depends to first order only on S = H - h_w W
 * (h_w = dH/dW at fixed T), so S is solved for, and H and W follow from the faces' slopes: what one
 * side of a face loses the other gains, so nothing is made. Mineral nitrogen and the gas reading
 * have their own diagonals. Decay answers to its own warmth, and steeply so just below the heat that
 * stops it: that slope stands in the diagonal, with the same share in the clocks, in what microbes, humus
 * and acids gain, and in nitrogen; and growth on nitrogen takes its oxygen from the heat. So what the
 * books find of oxygen is what the heat was made of. The slope is the bacteria's, taken for all that
 * lives: to tell the fungi's apart saved no step. All else is explicit.
 */
#ifndef RUN_IMPLICIT_H
#define RUN_IMPLICIT_H
#include "run/balance.h"

struct implicit {
    struct balance *balance;
    lane *matrix, *warmer;
    /* slopes at the step's start */
    struct transport_slope *face_slope;
    struct transport_out_slope *out_slope;
    lane *drain_slope, *drain_heat_J, *per_capacity, *water_J;
    lane *undrained, *unleached; /* what a step leaves of an excess of water, of mineral nitrogen */
    lane *grown_slope, *humified_slope, *leach_per_s; /* nitrogen that goes with draining water */
    lane *bound_slope;  /* oxygen that isn't used for what grows on nitrogen, kg/s per kg of it */
    lane *heat_slope, *pace_slope[POOLS]; /* of decay, per kelvin: W, and clock days per second */
    lane *microbe_slope, *living_slope, *humus_slope, *sour_slope; /* kg/s */
    lane *freed_slope;  /* the pools' nitrogen, kg/s */
    lane *seep_kg_per_s, *seep_J_per_kg, *seep_matrix, *wetter; /* fine meshes only */
    lane jar_W_per_K;
    lane link_W_per_K[MESH_SOILS * 3 + 2 * MESH_SOIL_LAYERS];
    /* weighted over the stages, for the books: temperature part of z, of the soil, water, nitrogen */
    lane *over_sum, *soil_sum, *drain_sum, *nitrogen_sum;
};

void implicit_take(struct implicit *implicit, struct balance *balance, struct arena *arena);
/* Forgets the sums of the last step. */
void implicit_clear(struct implicit *implicit);
/* Keeps the slopes of the moment that balance_fill has just computed. */
void implicit_hold(struct implicit *implicit);
/* Of cells that will thaw within two steps of this size, at these rates of heat, takes the capacity
 * along the chord: by the far larger one of thawing, cells would overshoot once they are through. */
void implicit_thaw(struct implicit *implicit, const lane *heat_W, lane size);
/* Factors I - hg A. */
void implicit_factor(struct implicit *implicit, lane hg);
/* Solves in place (layout of pile->y); `weight` is the stage's in the sums. */
void implicit_solve(struct implicit *implicit, lane hg, double weight, lane *z);
/* Books what the linear part of the whole step moved across the outside. */
void implicit_book(const struct implicit *implicit, lane hg, lane flux[FLUXES]);
#endif
