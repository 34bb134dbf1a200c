/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/tried.h - the constants that are fitted, and every trial of them that was run, kept in a
 * file so that a fit goes on where it stopped.
 *
 * A constant's place is 0 at the prior, -1 and 1 at the least and the most of its row in know/param; in
 * between it goes by the value, or by the logarithm where the row is log-even. Least and most
 * stand two standard deviations from the centre: a fit holds on to what was known more than a draw does.
 */
#ifndef FIELD_TRIED_H
#define FIELD_TRIED_H
#include "field/emulate.h"
#include "field/trial.h"
#include <stdio.h>

enum { TRIED_MOST = 1200, TRIED_HELD = 96,
       TRIED_DESIGN = -1, /* origin of a trial of the shared design, drawn without a look at any data */
       TRIED_PRIOR = -2,
       TRIED_MEDIANS = 100 /* and the learner: medians of possible piles, not the central one */ };

/* a constant and its centre */
struct tried_constant {
    const struct param_row *row;
    double centre;
};

struct tried {
    const struct trial *trial;
    int fitted, held;
    struct tried_constant fit[EMULATE_INPUTS], hold[TRIED_HELD]; /* those held stay at their centre */
    int trials;
    int origin[TRIED_MOST];                     /* the learner that proposed it, or as above */
    double place[TRIED_MOST][EMULATE_INPUTS];
    double *value[TRIED_MOST];                  /* of every figure */
    FILE *file;
};

/* Constants named in `names` are fitted, the others of the file `prior` (lines "name,value") held. */
bool tried_begin(struct tried *tried, const struct trial *trial, const char *const *names, int count,
                 const char *prior, struct trouble *why);
/* Holds a constant at a value, be it fitted or not; the next trials are of that model. */
bool tried_hold(struct tried *tried, const char *name, double value, struct trouble *why);
/* The place below which the prior is with a chance from 0 to 1: normal, cut at least and most. */
double tried_prior(double chance);
/* What it costs to stray to a place: minus the logarithm of the prior there, against its centre. */
double tried_stray(const struct tried *tried, const double place[EMULATE_INPUTS]);
double tried_value(const struct tried_constant *constant, double place);
/* All constants at a place [EMULATE_INPUTS], which may be NULL where none is fitted. */
struct param tried_param(const struct tried *tried, const double *place);
/* Takes the trials of a file, if they are of this model, which the prior tells that is run first and
 * must give the same figures to the last bit; else begins the file anew. */
bool tried_resume(struct tried *tried, const char *path, struct trouble *why);
/* Runs four more trials and writes them down. */
bool tried_run(struct tried *tried, const int origin[TRIAL_WIDE],
               const double (*place)[EMULATE_INPUTS], struct trouble *why);
/* Runs the possible piles of a learner at a place, and writes their medians down. */
bool tried_run_medians(struct tried *tried, int learner, const double place[EMULATE_INPUTS],
                       struct trouble *why);
void tried_free(struct tried *tried);
#endif
