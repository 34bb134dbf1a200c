/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/place.h - core, shoulder and rim: how deep a cell lies.
 *
 * Deep is the distance of a cell's middle from the nearest top or side. The core is deeper than
 * 30 cm, in a small pile the innermost third; the rim is the outer 15 cm; the shoulder lies
 * between.
 */
#ifndef RUN_PLACE_H
#define RUN_PLACE_H
#include "pile/mesh.h"

/* Depth of every cell into `depth_m`. Returns the deepest. */
lane place_depths(const struct mesh *mesh, lane *depth_m);
/* From this depth on a cell is of the core. */
lane place_core_m(lane deepest_m);
#define PLACE_RIM_M 0.15
#endif
