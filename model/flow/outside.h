/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/outside.h - the air, sky, rain and ground that the pile meets, and the skin between. */
#ifndef FLOW_OUTSIDE_H
#define FLOW_OUTSIDE_H
#include "base/lane.h"
#include "pile/mesh.h"

/* one side of the pile: top, walls or base, with whatever lid and covers lie on it */
struct outside_skin {
    lane open_share;        /* of the area, for air and vapour */
    lane heat_m2K_per_W;    /* resistance, without air film */
    lane sun_share;         /* of the sun taken up by what faces it */
    lane rain_share;
    lane vapour_m2s_per_kg; /* resistance of what lies on it to vapour, on top of the cell's and the air's */
};

struct outside {
    lane over_K, vapour_Pa, humid, rho, dry_rho, air_Pa;
    lane film_W_per_m2K;    /* convection */
    lane radiant_W_per_m2K; /* linearised exchange of radiation with surroundings at air temperature */
    lane sun_W_per_m2, sky_W_per_m2; /* sun on the level; sky beyond a sky at air temperature, < 0 */
    lane snow_m2K_per_W, snow_share; /* lying snow: resistance, and how much of the sun it turns back */
    lane rain_kg_per_m2s;
    lane wind_Pa_per_m;     /* pressure that wind makes across the pile, over its width */
    lane ground_over_K[MESH_SOIL_LAYERS + 1]; /* undisturbed: middle of each layer, then the floor */
    struct outside_skin skin[3];    /* by enum mesh_side */
    lane soil_W_per_mK, soil_J_per_m3K;
    lane capillary_m2_per_s, drain_kg_per_m2s;
};
#endif
