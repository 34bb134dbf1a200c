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

static double *row(double *to, const double *from, int many)
{
    memcpy(to, from, (size_t)many * sizeof *to);
    return to + many;
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
    if (s->pile.mesh->cells != lent.cells) {
        fprintf(stderr, "lent: the pile must stay in its bin\n");
        exit(1);
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

/* ---- what a right-hand side in another language reads (rhs_numpy.py) ----------------------------- */

/* Goes on by CVODE with our slopes until a moment: a quick way to states far along a season. */
void lent_go(double *y, const double *from_s, const double *until_s, const int *fresh)
{
    if (*fresh) {
        lent.bdf.relative = 1e-3;
        bdf_begin(&lent.bdf, *from_s);
    }
    while (lent.bdf.time_s < *until_s)
        if (!bdf_step(&lent.bdf, *until_s))
            exit(1);
    put(lent.bdf.y, y);
}

/* How many: faces, outs, links, numbers of struct outside and of struct decay_law. */
void lent_sizes(int *sizes)
{
    const struct mesh *mesh = lent.setting->pile.mesh;
    sizes[0] = mesh->faces;
    sizes[1] = mesh->outs;
    sizes[2] = mesh->links;
    sizes[3] = (int)(sizeof(struct outside) / sizeof(double));
    sizes[4] = (int)(sizeof(struct decay_law) / sizeof(double));
}

/* What stays for a season. face: [faces][5] a, b, before a, after b, upright; out: [outs][2] cell, side;
 * link: [links][2] nodes; below: [cells]. real: shape and depth of each link, soil volumes, half of the
 * uppermost layer, areas of cells from above, and the laws: of decay, of the medium, lag, heat. */
void lent_fixed(int *face, int *out, int *link, int *below, double *real)
{
    const struct mesh *mesh = lent.setting->pile.mesh;
    const struct balance *b = &lent.setting->balance;
    for (int f = 0; f < mesh->faces; f++, face += 5)
        memcpy(face, (int[]){mesh->face[f].a, mesh->face[f].b, mesh->line[MESH_BEFORE][f],
                             mesh->line[MESH_AFTER][f], mesh->face[f].upright}, 5 * sizeof *face);
    for (int o = 0; o < mesh->outs; o++, out += 2)
        out[0] = mesh->out[o].cell, out[1] = (int)mesh->out[o].side;
    for (int l = 0; l < mesh->links; l++, link += 2, real += 2) {
        link[0] = mesh->link[l].a, link[1] = mesh->link[l].b;
        real[0] = mesh->link[l].shape_m, real[1] = mesh->link[l].depth_m;
    }
    real = row(real, mesh->soil_volume_m3, MESH_SOILS);
    *real++ = mesh->base_soil_m;
    for (int c = 0; c < mesh->cells; c++) {
        below[c] = mesh->below[c];
        *real++ = mesh->col_area_m2[mesh->cell_col[c]];
    }
    real = row(real, (const double *)&b->decay, (int)(sizeof b->decay / sizeof *real));
    real = row(real, (const double *)&b->law, (int)(sizeof b->law / sizeof *real));
    *real++ = b->gas_lag_s;
    *real++ = b->heat_J_per_kg;
}

/* What stays for a day: [6][faces], [2][outs], [7][cells]. */
void lent_today(double *of_face, double *of_out, double *of_cell)
{
    const struct mesh *m = lent.setting->pile.mesh;
    const struct medium_frame *f = &lent.setting->balance.frame;
    const double *face[] = {m->face_area_m2, m->face_a_m, m->face_b_m, m->face_per_m,
                            m->face_before_per_m, m->face_after_per_m};
    const double *out[] = {m->out_area_m2, m->out_m};
    const double *cell[] = {m->volume_m3, f->solid_m3, f->ash_kg, f->grain_m2, f->hold_kg,
                            f->wet_slope, f->ice_slope};
    for (int i = 0; i < 6; i++)
        of_face = row(of_face, face[i], m->faces);
    for (int i = 0; i < 2; i++)
        of_out = row(of_out, out[i], m->outs);
    for (int i = 0; i < 7; i++)
        of_cell = row(of_cell, cell[i], m->cells);
}

/* What stays until pools follow their clocks: [27][cells] clocks' zero, moments of the pools, protein's
 * oxygen, water, nitrogen and dry mass, what lignin encloses, carbon, pH. */
void lent_store(double *to)
{
    const struct balance_store *s = &lent.setting->balance.store;
    const double *rest[] = {s->protein_oxygen, s->protein_water, s->protein_nitrogen, s->protein_dry,
                            s->enclosed, s->carbon_kg, s->ph};
    for (int k = 0; k < POOLS; k++)
        to = row(to, lent.bdf.rates.base_clock + k * lent.setting->pile.stride, lent.cells);
    for (int k = 0; k < POOLS; k++)
        for (int j = 0; j < DECAY_MOMENTS; j++)
            to = row(to, s->moment[k][j], lent.cells);
    for (int i = 0; i < 7; i++)
        to = row(to, rest[i], lent.cells);
}

/* The weather at a moment, and what lies on the pile: struct outside as it lies in memory. */
void lent_outside(const double *time_s, double *to)
{
    struct outside *outside = &lent.setting->balance.outside;
    const struct around *around = &lent.setting->around;
    around_fill(around, *time_s, outside);
    outside->rain_kg_per_m2s = rates_rain(around->sky[0], *time_s);
    memcpy(to, outside, sizeof *outside);
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
