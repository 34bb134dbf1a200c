/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/step.c - see run/step.h. */
#include "run/step.h"
#include "flow/gas.h"
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
static const double BOILING = 0.9; /* of the air's pressure is vapour: there no stage begins */
/* error weights, per kelvin: clocks by this many days, water by this share of wet mass, the gas
 * reading by this share of itself (without it steps of hours misjudge the draught of a pile that is
 * just igniting: measured, the day of ignition was 0.05 d early at any tolerance) */
static const double CLOCK_D_PER_K = 0.05;
static const double WATER_PER_K = 0.01;
static const double OXYGEN_PER_K = 0.02;
/* The estimate is of order 2, the result of order 3: measured on hot, turned and frozen seasons the
 * estimate overstates the error of a step some tenfold; a quarter of it is still on the safe side
 * (docs/numerics.md). */
static const double ESTIMATE_COUNTS = 0.25;
/* A mean over cells hides the worst of them, the better the more there are: of 1700 cells one froze,
 * was wrong by 30 K and passed. So the worst counts as one of a few. */
static const double FEW_CELLS = 25;
/* Where it gets too hot for bacteria their heat has a corner, and beyond it no slope: a stage that falls
 * back below is thrown up again unseen. Decay of no step may lift a cell by more than this to so far beyond. */
static const double ACROSS_K = 0.5;

/* Stages by what was solved for: k = (I + gamma/G)^-1 z, so that no k is ever kept, and the stages'
 * weights in y, in the right-hand sides, in the result and in its error become these. */
static void weigh_stages(struct step_weights *to)
{
    double k[STEP_STAGES][STEP_STAGES]; /* of k_i, how much of z_j */
    for (int i = 0; i < STEP_STAGES; i++)
        for (int j = 0; j < STEP_STAGES; j++) {
            k[i][j] = i == j;
            for (int n = 0; n < i; n++)
                k[i][j] -= GAMMA[i][n] / G * k[n][j];
        }
    for (int j = 0; j < STEP_STAGES; j++) {
        to->result[j] = to->error[j] = 0;
        for (int i = 0; i < STEP_STAGES; i++) {
            to->right[i][j] = i == j ? 0 : -k[i][j];
            to->state[i][j] = 0;
            for (int n = 0; n < i; n++)
                to->state[i][j] += ALPHA[i][n] * k[n][j];
            to->result[j] += B[i] * k[i][j];
            to->error[j] += (B[i] - B_LOW[i]) * k[i][j];
        }
    }
}

void step_take(struct step *s, struct balance *balance, struct around *around, struct arena *arena)
{
    const struct pile *pile = balance->pile;
    size_t length = (size_t)pile_length(pile);
    s->balance = balance;
    s->around = around;
    for (int i = 0; i < STEP_STAGES; i++)
        s->z[i] = arena_take(arena, length, sizeof(lane));
    s->y = arena_take(arena, length, sizeof(lane));
    weigh_stages(&s->weights);
    implicit_take(&s->implicit, balance, arena);
    closed_take(&s->closed, balance, arena);
}

/* to = times * from + the sum over so many stages of weight[j] z[j]; `to` may be `from` */
static void combine(const struct step *s, int stages, const double weight[STEP_STAGES], lane times,
                    const lane *from, lane *to)
{
    const int length = pile_length(s->balance->pile);
    const lane *z0 = s->z[0], *z1 = s->z[1], *z2 = s->z[2], *z3 = s->z[3];
    const double w0 = weight[0], w1 = weight[1], w2 = weight[2], w3 = weight[3];
    switch (stages) {
    case 0:
        for (int n = 0; n < length; n++)
            to[n] = times * from[n];
        break;
    case 1:
        LANE_APART
        for (int n = 0; n < length; n++)
            to[n] = times * from[n] + w0 * z0[n];
        break;
    case 2:
        LANE_APART
        for (int n = 0; n < length; n++)
            to[n] = times * from[n] + w0 * z0[n] + w1 * z1[n];
        break;
    case 3:
        LANE_APART
        for (int n = 0; n < length; n++)
            to[n] = times * from[n] + w0 * z0[n] + w1 * z1[n] + w2 * z2[n];
        break;
    default:
        LANE_APART
        for (int n = 0; n < length; n++)
            to[n] = times * from[n] + w0 * z0[n] + w1 * z1[n] + w2 * z2[n] + w3 * z3[n];
    }
}

/* A stage's state must have water, no less than nothing of microbes, and a vapour pressure below
 * boiling. Mineral nitrogen that runs out may overshoot by a twentieth of what halves growth: its
 * Monod factor stays harmless there, and it is made good by what is set free. */
