/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/spell.h - the weather of one season, read or made up, as its curves. */
#ifndef MANY_SPELL_H
#define MANY_SPELL_H
#include "run/plan.h"
#include "sky/curve.h"
#include <stdint.h>

/* Curves of exactly the season's days from daily weather, whose gaps it fills. */
bool spell_of(struct curve *curve, const struct scenario *scenario, struct weather *weather,
              struct trouble *why);
/* Weather made up from the scenario's normals: the seed chooses which, 0 is a mean year. A season may
 * be warmer or colder than normal throughout, by `warmer_K`. */
bool spell_made(struct curve *curve, const struct scenario *scenario, uint64_t seed, double warmer_K,
                struct trouble *why);
/* On failure there is nothing to free. */
#endif
