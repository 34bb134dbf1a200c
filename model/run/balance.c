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
    struct balance_store *store = &b->store;
    struct balance_potential *p = &b->potential;
    lane **each[] = {&store->protein_oxygen, &store->protein_water, &store->protein_nitrogen,
                     &store->protein_dry, &store->enclosed, &store->carbon_kg, &store->ph, &p->dying,
                     &p->eaten, &p->humus, &p->sour, &p->grown, &p->humified, &p->grown_slope,
                     &p->humified_slope,
                     &p->ammonia_kg, &p->warming_per_K, &b->oxygen_kg, &b->water_kg, &b->pool_nitrogen_kg,
                     &b->carbon_kg, &b->uptake, &b->half_share};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = arena_take(arena, cells, sizeof(lane));
    for (int k = 0; k < POOLS; k++) {
        p->pace[k] = arena_take(arena, cells, sizeof(lane));
        p->carbon[k] = arena_take(arena, cells, sizeof(lane));
        for (int j = 0; j < DECAY_MOMENTS; j++)
            store->moment[k][j] = arena_take(arena, cells, sizeof(lane));
    }
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

/* Adds one pool of one ingredient to the moments of every cell. */
static void add_moments(struct balance *b, const lane *pool, int k, lane rate)
{
    lane *const *moment = b->store.moment[k];
    lane *restrict m1 = moment[0], *restrict m2 = moment[1];
    lane *restrict m3 = moment[2], *restrict m4 = moment[3];
    const lane r2 = rate * rate, r3 = r2 * rate, r4 = r3 * rate;
    LANE_APART
    for (int c = 0; c < b->pile->mesh->cells; c++) {
        m1[c] += pool[c] * rate;
        m2[c] += pool[c] * r2;
        m3[c] += pool[c] * r3;
        m4[c] += pool[c] * r4;
    }
}

/* What differs by ingredient, by how much of it decays. */
static void add_own(struct balance *b, const lane *protein, const lane *lignin, const struct pile_stuff *stuff)
{
    const struct balance_store *store = &b->store;
    lane rate = stuff->rate_per_d[POOL_PROTEIN], opened = stuff->rate_per_d[POOL_LIGNIN] * stuff->enclosed;
    LANE_APART
    for (int c = 0; c < b->pile->mesh->cells; c++) {
        lane m = protein[c] * rate;
        store->protein_oxygen[c] += m * stuff->protein_oxygen;
        store->protein_water[c] += m * stuff->protein_water;
        store->protein_nitrogen[c] += m * stuff->protein_nitrogen;
        store->protein_dry[c] += m * stuff->protein_dry;
        store->enclosed[c] += lignin[c] * opened;
    }
}

void balance_store(struct balance *b)
{
    const struct pile *pile = b->pile;
    struct balance_store *store = &b->store;
    int cells = pile->mesh->cells;
    for (int c = 0; c < cells; c++) {
        store->protein_oxygen[c] = store->protein_water[c] = lane_of(0);
        store->protein_nitrogen[c] = store->protein_dry[c] = store->enclosed[c] = lane_of(0);
        for (int k = 0; k < POOLS; k++)
            for (int j = 0; j < DECAY_MOMENTS; j++)
                store->moment[k][j][c] = lane_of(0);
    }
    for (int i = 0; i < pile->stuffs; i++) {
        for (int k = 0; k < POOLS; k++)
            add_moments(b, pile_pool(pile, i, (enum pool)k), k, pile->stuff[i].rate_per_d[k]);
        add_own(b, pile_pool(pile, i, POOL_PROTEIN), pile_pool(pile, i, POOL_LIGNIN), &pile->stuff[i]);
    }
    for (int c = 0; c < cells; c++) {
        lane per = 1.0 / lane_max(store->moment[POOL_PROTEIN][0][c], lane_of(1e-300));
        store->protein_oxygen[c] *= per;
        store->protein_water[c] *= per;
        store->protein_nitrogen[c] *= per;
        store->protein_dry[c] *= per;
        store->enclosed[c] *= 1.0 / lane_max(store->moment[POOL_LIGNIN][0][c], lane_of(1e-300));
    }
}

static const lane *block(const struct pile *pile, const lane *y, enum state which)
{
    return y + (int)which * pile->stride;
}

static inline struct decay_store store_at(const struct balance_store *store, int c)
{
    struct decay_store s;
    for (int k = 0; k < POOLS; k++)
        for (int j = 0; j < DECAY_MOMENTS; j++)
            s.moment[k][j] = store->moment[k][j][c];
    s.protein_oxygen = store->protein_oxygen[c];
    s.protein_water = store->protein_water[c];
    s.protein_nitrogen = store->protein_nitrogen[c];
    s.protein_dry = store->protein_dry[c];
    s.enclosed = store->enclosed[c];
    s.carbon_kg = store->carbon_kg[c];
    s.ph = store->ph[c];
    return s;
}

