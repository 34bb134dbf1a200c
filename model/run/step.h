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
 * After a step is accepted every pool is moved by exp(-k th) to its closed form, the clocks go back
 * to zero, and the difference between closed form and quadrature is added, with its heat, water and
 * nitrogen, to the same cell and flux.
 */
#ifndef RUN_STEP_H
#define RUN_STEP_H
#include "run/around.h"
#include "run/closed.h"
#include "run/implicit.h"

enum { STEP_STAGES = 4 };

/* how much of each z: in a stage's state, in its right-hand side, in the result, in its error */
struct step_weights {
    double state[STEP_STAGES][STEP_STAGES], right[STEP_STAGES][STEP_STAGES];
    double result[STEP_STAGES], error[STEP_STAGES];
};

struct step {
    struct balance *balance;
    struct around *around;
    lane tolerance_K, longest_s;
    lane time_s, size_s;            /* now; the step to try next */
    lane error_before;              /* of the last accepted step, for the controller */
    bool looked;                    /* z[0] and balance are of this very moment, without its rain */
    struct step_weights weights;
    /* of the step being made */
    lane *z[STEP_STAGES], *y;
    struct implicit implicit;
    struct closed closed;
    lane flux[FLUXES];              /* of the accepted step: J, kg */
    lane_mask failed;
};

void step_take(struct step *step, struct balance *balance, struct around *around,
               struct arena *arena);
/* Rates at the pile as it is, now: what the next step begins with and what is told of a midnight. */
void step_look(struct step *step);
/* Something else than a step has changed the pile or the time. */
void step_forget(struct step *step);
/* One attempt for every member that has not yet reached `until_s`. Members whose error is small
 * enough advance (mask returned) and their fluxes stand in step->flux, others' are zero; those
 * others try again with a shorter step. step->failed: members whose step got too short. */
lane_mask step_try(struct step *step, lane until_s);
#endif
