/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/measure.h - what an experimenter would have measured on a season's record. */
#ifndef FIELD_MEASURE_H
#define FIELD_MEASURE_H
#include "field/figures.h"
#include "many/crew.h"

/* The value of a measure between two days (1 is the first; NAN = from the first, to the last). What
 * never happens is INFINITY; NAN if there is no such measure. */
double measure_of(const struct record *record, const char *measure, double from, double to,
                  double level);
/* The value of a figure: of its run, against another, or over several. */
double measure_over_runs(const struct record *const *record, const struct experiment *experiment,
                         const struct figure *figure);
/* The value of a figure for every member that could be run, done[run of the experiment]; how many. Room
 * for `members` values. */
int measure_members(double *value, const struct experiment *experiment, const struct figure *figure,
                    const struct crew_done *done, int members);
#endif