static void potential(struct balance *b, const lane *y)
{
    const int stride = b->pile->stride, cells = b->pile->mesh->cells;
    const struct balance_store store = b->store;
    const struct balance_potential to = b->potential;
    const struct decay_law law = b->decay;
    const lane *over = b->medium.over_K, *liquid = b->medium.liquid;
    lane *uptake = b->uptake;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        struct decay_surroundings at = {over[c], liquid[c], y[STATE_WATER_KG * stride + c],
                                        y[STATE_DRY_KG * stride + c]};
        struct decay_state state;
        for (int k = 0; k < POOLS; k++)
            state.clock_d[k] = y[(STATE_CLOCK + k) * stride + c];
        state.microbe_kg = y[STATE_MICROBE_KG * stride + c];
        state.living_kg = y[STATE_LIVING_KG * stride + c];
        state.humus_kg = y[STATE_HUMUS_KG * stride + c];
        state.nitrogen_kg = y[STATE_NITROGEN_KG * stride + c];
        state.sour_kg = y[STATE_SOUR_KG * stride + c];
        struct decay_store here = store_at(&store, c);
        struct decay_potential p;
        decay_potential(&law, &here, &at, &state, &p);
        for (int k = 0; k < POOLS; k++) {
            to.pace[k][c] = p.pace[k];
            to.carbon[k][c] = p.carbon[k];
        }
        to.dying[c] = p.dying;
        to.eaten[c] = p.eaten;
        to.humus[c] = p.humus;
        to.sour[c] = p.sour;
        to.grown[c] = p.grown;
        to.humified[c] = p.humified;
        to.grown_slope[c] = p.grown_slope;
        to.humified_slope[c] = p.humified_slope;
        to.ammonia_kg[c] = p.ammonia_kg;
        to.warming_per_K[c] = p.warming_per_K;
        uptake[c] = p.oxygen_kg;
    }
}

lane balance_breath(const struct balance *b, int c, double over_K, double wet_share)
{
    const struct pile *pile = b->pile;
    lane dry = pile_state(pile, STATE_DRY_KG)[c];
    struct decay_surroundings at = {lane_of(over_K), lane_of(1), dry * (wet_share / (1 - wet_share)), dry};
    struct decay_state state;
    for (int k = 0; k < POOLS; k++)
        state.clock_d[k] = pile_state(pile, (enum state)(STATE_CLOCK + k))[c];
    state.microbe_kg = pile_state(pile, STATE_MICROBE_KG)[c];
    state.living_kg = pile_state(pile, STATE_LIVING_KG)[c];
    state.humus_kg = pile_state(pile, STATE_HUMUS_KG)[c];
    state.nitrogen_kg = pile_state(pile, STATE_NITROGEN_KG)[c];
    state.sour_kg = pile_state(pile, STATE_SOUR_KG)[c];
    struct decay_store here = store_at(&b->store, c);
    struct decay_potential p;
    struct decay_rates r;
    decay_potential(&b->decay, &here, &at, &state, &p);
    lane half = decay_half(&b->decay, lane_of(wet_share));
    decay_rates(&b->decay, &here, &p, GAS_OXYGEN_OUTSIDE / (GAS_OXYGEN_OUTSIDE + half), &r);
    return r.carbon_kg;
}

/* The wetter a cell, the more oxygen it takes to be half supplied. */
static void half_shares(struct balance *b, const lane *y)
{
    const int stride = b->pile->stride, cells = b->pile->mesh->cells;
    const struct decay_law law = b->decay;
    lane *half = b->half_share;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        lane water = y[STATE_WATER_KG * stride + c];
        half[c] = decay_half(&law, water / (water + y[STATE_DRY_KG * stride + c]));
    }
}

static inline struct decay_potential potential_at(const struct balance_potential *from, int c)
{
    struct decay_potential p;
    for (int k = 0; k < POOLS; k++) {
        p.pace[k] = from->pace[k][c];
        p.carbon[k] = from->carbon[k][c];
    }
    p.dying = from->dying[c];
    p.eaten = from->eaten[c];
    p.humus = from->humus[c];
    p.sour = from->sour[c];
    p.grown = from->grown[c];
    p.humified = from->humified[c];
    p.grown_slope = from->grown_slope[c];
    p.humified_slope = from->humified_slope[c];
    p.ammonia_kg = from->ammonia_kg[c];
    p.warming_per_K = from->warming_per_K[c];
    p.oxygen_kg = lane_of(0); /* has done its work */
    return p;
}

/* Nitrogen that leaves with leachate, in proportion to the water it leaves with. */
static void leach(struct balance *b, const lane *y, int c, lane *nitrogen_rate)
{
    const struct pile *pile = b->pile;
    lane n = block(pile, y, STATE_NITROGEN_KG)[c] / block(pile, y, STATE_WATER_KG)[c];
    lane moved = n * b->transport.drained[c];
    int below = pile->mesh->below[c];
    nitrogen_rate[c] -= moved;
    if (below >= 0)
        nitrogen_rate[below] += moved;
    else
        b->transport.flux[FLUX_leached_nitrogen] -= moved;
}

