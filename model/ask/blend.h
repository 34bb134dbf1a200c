/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/blend.h - what is put together into a pile, as sums that add: carbon, nitrogen, water, room.
 *
 * A blend of a whole recipe is read off the pile that a season would begin with, so that C:N, water
 * and free air mean the same here and there. What else might go in is a blend of its own, laid by the
 * same hands and taken to lie as closely as the rest. Ratios are asked of the sum, never averaged.
 */
#ifndef ASK_BLEND_H
#define ASK_BLEND_H
#include "run/possible.h"
#include "sky/curve.h"

struct blend {
    double carbon_kg, nitrogen_kg, dry_kg, water_kg;
    double solid_m3;        /* of its dry matter without any pores */
    double carried_m3;      /* as it comes in vessels */
    double loose_m3;        /* trodden in */
    double built_m3;        /* the same under its own weight */
    double settled_m3;      /* in time, were nothing lost */
};

enum blend_figure { BLEND_C_TO_N, BLEND_WATER_SHARE, BLEND_FREE_AIR, BLEND_BULK, BLEND_BUILT,
                    BLEND_CARRIED, BLEND_SETTLED, BLEND_WET_KG, BLEND_FIGURES };
/* By mass, of the wet mass, of the volume as built, kg/m3, m3, m3, m3, kg; NAN where there is
 * none. */
double blend_figure(const struct blend *blend, enum blend_figure figure);

void blend_add(struct blend *sum, const struct blend *more, double times);
/* Water to pour, kg, for a share of the wet mass; negative where there is too much. W = D m/(1 - m)
 * less what is there. */
double blend_water_wanted(const struct blend *blend, double share);

/* The pile of a scenario just built, or as found, in its bay. Any weather will do. Fails as
 * setting_make does. */
bool blend_pile(struct blend *blend, const struct scenario *scenario, const struct possible *possible,
                const struct curve *sky, struct trouble *why);
/* Some of one ingredient; in a pile that lies at so much of its loose volume. */
void blend_portion(struct blend *blend, const struct scenario *scenario,
                   const struct possible *possible, const struct plan_portion *portion,
                   double pressed);
/* What a pile just built is of its loose volume. */
double blend_pressed(const struct blend *pile);
/* Water as it is poured. */
void blend_poured(struct blend *blend, const struct possible *possible, double water_kg);
#endif
