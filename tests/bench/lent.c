/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/lent.c - the season's right-hand side, lent to integrators of other languages.
 *
 * A shared object for SciPy (by ctypes) and R (by dyn.load): the same balance_fill, built pile,
 * deeds and settling that CVODE gets (run/rates.h, run/bdf_season.h), compiled, so that what is
 * timed there is the method and its own arithmetic, not the language's. All arguments are pointers,
 * as R's .C wants them. One season at a time. Unknowns lie as in run/bdf.h: soil first, then all
 * states of a cell side by side.
 */
#define _POSIX_C_SOURCE 200809L
#include "bench/bench.h"

static struct lent {
    struct bench *bench;
    struct setting *setting;
    struct bdf bdf;
    int day, days, cells;
    bool open, at_ten;
    double *over_K;
} lent;

static void put(const double *from, double *to)
{
    for (int n = 0; n < rates_length(&lent.bdf.rates); n++)
        to[n] = from[lent.bdf.order[n]];
}

static void take(const double *from, double *to)
{
    for (int n = 0; n < rates_length(&lent.bdf.rates); n++)
        to[lent.bdf.order[n]] = from[n];
}

void lent_close(void)
{
    if (!lent.open)
        return;
    bdf_free(&lent.bdf);
    setting_free(lent.setting);
    free(lent.setting);
    free(lent.over_K);
    bench_close(lent.bench);
    lent = (struct lent){0};
}

/* Opens so many days of a scenario: how many unknowns, cells, and unknowns to either side. */
void lent_open(char **path, int *days, int *length, int *cells, int *half)
{
    lent_close();
    lent.bench = bench_open(*path, *days);
    lent.setting = calloc(1, sizeof *lent.setting);
    lent.days = *days;
    if (!lent.setting || !setting_make(lent.setting, &lent.bench->setup, &lent.bench->why) ||
        !bdf_take(&lent.bdf, lent.setting, 1, 0, &SLOPES))
        bench_stop(&lent.bench->why);
    lent.open = true;
    *length = rates_length(&lent.bdf.rates);
    *cells = lent.cells = lent.setting->pile.mesh->cells;
    *half = STATES * (lent.setting->pile.mesh->band + 1) - 1;
    lent.over_K = calloc((size_t)(*days * *cells), sizeof(double));
}

static void begin(double *y)
{
    bdf_allow(&lent.bdf);
    rates_begin(&lent.bdf.rates, lent.bdf.y);
    put(lent.bdf.y, y);
}

static bool deed_today(int day)
{
    const struct plan *plan = lent.setting->plan;
    for (int e = 0; e < plan->events; e++)
        if (bdf_season_due(&plan->event[e], day))
            return true;
    return false;
}

static void do_deeds(double *y)
{
    struct setting *s = lent.setting;
    struct record_event done[1];
    around_fill(&s->around, lent.day * SETTING_DAY_S + SETTING_DEED_S, &s->balance.outside);
    for (int e = 0; e < s->plan->events; e++)
        if (bdf_season_due(&s->plan->event[e], lent.day)) {
            struct moment ten = moment_all(lent.day);
            if (!hands_do(&s->keeper, &s->plan->event[e], &ten, done, &lent.bench->why))
                bench_stop(&lent.bench->why);
            setting_worked(s, &ten);
        }
    begin(y);
}

static void end_day(void)
{
    struct setting *s = lent.setting;
    setting_settle(s, (lent.day + 1) * SETTING_DAY_S);
    for (int c = 0; c < lent.cells; c++)
        lent.over_K[lent.day * lent.cells + c] = s->watch.over_K[c];
    lent.day++;
}

/* What happens at the moment that was reached with y, and until when to go on: a negative moment
 * when the season is over. `fresh`: y was changed and the method must begin again. The first call
 * builds the pile. */
void lent_next(double *y, double *from_s, double *until_s, int *fresh)
{
    struct setting *s = lent.setting;
    *fresh = 0;
    if (!s->standing) {
        around_day(&s->around, 0);
        setting_build(s);
        begin(y);
        *fresh = 1;
        *from_s = SETTING_DEED_S;
        *until_s = SETTING_DAY_S;
        return;
    }
    take(y, lent.bdf.y);
    rates_fold(&lent.bdf.rates, lent.bdf.y, 0);
    *from_s = lent.day * SETTING_DAY_S + SETTING_DEED_S;
    if (lent.at_ten) {
        do_deeds(y);
        *fresh = 1;
        lent.at_ten = false;
    } else {
        end_day();
        *from_s = lent.day * SETTING_DAY_S;
        if (lent.day < lent.days)
            around_day(&s->around, lent.day);
        lent.at_ten = lent.day < lent.days && deed_today(lent.day);
    }
    *until_s = lent.day * SETTING_DAY_S + (lent.at_ten ? SETTING_DEED_S : SETTING_DAY_S);
    if (lent.day == lent.days)
        *until_s = -1;
}

