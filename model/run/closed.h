/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/closed.h - after a step, pools go to their closed form and the books follow.
 *
 * The integrator moves the clocks and uses quadratures of life's rates. A pool's true course is
 * exp(-k th); the difference is added, with its heat, water and nitrogen, to the same cell and flux,
 * so that heat is exactly the oxygen used times its heat value, and carbon that left is exactly what
 * is missing. How far the quadrature was from it is kept: a balance that can't fail tests nothing.
 */
#ifndef RUN_CLOSED_H
#define RUN_CLOSED_H
#include "run/balance.h"
#include "run/implicit.h"

/* what each cell's pools give up in a step */
struct closed_given {
    lane *carbon, *oxygen, *water, *nitrogen, *dry; /* [cells] kg */
};

struct closed {
    struct balance *balance;
    lane *oxygen_sum, *water_sum, *nitrogen_sum, carbon_sum; /* quadratures over the step */
    struct closed_given given;
    lane *lost;
    lane respired_exact, respired_sum; /* carbon since the season's start: closed form, quadrature */
};

void closed_take(struct closed *closed, struct balance *balance, struct arena *arena);
void closed_clear(struct closed *closed);
/* Adds a stage's rates, which balance_fill has just left, with their weight in seconds. */
void closed_add(struct closed *closed, lane weight);
/* Adds the linear part of a step: its heat, as oxygen, and what nitrogen the pools set free in it. */
void closed_add_linear(struct closed *closed, lane hg, const struct implicit *linear);
/* Mineral nitrogen of each cell as closed_fold would leave it, y as it stands: to be looked at before a
 * step is taken. */
void closed_nitrogen(struct closed *closed, const lane *y, lane *mineral_kg);
/* Folds the clocks of the new state y into the pools of those members whose step is good (the
 * others' pools stay), and puts y and the fluxes on the closed form. pile->y is still the old state. */
void closed_fold(struct closed *closed, lane *y, lane_mask good, lane flux[FLUXES]);
#endif
