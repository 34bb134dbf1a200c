/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/budget.h - where the heat of a pile comes from and goes to, in watts.
 *
 * The lines are the groups of pile/flux: gains positive, losses negative, and all but `stored` add up
 * to `stored`, what the pile itself takes up. Medians of many piles need not add up; means do. So the
 * middle of what is told of many is their mean, and the ends are where 8 in 10 of them lie.
 */
#ifndef ASK_BUDGET_H
#define ASK_BUDGET_H
#include "run/record.h"

enum budget_line {
    BUDGET_DECAY, BUDGET_VAPOUR, BUDGET_AIR, BUDGET_WALLS, BUDGET_TOP, BUDGET_GROUND,
    BUDGET_SUN_AND_SKY, BUDGET_RAIN_AND_WATER, BUDGET_ADDED, BUDGET_STORED, BUDGET_LINES
};
extern const char *const budget_name[BUDGET_LINES]; /* groups of pile/flux, and `stored` */

struct budget {
    double line_W[BUDGET_LINES];
    double dried_kg_per_s;      /* water that leaves as vapour, less what comes with the air */
    double steam_W;             /* heat that evaporates so much; a part of `air` and `vapour` */
};

/* Of what flowed within a time, in a pile of such a mean temperature. */
struct budget budget_of(const double flux[FLUXES], double time_s, double mean_K);
/* Of a day of a record, from 0: its mean; of the first, from the hour of building on. */
struct budget budget_day(const struct record *record, int day);
/* Of one hour of the day whose hours the record holds; NAN before the pile was built. */
struct budget budget_hour(const struct record *record, int hour);
/* The hour from 0, or with -1 the day. */
struct budget budget_at(const struct record *record, int day, int hour);

/* what a gardener tells apart: losses are positive, a gain negative */
enum budget_way { BUDGET_STEAM_AND_AIR, BUDGET_BY_WALLS, BUDGET_BY_TOP, BUDGET_BY_GROUND, BUDGET_BY_WATER,
                  BUDGET_WAYS };
double budget_way_W(const struct budget *budget, enum budget_way way);

/* many piles: mid is the mean, low and high hold 8 in 10 */
struct budget_range {
    struct span line_W[BUDGET_LINES], dried_kg_per_s, steam_W, way_W[BUDGET_WAYS];
};
/* `room` has a number for each member. */
struct budget_range budget_range_of(const struct record *record, int members, int day, int hour,
                                    double *room);
/* The way by which most leaves in the mean, -1 where none takes any. */
int budget_most(const struct budget_range *range);
/* Heat of evaporation, J/kg: 2.501e6 - 2361 t, t in C (Harrison 1963, in Allen et al. 1998, FAO
 * Irrigation and Drainage Paper 56, equation 3-1; memory). */
double budget_latent(double temp_K);
#endif
