/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/read.h - what is read from a cell's amounts: temperature, liquid share, wetness, air space.
 *
 * Enthalpy H of dry organic mass m, ash a, water W at T kelvin above the ice point:
 *   T >= 0:  H = m (1202 T + 2.15 T^2) + 870 a T + 4186 W T       [peat, Appl. Sci. 12:1579, 2022]
 *   T < 0:   H = C_f T + W L T/(T0 - T), C_f = 1202 m + 870 a + 2097 W, T0 = 0.5 K
 * where L T0/(T0 - T) is the heat of the part still liquid: water freezes over about a kelvin, as in
 * soils, and the law inverts in closed form. L = 333.5 kJ/kg.
 */
#ifndef PILE_READ_H
#define PILE_READ_H
#include "base/lane.h"

#define READ_WATER_J_PER_KGK 4186.0
#define READ_ICE_J_PER_KGK 2097.0
#define READ_ORGANIC_J_PER_KGK 1202.0
#define READ_ORGANIC_J_PER_KGK2 2.15
#define READ_ASH_J_PER_KGK 870.0
#define READ_FUSION_J_PER_KG 333.5e3
#define READ_FREEZE_K 0.5
#define READ_ORGANIC_KG_PER_M3 1550.0
#define READ_ASH_KG_PER_M3 2650.0
#define READ_WATER_KG_PER_M3 1000.0

struct read_heat {
    lane over_K;        /* temperature above the ice point */
    lane capacity_J_per_K; /* dH/dT with its water held */
    lane water_J_per_kg;   /* dH/dW at this temperature */
    lane liquid_share;
};

static inline struct read_heat read_heat(lane heat_J, lane organic_kg, lane ash_kg, lane water_kg)
{
    lane square = READ_ORGANIC_J_PER_KGK2 * organic_kg;
    lane solid = READ_ORGANIC_J_PER_KGK * organic_kg + READ_ASH_J_PER_KGK * ash_kg;
    lane warm_c = solid + READ_WATER_J_PER_KGK * water_kg;
    lane cold_c = solid + READ_ICE_J_PER_KGK * water_kg;
    lane_mask thawed = lane_at_most(lane_of(0), heat_J);
    lane above = lane_max(heat_J, lane_of(0));
    lane warm_root = lane_sqrt(warm_c * warm_c + 4.0 * square * above);
    lane warm_K = 2.0 * above / (warm_c + warm_root);

    struct read_heat r;
    r.over_K = warm_K;
    r.capacity_J_per_K = warm_root;
    r.water_J_per_kg = READ_WATER_J_PER_KGK * warm_K;
    r.liquid_share = lane_of(1);
    if (!lane_any(~thawed)) /* saves the other law; what a frozen member reads is the same */
        return r;
    lane below = lane_min(heat_J, lane_of(0));
    lane half = cold_c * READ_FREEZE_K + water_kg * READ_FUSION_J_PER_KG + below;
    lane cold_root = lane_sqrt(half * half - 4.0 * cold_c * READ_FREEZE_K * below);
    lane_mask slushy = lane_less(lane_of(0), half);
    lane cold_K = lane_if(slushy, 2.0 * READ_FREEZE_K * below / (half + cold_root),
                          (half - cold_root) / (2.0 * cold_c));
    lane share = READ_FREEZE_K / (READ_FREEZE_K - cold_K);
    r.over_K = lane_if(thawed, warm_K, cold_K);
    r.capacity_J_per_K = lane_if(thawed, warm_root,
        cold_c + water_kg * (READ_FUSION_J_PER_KG / READ_FREEZE_K) * share * share);
    r.water_J_per_kg = lane_if(thawed, r.water_J_per_kg,
        READ_ICE_J_PER_KGK * cold_K + READ_FUSION_J_PER_KG * cold_K * share * (1.0 / READ_FREEZE_K));
    r.liquid_share = lane_if(thawed, r.liquid_share, share);
    return r;
}

/* The other way: enthalpy at a temperature. */
static inline lane read_enthalpy(lane over_K, lane organic_kg, lane ash_kg, lane water_kg)
{
    lane solid = READ_ORGANIC_J_PER_KGK * organic_kg + READ_ASH_J_PER_KGK * ash_kg;
    lane warm = over_K * (solid + READ_WATER_J_PER_KGK * water_kg +
                          READ_ORGANIC_J_PER_KGK2 * organic_kg * over_K);
    lane cold = over_K * (solid + READ_ICE_J_PER_KGK * water_kg) +
                water_kg * READ_FUSION_J_PER_KG * over_K / (READ_FREEZE_K + lane_abs(over_K));
    return lane_if(lane_less(over_K, lane_of(0)), cold, warm);
}

/* Water carried in at a temperature brings this, J/kg; ice below freezing is not carried. */
static inline lane read_water_enthalpy(lane over_K)
{
    return READ_WATER_J_PER_KGK * lane_max(over_K, lane_of(0));
}

/* Vapour pressure over the material, of that over pure water: 1/(1 + (half/u)^2.5), u = kg water
 * per kg dry. Falls to nothing faster than u, so a drying cell keeps its last water.
 * [Oswin 1946 form, memory] */
static inline lane read_activity(lane water_kg, lane dry_kg, lane half)
{
    lane u = water_kg / dry_kg, dry = half * half * lane_sqrt(half);
    lane wet = u * u * lane_sqrt(u);
    return wet / (wet + dry);
}

/* Share of a cell's volume that is neither solid nor water. A cell pressed full keeps a trace, so
 * that what is divided by it stays finite: 0.5 (e + sqrt(e^2 + 0.0001)) differs from e by less than
 * 0.0003 above 0.1. */
static inline lane read_free_air(lane solid_m3, lane water_kg, lane volume_m3)
{
    lane e = 1.0 - (solid_m3 + water_kg * (1.0 / READ_WATER_KG_PER_M3)) / volume_m3;
    return 0.5 * (e + lane_sqrt(e * e + 1e-4));
}
#endif
