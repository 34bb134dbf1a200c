/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/transport.h - heat and water between cells and to the outside, and how they answer to heat.
 *
 * Over every face: conduction; moist enthalpy and vapour carried by the draught (van Leer limited);
 * vapour that diffuses and carries water and heat together; water drawn by capillarity and drained.
 * To the outside: the same through open top and walls, with the film of air in series, plus
 * radiation, wind, rain, ground. What is summed into a cell is what leaves its neighbour, and what
 * crosses the outside is booked under its name (pile/flux.def), so heat and water close to round-off.
 *
 * For the implicit part the same faces have slopes with temperature (`transport_slopes`), asked for once
 * a step: the matrix and the books use the same numbers, so the linear part closes as well.
 *
 * Faces are done several at once: first what crosses each, into arrays, then the sums of the cells.
 */
#ifndef FLOW_TRANSPORT_H
#define FLOW_TRANSPORT_H
#include "flow/air.h"
#include "pile/flux.h"

/* change of the flux from a to b per kelvin of a, and of b */
struct transport_slope {
    lane heat_a, heat_b, water_a, water_b;
};

/* change per kelvin of the cell, outward, by name */
struct transport_out_slope {
    lane air_heat, vapour_heat, film_heat; /* film: top, walls or ground, by side */
    lane air_water, vapour_water;
    lane soil_heat;         /* per kelvin of the soil beneath; base only */
};

struct transport {
    lane *heat_W;           /* [nodes], soil first */
    lane *water_kg_per_s;   /* [cells] */
    lane *conduct_W_per_K, *diffuse_kg_per_s;       /* [faces] of heat; of vapour, per kg/kg */
    lane *face_heat_W, *face_water_kg_per_s;        /* [faces] from a to b, but for what seeps */
    lane *film_W_per_K, *vapour_kg_per_s, *leaving_kg_per_s; /* [outs] heat; vapour, per kg/kg; air */
    lane *drain_slope;      /* [cells] d(drained)/d(water), 1/s */
    lane *drained;          /* [cells] kg/s to the cell below */
    lane *wetness, *capillary;  /* [cells] kg/kg; kg/(m s) */
    lane *room;             /* [cells] left for water: 1 when the pores are empty, 0 when full */
    lane *seep_kg_per_s;    /* [faces] by capillarity from a to b, per kg/kg that a is wetter */
    lane *seep_J_per_kg;    /* [faces] heat that goes with it */
    lane link_W_per_K[MESH_SOILS * 3 + 2 * MESH_SOIL_LAYERS]; /* of the soil's links */
    lane flux[FLUXES];      /* into the pile, this moment */
};

void transport_take(struct transport *transport, const struct mesh *mesh, struct arena *arena);
/* soil_over_K: [MESH_SOILS] */
void transport_fill(struct transport *transport, const struct mesh *mesh,
                    const struct medium *medium, const struct medium_frame *frame,
                    const struct air *air, const struct outside *outside, const lane *water_kg,
                    const lane *dry_kg, const lane *soil_over_K);
/* How what transport_fill has just found answers to the temperatures of cells and soil: [faces], [outs]. */
void transport_slopes(const struct transport *transport, const struct mesh *mesh,
                      const struct medium *medium, const struct air *air, const struct outside *outside,
                      struct transport_slope *face, struct transport_out_slope *out);
/* What the outside's rain brings, added to these rates and to the fluxes. */
void transport_rain(struct transport *transport, const struct mesh *mesh,
                    const struct medium_frame *frame, const struct outside *outside,
                    const lane *water_kg, lane *heat_W, lane *water_kg_per_s);
#endif
