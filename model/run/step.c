/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/step.c - see run/step.h. */
#include "run/step.h"
#include "base/band.h"
#include "pile/read.h"

static const double G = 4.3586652150845900e-01;
static const double ALPHA[STEP_STAGES][STEP_STAGES] = {
    {0, 0, 0, 0},
    {8.7173304301691801e-01, 0, 0, 0},
    {8.4457060015369423e-01, -1.1299064236484185e-01, 0, 0},
    {0, 0, 1, 0}};
static const double GAMMA[STEP_STAGES][STEP_STAGES] = {
    {0, 0, 0, 0},
    {-8.7173304301691801e-01, 0, 0, 0},
    {-9.0338057013044082e-01, 5.4180672388095326e-02, 0, 0},
    {2.4212380706095346e-01, -1.2232505839045147e+00, 5.4526025533510214e-01, 0}};
static const double B[STEP_STAGES] = {2.4212380706095346e-01, -1.2232505839045147e+00,
                                      1.5452602553351020e+00, 4.3586652150845900e-01};
static const double B_LOW[STEP_STAGES] = {3.7810903145819369e-01, -9.6042292212423178e-02, 0.5,
                                          2.1793326075422950e-01};
static const double SHORTEST_S = 1e-3;
/* error weights: clocks by this many days and water by this share of what is there, per kelvin */
static const double CLOCK_D_PER_K = 0.05;
static const double WATER_PER_K = 0.01;
/* The estimate is of order 2, the result of order 3: measured on hot, turned and frozen seasons the
 * estimate overstates the error of a step some tenfold; a quarter of it is still on the safe side
 * (docs/numerics.md). */
static const double ESTIMATE_COUNTS = 0.25;

void step_take(struct step *s, struct balance *balance, struct around *around, struct arena *arena)
{
    const struct pile *pile = balance->pile;
    size_t length = (size_t)pile_length(pile), cells = (size_t)pile->stride;
    size_t rows = cells + MESH_SOILS, width = 2 * (size_t)pile->mesh->band + 1;
    size_t outs = 2 * (size_t)(pile->mesh->rows + pile->mesh->cols) + 2;
    s->balance = balance;
    s->around = around;
    for (int i = 0; i < STEP_STAGES; i++)
        s->k[i] = arena_take(arena, length, sizeof(lane));
    lane **whole[] = {&s->y, &s->rate, &s->z, &s->w};
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
        *whole[i] = arena_take(arena, length, sizeof(lane));
    lane **each[] = {&s->over_sum, &s->drain_sum, &s->oxygen_sum, &s->water_sum, &s->nitrogen_sum,
                     &s->drain_slope, &s->drain_heat_J, &s->capacity, &s->per_capacity, &s->water_J, &s->grown_slope,
                     &s->humified_slope, &s->lost, &s->given.carbon, &s->given.oxygen,
                     &s->given.water, &s->given.nitrogen, &s->given.dry};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = arena_take(arena, cells, sizeof(lane));
    s->soil_sum = arena_take(arena, MESH_SOILS, sizeof(lane));
    s->warmer = arena_take(arena, rows, sizeof(lane));
    s->matrix = arena_take(arena, rows * width, sizeof(lane));
    s->face_slope = arena_take(arena, 2 * cells, sizeof(struct transport_slope));
    s->out_slope = arena_take(arena, outs, sizeof(struct transport_out_slope));
}

/* Keeps the slopes of the first stage. */
static void hold_slopes(struct step *s)
{
    struct balance *b = s->balance;
    const struct mesh *mesh = b->pile->mesh;
    for (int f = 0; f < mesh->faces; f++)
        s->face_slope[f] = b->transport.face_slope[f];
    for (int o = 0; o < mesh->outs; o++)
        s->out_slope[o] = b->transport.out_slope[o];
    for (int l = 0; l < mesh->links; l++)
        s->link_W_per_K[l] = b->transport.link_W_per_K[l];
    for (int c = 0; c < mesh->cells; c++) {
        s->drain_slope[c] = b->transport.drain_slope[c];
        s->drain_heat_J[c] = read_water_enthalpy(b->medium.over_K[c]);
        s->capacity[c] = b->medium.capacity[c];
        s->per_capacity[c] = 1.0 / b->medium.capacity[c];
        s->water_J[c] = b->medium.water_J[c];
        s->grown_slope[c] = b->potential.grown_slope[c] * b->oxygen.factor[c];
        s->humified_slope[c] = b->potential.humified_slope[c] * b->oxygen.factor[c];
    }
}

