/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/medium.h - what every cell is, at this moment, to air, heat and water passing through it.
 *
 *   permeability  f d^2 e^3/(180 (1-e)^2) between sodden and loosest  [Carman 1937, memory;
 *                 Das and Keener 1997: form holds for compost in free air space e]
 *   diffusivity   f e^2 D                               [Papendick and Campbell 1981]
 *   conductivity  dry + (saturated - dry) S, saturated = 0.25^(1-n) 0.57^n, ice 2.2 in place of
 *                 0.57; n porosity, S saturation        [Farouki 1981; peat 0.05, 0.27, 0.50]
 */
#ifndef FLOW_MEDIUM_H
#define FLOW_MEDIUM_H
#include "base/lane.h"
#include "pile/mesh.h"

/* from a day's settling; constant until the next */
struct medium_frame {
    lane *solid_m3;         /* [cells] */
    lane *ash_kg;           /* [cells] */
    lane *grain_m2;         /* f d^2/180 */
    lane *hold_kg;          /* water held against drainage */
    lane *wet_slope;        /* conductivity per kg of liquid water, and of ice */
    lane *ice_slope;
};

struct medium_law {
    lane activity_half, dry_conductivity, permeability_least, permeability_most, diffusion;
    lane air_Pa;
};

/* the state of the air and the material, cell by cell */
struct medium {
    lane *over_K, *capacity, *water_J, *liquid, *free_air;
    lane *vapour_Pa;
    lane *humid, *humid_slope;  /* kg/kg dry air; per K */
    lane *dry_rho, *rho;        /* kg/m3 of gas */
    lane *mobility;             /* k/mu */
    lane *diffusive;            /* rho_dry times diffusivity of vapour, kg/(m s) */
    lane *conduct;              /* W/(m K) */
};

/* Fills `medium` for all cells; returns the greatest share of air pressure that vapour takes, which
 * a step must keep below 0.9 (no boiling). */
lane medium_fill(struct medium *medium, const struct medium_frame *frame,
                 const struct medium_law *law, const struct mesh *mesh, const lane *heat_J,
                 const lane *water_kg, const lane *dry_kg, const lane *oxygen);
/* Takes room for the arrays. */
void medium_take(struct medium *medium, struct medium_frame *frame, int cells, struct arena *arena);
#endif
