/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/medium.c - see flow/medium.h. */
#include "flow/medium.h"
#include "flow/gas.h"
#include "pile/read.h"

/* vapour and oxygen differ only by this factor (Massman 1998) */
static const double VAPOUR_M2_PER_S = 2.178e-5;

/* Each of the three goes through all cells by itself, over arrays that don't overlap, so that a
 * compiler can do several cells at once. */
static void fill_heat(const struct medium *m, const struct medium_frame *frame, int cells,
                      const lane *heat_J, const lane *water_kg, const lane *dry_kg)
{
    lane *restrict over = m->over_K, *restrict capacity = m->capacity;
    lane *restrict water = m->water_J, *restrict liquid = m->liquid;
    const lane *restrict ash = frame->ash_kg;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        struct read_heat heat = read_heat(heat_J[c], dry_kg[c] - ash[c], ash[c], water_kg[c]);
        over[c] = heat.over_K;
        capacity[c] = heat.capacity_J_per_K;
        water[c] = heat.water_J_per_kg;
        liquid[c] = heat.liquid_share;
    }
}

static void fill_air(const struct medium *m, const struct medium_law *law, int cells,
                     const lane *restrict water_kg, const lane *restrict dry_kg,
                     const lane *restrict oxygen)
{
    const lane *restrict over = m->over_K;
    lane *restrict vapour = m->vapour_Pa, *restrict humid = m->humid;
    lane *restrict humid_slope = m->humid_slope, *restrict dry_rho = m->dry_rho;
    lane *restrict rho = m->rho;
    const lane air = law->air_Pa, half = law->activity_half;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        lane slope, activity = read_activity(water_kg[c], dry_kg[c], half);
        lane p = activity * gas_pressure_Pa(over[c], &slope);
        lane rest = 1.0 / (air - p);
        lane x = GAS_HUMIDITY * p * rest, dry = gas_dry_density(over[c], p, air);
        vapour[c] = p;
        humid[c] = x;
        humid_slope[c] = GAS_HUMIDITY * air * rest * rest * activity * slope;
        dry_rho[c] = dry;
        rho[c] = gas_density(dry, x, oxygen[c]);
    }
}

static void fill_bed(const struct medium *m, const struct medium_frame *frame,
                     const struct medium_law *law, int cells, const lane *restrict volume_m3,
                     const lane *restrict water_kg)
{
    const lane *restrict over = m->over_K, *restrict liquid = m->liquid;
    const lane *restrict dry_rho = m->dry_rho, *restrict solid_m3 = frame->solid_m3;
    const lane *restrict grain = frame->grain_m2, *restrict wet_slope = frame->wet_slope;
    const lane *restrict ice_slope = frame->ice_slope;
    lane *restrict free_air = m->free_air, *restrict mobility = m->mobility;
    lane *restrict diffusive = m->diffusive, *restrict conduct = m->conduct;
    const lane least = law->permeability_least, tightest = 1.0 / law->permeability_most;
    const lane diffusion = law->diffusion * (VAPOUR_M2_PER_S * 101325.0) / law->air_Pa;
    const lane dry = law->dry_conductivity;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        lane e = read_free_air(solid_m3[c], water_kg[c], volume_m3[c]); /* ice fills pores too */
        lane solid = 1.0 - e;
        lane open = least + 1.0 / (solid * solid / (grain[c] * e * e * e) + tightest);
        free_air[c] = e;
        mobility[c] = open / gas_viscosity_Pa_s(over[c]);
        diffusive[c] = diffusion * e * e * dry_rho[c] * gas_diffusion(over[c]);
        conduct[c] = dry + water_kg[c] * (wet_slope[c] * liquid[c] +
                                          ice_slope[c] * (1.0 - liquid[c]));
    }
}

lane medium_fill(struct medium *m, const struct medium_frame *frame, const struct medium_law *law,
                 const struct mesh *mesh, const lane *heat_J, const lane *water_kg,
                 const lane *dry_kg, const lane *oxygen)
{
    lane most = lane_of(0);
    fill_heat(m, frame, mesh->cells, heat_J, water_kg, dry_kg);
    fill_air(m, law, mesh->cells, water_kg, dry_kg, oxygen);
    fill_bed(m, frame, law, mesh->cells, mesh->volume_m3, water_kg);
    for (int c = 0; c < mesh->cells; c++)
        most = lane_max(most, m->vapour_Pa[c]);
    return most / law->air_Pa;
}

void medium_take(struct medium *m, struct medium_frame *frame, int cells, struct arena *arena)
{
    lane **each[] = {&m->over_K, &m->capacity, &m->water_J, &m->liquid, &m->free_air, &m->vapour_Pa,
                     &m->humid, &m->humid_slope, &m->dry_rho, &m->rho, &m->mobility, &m->diffusive,
                     &m->conduct, &frame->solid_m3, &frame->ash_kg, &frame->grain_m2,
                     &frame->hold_kg, &frame->wet_slope, &frame->ice_slope};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = arena_take(arena, (size_t)cells, sizeof(lane));
}