static lane_mask out_of_range(const struct step *s, const lane *y)
{
    const struct pile *pile = s->balance->pile;
    lane least = lane_of(1);
    for (int c = 0; c < pile->mesh->cells; c++) {
        least = lane_min(least, y[STATE_WATER_KG * pile->stride + c]);
        lane half = s->balance->decay.nitrogen_half * s->balance->store.carbon_kg[c];
        least = lane_min(least, y[STATE_LIVING_KG * pile->stride + c] + 1e-15);
        least = lane_min(least, y[STATE_NITROGEN_KG * pile->stride + c] + 0.05 * half + 1e-15);
        least = lane_min(least, y[STATE_OXYGEN * pile->stride + c]);
    }
    return ~lane_less(lane_of(0), least);
}

/* Would a cell of the new state boil, so that no step could begin there? Only if one is above 75 C are
 * they looked at more closely: at less, water boils nowhere on earth. */
static lane_mask boils(const struct step *s)
{
    const struct pile *pile = s->balance->pile;
    const struct balance *b = s->balance;
    const lane *heat = s->y, *water = s->y + STATE_WATER_KG * pile->stride;
    const lane *dry = s->y + STATE_DRY_KG * pile->stride;
    lane most = lane_of(0), slope;
    for (int c = 0; c < pile->mesh->cells; c++) { /* ash, since it holds least */
        lane least = READ_ASH_J_PER_KGK * dry[c] + READ_WATER_J_PER_KGK * water[c];
        most = lane_max(most, heat[c] - 75.0 * least);
    }
    if (!lane_any(lane_less(lane_of(0), most)))
        return lane_less(lane_of(1), lane_of(0));
    most = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane ash = b->frame.ash_kg[c];
        lane over_K = read_heat(heat[c], dry[c] - ash, ash, water[c]).over_K;
        most = lane_max(most, read_activity(water[c], dry[c], b->law.activity_half) *
                                  gas_pressure_Pa(over_K, &slope));
    }
    return ~lane_less(most, BOILING * b->law.air_Pa);
}

/* Does decay make a cell leap to beyond where it stops? The sun may, on a dry rim. */
static lane_mask leaps(const struct step *s)
{
    const struct pile *pile = s->balance->pile;
    const lane *water = s->y + STATE_WATER_KG * pile->stride, *dry = s->y + STATE_DRY_KG * pile->stride;
    const lane most = s->balance->decay.hottest + ACROSS_K;
    lane_mask leap = lane_less(lane_of(1), lane_of(0));
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane ash = s->balance->frame.ash_kg[c];
        lane_mask hot = lane_less(read_enthalpy(most, dry[c] - ash, ash, water[c]), s->y[c]);
        if (!lane_any(hot))
            continue;
        lane low_K = read_heat(s->y[c], dry[c] - ash, ash, water[c]).over_K - ACROSS_K;
        lane made_J = s->balance->heat_J_per_kg * s->closed.oxygen_sum[c];
        leap |= hot & lane_less(s->y[c] - made_J, read_enthalpy(low_K, dry[c] - ash, ash, water[c]));
    }
    return leap;
}

/* Mineral nitrogen by what the closed form of the pools will make of the step: where it freed less
 * than the stages thought, growth has built on what isn't there. */
static lane_mask short_of_nitrogen(struct step *s)
{
    const struct balance *b = s->balance;
    lane least = lane_of(1), *mineral = s->closed.lost;
    closed_nitrogen(&s->closed, s->y, mineral);
    for (int c = 0; c < b->pile->mesh->cells; c++)
        least = lane_min(least, mineral[c] + 0.05 * b->decay.nitrogen_half * b->store.carbon_kg[c] + 1e-15);
    return ~lane_less(lane_of(0), least);
}

void step_look(struct step *s)
{
    struct balance *b = s->balance;
    if (s->looked)
        return;
    around_fill(s->around, s->time_s, &b->outside);
    b->outside.rain_kg_per_m2s = lane_of(0);
    balance_fill(b, b->pile->y, s->z[0]);
    s->looked = true;
}

void step_forget(struct step *s)
{
    s->looked = false;
}

/* Rates and slopes at the step's start. */
static void begin(struct step *s, lane size, lane rain)
{
    struct balance *b = s->balance;
    step_look(s);
    step_forget(s);
    b->outside.rain_kg_per_m2s = rain;
    balance_rain(b, b->pile->y, s->z[0]);
    implicit_hold(&s->implicit);
    implicit_thaw(&s->implicit, s->z[0] + STATE_HEAT_J * b->pile->stride, size);
    implicit_factor(&s->implicit, size * G);
}

