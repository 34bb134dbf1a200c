/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/balance.c - see run/balance.h. */
#include "run/balance.h"
#include "flow/gas.h"
#include "pile/read.h"

void balance_take(struct balance *b, struct pile *pile, struct arena *arena)
{
    size_t cells = (size_t)pile->stride;
    b->pile = pile;
    medium_take(&b->medium, &b->frame, pile->stride, arena);
    b->store = arena_take(arena, cells, sizeof(struct decay_store));
    b->potential = arena_take(arena, cells, sizeof(struct decay_potential));
    b->rates = arena_take(arena, cells, sizeof(struct decay_rates));
    b->uptake = arena_take(arena, cells, sizeof(lane));
    b->soil_over_K = arena_take(arena, MESH_SOILS, sizeof(lane));
    air_take(&b->air, pile->mesh, arena);
    oxygen_take(&b->oxygen, pile->mesh, arena);
    transport_take(&b->transport, pile->mesh, arena);
}

void balance_param(struct balance *b, const struct param param[LANES], double air_Pa)
{
    b->decay = decay_law_of(param);
    b->law.air_Pa = lane_of(air_Pa);
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &param[i];
        lane_put(&b->law.activity_half, i, p->activity_half);
        lane_put(&b->law.dry_conductivity, i, p->dry_conductivity_W_per_mK);
        lane_put(&b->law.permeability_least, i, p->permeability_least_m2);
        lane_put(&b->law.permeability_most, i, p->permeability_most_m2);
        lane_put(&b->law.diffusion, i, p->diffusion_factor);
        lane_put(&b->gas_lag_s, i, p->gas_lag_s);
        lane_put(&b->heat_J_per_kg, i, p->heat_J_per_kg_oxygen);
        lane_put(&b->press, i, p->press_Pa);
        lane_put(&b->shrink_power, i, p->shrink_power);
        lane_put(&b->creep_days, i, p->creep_days);
        lane_put(&b->hold_factor, i, p->hold_factor);
        lane_put(&b->grain_factor, i, p->permeability_factor);
    }
}

/* Loose volume shrinks with the dry mass lost and creeps toward its settled volume, which shrinks
 * alike. Pieces crumble as they go, so their surface stays. */
static void shrink(struct balance *b, int c, lane days, lane dry_before)
{
    struct pile *pile = b->pile;
    lane ratio = pile_state(pile, STATE_DRY_KG)[c] / dry_before;
    lane left = 1.0 - b->shrink_power * (1.0 - ratio);
    lane loose = left * pile->stock[STOCK_LOOSE_M3][c];
    lane settled = left * pile->stock[STOCK_SETTLED_M3][c];
    lane crept = lane_max(loose - settled, lane_of(0)) * (1.0 - lane_exp(-days / b->creep_days));
    pile->stock[STOCK_STIFF_J][c] *= (loose - crept) / pile->stock[STOCK_LOOSE_M3][c];
    pile->stock[STOCK_LOOSE_M3][c] = loose - crept;
    pile->stock[STOCK_SETTLED_M3][c] = settled;
    pile->stock[STOCK_HOLD_KG][c] *= ratio;
}

static lane solid_volume(const struct pile *pile, int c)
{
    lane ash = pile->stock[STOCK_ASH_KG][c];
    return (pile_state(pile, STATE_DRY_KG)[c] - ash) * (1.0 / READ_ORGANIC_KG_PER_M3) +
           ash * (1.0 / READ_ASH_KG_PER_M3);
}

/* Row by row from the top: a cell is pressed by the rows above and half of its own, V = V0/(1 + s/E),
 * but never closer than its solids and water with 4 % of air. */
