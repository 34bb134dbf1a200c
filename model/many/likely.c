/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/likely.c - see many/likely.h.
 *
 * What the model gets wrong: on temperature courses it was not fitted to, residuals of the best
 * members last about a week (docs/learning.md says what was measured); the rest is common practice
 * without a source.
 */
#include "many/likely.h"
#include "run/handful.h"
#include "run/thermometer.h"
#include <math.h>

const struct likely_figures likely_figures = {
    .wrong_K = 4, .wrong_days = 7, .tip_K = 2.5, .skin_tip_K = 3.5, .wild_share = 0.04, .wild_K = 20,
    .handful_share = 0.045, .height_share = 0.08, .height_m = 0.03};

static const double SKIN_M = 0.15;

void likely_of(struct likely *likely, const struct scenario *scenario)
{
    likely->scenario = scenario;
    for (int i = 0; i < scenario->readings; i++) {
        int at = i;
        for (; at > 0 && scenario->reading[likely->order[at - 1]].day > scenario->reading[i].day; at--)
            likely->order[at] = likely->order[at - 1];
        likely->order[at] = i;
    }
}

double likely_slip_K(const struct scenario *scenario, const struct plan_reading *reading)
{
    double slip = thermometer_slip_K(&scenario->thermometer);
    double tip = reading->what == PLAN_READ_INSIDE && reading->depth_m < SKIN_M
                     ? likely_figures.skin_tip_K : likely_figures.tip_K;
    return sqrt(slip * slip + tip * tip + reading->spread * reading->spread / 3);
}

static double density(double off, double variance)
{
    return exp(-0.5 * off * off / variance) / sqrt(2 * acos(-1) * variance);
}

static double below(double z)
{
    return 0.5 * erfc(-z * sqrt(0.5));
}

/* Density of a reading that may be wild; `wild` is the chance that it is. */
static double mixed(double plain, double wild_density, double *wild)
{
    double share = likely_figures.wild_share;
    double all = (1 - share) * plain + share * wild_density;
    *wild = all > 0 ? share * wild_density / all : 1;
    return log(fmax(all, 1e-300));
}

/* what the model is thought to get wrong at a moment: mean and variance */
struct wrong {
    double day, mean_K, variance;
};

static void pass(struct wrong *wrong, double day)
{
    double before = likely_figures.wrong_K * likely_figures.wrong_K;
    double kept = exp(-(day - wrong->day) / likely_figures.wrong_days);
    wrong->mean_K *= kept;
    wrong->variance = kept * kept * wrong->variance + (1 - kept * kept) * before;
    wrong->day = day;
}

static double of_temp(struct wrong *wrong, double off_K, double slip, double *wild)
{
    double variance = wrong->variance + slip * slip, far = likely_figures.wild_K;
    double v = off_K - wrong->mean_K, gain = wrong->variance / variance;
    double said = mixed(density(v, variance), density(v, variance + far * far), wild);
    double so = 1 - *wild;
    wrong->mean_K += so * gain * v;
    wrong->variance += -so * gain * wrong->variance + so * (1 - so) * gain * gain * v * v;
    return said;
}

static double of_word(enum plan_squeeze word, double share, double sd, double *wild)
{
    double least = word == PLAN_DUSTY ? -INFINITY : handful_most(word - 1);
    double plain = below((handful_most(word) - share) / sd) - below((least - share) / sd);
    return mixed(plain, 1.0 / PLAN_SQUEEZES, wild);
}

static double of_height(double off_m, double height_m, double unsure, double *wild)
{
    double sd = likely_figures.height_m + likely_figures.height_share * height_m;
    double variance = sd * sd + unsure * unsure;
    return mixed(density(off_m, variance), density(off_m, variance + 0.3 * 0.3), wild);
}

double likely_log(const struct likely *likely, const double *seen, struct likely_eyes eyes,
                  const double *unsure, double *wild)
{
    const struct scenario *scenario = likely->scenario;
    struct wrong wrong = {0, 0, likely_figures.wrong_K * likely_figures.wrong_K};
    double sum = 0;
    for (int n = 0; n < scenario->readings; n++) {
        int i = likely->order[n];
        const struct plan_reading *r = &scenario->reading[i];
        double chance = 0, more = unsure ? unsure[i] : 0;
        double slip = likely_slip_K(scenario, r), hand = likely_figures.handful_share;
        if (!isnan(seen[i]) && r->what <= PLAN_READ_INSIDE) {
            pass(&wrong, r->day);
            sum += of_temp(&wrong, r->value - seen[i] - eyes.thermometer_K,
                           sqrt(slip * slip + more * more), &chance);
        } else if (!isnan(seen[i]) && r->what == PLAN_READ_SQUEEZE) {
            sum += of_word(r->squeeze, seen[i] + eyes.handful_share,
                           sqrt(hand * hand + more * more), &chance);
        } else if (!isnan(seen[i]) && r->what == PLAN_READ_HEIGHT) {
            sum += of_height(r->value - seen[i], seen[i], more, &chance);
        }
        if (wild)
            wild[i] = chance;
    }
    return sum;
}
