/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/trial.h - all published experiments at once under given global constants, run on the
 * central pile, which calibration asks again and again, or on many possible piles, which it asks now
 * and then.
 */
#ifndef FIELD_TRIAL_H
#define FIELD_TRIAL_H
#include "field/figures.h"
#include "know/param.h"
#include "sky/curve.h"

enum { TRIAL_EXPERIMENTS = FIGURES_FOLDERS, TRIAL_WIDE = 4, TRIAL_MEMBERS = 32 };

struct trial_run {
    struct scenario *scenario;
    struct curve sky;
    int plan;
};

struct trial {
    int experiments, figures;   /* figures of all */
    struct experiment *experiment[TRIAL_EXPERIMENTS];
    struct trial_run *run[TRIAL_EXPERIMENTS];   /* [experiment.runs] */
    int first_figure[TRIAL_EXPERIMENTS + 1];
};

/* Reads the experiments of a folder, but for those named in `without` (parted by commas, or NULL).
 * Made-up weather is a mean year. Fails with the reader's trouble; trial_free in any case. */
bool trial_read(struct trial *trial, const char *folder, const char *without, struct trouble *why);
void trial_free(struct trial *trial);

/* The value of every figure under each of four sets of constants; NAN where a season failed. */
void trial_evaluate(const struct trial *trial, const struct param param[TRIAL_WIDE],
                    double *const value[TRIAL_WIDE], int threads);
/* The median of every figure over TRIAL_MEMBERS possible piles, drawn otherwise than those of
 * validation; NAN where every season failed or memory is short. */
void trial_medians(const struct trial *trial, const struct param *param, double *value, int threads);

/* Is it a published experiment? Those called tNN are what the trade knows: fitted to, never scored. */
bool trial_counts(const struct experiment *experiment);
/* Where a value lies: in half widths of its band from the middle, or from the end of a band that is
 * open. What is missing lies far outside. Within 20 either way. */
double trial_position(const struct figure *figure, double value);
/* How good that is, from 0 to 1, without a step at the band's ends, so that a search knows which way
 * to go: 1 within the band's inner half, a half at its ends. */
double trial_grade(const struct figure *figure, double position);
#endif
