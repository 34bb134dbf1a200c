/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/notes.h - what was read at the pile: `readings:`. */
#ifndef DOOR_NOTES_H
#define DOOR_NOTES_H
#include "door/keys.h"

/* Checks the readings and counts those that stand in the scenario itself. */
void notes_read(struct reader *reader, const struct tree_node *node, void *unused);
#endif
