/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/blend.c - see ask/blend.h. */
#include "ask/blend.h"
#include "pile/read.h"
#include "run/setting.h"
#include <math.h>
#include <stdlib.h>

double blend_figure(const struct blend *b, enum blend_figure figure)
{
    double wet = b->dry_kg + b->water_kg;
    switch (figure) {
    case BLEND_C_TO_N: return b->nitrogen_kg > 0 ? b->carbon_kg / b->nitrogen_kg : (double)NAN;
    case BLEND_WATER_SHARE: return wet > 0 ? b->water_kg / wet : (double)NAN;
    case BLEND_FREE_AIR:
        return b->built_m3 > 0 ? read_free_air(b->solid_m3, b->water_kg, b->built_m3) : (double)NAN;
    case BLEND_BULK: return b->built_m3 > 0 ? wet / b->built_m3 : (double)NAN;
    case BLEND_BUILT: return b->built_m3;
    case BLEND_CARRIED: return b->carried_m3;
    case BLEND_SETTLED: return b->settled_m3;
    case BLEND_WET_KG: return wet;
    case BLEND_FIGURES: break;
    }
    return NAN;
}

void blend_add(struct blend *sum, const struct blend *more, double times)
{
    sum->carbon_kg += times * more->carbon_kg;
    sum->nitrogen_kg += times * more->nitrogen_kg;
    sum->dry_kg += times * more->dry_kg;
    sum->water_kg += times * more->water_kg;
    sum->solid_m3 += times * more->solid_m3;
    sum->carried_m3 += times * more->carried_m3;
    sum->loose_m3 += times * more->loose_m3;
    sum->built_m3 += times * more->built_m3;
    sum->settled_m3 += times * more->settled_m3;
}

double blend_water_wanted(const struct blend *b, double share)
{
    return b->dry_kg * share / (1 - share) - b->water_kg;
}

static double solid_of(double dry_kg, double ash_kg)
{
    return (dry_kg - ash_kg) / READ_ORGANIC_KG_PER_M3 + ash_kg / READ_ASH_KG_PER_M3;
}

static double total(const struct pile *pile, const lane *amount)
{
    return lane_get(pile_total(pile, amount), 0);
}

/* The books of the season weigh it: pile_weigh. */
static void read_pile(struct blend *b, const struct pile *pile, const struct param *param)
{
    struct pile_weighed w = pile_weigh(pile, lane_of(param->microbe_c_to_n),
                                       lane_of(param->humus_c_to_n));
    b->carbon_kg = lane_get(w.carbon_kg, 0);
    b->nitrogen_kg = lane_get(w.nitrogen_kg, 0);
    b->water_kg = lane_get(w.water_kg, 0);
    b->dry_kg = total(pile, pile_state(pile, STATE_DRY_KG));
    b->solid_m3 = solid_of(b->dry_kg, total(pile, pile->stock[STOCK_ASH_KG]));
    b->built_m3 = total(pile, pile->mesh->volume_m3);
    b->carried_m3 = total(pile, pile->stock[STOCK_FRESH_M3]);
    b->loose_m3 = total(pile, pile->stock[STOCK_LOOSE_M3]);
    /* pressed further than it would settle is settled */
    b->settled_m3 = fmin(total(pile, pile->stock[STOCK_SETTLED_M3]), b->built_m3);
}

bool blend_pile(struct blend *blend, const struct scenario *scenario, const struct possible *possible,
                const struct curve *sky, struct trouble *why)
{
    struct setup setup = {.scenario = scenario, .possible = possible, .sky = &sky};
    struct setting *setting = malloc(sizeof *setting);
    *blend = (struct blend){0};
    if (!setting)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a pile");
    bool made = setting_make(setting, &setup, why);
    if (made) {
        setting_build(setting);
        read_pile(blend, &setting->pile, &possible->param);
        setting_free(setting);
    }
    free(setting);
    return made;
}

double blend_pressed(const struct blend *pile)
{
    return pile->loose_m3 > 0 ? pile->built_m3 / pile->loose_m3 : 1;
}

static double held(const struct move_batch *batch, int which)
{
    return lane_get(batch->amount[which], 0);
}

void blend_portion(struct blend *b, const struct scenario *scenario, const struct possible *possible,
                   const struct plan_portion *portion, double pressed)
{
    struct lay lay = {.scenario = scenario, .possible = possible, .kinds = 1,
                      .kind = {{portion->stuff, portion->piece_m}}};
    struct pile pile = {.stuffs = 1};
    struct plan_layer layer = {.portions = 1, .portion = {*portion}};
    struct move_batch batch;
    const struct param *param = &possible->param;
    lay_stuffs(&lay, &pile);
    lay_batch(&lay, &pile, &layer, lane_of(0), &batch);
    double microbe = held(&batch, move_of_state(STATE_MICROBE_KG));
    double humus = held(&batch, move_of_state(STATE_HUMUS_KG));
    *b = (struct blend){0};
    b->carbon_kg = microbe + humus + held(&batch, move_of_stock(STOCK_INERT_C_KG));
    for (int k = 0; k < POOLS; k++)
        b->carbon_kg += held(&batch, move_of_pool(0, (enum pool)k));
    b->nitrogen_kg = microbe / param->microbe_c_to_n + humus / param->humus_c_to_n +
                     held(&batch, move_of_state(STATE_NITROGEN_KG)) +
                     lane_get(pile.stuff[0].protein_nitrogen, 0) *
                         held(&batch, move_of_pool(0, POOL_PROTEIN));
    b->water_kg = held(&batch, move_of_state(STATE_WATER_KG));
    b->dry_kg = held(&batch, move_of_state(STATE_DRY_KG));
    b->solid_m3 = solid_of(b->dry_kg, held(&batch, move_of_stock(STOCK_ASH_KG)));
    b->carried_m3 = held(&batch, move_of_stock(STOCK_FRESH_M3));
    b->loose_m3 = held(&batch, move_of_stock(STOCK_LOOSE_M3));
    b->built_m3 = pressed * b->loose_m3;
    b->settled_m3 = fmin(held(&batch, move_of_stock(STOCK_SETTLED_M3)), b->built_m3);
}

void blend_poured(struct blend *b, const struct possible *possible, double water_kg)
{
    struct span span = {water_kg, water_kg, water_kg};
    *b = (struct blend){.water_kg = possible_poured_kg(possible, &span)};
}
