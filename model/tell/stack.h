/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/stack.h - figures of the pictures that stack areas: the heat budget, and dry mass by pool.
 *
 * Each day is a bar as wide as a day. In the heat budget gains stack upward from nought and losses
 * downward; a line of the budget may be on either side on different days.
 */
#ifndef TELL_STACK_H
#define TELL_STACK_H
#include "tell/chart.h"
#include "tell/paint.h"

/* Daily means by the groups of pile/flux. Warmth of material added or taken away comes at once and
 * would dwarf the rest: it is told in a note instead of drawn. */
bool stack_heat(const struct chart *chart, struct trouble *why);
bool stack_mass(const struct chart *chart, struct trouble *why);
/* Any bars: value[band * bars + bar]; the first stands about 1. */
bool stack_bars(FILE *script, const enum paint *paint, int bands, const double *value, int bars,
                struct trouble *why);
#endif
