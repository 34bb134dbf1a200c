/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/curve.h - weather of a season as smooth curves, ready for the pile to read.
 *
 * Made before a season by curve_make; a season only evaluates cubic Hermite pieces, so that it
 * needs no library and sees continuous slopes (a kink at midnight costs a stiff solver dear).
 */
#ifndef SKY_CURVE_H
#define SKY_CURVE_H
#include "base/date.h"
#include "base/trouble.h"
#include "sky/weather.h"
#include <stdbool.h>

enum curve_thing {
    CURVE_AIR_K,        /* screen air temperature */
    CURVE_VAPOUR_PA,    /* vapour pressure of the air */
    CURVE_WIND_M_PER_S, /* at 2 m, open ground */
    CURVE_SUN_W_PER_M2, /* global radiation on the level */
    CURVE_LONG_W_PER_M2,/* radiation of the sky downward */
    CURVE_SNOW_M,       /* depth of lying snow */
    CURVE_THINGS
};

struct curve {
    date_count start;       /* the date whose 00:00 is time 0 s, local solar time */
    int days;
    double knot_s;          /* spacing of knots; the first is at time 0 */
    int knots;
    double *value[CURVE_THINGS];     /* [knots] */
    double *slope_per_s[CURVE_THINGS];
    double *block;          /* the room all rows stand in */
    double *wet_kg_per_m2;  /* [days] rain and melt water that reach the ground that day */
    double *wet_before_kg_per_m2;    /* [days + 1] their sum before that day */
    double air_Pa;          /* air pressure at this height */
    /* undisturbed ground: T(z, t) = mean - swing exp(-z/depth) cos(w (t - coldest_s) - z/depth) */
    double ground_mean_K, ground_swing_K, ground_coldest_s, ground_depth_m;
};

/* Makes the curves of the weather's days, which weather_fill has filled, at latitude (rad, north
 * positive) and height. On failure there is nothing to free. */
bool curve_make(struct curve *curve, const struct weather *weather, double latitude_rad,
                double elevation_m, struct trouble *why);
/* Keeps only `days` days from a date, which becomes time 0: weather that begins before a season
 * knows how much snow lies on its first day. */
bool curve_cut(struct curve *curve, date_count start, int days, struct trouble *why);
void curve_free(struct curve *curve);

/* Value at a time in seconds; ends are held. */
double curve_at(const struct curve *curve, enum curve_thing thing, double time_s);
/* Water on the level from the start to a time, kg/m2: its difference over a step is exact.
 * Within a day rain falls as (1 - cos 2 pi t)/day, so its rate is smooth and zero at midnight. */
double curve_wet_until(const struct curve *curve, double time_s);
/* Undisturbed ground temperature at a depth, m. */
double curve_ground_K(const struct curve *curve, double depth_m, double time_s);
#endif
