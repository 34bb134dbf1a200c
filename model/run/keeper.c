/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/keeper.c - see run/keeper.h. */
#include "run/keeper.h"
#include "flow/gas.h"
#include "know/bound.h"
#include "pile/read.h"

/* a lid or wall that is shut leaks this much all the same */
static const double LEAK = 1e-4;
/* vapour in still air, 2.6e-5 m2/s at 1.2 kg/m3; a cover's free air is taken as its open share, and
 * counts squared as in the pile [derived] */
static const double VAPOUR_KG_PER_MS = 3.1e-5;
static const double TAP_K = 4.0;        /* poured water is no colder than this over the ice point */

void keeper_param(struct keeper *h, const struct param param[LANES])
{
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &param[i];
        lane_put(&h->turn_air, i, p->turn_air_kg_per_m3);
        lane_put(&h->turn_lift, i, p->turn_lift);
        lane_put(&h->mixed_share, i, p->mixed_share);
        lane_put(&h->stray_share, i, p->stray_share);
        lane_put(&h->fork_kg_per_s, i, p->fork_kg_per_s);
        lane_put(&h->pour_s_per_kg, i, p->pour_s_per_kg);
        lane_put(&h->top_absorbs, i, p->top_absorbs);
        lane_put(&h->heap_rain, i, p->heap_rain_share);
        lane_put(&h->gaps, i, p->wall_gaps_factor);
        lane_put(&h->laid_warmer, i, p->laid_warmer_K);
        lane_put(&h->resist, i, p->wall_heat_factor);
    }
}

static lane open_share(const struct keeper *h, const struct bound *bound)
{
    if (bound->open_share >= 1.0) /* nothing there is no less open */
        return lane_of(1);
    return lane_min(bound->open_share * h->gaps, lane_of(1));
}

static struct outside_skin skin_of(const struct keeper *h, const struct bound *bound)
{
    struct outside_skin s;
    s.open_share = lane_max(open_share(h, bound), lane_of(LEAK));
    s.heat_m2K_per_W = h->resist * bound->heat_m2K_per_W;
    s.sun_share = lane_of(bound->sun_share);
    s.vapour_m2s_per_kg = lane_of(0);
    s.rain_share = lane_of(bound->rain_share);
    return s;
}

static struct outside_skin top_of(const struct keeper *h, const struct plan_bay *bay,
                                  const struct keeper_covers *covers)
{
    bool bare = bound_rows[bay->lid].open_share >= 1.0;
    struct outside_skin top = skin_of(h, &bound_rows[bay->lid]);
    if (bare)
        top.sun_share = h->top_absorbs;
    if (bay->shape == PLAN_HEAP || bay->shape == PLAN_WINDROW)
        top.rain_share *= h->heap_rain;
    for (int i = 0; i < covers->count; i++) {
        const struct bound *cover = &bound_rows[covers->of[i].row];
        double thick_m = covers->of[i].thick_m;
        top.open_share *= open_share(h, cover);
        top.rain_share *= cover->rain_share;
        top.vapour_m2s_per_kg += thick_m / (VAPOUR_KG_PER_MS * cover->open_share * cover->open_share);
        top.heat_m2K_per_W += h->resist * (cover->heat_m2K_per_W * thick_m);
        if (bare)
            top.sun_share = lane_of(cover->sun_share);
    }
    top.open_share = lane_max(top.open_share, lane_of(LEAK));
    return top;
}

void keeper_skin(struct keeper *h)
{
    for (int i = 0; i < LANES; i++) {
        const struct plan_bay *bay = &h->lay.scenario->bay[h->bay[i]];
        struct outside_skin skin[] = {[MESH_WALL] = skin_of(h, &bound_rows[bay->wall]),
                                      [MESH_BASE] = skin_of(h, &bound_rows[bay->floor]),
                                      [MESH_TOP] = top_of(h, bay, &h->covers[i])};
        skin[MESH_BASE].open_share = open_share(h, &bound_rows[bay->floor]);
        lane_mask one = lane_nobody();
        lane_join(&one, i);
        lane_copy(one, (lane *)h->balance->outside.skin, (const lane *)skin, 3 * LANES_IN(skin[0]));
    }
}