static lane soil_capacity(const struct step *s, int i)
{
    return s->balance->outside.soil_J_per_m3K * s->balance->pile->mesh->soil_volume_m3[i];
}

static void matrix_face(struct step *s, int f, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    int a = mesh->face[f].a, b = mesh->face[f].b, band = mesh->band;
    int ra = MESH_SOILS + a, rb = MESH_SOILS + b;
    const struct transport_slope *slope = &s->face_slope[f];
    lane ga = hg * s->per_capacity[a], gb = hg * s->per_capacity[b];
    s->matrix[band_at(band, ra, ra)] += ga * (slope->heat_a - s->water_J[a] * slope->water_a);
    s->matrix[band_at(band, ra, rb)] += gb * (slope->heat_b - s->water_J[a] * slope->water_b);
    s->matrix[band_at(band, rb, ra)] -= ga * (slope->heat_a - s->water_J[b] * slope->water_a);
    s->matrix[band_at(band, rb, rb)] -= gb * (slope->heat_b - s->water_J[b] * slope->water_b);
}

static void matrix_out(struct step *s, int o, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    int c = mesh->out[o].cell, row = MESH_SOILS + c, band = mesh->band;
    const struct transport_out_slope *slope = &s->out_slope[o];
    lane g = hg * s->per_capacity[c];
    s->matrix[band_at(band, row, row)] +=
        g * (slope->air_heat + slope->vapour_heat + slope->film_heat -
             s->water_J[c] * (slope->air_water + slope->vapour_water));
    if (mesh->out[o].side == MESH_BASE) {
        int soil = MESH_SOILS - 1;
        lane gs = hg / soil_capacity(s, soil);
        s->matrix[band_at(band, row, soil)] += gs * slope->soil_heat;
        s->matrix[band_at(band, soil, row)] -= g * slope->film_heat;
        s->matrix[band_at(band, soil, soil)] -= gs * slope->soil_heat;
    }
}

static void matrix_soil(struct step *s, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    int band = mesh->band;
    for (int l = 0; l < mesh->links; l++) {
        int a = mesh->link[l].a, b = mesh->link[l].b;
        lane ga = hg * s->link_W_per_K[l] / soil_capacity(s, a);
        s->matrix[band_at(band, a, a)] += ga;
        if (b < 0)
            continue;
        lane gb = hg * s->link_W_per_K[l] / soil_capacity(s, b);
        s->matrix[band_at(band, a, b)] -= gb;
        s->matrix[band_at(band, b, a)] -= ga;
        s->matrix[band_at(band, b, b)] += gb;
    }
}

static void factor(struct step *s, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    int band = mesh->band, size = mesh->nodes * (2 * band + 1);
    for (int i = 0; i < size; i++)
        s->matrix[i] = lane_of(0);
    for (int i = 0; i < mesh->nodes; i++)
        s->matrix[band_at(band, i, i)] = lane_of(1);
    if (mesh->shape == MESH_POINT)
        s->matrix[band_at(band, MESH_SOILS, MESH_SOILS)] += hg * (1.0 / BALANCE_JAR_S);
    for (int f = 0; f < mesh->faces; f++)
        matrix_face(s, f, hg);
    for (int o = 0; o < mesh->outs; o++)
        matrix_out(s, o, hg);
    matrix_soil(s, hg);
    band_factor(s->matrix, mesh->nodes, band);
}

/* Drainage, from the top cell downward: z takes what drains from above and gives what drains. */
static void solve_drain(struct step *s, lane hg, lane *heat, lane *water)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    for (int c = mesh->cells - 1; c >= 0; c--) {
        water[c] = water[c] / (1.0 + hg * s->drain_slope[c]);
        lane drained = hg * s->drain_slope[c] * water[c];
        int below = transport_below(mesh, c);
        heat[c] -= drained * s->drain_heat_J[c];
        if (below >= 0) {
            water[below] += drained;
            heat[below] += drained * s->drain_heat_J[c];
        }
    }
}

