/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/climate.h - the weather of a scenario, whatever it names, as the curves of its season. */
#ifndef DOOR_CLIMATE_H
#define DOOR_CLIMATE_H
#include "run/plan.h"
#include "sky/curve.h"

/* Reads or generates the weather and makes curves of exactly the season's days. The draw chooses
 * which run of weather is generated from normals; 0 is a mean year. Fails with TROUBLE_INPUT when a
 * file leaves out days. On failure there is nothing to free. */
bool climate_curve(struct curve *curve, const struct scenario *scenario, long long draw,
                   struct trouble *why);
#endif
