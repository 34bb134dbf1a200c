/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/step.h - one step in time: a linearly implicit method of four stages and order 3.
 *
 * ROS34PW2 [Rang and Angermann 2005, BIT 45:761; coefficients from memory, the order conditions for
 * any approximate Jacobian checked in tests/run]. With F the rates and A any approximation of their
 * derivative,
 *     (I - h g A) z_i = h F(y + sum a_ij k_j) + w_i,   w_i = sum_{j<i} (g_ij/g) k_j,   k_i = z_i - w_i,
 *     y1 = y + sum b_i k_i,  error = sum (b_i - b'_i) k_i.
 * Since A is (incidence of faces) x (slopes of the fluxes), each named flux gives
 *     h sum b_i F_i + h g sum b_i (slope of F) z_i
 * over the step, and heat and water close to round-off whatever the tolerance.
 *
 * A has two factors. Drainage only goes down, so its part is solved from the top cell downward.
 * Heat and water together take one banded solve: T depends to first order only on S = H - h_w W
 * (h_w = dH/dW at fixed T), so S is solved for, and H and W follow from the faces' slopes. Mineral
 * nitrogen and the gas reading have their own diagonals; all else is explicit.
 *
 * After a step is accepted every pool is moved by exp(-k th) to its closed form, the clocks go back
 * to zero, and the difference between closed form and quadrature is added, with its heat, water and
 * nitrogen, to the same cell and flux.
 */
#ifndef RUN_STEP_H
#define RUN_STEP_H
#include "run/around.h"
#include "run/balance.h"

enum { STEP_STAGES = 4 };

/* what each cell's pools give up in a step, by their closed form */
struct step_given {
    lane *carbon, *oxygen, *water, *nitrogen, *dry; /* [cells] kg */
};

struct step {
    struct balance *balance;
    struct around *around;
    lane tolerance_K, longest_s;
    lane time_s, size_s;            /* now; the step to try next */
    lane error_before;              /* of the last accepted step, for the controller */
    /* of the step being made */
    lane *k[STEP_STAGES], *y, *rate, *z, *w;
    lane *matrix, *warmer;
    lane *over_sum, *soil_sum;      /* sum b_i (temperature part of z), cells and soil */
    lane *drain_sum;                /* sum b_i (drainage part of z) */
    lane *oxygen_sum, *water_sum, *nitrogen_sum; /* quadrature, by cell: for the closed form */
    struct step_given given;
    lane *lost;
    lane carbon_sum;
    lane flux[FLUXES];              /* of the accepted step: J, kg */
    /* slopes at the step's start */
    struct transport_slope *face_slope;
    struct transport_out_slope *out_slope;
    lane *drain_slope, *drain_heat_J, *capacity, *per_capacity, *water_J, *grown_slope, *humified_slope;
    lane link_W_per_K[MESH_SOILS * 3 + 2 * MESH_SOIL_LAYERS];
    lane respired_exact, respired_sum; /* carbon since the season's start: closed form, quadrature */
    lane_mask failed;
};

void step_take(struct step *step, struct balance *balance, struct around *around,
               struct arena *arena);
/* One attempt for every member that has not yet reached `until_s`. Members whose error is small
 * enough advance (mask returned) and their fluxes stand in step->flux, others' are zero; those
 * others try again with a shorter step. step->failed: members whose step got too short. */
lane_mask step_try(struct step *step, lane until_s);
#endif