/* Heat and water from the temperatures solved for: what a face takes from one side it gives the
 * other. `warmer`: temperature part of z, cells and soil. */
static void spread(struct step *s, lane hg, const lane *warmer, lane *heat, lane *water, lane *soil)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    const lane *cell = warmer + MESH_SOILS;
    for (int f = 0; f < mesh->faces; f++) {
        int a = mesh->face[f].a, b = mesh->face[f].b;
        const struct transport_slope *slope = &s->face_slope[f];
        lane dh = hg * (slope->heat_a * cell[a] + slope->heat_b * cell[b]);
        lane dw = hg * (slope->water_a * cell[a] + slope->water_b * cell[b]);
        heat[a] -= dh;
        heat[b] += dh;
        water[a] -= dw;
        water[b] += dw;
    }
    for (int o = 0; o < mesh->outs; o++) {
        int c = mesh->out[o].cell;
        const struct transport_out_slope *slope = &s->out_slope[o];
        lane through = hg * (slope->film_heat * cell[c] + slope->soil_heat * warmer[MESH_SOILS - 1]);
        heat[c] -= through + hg * (slope->air_heat + slope->vapour_heat) * cell[c];
        water[c] -= hg * (slope->air_water + slope->vapour_water) * cell[c];
        if (mesh->out[o].side == MESH_BASE)
            soil[MESH_SOILS - 1] += through;
    }
    if (mesh->shape == MESH_POINT)
        heat[0] -= hg * (1.0 / BALANCE_JAR_S) * s->capacity[0] * cell[0];
    for (int l = 0; l < mesh->links; l++) {
        int a = mesh->link[l].a, b = mesh->link[l].b;
        lane dh = hg * s->link_W_per_K[l] * (warmer[a] - (b >= 0 ? warmer[b] : lane_of(0)));
        soil[a] -= dh;
        if (b >= 0)
            soil[b] += dh;
    }
}

/* Solves (I - h g A) z = z in place and adds stage i's share to the sums for the books. */
static void solve(struct step *s, int stage, lane hg)
{
    const struct pile *pile = s->balance->pile;
    int cells = pile->mesh->cells, stride = pile->stride;
    lane *heat = s->z + STATE_HEAT_J * stride, *water = s->z + STATE_WATER_KG * stride;
    lane *soil = s->z + STATES * stride, *warmer = s->warmer;
    solve_drain(s, hg, heat, water);
    for (int i = 0; i < MESH_SOILS; i++)
        warmer[i] = soil[i];
    for (int c = 0; c < cells; c++) {
        s->drain_sum[c] += B[stage] * water[c];
        warmer[MESH_SOILS + c] = heat[c] - s->water_J[c] * water[c];
    }
    band_solve(s->matrix, pile->mesh->nodes, pile->mesh->band, warmer);
    for (int i = 0; i < MESH_SOILS; i++) {
        warmer[i] /= soil_capacity(s, i);
        s->soil_sum[i] += B[stage] * warmer[i];
    }
    for (int c = 0; c < cells; c++) {
        warmer[MESH_SOILS + c] *= s->per_capacity[c];
        s->over_sum[c] += B[stage] * warmer[MESH_SOILS + c];
    }
    spread(s, hg, warmer, heat, water, soil);
}

/* Mineral nitrogen against growth, and the gas reading: each cell's own. What nitrogen the linear
 * part takes up goes into microbes and humus, so nitrogen closes too. */
static void solve_local(struct step *s, lane hg)
{
    const struct balance *b = s->balance;
    int stride = b->pile->stride;
    lane *nitrogen = s->z + STATE_NITROGEN_KG * stride, *microbe = s->z + STATE_MICROBE_KG * stride;
    lane *humus = s->z + STATE_HUMUS_KG * stride, *oxygen = s->z + STATE_OXYGEN * stride;
    lane lag = 1.0 / (1.0 + hg / b->gas_lag_s);
    for (int c = 0; c < b->pile->mesh->cells; c++) {
        lane taken = s->grown_slope[c] / b->decay.microbe_c_to_n +
                     s->humified_slope[c] / b->decay.humus_c_to_n;
        lane n = nitrogen[c] / (1.0 + hg * taken);
        nitrogen[c] = n;
        microbe[c] += hg * s->grown_slope[c] * n;
        humus[c] += hg * s->humified_slope[c] * n;
        oxygen[c] *= lag;
    }
}