static void press(struct balance *b)
{
    struct pile *pile = b->pile;
    struct mesh *mesh = pile->mesh;
    lane above_kg = lane_of(0);
    for (int j = mesh->rows - 1; j >= 0; j--) {
        double area = mesh_row_area(mesh, j);
        lane row_kg = lane_of(0), row_m3 = lane_of(0);
        int first = mesh->row_first[j], end = first + mesh->row_cols[j];
        for (int c = first; c < end; c++)
            row_kg += pile_state(pile, STATE_DRY_KG)[c] + pile_state(pile, STATE_WATER_KG)[c];
        lane stress = (above_kg + 0.5 * row_kg) * (GAS_GRAVITY / area);
        for (int c = first; c < end; c++) {
            lane loose = pile->stock[STOCK_LOOSE_M3][c];
            lane stiff = b->press * pile->stock[STOCK_STIFF_J][c]; /* E V0 */
            lane full = (solid_volume(pile, c) + pile_state(pile, STATE_WATER_KG)[c] *
                         (1.0 / READ_WATER_KG_PER_M3)) * (1.0 / 0.96);
            row_m3 += lane_max(loose * stiff / (stiff + stress * loose), full);
        }
        above_kg += row_kg;
        mesh->row_height_m[j] = row_m3 / area;
    }
}

static void frame_cell(struct balance *b, int c)
{
    struct pile *pile = b->pile;
    lane solid = solid_volume(pile, c), volume = pile->mesh->volume_m3[c];
    lane porosity = 1.0 - solid / volume;
    lane grain = 6.0 * solid / pile->stock[STOCK_SURFACE_M2][c];
    b->frame.solid_m3[c] = solid;
    b->frame.ash_kg[c] = pile->stock[STOCK_ASH_KG][c];
    b->frame.grain_m2[c] = b->grain_factor * grain * grain * (1.0 / 180.0);
    b->frame.hold_kg[c] = b->hold_factor * pile->stock[STOCK_HOLD_KG][c];
    lane solid_part = lane_exp((1.0 - porosity) * -1.3862943611198906); /* ln 0.25 */
    lane wet = solid_part * lane_exp(porosity * -0.5621189181535412);   /* ln 0.57 */
    lane ice = solid_part * lane_exp(porosity * 0.7884573603642702);    /* ln 2.2 */
    lane per_kg = 1.0 / (READ_WATER_KG_PER_M3 * volume * porosity);
    b->frame.wet_slope[c] = (wet - b->law.dry_conductivity) * per_kg;
    b->frame.ice_slope[c] = (ice - b->law.dry_conductivity) * per_kg;
}

/* pH climbs from fresh to ripe as the soluble carbon that was laid disappears. */
static void store_cell_day(struct balance *b, int c)
{
    struct pile *pile = b->pile;
    lane carbon = pile_state(pile, STATE_MICROBE_KG)[c] + pile_state(pile, STATE_HUMUS_KG)[c] +
                  pile_state(pile, STATE_SOUR_KG)[c];
    lane fast = pile_state(pile, STATE_SOUR_KG)[c];
    for (int i = 0; i < pile->stuffs; i++) {
        for (int k = 0; k < POOLS; k++)
            carbon += pile_pool(pile, i, (enum pool)k)[c];
        fast += pile_pool(pile, i, POOL_FAST)[c];
    }
    lane laid = pile->stock[STOCK_FAST_LAID_KG][c];
    lane fresh = lane_min(fast / (laid + 1e-9 * carbon), lane_of(1));
    b->store[c].carbon_kg = carbon;
    b->store[c].ph = b->decay.ripe_ph + (b->decay.fresh_ph - b->decay.ripe_ph) * fresh;
}

void balance_settle(struct balance *b, lane days, const lane *dry_before)
{
    struct mesh *mesh = b->pile->mesh;
    if (dry_before)
        for (int c = 0; c < mesh->cells; c++)
            shrink(b, c, days, dry_before[c]);
    if (mesh->shape != MESH_POINT) {
        press(b);
        mesh_stretch(mesh);
    }
    for (int c = 0; c < mesh->cells; c++) {
        frame_cell(b, c);
        store_cell_day(b, c);
    }
}

