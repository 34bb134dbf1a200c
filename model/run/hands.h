/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hands.h - what a gardener does to the pile: each deed a map on amounts, named fluxes, work. */
#ifndef RUN_HANDS_H
#define RUN_HANDS_H
#include "base/trouble.h"
#include "run/keeper.h"
#include "run/moment.h"

/* Does one event to the piles of those members; the record rows (one a member) tell what it was and
 * what it cost. Fails with TROUBLE_NO when the bay it is to go into is full. */
bool hands_do(struct keeper *keeper, const struct plan_event *event, const struct moment *ten,
              struct record_event done[LANES], struct trouble *why);
#endif