/* Books stage i: rates of named fluxes, and what the pools are to be corrected by. */
static void book_stage(struct step *s, int stage, lane size)
{
    const struct balance *b = s->balance;
    lane weight = size * B[stage];
    for (int k = 0; k < FLUXES; k++)
        s->flux[k] += weight * b->transport.flux[k];
    for (int c = 0; c < b->pile->mesh->cells; c++) {
        s->oxygen_sum[c] += weight * b->oxygen_kg[c];
        s->water_sum[c] += weight * b->water_kg[c];
        s->nitrogen_sum[c] += weight * b->pool_nitrogen_kg[c];
        s->carbon_sum += weight * b->carbon_kg[c];
    }
}

/* Books the linear part of the whole step. */
static void book_linear(struct step *s, lane hg)
{
    static const enum flux FILM[] = {FLUX_top_heat, FLUX_wall_heat, FLUX_ground_heat};
    const struct mesh *mesh = s->balance->pile->mesh;
    for (int o = 0; o < mesh->outs; o++) {
        const struct transport_out_slope *slope = &s->out_slope[o];
        lane warmer = hg * s->over_sum[mesh->out[o].cell];
        s->flux[FLUX_air_heat] -= slope->air_heat * warmer;
        s->flux[FLUX_vapour_heat] -= slope->vapour_heat * warmer;
        s->flux[FLUX_air_water] -= slope->air_water * warmer;
        s->flux[FLUX_vapour_water] -= slope->vapour_water * warmer;
        s->flux[FILM[mesh->out[o].side]] -=
            slope->film_heat * warmer + hg * slope->soil_heat * s->soil_sum[MESH_SOILS - 1];
    }
    if (mesh->shape == MESH_POINT)
        s->flux[FLUX_wall_heat] -= hg * (1.0 / BALANCE_JAR_S) * s->capacity[0] * s->over_sum[0];
    for (int c = 0; c < mesh->cells && transport_below(mesh, c) < 0; c++) {
        lane drained = hg * s->drain_slope[c] * s->drain_sum[c];
        s->flux[FLUX_leachate_water] -= drained;
        s->flux[FLUX_leachate_heat] -= drained * s->drain_heat_J[c];
    }
}

static void clear_sums(struct step *s)
{
    int cells = s->balance->pile->mesh->cells;
    lane *sum[] = {s->over_sum, s->drain_sum, s->oxygen_sum, s->water_sum, s->nitrogen_sum};
    for (size_t i = 0; i < sizeof sum / sizeof *sum; i++)
        for (int c = 0; c < cells; c++)
            sum[i][c] = lane_of(0);
    for (int i = 0; i < MESH_SOILS; i++)
        s->soil_sum[i] = lane_of(0);
    for (int k = 0; k < FLUXES; k++)
        s->flux[k] = lane_of(0);
    s->carbon_sum = lane_of(0);
}

/* to = from + sum over earlier stages of weight[j] k[j] */
static void combine(const struct step *s, int stages, const double weight[STEP_STAGES], double over,
                    const lane *from, lane *to)
{
    int length = pile_length(s->balance->pile);
    const lane *k0 = s->k[0], *k1 = s->k[1], *k2 = s->k[2], *k3 = s->k[3];
    double w0 = weight[0] * over, w1 = weight[1] * over, w2 = weight[2] * over, w3 = weight[3] * over;
    for (int n = 0; n < length; n++) {
        lane sum = from ? from[n] : lane_of(0);
        sum += w0 * k0[n];
        if (stages > 1)
            sum += w1 * k1[n];
        if (stages > 2)
            sum += w2 * k2[n];
        if (stages > 3)
            sum += w3 * k3[n];
        to[n] = sum;
    }
}

