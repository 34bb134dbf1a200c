/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/timing.h - when an event of a plan happens: on a day, every so often, or by a rule. */
#ifndef DOOR_TIMING_H
#define DOOR_TIMING_H
#include "door/keys.h"

/* Reads the keys of time of one event (timing_rows, read with the event as `into`) and checks that
 * they fit together. */
bool timing_settle(struct reader *reader, const struct tree_node *map, struct plan_event *event);
enum { TIMING_KEYS = 8, TIMING_END = -1 }; /* until = TIMING_END: to the last day */
extern const struct keys_row timing_rows[TIMING_KEYS];
#endif
