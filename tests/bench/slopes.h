/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/slopes.h - Newton's matrix for CVODE from the program's own slopes.
 *
 * The fairest rival of run/step: CVODE with the very matrix that run/step uses (run/implicit), heat
 * and water by one band as wide as the mesh, so that both factor and solve with the same code.
 */
#ifndef BENCH_SLOPES_H
#define BENCH_SLOPES_H
#include "run/bdf.h"

static double slopes_gamma;

static inline void slopes_make(struct bdf *b, double time_s, const double *y, bool slopes,
                               double gamma)
{
    struct step *s = &b->rates.setting->step;
    if (slopes) {
        rates_fill(&b->rates, time_s, y, s->z[0]);
        implicit_hold(&s->implicit);
    }
    implicit_factor(&s->implicit, gamma);
    slopes_gamma = gamma;
}

static inline void slopes_solve(struct bdf *b, double *x)
{
    implicit_solve(&b->rates.setting->step.implicit, slopes_gamma, 0, x);
}

static const struct bdf_newton SLOPES = {NULL, slopes_make, slopes_solve, NULL};
#endif
