/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/thermometer.h - how far a keeper's thermometer can be believed, by its kind.
 *
 * A dial is off by 3 to 5 degrees and is seldom adjusted; ice water tells how much at one end of
 * the scale, which is then taken off each reading, and half of the doubt stays for the other end.
 * All figures are common practice without a source [trade].
 */
#ifndef RUN_THERMOMETER_H
#define RUN_THERMOMETER_H
#include "run/plan.h"

enum { THERMOMETER_KINDS = PLAN_PROBE + 1 };
extern const char *const thermometer_kinds[THERMOMETER_KINDS];

/* How far off, to either side, it may be once what it shows in ice water is taken off: two standard
 * deviations. */
double thermometer_unsure_K(const struct plan_thermometer *thermometer);
/* Error of a single reading, by where the tip came to lie and how the scale was read: one standard
 * deviation. */
double thermometer_slip_K(const struct plan_thermometer *thermometer);
/* What a reading is taken for. */
double thermometer_taken_K(const struct plan_thermometer *thermometer, double shown_K);
#endif
