/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/deeds.h - what is done to a pile and when: `plans:`. */
#ifndef DOOR_DEEDS_H
#define DOOR_DEEDS_H
#include "door/keys.h"

/* Reads a map of plan names to lists of events. */
void deeds_read(struct reader *reader, const struct tree_node *node, void *unused);
/* The plans of a scenario that has none: leave it, and one turn for comparison. */
void deeds_assume(struct reader *reader);
#endif
