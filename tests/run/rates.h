/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/rates.h - the season's right-hand side, for an integrator that isn't ours.
 *
 * The same vector y (pile/pile.h) by the same balance_fill. Two things differ from run/step:
 * - clocks in the foreign vector go on counting, since a multistep method must not find them set
 *   back; the right-hand side sees them from the last folding, at which pools went exp(-k th) down;
 * - rain is a rate in time, the derivative of sky/curve's sum of it: (1 - cos 2 pi t) x the day's
 *   rain over a day. run/step takes the mean of a step.
 * Nothing is corrected to closed forms, so heat and water are the plain integrals of their rates.
 */
#ifndef RUN_RATES_H
#define RUN_RATES_H
#include "run/setting.h"
#include <stdlib.h>
#include <string.h>

struct rates {
    struct setting *setting;
    double *base_clock;     /* clocks at the last folding */
    double *seen;
    long count;
};

static inline int rates_length(const struct rates *r)
{
    return pile_length(&r->setting->pile);
}

static inline void rates_take(struct rates *r, struct setting *setting)
{
    size_t length = (size_t)pile_length(&setting->pile);
    *r = (struct rates){.setting = setting};
    r->base_clock = calloc(length, sizeof(double));
    r->seen = calloc(length, sizeof(double));
}

static inline void rates_free(struct rates *r)
{
    free(r->base_clock);
    free(r->seen);
}

static inline double rates_rain(const struct curve *sky, double time_s)
{
    double days = time_s / SETTING_DAY_S;
    int day = (int)days;
    if (day < 0 || day >= sky->days)
        return 0;
    return sky->wet_kg_per_m2[day] * (1 - cos(2 * 3.14159265358979323846 * days)) / SETTING_DAY_S;
}

static inline bool rates_in_range(const struct pile *pile, const double *y)
{
    static const enum state POSITIVE[] = {STATE_WATER_KG, STATE_LIVING_KG, STATE_NITROGEN_KG,
                                          STATE_OXYGEN};
    for (size_t k = 0; k < sizeof POSITIVE / sizeof *POSITIVE; k++)
        for (int c = 0; c < pile->mesh->cells; c++)
            if (!(y[(int)POSITIVE[k] * pile->stride + c] > 0))
                return false;
    return true;
}

/* dy/dt; false where y is out of range. */
static inline bool rates_fill(struct rates *r, double time_s, const double *y, double *rate)
{
    struct balance *b = &r->setting->balance;
    const struct pile *pile = &r->setting->pile;
    size_t size = (size_t)pile_length(pile) * sizeof *y;
    memcpy(r->seen, y, size);
    for (int n = 0; n < POOLS * pile->stride; n++)
        r->seen[STATE_CLOCK * pile->stride + n] -= r->base_clock[n];
    if (!rates_in_range(pile, r->seen))
        return false;
    around_fill(&r->setting->around, time_s, &b->outside);
    b->outside.rain_kg_per_m2s = rates_rain(r->setting->around.sky[0], time_s);
    memset(rate, 0, size);
    balance_fill(b, r->seen, rate);
    r->count++;
    return b->vapour_share < 0.9;
}

/* The pile is put where y is; where a clock has gone on by more than `patience` days, all pools are
 * folded. */
static inline void rates_fold(struct rates *r, const double *y, double patience_d)
{
    struct pile *pile = &r->setting->pile;
    int stride = pile->stride, cells = pile->mesh->cells;
    const double *clock = y + STATE_CLOCK * stride;
    double most = 0;
    memcpy(pile->y, y, (size_t)pile_length(pile) * sizeof *y);
    memset(pile->y + STATE_CLOCK * stride, 0, (size_t)(POOLS * stride) * sizeof *y);
    for (int n = 0; n < POOLS * stride; n++)
        most = fmax(most, clock[n] - r->base_clock[n]);
    if (most <= patience_d)
        return;
    for (int k = 0; k < POOLS; k++)
        for (int c = 0; c < cells; c++) {
            double passed = clock[k * stride + c] - r->base_clock[k * stride + c];
            for (int i = 0; i < pile->stuffs; i++)
                pile_pool(pile, i, (enum pool)k)[c] *= exp(-pile->stuff[i].rate_per_d[k] * passed);
        }
    memcpy(r->base_clock, clock, (size_t)(POOLS * stride) * sizeof *clock);
    balance_store(&r->setting->balance);
}

/* From the pile as it stands, after a deed: clocks begin at zero. */
static inline void rates_begin(struct rates *r, double *y)
{
    const struct pile *pile = &r->setting->pile;
    memcpy(y, pile->y, (size_t)pile_length(pile) * sizeof *y);
    memset(r->base_clock, 0, (size_t)(POOLS * pile->stride) * sizeof *y);
}
#endif
