/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/air.h - draught: dry air driven through the pile by its own buoyancy (Darcy).
 *
 * The unknown is the pressure beyond the outside air's at the same height, Pi. Between two cells
 *   m = A rho_dry [(Pi_a - Pi_b) + g ((rho_out - rho_a) dz_a + (rho_out - rho_b) dz_b)] /
 *       (d_a mu/k_a + d_b mu/k_b),   kg of dry air per second from a to b,
 * with dz the halves of the rise. Dry air is conserved in every cell at every moment (its store is
 * small), which makes one symmetric system. An air of one density stands still exactly.
 */
#ifndef FLOW_AIR_H
#define FLOW_AIR_H
#include "flow/medium.h"
#include "flow/outside.h"

struct air {
    lane *face_kg_per_s;    /* [faces] from a to b */
    lane *out_kg_per_s;     /* [outs] outward */
    lane *face_g, *out_g;   /* conductances, kg/(s Pa) */
    lane *push_Pa;          /* [faces] buoyancy over the face */
    lane *matrix, *pressure_Pa;
};

void air_take(struct air *air, const struct mesh *mesh, struct arena *arena);
void air_solve(struct air *air, const struct mesh *mesh, const struct medium *medium,
               const struct outside *outside);
#endif
