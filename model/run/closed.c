/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/closed.c - see run/closed.h. */
#include "run/closed.h"

void closed_take(struct closed *s, struct balance *balance, struct arena *arena)
{
    size_t cells = (size_t)balance->pile->stride;
    s->balance = balance;
    lane **each[] = {&s->oxygen_sum, &s->water_sum, &s->nitrogen_sum, &s->lost, &s->given.carbon,
                     &s->given.oxygen, &s->given.water, &s->given.nitrogen, &s->given.dry};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = arena_take(arena, cells, sizeof(lane));
}

void closed_clear(struct closed *s)
{
    for (int c = 0; c < s->balance->pile->mesh->cells; c++)
        s->oxygen_sum[c] = s->water_sum[c] = s->nitrogen_sum[c] = lane_of(0);
    s->carbon_sum = lane_of(0);
}

void closed_add(struct closed *s, lane weight)
{
    const struct balance *b = s->balance;
    for (int c = 0; c < b->pile->mesh->cells; c++) {
        s->oxygen_sum[c] += weight * b->oxygen_kg[c];
        s->water_sum[c] += weight * b->water_kg[c];
        s->nitrogen_sum[c] += weight * b->pool_nitrogen_kg[c];
        s->carbon_sum += weight * b->carbon_kg[c];
    }
}

void closed_add_linear(struct closed *s, lane hg, const struct implicit *linear)
{
    lane per = 1.0 / s->balance->heat_J_per_kg;
    for (int c = 0; c < s->balance->pile->mesh->cells; c++) {
        lane oxygen = hg * (per * linear->heat_slope[c] * linear->over_sum[c] -
                            linear->bound_slope[c] * linear->nitrogen_sum[c]);
        s->oxygen_sum[c] += oxygen;
        s->nitrogen_sum[c] += hg * linear->freed_slope[c] * linear->over_sum[c];
        s->carbon_sum += oxygen * (1.0 / AMOUNT_SUGAR_OXYGEN);
    }
}

/* 1 - e^-q by its series. A step is at most four hours; the fast pools' rates are at most 2.4 a day, q 0.4, where ten
 * terms are off by 1e-12 of it, the slow ones' 1.2 a day, q 0.2, where six are off by 1e-8. */
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
static void age_pool(struct closed *s, const lane *y, const struct pile_stuff *stuff, int kind, enum pool pool)
{
    const struct pile *pile = s->balance->pile;
    const struct pile_carbon per = pile_carbon_of(stuff, pool);
    int cells = pile->mesh->cells;
    bool protein = pool == POOL_PROTEIN;
    const lane *clock = y + (STATE_CLOCK + (int)pool) * pile->stride;
    lane *left = pile_pool(pile, kind, pool), *lost = s->lost;
    if (pool == POOL_FAST || protein)
        age(left, lost, clock, stuff->rate_per_d[pool], cells, 10);
    else
        age(left, lost, clock, stuff->rate_per_d[pool], cells, 6);
    add_times(s->given.carbon, lost, lane_of(1), cells);
    add_times(s->given.oxygen, lost, per.oxygen, cells);
    add_times(s->given.water, lost, per.water, cells);
    add_times(s->given.dry, lost, per.dry, cells);
    if (protein)
        add_times(s->given.nitrogen, lost, per.nitrogen, cells);
}

/* Carbon, oxygen demand, water, nitrogen and dry mass that each cell's pools give up, exactly.
 * Members whose step is not accepted have their clocks stopped. */
static void age_pools(struct closed *s, lane *y, lane_mask good)
{
    const struct pile *pile = s->balance->pile;
    struct closed_given *g = &s->given;
    for (int c = 0; c < pile->mesh->cells; c++) {
        g->carbon[c] = g->oxygen[c] = g->water[c] = g->nitrogen[c] = g->dry[c] = lane_of(0);
        for (int k = 0; k < POOLS; k++) {
            lane *clock = &y[(STATE_CLOCK + k) * pile->stride + c];
            *clock = lane_if(good, *clock, lane_of(0));
        }
    }
    for (int kind = 0; kind < pile->stuffs; kind++)
        for (int k = 0; k < POOLS; k++)
            age_pool(s, y, &pile->stuff[kind], kind, (enum pool)k);
}