/* Rates at a later stage. */
static void go_on(struct step *s, int stage, lane size, lane rain)
{
    struct balance *b = s->balance;
    double moment = 0;
    for (int j = 0; j < stage; j++)
        moment += ALPHA[stage][j];
    combine(s, stage, s->weights.state[stage], lane_of(1), b->pile->y, s->y);
    around_fill(s->around, s->time_s + size * moment, &b->outside);
    b->outside.rain_kg_per_m2s = rain;
    balance_fill(b, s->y, s->z[stage]);
}

static lane_mask make_stage(struct step *s, int stage, lane size, lane rain)
{
    struct balance *b = s->balance;
    if (stage == 0)
        begin(s, size, rain);
    else
        go_on(s, stage, size, rain);
    for (int k = 0; k < FLUXES; k++)
        s->flux[k] += size * B[stage] * b->transport.flux[k];
    closed_add(&s->closed, size * B[stage]);
    combine(s, stage, s->weights.right[stage], size, s->z[stage], s->z[stage]);
    implicit_solve(&s->implicit, size * G, B[stage], s->z[stage]);
    return out_of_range(s, stage ? s->y : b->pile->y) |
           ~lane_less(b->vapour_share, lane_of(BOILING));
}

static inline lane error_at(const struct step *s, int n)
{
    const double *w = s->weights.error;
    return w[0] * s->z[0][n] + w[1] * s->z[1][n] + w[2] * s->z[2][n] + w[3] * s->z[3][n];
}

/* Root mean square over cells of the largest of the errors in temperature, water and clocks, in
 * kelvin or its equivalent; at least what the worst would make of FEW_CELLS. */
static lane error_of(const struct step *s)
{
    const struct pile *pile = s->balance->pile;
    int stride = pile->stride;
    lane sum = lane_of(0), worst = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane water = error_at(s, STATE_WATER_KG * stride + c);
        lane heat = error_at(s, STATE_HEAT_J * stride + c) - s->implicit.water_J[c] * water;
        lane dry = pile_state(pile, STATE_DRY_KG)[c];
        /* sensible capacity, not the far larger one while freezing */
        lane sensible = READ_ORGANIC_J_PER_KGK * dry +
                        READ_WATER_J_PER_KGK * pile_state(pile, STATE_WATER_KG)[c];
        lane e = lane_abs(heat) / sensible;
        e = lane_max(e, lane_abs(water) /
                        (WATER_PER_K * (dry + pile_state(pile, STATE_WATER_KG)[c])));
        e = lane_max(e, lane_abs(error_at(s, STATE_OXYGEN * stride + c)) /
                        (OXYGEN_PER_K * pile_state(pile, STATE_OXYGEN)[c]));
        for (int k = 0; k < POOLS; k++)
            e = lane_max(e, lane_abs(error_at(s, (STATE_CLOCK + k) * stride + c)) *
                            (1.0 / CLOCK_D_PER_K));
        sum += e * e;
        worst = lane_max(worst, e * e);
    }
    lane mean = sum / (double)pile->mesh->cells;
    return ESTIMATE_COUNTS * lane_sqrt(lane_max(mean, worst / FEW_CELLS)); /* a mean that is no number stays none */
}

static void accept(struct step *s, lane_mask good, lane size)
{
    struct pile *pile = s->balance->pile;
    int length = pile_length(pile);
    closed_fold(&s->closed, s->y, good, s->flux);
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
    implicit_clear(&s->implicit);
    closed_clear(&s->closed);
    for (int k = 0; k < FLUXES; k++)
        s->flux[k] = lane_of(0);
    lane_mask broken = lane_less(lane_of(1), lane_of(0));
    for (int stage = 0; stage < STEP_STAGES; stage++)
        broken |= make_stage(s, stage, size, rain);
    implicit_book(&s->implicit, size * G, s->flux);
    closed_add_linear(&s->closed, size * G, &s->implicit);
    combine(s, STEP_STAGES, s->weights.result, lane_of(1), s->balance->pile->y, s->y);
    broken |= out_of_range(s, s->y) | short_of_nitrogen(s);
    lane error = error_of(s);
    broken |= ~lane_at_most(error, lane_of(1e30)); /* not a number */
    lane_mask close = lane_at_most(error, s->tolerance_K);
    broken |= close & (boils(s) | leaps(s));
    lane_mask good = waiting & ~broken & close;
    s->size_s = lane_if(waiting, next_size(s, good, broken, error, size), s->size_s);
    s->failed |= waiting & ~good & lane_less(s->size_s, lane_of(SHORTEST_S));
    accept(s, good, size);
    return good;
}