/* A stage's state must have water, microbes, nitrogen and a vapour pressure below boiling. */
static lane_mask out_of_range(const struct step *s, const lane *y)
{
    const struct pile *pile = s->balance->pile;
    lane least = lane_of(1);
    for (int c = 0; c < pile->mesh->cells; c++) {
        least = lane_min(least, y[STATE_WATER_KG * pile->stride + c]);
        least = lane_min(least, y[STATE_MICROBE_KG * pile->stride + c]);
        least = lane_min(least, y[STATE_NITROGEN_KG * pile->stride + c]);
        least = lane_min(least, y[STATE_OXYGEN * pile->stride + c]);
    }
    return ~lane_less(lane_of(0), least);
}

static lane_mask make_stage(struct step *s, int stage, lane size, lane rain)
{
    struct balance *b = s->balance;
    int length = pile_length(b->pile);
    lane hg = size * G;
    double moment = 0;
    for (int j = 0; j < stage; j++)
        moment += ALPHA[stage][j];
    if (stage == 0)
        for (int n = 0; n < length; n++)
            s->y[n] = b->pile->y[n];
    else
        combine(s, stage, ALPHA[stage], 1.0, b->pile->y, s->y);
    around_fill(s->around, s->time_s + size * moment, &b->outside);
    b->outside.rain_kg_per_m2s = rain;
    balance_fill(b, s->y, s->rate);
    if (stage == 0) {
        hold_slopes(s);
        factor(s, hg);
        for (int n = 0; n < length; n++)
            s->w[n] = lane_of(0);
    } else {
        combine(s, stage, GAMMA[stage], 1.0 / G, NULL, s->w);
    }
    book_stage(s, stage, size);
    for (int n = 0; n < length; n++)
        s->z[n] = size * s->rate[n] + s->w[n];
    solve(s, stage, hg);
    solve_local(s, hg);
    for (int n = 0; n < length; n++)
        s->k[stage][n] = s->z[n] - s->w[n];
    return out_of_range(s, s->y) | ~lane_less(b->vapour_share, lane_of(0.9));
}

/* Root mean square over cells of the largest of the errors in temperature, water and clocks, in
 * kelvin or its equivalent. s->y holds the new state, s->z the error. */
static lane error_of(const struct step *s)
{
    const struct pile *pile = s->balance->pile;
    int stride = pile->stride;
    lane sum = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane water = s->z[STATE_WATER_KG * stride + c];
        lane heat = s->z[STATE_HEAT_J * stride + c] - s->water_J[c] * water;
        lane dry = pile_state(pile, STATE_DRY_KG)[c];
        /* sensible capacity, not the far larger one while freezing */
        lane sensible = READ_ORGANIC_J_PER_KGK * dry +
                        READ_WATER_J_PER_KGK * pile_state(pile, STATE_WATER_KG)[c];
        lane e = lane_abs(heat) / sensible;
        e = lane_max(e, lane_abs(water) /
                        (WATER_PER_K * (dry + pile_state(pile, STATE_WATER_KG)[c])));
        for (int k = 0; k < POOLS; k++)
            e = lane_max(e, lane_abs(s->z[(STATE_CLOCK + k) * stride + c]) * (1.0 / CLOCK_D_PER_K));
        sum += e * e;
    }
    return ESTIMATE_COUNTS * lane_sqrt(sum / (double)pile->mesh->cells);
}

/* 1 - e^-q to round-off by its series: ten terms for q up to 0.17, six for q up to 0.025. A step is
 * at most four hours; the fast pools' rates are at most 1 a day, the slow ones' 0.15. */
static inline lane lost_share(lane q, int terms)
{
    lane s = 1.0 - q * (1.0 / terms);
    for (int n = terms - 1; n >= 2; n--)
        s = 1.0 - q * (1.0 / n) * s;
    return q * s;
}

static inline void age(lane *restrict left, lane *restrict lost, const lane *restrict clock,
                       lane rate, int cells, int terms)
{
    for (int c = 0; c < cells; c++) {
        lost[c] = left[c] * lost_share(rate * clock[c], terms);
        left[c] -= lost[c];
    }
}

static void add_times(lane *restrict to, const lane *restrict lost, lane times, int cells)
{
    for (int c = 0; c < cells; c++)
        to[c] += times * lost[c];
}