/* Everything a batch brings, under the names of what is added (or, with sign -1, removed). */
void keeper_book(struct keeper *h, const struct move_batch *batch, lane poured_kg, lane poured_J,
                       bool removed)
{
    const struct pile *pile = h->pile;
    const struct decay_law *law = &h->balance->decay;
    double sign = removed ? -1 : 1;
    lane microbe = batch->amount[move_of_state(STATE_MICROBE_KG)];
    lane humus = batch->amount[move_of_state(STATE_HUMUS_KG)];
    lane carbon = microbe + humus + batch->amount[move_of_state(STATE_SOUR_KG)] +
                  batch->amount[move_of_stock(STOCK_INERT_C_KG)];
    lane nitrogen = microbe / law->microbe_c_to_n + humus / law->humus_c_to_n +
                    batch->amount[move_of_state(STATE_NITROGEN_KG)];
    lane seeds = lane_of(0);
    for (int i = 0; i < pile->stuffs; i++) {
        for (int k = 0; k < POOLS; k++) {
            lane pool = batch->amount[move_of_pool(i, (enum pool)k)];
            carbon += pool;
            h->notes.pool_laid_kg[k] += sign * pool * pile_carbon_of(&pile->stuff[i], (enum pool)k).dry;
        }
        lane enclosed = pile_enclosed_dry(&pile->stuff[i], batch->amount[move_of_pool(i, POOL_LIGNIN)]);
        h->notes.pool_laid_kg[POOL_SLOW] += sign * enclosed;
        h->notes.pool_laid_kg[POOL_LIGNIN] -= sign * enclosed;
        nitrogen += pile->stuff[i].protein_nitrogen * batch->amount[move_of_pool(i, POOL_PROTEIN)];
    }
    for (int k = 0; k < SEEDS; k++) {
        lane class = batch->amount[move_of_stock((enum stock)(STOCK_SEED_EASY + k))] +
                     batch->amount[move_of_stock((enum stock)(STOCK_HARDY_EASY + k))];
        seeds += class;
        h->notes.seeds_laid[k] += sign * class;
    }
    for (int k = 0; k < GERMS; k++)
        h->notes.germs_laid[k] += sign * batch->amount[move_of_stock((enum stock)(STOCK_GERM_GUT + k))];
    h->notes.flux[removed ? FLUX_removed_carbon : FLUX_added_carbon] += sign * carbon;
    h->notes.flux[removed ? FLUX_removed_nitrogen : FLUX_added_nitrogen] += sign * nitrogen;
    h->notes.flux[removed ? FLUX_removed_seeds : FLUX_added_seeds] += sign * seeds;
    h->notes.flux[removed ? FLUX_removed_water : FLUX_added_water] +=
        sign * (batch->amount[move_of_state(STATE_WATER_KG)] - poured_kg);
    h->notes.flux[removed ? FLUX_removed_heat : FLUX_added_heat] +=
        sign * (batch->amount[move_of_state(STATE_HEAT_J)] - poured_J);
    h->notes.flux[FLUX_poured_water] += poured_kg;
    h->notes.flux[FLUX_poured_heat] += poured_J;
}

lane keeper_air_K(const struct keeper *h) { return h->balance->outside.over_K; }

lane keeper_laid_K(const struct keeper *h, const struct plan_layer *layer)
{
    if (layer->laid_K > 0)
        return lane_of(layer->laid_K - GAS_ICE_POINT_K);
    double green = 0, all = 1e-9; /* greens come warm from house, stable or swath; the rest lay outside */
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        all += portion->wet_kg.mid;
        if (h->lay.scenario->stuff[portion->stuff].group == STUFF_GREEN)
            green += portion->wet_kg.mid;
    }
    return keeper_air_K(h) + h->laid_warmer * (green / all);
}

lane keeper_pour_K(const struct keeper *h, const struct plan_layer *layer)
{
    if (layer->pour_K > 0)
        return lane_of(layer->pour_K - GAS_ICE_POINT_K);
    return lane_max(keeper_air_K(h), lane_of(TAP_K));
}

/* A layer becomes a batch; the water poured with it comes at its own temperature. */
void keeper_batch(struct keeper *h, const struct plan_layer *layer, struct move_batch *batch)
{
    struct plan_layer dry = *layer;
    dry.water_kg = (struct span){0, 0, 0};
    lay_batch(&h->lay, h->pile, &dry, keeper_laid_K(h, layer), batch);
    lane poured = lay_poured(&h->lay, &layer->water_kg);
    lane heat = poured * read_water_enthalpy(keeper_pour_K(h, layer));
    batch->amount[move_of_state(STATE_WATER_KG)] += poured;
    batch->amount[move_of_state(STATE_HEAT_J)] += heat;
    keeper_book(h, batch, poured, heat, false);
}

void keeper_warm_soil(struct keeper *h, lane_mask who)
{
    const struct outside *out = &h->balance->outside;
    lane *soil = pile_soil(h->pile);
    for (int i = 0; i < MESH_SOILS; i++)
        soil[i] = lane_if(who, out->ground_over_K[MESH_SOIL_LAYERS - 1 - i / MESH_RINGS] *
                                   out->soil_J_per_m3K * h->pile->mesh->soil_volume_m3[i], soil[i]);
}

lane keeper_frozen_crust(const struct keeper *h)
{
    const struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    int first = mesh->row_first[mesh->rows - 1];
    lane liquid = lane_of(0), all = lane_of(0);
    for (int c = first; c < first + mesh->row_cols[mesh->rows - 1]; c++) {
        lane ash = pile->stock[STOCK_ASH_KG][c], water = pile_state(pile, STATE_WATER_KG)[c];
        struct read_heat heat = read_heat(pile_state(pile, STATE_HEAT_J)[c],
                                          pile_state(pile, STATE_DRY_KG)[c] - ash, ash, water);
        liquid += water * heat.liquid_share;
        all += water;
    }
    return lane_max(1.0 - liquid / all, lane_of(0));
}

lane keeper_wet_kg(const struct pile *pile)
{
    return pile_total(pile, pile_state(pile, STATE_WATER_KG)) +
           pile_total(pile, pile_state(pile, STATE_DRY_KG));
}
