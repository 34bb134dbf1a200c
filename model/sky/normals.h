/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/normals.h - daily weather made from twelve monthly normals. */
#ifndef SKY_NORMALS_H
#define SKY_NORMALS_H
#include "base/date.h"
#include "base/trouble.h"
#include "know/skies.h"
#include "sky/weather.h"
#include <stdbool.h>
#include <stdint.h>

/* twelve monthly normals of a place, January first whatever the hemisphere */
struct weather_normals {
    double low_K[12], high_K[12], rain_kg_per_m2[12], wet_days[12];
    double wind_m_per_s;        /* mean at 2 m */
    bool coastal;
};

/* A shipped sky moved to a place: half a year later in the south, 6 K/km colder with height. */
void normals_of_skies(struct weather_normals *normals, const struct skies *row,
                      double latitude_rad, double elevation_m);

/* Daily weather from normals; vapour and sun are left for weather_fill. A day depends on its date
 * and the seed alone, so that a season may begin anywhere and members of an ensemble share weather.
 * Seed 0 gives the mean year: normals interpolated, each month's rain spread over its wet days.
 * On failure there is nothing to free. */
bool normals_generate(struct weather *weather, const struct weather_normals *normals,
                      date_count start, int days, uint64_t seed, struct trouble *why);
#endif
