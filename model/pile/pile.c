/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/pile.c - see pile/pile.h. */
#include "pile/pile.h"

/* the states that add when cells are mixed */
static const enum state ADDING[] = {STATE_HEAT_J, STATE_WATER_KG, STATE_MICROBE_KG, STATE_HUMUS_KG,
                                    STATE_NITROGEN_KG, STATE_SOUR_KG, STATE_LIVING_KG, STATE_DRY_KG};
enum { ADDINGS = sizeof ADDING / sizeof *ADDING };

void pile_take(struct pile *pile, int stride, int stuffs, struct arena *arena)
{
    size_t cells = (size_t)stride, kinds = (size_t)stuffs;
    pile->stride = stride;
    pile->stuffs = stuffs;
    pile->y = arena_take(arena, STATES * cells + MESH_SOILS, sizeof(lane));
    for (int k = 0; k < STOCKS; k++)
        pile->stock[k] = arena_take(arena, cells, sizeof(lane));
    pile->pool_kg = arena_take(arena, kinds * POOLS * cells, sizeof(lane));
    pile->laid_kg = arena_take(arena, kinds * cells, sizeof(lane));
    pile->dose_kg = arena_take(arena, RULES_STAGES * cells, sizeof(lane));
}

void pile_clear(struct pile *pile, lane_mask who)
{
    const int cells = pile->stride;
    lane_clear(who, pile->y, pile_length(pile));
    for (int k = 0; k < STOCKS; k++)
        lane_clear(who, pile->stock[k], cells);
    lane_clear(who, pile->pool_kg, pile->stuffs * POOLS * cells);
    lane_clear(who, pile->laid_kg, pile->stuffs * cells);
    lane_clear(who, pile->dose_kg, RULES_STAGES * cells);
}

void pile_copy(lane_mask who, struct pile *to, const struct pile *from)
{
    const int cells = to->stride;
    lane_copy(who, to->y, from->y, pile_length(to));
    for (int k = 0; k < STOCKS; k++)
        lane_copy(who, to->stock[k], from->stock[k], cells);
    lane_copy(who, to->pool_kg, from->pool_kg, to->stuffs * POOLS * cells);
    lane_copy(who, to->laid_kg, from->laid_kg, to->stuffs * cells);
    lane_copy(who, to->dose_kg, from->dose_kg, RULES_STAGES * cells);
}

int pile_amounts(const struct pile *pile)
{
    return ADDINGS + STOCKS + pile->stuffs * (POOLS + 1) + RULES_STAGES;
}

lane *pile_amount(const struct pile *pile, int which)
{
    if (which < ADDINGS)
        return pile_state(pile, ADDING[which]);
    which -= ADDINGS;
    if (which < STOCKS)
        return pile->stock[which];
    which -= STOCKS;
    if (which < pile->stuffs * POOLS)
        return pile->pool_kg + which * pile->stride;
    which -= pile->stuffs * POOLS;
    if (which < pile->stuffs)
        return pile_laid(pile, which);
    return pile_dose(pile, which - pile->stuffs);
}

lane pile_total(const struct pile *pile, const lane *amount)
{
    lane sum = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++)
        sum += amount[c];
    return sum;
}

struct pile_weighed pile_weigh(const struct pile *pile, lane microbe_c_to_n, lane humus_c_to_n)
{
    struct pile_weighed w;
    lane microbe = pile_total(pile, pile_state(pile, STATE_MICROBE_KG));
    lane humus = pile_total(pile, pile_state(pile, STATE_HUMUS_KG));
    w.heat_J = pile_total(pile, pile_state(pile, STATE_HEAT_J));
    w.water_kg = pile_total(pile, pile_state(pile, STATE_WATER_KG));
    w.carbon_kg = microbe + humus + pile_total(pile, pile_state(pile, STATE_SOUR_KG)) +
                  pile_total(pile, pile->stock[STOCK_INERT_C_KG]);
    w.nitrogen_kg = microbe / microbe_c_to_n + humus / humus_c_to_n +
                    pile_total(pile, pile_state(pile, STATE_NITROGEN_KG));
    for (int i = 0; i < pile->stuffs; i++) {
        for (int k = 0; k < POOLS; k++)
            w.carbon_kg += pile_total(pile, pile_pool(pile, i, (enum pool)k));
        w.nitrogen_kg += pile->stuff[i].protein_nitrogen *
                         pile_total(pile, pile_pool(pile, i, POOL_PROTEIN));
    }
    w.seeds = lane_of(0);
    for (int k = 0; k < 2 * SEEDS; k++)
        w.seeds += pile_total(pile, pile->stock[STOCK_SEED_EASY + k]);
    return w;
}

struct pile_carbon pile_carbon_of(const struct pile_stuff *stuff, enum pool pool)
{
    const lane none = lane_of(0), enclosed = stuff->enclosed, bare = 1.0 - enclosed;
    switch (pool) {
    case POOL_FAST:
        return (struct pile_carbon){lane_of(AMOUNT_SUGAR_OXYGEN), lane_of(AMOUNT_FAST_WATER), none,
                                    lane_of(AMOUNT_FAST_DRY)};
    case POOL_SLOW:
        return (struct pile_carbon){lane_of(AMOUNT_SUGAR_OXYGEN), lane_of(AMOUNT_SLOW_WATER), none,
                                    lane_of(AMOUNT_SLOW_DRY)};
    case POOL_LIGNIN:
        return (struct pile_carbon){AMOUNT_LIGNIN_OXYGEN * bare + AMOUNT_SUGAR_OXYGEN * enclosed,
                                    AMOUNT_LIGNIN_WATER * bare + AMOUNT_SLOW_WATER * enclosed, none,
                                    AMOUNT_LIGNIN_DRY * bare + AMOUNT_SLOW_DRY * enclosed};
    case POOL_PROTEIN: break;
    }
    return (struct pile_carbon){stuff->protein_oxygen, stuff->protein_water, stuff->protein_nitrogen,
                                stuff->protein_dry};
}

lane pile_enclosed_dry(const struct pile_stuff *stuff, lane lignin_kg)
{
    return AMOUNT_SLOW_DRY * stuff->enclosed * lignin_kg;
}

lane pile_dry(const struct pile *pile, int c)
{
    lane dry = pile->stock[STOCK_ASH_KG][c] + pile->stock[STOCK_INERT_C_KG][c] +
               AMOUNT_MICROBE_DRY * pile_state(pile, STATE_MICROBE_KG)[c] +
               AMOUNT_HUMUS_DRY * pile_state(pile, STATE_HUMUS_KG)[c] +
               AMOUNT_SOUR_DRY * pile_state(pile, STATE_SOUR_KG)[c];
    for (int i = 0; i < pile->stuffs; i++)
        for (int k = 0; k < POOLS; k++)
            dry += pile_carbon_of(&pile->stuff[i], (enum pool)k).dry * pile_pool(pile, i, (enum pool)k)[c];
    return dry;
}