void lent_rates(const double *time_s, const double *y, double *rate, int *good)
{
    take(y, lent.bdf.y);
    *good = rates_fill(&lent.bdf.rates, *time_s, lent.bdf.y, lent.bdf.rate);
    put(lent.bdf.rate, rate);
}

/* A step was taken: pools follow now and then. */
void lent_fold(const double *y)
{
    take(y, lent.bdf.y);
    rates_fold(&lent.bdf.rates, lent.bdf.y, PATIENCE_D);
}

/* What is allowed always, for a relative tolerance of 1. */
void lent_allowed(double *allowed)
{
    const double *a = N_VGetArrayPointer(lent.bdf.allowed);
    for (int n = 0; n < rates_length(&lent.bdf.rates); n++)
        allowed[n] = a[n];
}

void lent_over(double *over_K)
{
    memcpy(over_K, lent.over_K, (size_t)(lent.days * lent.cells) * sizeof *over_K);
}

void lent_count(int *rates)
{
    *rates = (int)lent.bdf.rates.count;
}

/* Which cells touch: a 1 in [cells * cells]. */
void lent_touch(int *touch)
{
    const struct mesh *mesh = lent.setting->pile.mesh;
    for (int f = 0; f < mesh->faces; f++) {
        touch[mesh->face[f].a * lent.cells + mesh->face[f].b] = 1;
        touch[mesh->face[f].b * lent.cells + mesh->face[f].a] = 1;
    }
}

/* One part of a right-hand side alone, so many times: what a NumPy version of it is held against. */
void lent_medium(const int *times)
{
    struct setting *s = lent.setting;
    struct balance *b = &s->balance;
    for (int k = 0; k < *times; k++)
        b->vapour_share = medium_fill(&b->medium, &b->frame, &b->law, s->pile.mesh,
                                      pile_state(&s->pile, STATE_HEAT_J),
                                      pile_state(&s->pile, STATE_WATER_KG),
                                      pile_state(&s->pile, STATE_DRY_KG), b->oxygen.share);
}

/* What it reads, [10][cells], its law, and what it fills, [13][cells]. */
void lent_medium_in(double *in, double *law)
{
    const struct setting *s = lent.setting;
    const struct balance *b = &s->balance;
    const struct medium_frame *f = &b->frame;
    const double *row[] = {pile_state(&s->pile, STATE_HEAT_J), pile_state(&s->pile, STATE_WATER_KG),
                           pile_state(&s->pile, STATE_DRY_KG), b->oxygen.share, f->ash_kg, f->solid_m3,
                           f->grain_m2, f->wet_slope, f->ice_slope, s->pile.mesh->volume_m3};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        memcpy(in + i * (size_t)lent.cells, row[i], (size_t)lent.cells * sizeof *in);
    const double of_law[] = {b->law.activity_half, b->law.dry_conductivity, b->law.permeability_least,
                             b->law.permeability_most, b->law.diffusion, b->law.air_Pa};
    memcpy(law, of_law, sizeof of_law);
}

void lent_medium_out(double *out)
{
    const struct medium *m = &lent.setting->balance.medium;
    const double *row[] = {m->over_K, m->capacity, m->water_J, m->liquid, m->vapour_Pa, m->humid,
                           m->humid_slope, m->dry_rho, m->rho, m->free_air, m->mobility, m->diffusive,
                           m->conduct};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        memcpy(out + i * (size_t)lent.cells, row[i], (size_t)lent.cells * sizeof *out);
}

/* Has a clock gone on enough for pools to follow? */
static bool clocks_on(const double *y)
{
    int stride = lent.setting->pile.stride;
    take(y, lent.bdf.y);
    for (int n = 0; n < POOLS * stride; n++)
        if (lent.bdf.y[STATE_CLOCK * stride + n] - lent.bdf.rates.base_clock[n] > PATIENCE_D)
            return true;
    return false;
}

/* R's deSolve calls these by name. It doesn't tell when it has taken a step: pools follow a state
 * that it tries, which is as good, since they go with exp(-k th) whatever the way. */
void lent_begin_r(void (*parameters)(int *, double *))
{
    (void)parameters;
}

void lent_rates_r(int *length, double *time_s, double *y, double *rate, double *out, int *more)
{
    int good;
    (void)out, (void)more;
    if (clocks_on(y))
        lent_fold(y);
    lent_rates(time_s, y, rate, &good);
    for (int n = 0; !good && n < *length; n++)
        rate[n] = 0;
}
