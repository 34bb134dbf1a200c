/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/fork.h - what fork and can do to material: air breathed, volume lifted, sticks taken, water. */
#ifndef RUN_FORK_H
#define RUN_FORK_H
#include "run/keeper.h"

/* Every cell lies open to the air for a while, and is lifted. */
void fork_open(struct keeper *keeper);
/* Sticks and stalks picked out; returns their wet mass, kg. */
lane fork_pick(struct keeper *keeper);
/* Water given to each layer while the pile is open, or poured on its top; returns how much, kg. */
lane fork_wet(struct keeper *keeper, const struct plan_event *event);
lane fork_pour(struct keeper *keeper, const struct plan_event *event);
#endif
