/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/medium.c - see flow/medium.h. */
#include "flow/medium.h"
#include "flow/gas.h"
#include "pile/read.h"

/* vapour and oxygen differ only by this factor (Massman 1998) */
static const double VAPOUR_M2_PER_S = 2.178e-5;

static void fill_heat(struct medium *m, const struct medium_frame *frame, int c, lane heat_J,
                      lane water_kg, lane dry_kg)
{
    struct read_heat heat = read_heat(heat_J, dry_kg - frame->ash_kg[c], frame->ash_kg[c], water_kg);
    m->over_K[c] = heat.over_K;
    m->capacity[c] = heat.capacity_J_per_K;
    m->water_J[c] = heat.water_J_per_kg;
    m->liquid[c] = heat.liquid_share;
}

static void fill_air(struct medium *m, const struct medium_law *law, int c, lane water_kg,
                     lane dry_kg, lane oxygen)
{
    lane slope;
    lane activity = read_activity(water_kg, dry_kg, law->activity_half);
    lane p = activity * gas_pressure_Pa(m->over_K[c], &slope);
    lane rest = 1.0 / (law->air_Pa - p);
    m->vapour_Pa[c] = p;
    m->humid[c] = GAS_HUMIDITY * p * rest;
    m->humid_slope[c] = GAS_HUMIDITY * law->air_Pa * rest * rest * activity * slope;
    m->dry_rho[c] = gas_dry_density(m->over_K[c], p, law->air_Pa);
    m->rho[c] = gas_density(m->dry_rho[c], m->humid[c], oxygen);
}

static void fill_bed(struct medium *m, const struct medium_frame *frame,
                     const struct medium_law *law, int c, lane volume_m3, lane water_kg)
{
    lane e = read_free_air(frame->solid_m3[c], water_kg * m->liquid[c], volume_m3);
    lane solid = 1.0 - e;
    lane open = law->permeability_least + 1.0 / (solid * solid / (frame->grain_m2[c] * e * e * e) +
                                                 1.0 / law->permeability_most);
    m->free_air[c] = e;
    m->mobility[c] = open / gas_viscosity_Pa_s(m->over_K[c]);
    m->diffusive[c] = law->diffusion * e * e * m->dry_rho[c] * gas_diffusion(m->over_K[c]) *
                      (VAPOUR_M2_PER_S * 101325.0) / law->air_Pa;
    m->conduct[c] = law->dry_conductivity +
                    water_kg * (frame->wet_slope[c] * m->liquid[c] +
                                frame->ice_slope[c] * (1.0 - m->liquid[c]));
}

lane medium_fill(struct medium *m, const struct medium_frame *frame, const struct medium_law *law,
                 const struct mesh *mesh, const lane *heat_J, const lane *water_kg,
                 const lane *dry_kg, const lane *oxygen)
{
    lane most = lane_of(0);
    for (int c = 0; c < mesh->cells; c++) {
        fill_heat(m, frame, c, heat_J[c], water_kg[c], dry_kg[c]);
        fill_air(m, law, c, water_kg[c], dry_kg[c], oxygen[c]);
        fill_bed(m, frame, law, c, mesh->volume_m3[c], water_kg[c]);
        most = lane_max(most, m->vapour_Pa[c]);
    }
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
