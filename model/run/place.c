/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/place.c - see run/place.h. */
#include "run/place.h"

static const double CORE_M = 0.30, CORE_PART = 2.0 / 3.0;

lane place_depths(const struct mesh *mesh, lane *depth_m)
{
    lane above = lane_of(0), deepest = lane_of(0);
    for (int j = mesh->rows - 1; j >= 0; j--) {
        lane down = above + 0.5 * mesh->row_height_m[j];
        for (int i = 0; i < mesh->row_cols[j]; i++) {
            double in = mesh->col_edge_m[mesh->row_cols[j]]
                        - 0.5 * (mesh->col_edge_m[i] + mesh->col_edge_m[i + 1]);
            lane depth = lane_min(down, lane_of(in));
            depth_m[mesh->row_first[j] + i] = depth;
            deepest = lane_max(deepest, depth);
        }
        above += mesh->row_height_m[j];
    }
    return deepest;
}

lane place_core_m(lane deepest_m)
{
    return lane_min(lane_of(CORE_M), CORE_PART * deepest_m);
}