/* What one pool of every cell gives up over its clock; it moves to its closed form. */
static void age_pool(struct step *s, const struct pile_stuff *stuff, int kind, enum pool pool)
{
    static const double OXYGEN[] = {AMOUNT_SUGAR_OXYGEN, 0, AMOUNT_SUGAR_OXYGEN, AMOUNT_LIGNIN_OXYGEN};
    static const double WATER[] = {AMOUNT_FAST_WATER, 0, AMOUNT_SLOW_WATER, AMOUNT_LIGNIN_WATER};
    static const double DRY[] = {AMOUNT_FAST_DRY, 0, AMOUNT_SLOW_DRY, AMOUNT_LIGNIN_DRY};
    const struct pile *pile = s->balance->pile;
    int cells = pile->mesh->cells;
    bool protein = pool == POOL_PROTEIN;
    const lane *clock = s->y + (STATE_CLOCK + (int)pool) * pile->stride;
    lane *left = pile_pool(pile, kind, pool), *lost = s->lost;
    if (pool == POOL_FAST || protein)
        age(left, lost, clock, stuff->rate_per_d[pool], cells, 10);
    else
        age(left, lost, clock, stuff->rate_per_d[pool], cells, 6);
    add_times(s->given.carbon, lost, lane_of(1), cells);
    add_times(s->given.oxygen, lost, protein ? stuff->protein_oxygen : lane_of(OXYGEN[pool]), cells);
    add_times(s->given.water, lost, protein ? stuff->protein_water : lane_of(WATER[pool]), cells);
    add_times(s->given.dry, lost, protein ? stuff->protein_dry : lane_of(DRY[pool]), cells);
    if (protein)
        add_times(s->given.nitrogen, lost, stuff->protein_nitrogen, cells);
}

/* Carbon, oxygen demand, water, nitrogen and dry mass that each cell's pools give up, exactly.
 * Members whose step is not accepted have their clocks stopped. */
static void age_pools(struct step *s, lane_mask good)
{
    const struct pile *pile = s->balance->pile;
    struct step_given *g = &s->given;
    for (int c = 0; c < pile->mesh->cells; c++) {
        g->carbon[c] = g->oxygen[c] = g->water[c] = g->nitrogen[c] = g->dry[c] = lane_of(0);
        for (int k = 0; k < POOLS; k++) {
            lane *clock = &s->y[(STATE_CLOCK + k) * pile->stride + c];
            *clock = lane_if(good, *clock, lane_of(0));
        }
    }
    for (int kind = 0; kind < pile->stuffs; kind++)
        for (int k = 0; k < POOLS; k++)
            age_pool(s, &pile->stuff[kind], kind, (enum pool)k);
}

/* Folds one cell's clocks into its pools and puts heat, water and nitrogen on the closed form. */
static void fold_cell(struct step *s, int c)
{
    struct balance *b = s->balance;
    struct pile *pile = b->pile;
    int stride = pile->stride;
    lane gain[STATES];
    for (int k = 0; k < POOLS; k++)
        s->y[(STATE_CLOCK + k) * stride + c] = lane_of(0);
    for (int k = STATE_MICROBE_KG; k <= STATE_SOUR_KG; k++)
        gain[k] = s->y[k * stride + c] - pile->y[k * stride + c];
    const struct step_given *g = &s->given;
    lane microbe = gain[STATE_MICROBE_KG], humus = gain[STATE_HUMUS_KG], sour = gain[STATE_SOUR_KG];
    lane oxygen = g->oxygen[c] - AMOUNT_MICROBE_OXYGEN * microbe - AMOUNT_HUMUS_OXYGEN * humus -
                  AMOUNT_SOUR_OXYGEN * sour - s->oxygen_sum[c];
    lane water = g->water[c] - AMOUNT_MICROBE_WATER * microbe - AMOUNT_HUMUS_WATER * humus -
                 AMOUNT_SOUR_WATER * sour - s->water_sum[c];
    s->y[STATE_HEAT_J * stride + c] += oxygen * b->heat_J_per_kg;
    s->y[STATE_WATER_KG * stride + c] += water;
    s->y[STATE_NITROGEN_KG * stride + c] += g->nitrogen[c] - s->nitrogen_sum[c];
    s->y[STATE_DRY_KG * stride + c] = pile->y[STATE_DRY_KG * stride + c] - g->dry[c] +
                                      AMOUNT_MICROBE_DRY * microbe + AMOUNT_HUMUS_DRY * humus +
                                      AMOUNT_SOUR_DRY * sour;
    s->flux[FLUX_decay_heat] += oxygen * b->heat_J_per_kg;
    s->flux[FLUX_decay_water] += water;
    s->flux[FLUX_co2_carbon] -= g->carbon[c] - microbe - humus - sour;
}

