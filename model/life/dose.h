/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/dose.h - how much material stands at which stage of a dose of heat (know/rules).
 *
 * Hours above a temperature don't add when two cells are mixed, but the dry mass (as it was laid)
 * that stands at each stage of a dose does. All that lies in one cell between two deeds lives through
 * the same hours: they gather in a carry, and each full stage of it moves the mass of every stage on
 * by one; the last stage keeps what reaches it. A run that breaks sends all but the last stage back to
 * none. So a pile that nobody works on is followed exactly. Before material is moved, the part of a
 * stage that a carry holds becomes a part of the mass that moves on: the mean dose of a cell stays
 * what it was, its spread grows by at most a quarter of a squared stage for each deed.
 *
 * What is drier than the dose asks earns nothing and breaks a run.
 */
#ifndef LIFE_DOSE_H
#define LIFE_DOSE_H
#include "pile/pile.h"

struct dose {
    lane *carry[RULES_DOSES];   /* [stride] stages gained and not yet booked, less than one */
    lane *held[RULES_DOSES];    /* [stride] 1 where a run may be under way */
    lane *hot_s;                /* [stride] above 55 C within the present run above 40 C */
};

void dose_take(struct dose *dose, int stride, struct arena *arena);
/* Those members' cells remember nothing. */
void dose_clear(struct dose *dose, lane_mask who, int stride);
/* Cells went from one temperature to another within a step, at this share of water; a step of no
 * length (a member that waits) does nothing. */
void dose_step(struct dose *dose, struct pile *pile, const lane *from_K, const lane *to_K,
               const lane *wet_share, lane step_s);
/* Before material of some members is moved: carries become mass. Afterwards no cell remembers how far
 * it was. */
void dose_fold(struct dose *dose, struct pile *pile, lane_mask who);
/* Mass at a stage or beyond, kg. */
lane dose_met(const struct pile *pile, int dose, int stage);
/* Stages of the time-temperature equation gained in a step. */
lane dose_equation(lane from_K, lane to_K, lane step_s);
#endif