/* Folds one cell's clocks into its pools and puts heat, water and nitrogen on the closed form. */
static void fold_cell(struct closed *s, int c, lane *y, lane flux[FLUXES])
{
    struct balance *b = s->balance;
    struct pile *pile = b->pile;
    int stride = pile->stride;
    lane gain[STATES];
    for (int k = 0; k < POOLS; k++)
        y[(STATE_CLOCK + k) * stride + c] = lane_of(0);
    /* a cooling cell's linear part may take back more acids than souring gave: docs/numerics.md */
    lane *acids = &y[STATE_SOUR_KG * stride + c];
    *acids = lane_max(*acids, lane_of(0));
    for (int k = STATE_MICROBE_KG; k <= STATE_SOUR_KG; k++)
        gain[k] = y[k * stride + c] - pile->y[k * stride + c];
    const struct closed_given *g = &s->given;
    lane microbe = gain[STATE_MICROBE_KG], humus = gain[STATE_HUMUS_KG], sour = gain[STATE_SOUR_KG];
    lane oxygen = g->oxygen[c] - AMOUNT_MICROBE_OXYGEN * microbe - AMOUNT_HUMUS_OXYGEN * humus -
                  AMOUNT_SOUR_OXYGEN * sour - s->oxygen_sum[c];
    lane water = g->water[c] - AMOUNT_MICROBE_WATER * microbe - AMOUNT_HUMUS_WATER * humus -
                 AMOUNT_SOUR_WATER * sour - s->water_sum[c];
    y[STATE_HEAT_J * stride + c] += oxygen * b->heat_J_per_kg;
    y[STATE_WATER_KG * stride + c] += water;
    y[STATE_NITROGEN_KG * stride + c] += g->nitrogen[c] - s->nitrogen_sum[c];
    y[STATE_DRY_KG * stride + c] = pile->y[STATE_DRY_KG * stride + c] - g->dry[c] +
                                      AMOUNT_MICROBE_DRY * microbe + AMOUNT_HUMUS_DRY * humus +
                                      AMOUNT_SOUR_DRY * sour;
    flux[FLUX_decay_heat] += oxygen * b->heat_J_per_kg;
    flux[FLUX_decay_water] += water;
    flux[FLUX_co2_carbon] -= g->carbon[c] - microbe - humus - sour;
}

void closed_nitrogen(struct closed *s, const lane *y, lane *mineral_kg)
{
    const struct pile *pile = s->balance->pile;
    const lane *clock = y + (STATE_CLOCK + (int)POOL_PROTEIN) * pile->stride;
    for (int c = 0; c < pile->mesh->cells; c++)
        mineral_kg[c] = y[STATE_NITROGEN_KG * pile->stride + c] - s->nitrogen_sum[c];
    for (int kind = 0; kind < pile->stuffs; kind++) {
        const struct pile_stuff *stuff = &pile->stuff[kind];
        const lane *left = pile_pool(pile, kind, POOL_PROTEIN);
        for (int c = 0; c < pile->mesh->cells; c++)
            mineral_kg[c] += stuff->protein_nitrogen * left[c] *
                             lost_share(stuff->rate_per_d[POOL_PROTEIN] * clock[c], 10);
    }
}

void closed_fold(struct closed *s, lane *y, lane_mask good, lane flux[FLUXES])
{
    flux[FLUX_co2_carbon] = lane_of(0); /* from here on by closed form */
    age_pools(s, y, good);
    for (int c = 0; c < s->balance->pile->mesh->cells; c++)
        fold_cell(s, c, y, flux);
    s->respired_exact += lane_if(good, -flux[FLUX_co2_carbon], lane_of(0));
    s->respired_sum += lane_if(good, s->carbon_sum, lane_of(0));
}
