/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/emulate.h - many outputs of a costly model, learned from the trials that were run, and
 * guessed in between: regression by a Gaussian process (Rasmussen and Williams 2006, algorithm 2.1,
 * memory), all outputs sharing one covariance, a plane plus a smooth bend.
 */
#ifndef FIELD_EMULATE_H
#define FIELD_EMULATE_H
#include <stdbool.h>

enum { EMULATE_INPUTS = 16 };

struct emulator {
    int trials, inputs, outputs;
    double (*place)[EMULATE_INPUTS];            /* [trials] */
    double *pull;                               /* [trials][outputs] */
    double *mean, *spread;                      /* [outputs] */
};

/* From places about 0 and within -1 to 1, and the outputs there, output[trial][0 to outputs). False
 * when memory is short. emulate_free in any case. */
bool emulate_learn(struct emulator *emulator, int trials, int inputs, int outputs,
                   const double (*place)[EMULATE_INPUTS], double *const *output);
/* The outputs expected at a place. */
void emulate_guess(const struct emulator *emulator, const double place[EMULATE_INPUTS],
                   double *output);
void emulate_free(struct emulator *emulator);
#endif