static void store_cell(struct balance *b, int c)
{
    const struct pile *pile = b->pile;
    struct decay_store *store = &b->store[c];
    lane oxygen = lane_of(0), water = lane_of(0), nitrogen = lane_of(0), dry = lane_of(0);
    for (int k = 0; k < POOLS; k++)
        for (int j = 0; j < DECAY_MOMENTS; j++)
            store->moment[k][j] = lane_of(0);
    for (int i = 0; i < pile->stuffs; i++) {
        const struct pile_stuff *stuff = &pile->stuff[i];
        for (int k = 0; k < POOLS; k++) {
            lane rate = stuff->rate_per_d[k], m = pile_pool(pile, i, (enum pool)k)[c] * rate;
            for (int j = 0; j < DECAY_MOMENTS; j++, m *= rate)
                store->moment[k][j] += m;
        }
        lane m = pile_pool(pile, i, POOL_PROTEIN)[c] * stuff->rate_per_d[POOL_PROTEIN];
        oxygen += m * stuff->protein_oxygen;
        water += m * stuff->protein_water;
        nitrogen += m * stuff->protein_nitrogen;
        dry += m * stuff->protein_dry;
    }
    lane per = 1.0 / lane_max(store->moment[POOL_PROTEIN][0], lane_of(1e-300));
    store->protein_oxygen = oxygen * per;
    store->protein_water = water * per;
    store->protein_nitrogen = nitrogen * per;
    store->protein_dry = dry * per;
}

void balance_store(struct balance *b)
{
    for (int c = 0; c < b->pile->mesh->cells; c++)
        store_cell(b, c);
}

static const lane *block(const struct pile *pile, const lane *y, enum state which)
{
    return y + (int)which * pile->stride;
}

static void potential(struct balance *b, const lane *y)
{
    const struct pile *pile = b->pile;
    for (int c = 0; c < pile->mesh->cells; c++) {
        struct decay_surroundings at = {b->medium.over_K[c], b->medium.liquid[c],
                                        block(pile, y, STATE_WATER_KG)[c],
                                        block(pile, y, STATE_DRY_KG)[c]};
        struct decay_state state;
        for (int k = 0; k < POOLS; k++)
            state.clock_d[k] = block(pile, y, (enum state)(STATE_CLOCK + k))[c];
        state.microbe_kg = block(pile, y, STATE_MICROBE_KG)[c];
        state.humus_kg = block(pile, y, STATE_HUMUS_KG)[c];
        state.nitrogen_kg = block(pile, y, STATE_NITROGEN_KG)[c];
        state.sour_kg = block(pile, y, STATE_SOUR_KG)[c];
        decay_potential(&b->decay, &b->store[c], &at, &state, &b->potential[c]);
        b->uptake[c] = b->potential[c].oxygen_kg;
    }
}

/* Nitrogen that leaves with leachate, in proportion to the water it leaves with. */
static void leach(struct balance *b, const lane *y, int c, lane *nitrogen_rate)
{
    const struct pile *pile = b->pile;
    lane n = block(pile, y, STATE_NITROGEN_KG)[c] / block(pile, y, STATE_WATER_KG)[c];
    lane moved = n * b->transport.drained[c];
    int below = transport_below(pile->mesh, c);
    nitrogen_rate[c] -= moved;
    if (below >= 0)
        nitrogen_rate[below] += moved;
    else
        b->transport.flux[FLUX_leached_nitrogen] -= moved;
}

static void live_cell(struct balance *b, const lane *y, int c, lane *rate)
{
    const struct pile *pile = b->pile;
    int stride = pile->stride;
    struct decay_rates *r = &b->rates[c];
    decay_rates(&b->decay, &b->store[c], &b->potential[c], b->oxygen.factor[c], r);
    lane heat = b->heat_J_per_kg * r->oxygen_kg;
    rate[STATE_HEAT_J * stride + c] += heat;
    rate[STATE_WATER_KG * stride + c] += r->water_kg;
    for (int k = 0; k < POOLS; k++)
        rate[(STATE_CLOCK + k) * stride + c] = r->pace[k];
    rate[STATE_MICROBE_KG * stride + c] = r->microbe_kg;
    rate[STATE_HUMUS_KG * stride + c] = r->humus_kg;
    rate[STATE_NITROGEN_KG * stride + c] += r->nitrogen_kg;
    rate[STATE_SOUR_KG * stride + c] = r->sour_kg;
    rate[STATE_DRY_KG * stride + c] = r->dry_kg;
    rate[STATE_OXYGEN * stride + c] =
        (b->oxygen.share[c] - block(pile, y, STATE_OXYGEN)[c]) / b->gas_lag_s;
    b->transport.flux[FLUX_decay_heat] += heat;
    b->transport.flux[FLUX_decay_water] += r->water_kg;
    b->transport.flux[FLUX_co2_carbon] -= r->carbon_kg;
    b->transport.flux[FLUX_ammonia] -= r->ammonia_kg;
}

