/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/fitted.h - what a calibration found, as its file holds it. */
#ifndef FIELD_FITTED_H
#define FIELD_FITTED_H
#include "know/param.h"
#include <stdbool.h>

enum { FITTED_FOLDS = 5, FITTED_ROWS = 96, FITTED_IDS = 64 };

struct fitted {
    int rows;
    const struct param_row *row[FITTED_ROWS];
    double all[FITTED_ROWS];                    /* fitted to every experiment */
    double fold[FITTED_ROWS][FITTED_FOLDS];     /* to all but those of a fold */
    int ids;
    char id[FITTED_IDS][8];
    int fold_of[FITTED_IDS];                    /* 0 to 4 */
};

/* False if the file isn't there or names what isn't a parameter. */
bool fitted_read(struct fitted *fitted, const char *path);
/* The constants for an experiment that never saw it; those of the whole fit where it was in none. */
struct param fitted_without(const struct fitted *fitted, const char *id);
/* The factor within which a constant is known: even draws between the whole fit's value divided and
 * multiplied by it have the standard error that a jackknife over the folds gives its logarithm, which is
 * sqrt(4/5 sum (ln fold - mean)^2) [delete-a-group jackknife; Kott 2001, memory]. */
double fitted_within(const double fold[FITTED_FOLDS]);
#endif