static void accept(struct step *s, lane_mask good, lane size)
{
    struct pile *pile = s->balance->pile;
    int length = pile_length(pile);
    s->flux[FLUX_co2_carbon] = lane_of(0); /* from here on by closed form */
    age_pools(s, good);
    for (int c = 0; c < pile->mesh->cells; c++)
        fold_cell(s, c);
    lane exact = -s->flux[FLUX_co2_carbon];
    s->respired_exact += lane_if(good, exact, lane_of(0));
    s->respired_sum += lane_if(good, s->carbon_sum, lane_of(0));
    for (int n = 0; n < length; n++)
        pile->y[n] = lane_if(good, s->y[n], pile->y[n]);
    for (int k = 0; k < FLUXES; k++)
        s->flux[k] = lane_if(good, s->flux[k], lane_of(0));
    s->time_s += lane_if(good, size, lane_of(0));
    balance_store(s->balance);
}

/* The next step by the errors of this and the last (PI), at most doubled, less after a failure. */
static lane next_size(struct step *s, lane_mask good, lane_mask broken, lane error, lane size)
{
    lane e = lane_max(error / s->tolerance_K, lane_of(1e-4));
    lane log_e = lane_log(lane_if(broken, lane_of(1e4), e));
    lane before = lane_log(s->error_before);
    lane grow = lane_exp(-0.25 * log_e + 0.08 * before) * 0.9;
    lane shrink = lane_exp(log_e * (-1.0 / 3.0)) * 0.85;
    lane factor = lane_if(good, lane_min(lane_max(grow, lane_of(0.3)), lane_of(2)),
                          lane_min(lane_max(shrink, lane_of(0.1)), lane_of(0.7)));
    s->error_before = lane_if(good, e, s->error_before);
    return lane_min(size * lane_if(broken, lane_of(0.25), factor), s->longest_s);
}

lane_mask step_try(struct step *s, lane until_s)
{
    lane left = until_s - s->time_s;
    lane_mask waiting = lane_less(lane_of(0), left); /* members still on their way */
    /* two even steps rather than a long and a tiny one */
    lane even = lane_if(lane_less(left, 2.0 * s->size_s), 0.5 * left, s->size_s);
    lane size = lane_if(lane_at_most(left, s->size_s * 1.0001), left, even);
    size = lane_if(waiting, size, lane_of(0));
    lane rain = around_rain(s->around, s->time_s, size);
    clear_sums(s);
    lane_mask broken = lane_less(lane_of(1), lane_of(0));
    for (int stage = 0; stage < STEP_STAGES; stage++)
        broken |= make_stage(s, stage, size, rain);
    book_linear(s, size * G);
    double difference[STEP_STAGES];
    for (int i = 0; i < STEP_STAGES; i++)
        difference[i] = B[i] - B_LOW[i];
    combine(s, STEP_STAGES, difference, 1.0, NULL, s->z);
    combine(s, STEP_STAGES, B, 1.0, s->balance->pile->y, s->y);
    broken |= out_of_range(s, s->y);
    lane error = error_of(s);
    broken |= ~lane_at_most(error, lane_of(1e30)); /* not a number */
    lane_mask good = waiting & ~broken & lane_at_most(error, s->tolerance_K);
    s->size_s = lane_if(waiting, next_size(s, good, broken, error, size), s->size_s);
    s->failed |= waiting & ~good & lane_less(s->size_s, lane_of(SHORTEST_S));
    accept(s, good, size);
    /* a step cut short by the stop says nothing of how long the next may be */
    return good;
}