/* A jar: one cell held at the air's temperature, with its water and in open air. */
static void jar(struct balance *b)
{
    for (int k = 0; k < FLUXES; k++)
        b->transport.flux[k] = lane_of(0);
    for (int i = 0; i < MESH_SOILS; i++)
        b->transport.heat_W[i] = lane_of(0);
    lane moist = 1.0 - b->medium.vapour_Pa[0] / b->outside.air_Pa;
    lane open = GAS_OXYGEN_OUTSIDE * moist;
    b->oxygen.share[0] = lane_of(GAS_OXYGEN_OUTSIDE);
    b->oxygen.factor[0] = open / (b->decay.oxygen_half + open);
    lane heat = b->medium.capacity[0] * (b->medium.over_K[0] - b->outside.over_K) * (1.0 / BALANCE_JAR_S);
    b->transport.heat_W[MESH_SOILS] = -heat;
    b->transport.flux[FLUX_wall_heat] = -heat;
    b->transport.water_kg_per_s[0] = lane_of(0);
    b->transport.drained[0] = b->transport.drain_slope[0] = lane_of(0);
}

static void flow(struct balance *b, const lane *y)
{
    const struct pile *pile = b->pile;
    const struct mesh *mesh = pile->mesh;
    for (int i = 0; i < MESH_SOILS; i++)
        b->soil_over_K[i] = y[STATES * pile->stride + i] /
                            (b->outside.soil_J_per_m3K * mesh->soil_volume_m3[i]);
    if (mesh->shape == MESH_POINT) {
        jar(b);
        return;
    }
    air_solve(&b->air, mesh, &b->medium, &b->outside);
    oxygen_solve(&b->oxygen, mesh, &b->medium, &b->air, &b->outside, b->uptake,
                 block(pile, y, STATE_OXYGEN), b->decay.oxygen_half);
    transport_fill(&b->transport, mesh, &b->medium, &b->frame, &b->air, &b->outside,
                   block(pile, y, STATE_WATER_KG), block(pile, y, STATE_DRY_KG), b->soil_over_K);
}

void balance_fill(struct balance *b, const lane *y, lane *rate)
{
    const struct pile *pile = b->pile;
    const struct mesh *mesh = pile->mesh;
    b->vapour_share = medium_fill(&b->medium, &b->frame, &b->law, mesh, block(pile, y, STATE_HEAT_J),
                                  block(pile, y, STATE_WATER_KG), block(pile, y, STATE_DRY_KG),
                                  block(pile, y, STATE_OXYGEN));
    potential(b, y);
    flow(b, y);
    for (int c = 0; c < mesh->cells; c++) {
        rate[STATE_HEAT_J * pile->stride + c] = b->transport.heat_W[MESH_SOILS + c];
        rate[STATE_WATER_KG * pile->stride + c] = b->transport.water_kg_per_s[c];
        rate[STATE_NITROGEN_KG * pile->stride + c] = lane_of(0);
    }
    for (int i = 0; i < MESH_SOILS; i++)
        rate[STATES * pile->stride + i] = b->transport.heat_W[i];
    for (int c = 0; c < mesh->cells; c++) {
        live_cell(b, y, c, rate);
        leach(b, y, c, rate + STATE_NITROGEN_KG * pile->stride);
    }
}