/* Life's rates with the oxygen that arrives, into dy/dt. */
static void live(struct balance *b, const lane *y, lane *rate)
{
    const int stride = b->pile->stride, cells = b->pile->mesh->cells;
    const struct balance_store store = b->store;
    const struct balance_potential from = b->potential;
    const struct decay_law law = b->decay;
    const lane *factor = b->oxygen.factor, *share = b->oxygen.share;
    const lane heat = b->heat_J_per_kg, per_lag = 1.0 / b->gas_lag_s;
    lane *oxygen = b->oxygen_kg, *water = b->water_kg, *carbon = b->carbon_kg;
    lane *freed = b->pool_nitrogen_kg;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        struct decay_store here = store_at(&store, c);
        struct decay_potential p = potential_at(&from, c);
        struct decay_rates r;
        decay_rates(&law, &here, &p, factor[c], &r);
        rate[STATE_HEAT_J * stride + c] += heat * r.oxygen_kg;
        rate[STATE_WATER_KG * stride + c] += r.water_kg;
        for (int k = 0; k < POOLS; k++)
            rate[(STATE_CLOCK + k) * stride + c] = r.pace[k];
        rate[STATE_MICROBE_KG * stride + c] = r.microbe_kg;
        rate[STATE_LIVING_KG * stride + c] = r.living_kg;
        rate[STATE_HUMUS_KG * stride + c] = r.humus_kg;
        rate[STATE_NITROGEN_KG * stride + c] = r.nitrogen_kg;
        rate[STATE_SOUR_KG * stride + c] = r.sour_kg;
        rate[STATE_DRY_KG * stride + c] = r.dry_kg;
        rate[STATE_OXYGEN * stride + c] = (share[c] - y[STATE_OXYGEN * stride + c]) * per_lag;
        oxygen[c] = r.oxygen_kg;
        water[c] = r.water_kg;
        carbon[c] = r.carbon_kg;
        freed[c] = r.pool_nitrogen_kg;
    }
    for (int c = 0; c < cells; c++) {
        b->transport.flux[FLUX_decay_heat] += heat * oxygen[c];
        b->transport.flux[FLUX_decay_water] += water[c];
        b->transport.flux[FLUX_co2_carbon] -= carbon[c];
        b->transport.flux[FLUX_ammonia] -= from.ammonia_kg[c];
    }
}

/* A jar: one cell held at the air's temperature, with its water and in open air. What passes to the room
 * doesn't know of ice: with the far larger capacity of freezing it would jump where freezing begins. */
static void jar(struct balance *b, const lane *y)
{
    lane water = block(b->pile, y, STATE_WATER_KG)[0], dry = block(b->pile, y, STATE_DRY_KG)[0];
    for (int k = 0; k < FLUXES; k++)
        b->transport.flux[k] = lane_of(0);
    for (int i = 0; i < MESH_SOILS; i++)
        b->transport.heat_W[i] = lane_of(0);
    lane moist = 1.0 - b->medium.vapour_Pa[0] / b->outside.air_Pa;
    lane open = GAS_OXYGEN_OUTSIDE * moist;
    b->oxygen.share[0] = lane_of(GAS_OXYGEN_OUTSIDE);
    b->oxygen.factor[0] = open / (b->half_share[0] + open);
    b->jar_W_per_K = (READ_WATER_J_PER_KGK * water + READ_ORGANIC_J_PER_KGK * dry) * (1.0 / BALANCE_JAR_S);
    lane heat = b->jar_W_per_K * (b->medium.over_K[0] - b->outside.over_K);
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
        jar(b, y);
        return;
    }
    air_solve(&b->air, mesh, &b->medium, &b->outside);
    oxygen_solve(&b->oxygen, mesh, &b->medium, &b->air, &b->outside, b->uptake,
                 block(pile, y, STATE_OXYGEN), b->half_share);
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
    half_shares(b, y);
    flow(b, y);
    for (int c = 0; c < mesh->cells; c++) {
        rate[STATE_HEAT_J * pile->stride + c] = b->transport.heat_W[MESH_SOILS + c];
        rate[STATE_WATER_KG * pile->stride + c] = b->transport.water_kg_per_s[c];
    }
    for (int i = 0; i < MESH_SOILS; i++)
        rate[STATES * pile->stride + i] = b->transport.heat_W[i];
    live(b, y, rate);
    for (int c = 0; c < mesh->cells; c++)
        leach(b, y, c, rate + STATE_NITROGEN_KG * pile->stride);
}

void balance_rain(struct balance *b, const lane *y, lane *rate)
{
    const struct pile *pile = b->pile;
    if (pile->mesh->shape == MESH_POINT)
        return;
    transport_rain(&b->transport, pile->mesh, &b->frame, &b->outside,
                   block(pile, y, STATE_WATER_KG), rate + STATE_HEAT_J * pile->stride,
                   rate + STATE_WATER_KG * pile->stride);
}
