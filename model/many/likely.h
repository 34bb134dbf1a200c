/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/likely.h - how likely a keeper's readings are, were one possible pile the true one.
 *
 * A thermometer shows the temperature at its tip, by its own offset, a slip of reading and of where
 * the tip came to lie, and by what the model itself gets wrong, which lasts for some days. One in
 * twenty-five readings is wild: a slip of the pen, a tip in a hole. A handful is told by a word,
 * a height by a stick. Air temperatures aren't weighed: they tell of the weather, not of the pile.
 */
#ifndef MANY_LIKELY_H
#define MANY_LIKELY_H
#include "run/plan.h"

struct likely {
    const struct scenario *scenario;
    int order[PLAN_READINGS];   /* the readings in time */
};

/* what a person's own errors are on one possible pile */
struct likely_eyes {
    double thermometer_K, handful_share;
};

void likely_of(struct likely *likely, const struct scenario *scenario);

/* Natural logarithm of the density of all readings, where `seen` is what was there (record.seen);
 * a reading beyond the season (NAN) is passed over. `unsure` is a standard deviation of `seen`, added
 * for each, NULL = none. `wild` receives for each reading the chance that it is wild; NULL = not wanted.
 * Temperatures follow a filter (Kalman 1960, J. Basic Eng. 82, 35-45) for what the model gets wrong,
 * whose update is weighed by the chance that a reading isn't wild. */
double likely_log(const struct likely *likely, const double *seen, struct likely_eyes eyes,
                  const double *unsure, double *wild);

/* the figures that it stands on: standard deviations, and times */
struct likely_figures {
    double wrong_K, wrong_days; /* what the model gets wrong, and how long that lasts */
    double tip_K, skin_tip_K;   /* where the tip lies: deep, and within a hand of the side */
    double wild_share, wild_K;
    double handful_share, height_share, height_m;
};
extern const struct likely_figures likely_figures;
/* Of one reading of temperature, slip and tip together. */
double likely_slip_K(const struct scenario *scenario, const struct plan_reading *reading);
#endif
