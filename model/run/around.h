/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/around.h - the pile's surroundings at a moment: from weather, place, and what lies on it. */
#ifndef RUN_AROUND_H
#define RUN_AROUND_H
#include "flow/outside.h"
#include "know/param.h"
#include "run/plan.h"
#include "sky/curve.h"

struct around {
    const struct curve *sky[LANES];
    lane wind_share, film, film_wind, emissivity, snow_W_per_mK, wind_through;
    lane sun_share;         /* of the place: full sun, half the day, shade */
    double across_m;        /* width of the pile */
    lane ground_over_K[MESH_SOIL_LAYERS + 1]; /* of the day */
};

void around_param(struct around *around, const struct param param[LANES],
                  const struct plan_place_on_earth *place, const struct curve *const sky[LANES]);
/* Undisturbed ground of a day: its noon. */
void around_day(struct around *around, int day);
void around_day_of(struct around *around, int member, int day); /* of one member alone */
/* Weather at each member's moment into `outside`; skins and soil are left as they are. Rain is the
 * rate of that moment; a step puts its own mean in its place. */
void around_fill(const struct around *around, lane time_s, struct outside *outside);
/* Mean of the air over a step, over the ice point: by Simpson's rule. */
lane around_air(const struct around *around, lane from_s, lane step_s);
/* Mean rate of rain and melt water over a step, kg/m2/s: exact, so that what enters is what fell. */
lane around_rain(const struct around *around, lane from_s, lane step_s);
#endif
