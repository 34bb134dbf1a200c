/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/surrogate.h - what a season would show, guessed from the seasons that were run.
 *
 * Regression with a covariance that is linear and a little bent in those inputs that matter, the
 * same for all outputs (Rasmussen and Williams 2006, algorithm 2.1 [memory]). A guess says how far
 * off it is on seasons it wasn't made of.
 */
#ifndef MANY_SURROGATE_H
#define MANY_SURROGATE_H
#include <stdbool.h>

enum { SURROGATE_INPUTS = 24 };

struct surrogate {
    int runs, outputs, chosen;
    int input[SURROGATE_INPUTS];    /* which inputs matter */
    double weight[SURROGATE_INPUTS];
    double *place;                  /* [runs][chosen] */
    double *pull;                   /* [outputs][runs] */
    double *mean;                   /* [outputs] */
    double *unsure;                 /* [outputs] standard deviation of a guess */
};

/* From so many runs of `inputs` standard normal inputs, input[run][inputs], and the outputs there,
 * output[run][outputs]; an output that isn't a number anywhere is guessed as NAN. False when memory
 * is short; surrogate_free in any case. */
bool surrogate_learn(struct surrogate *surrogate, int runs, int inputs, int outputs,
                     const double *input, const double *output);
/* Guesses the outputs at a place of all the inputs. */
void surrogate_guess(const struct surrogate *surrogate, const double *input, double *output);
void surrogate_free(struct surrogate *surrogate);
#endif
