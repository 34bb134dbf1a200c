/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/notes.h - what was read at the pile: `readings:`. */
#ifndef DOOR_NOTES_H
#define DOOR_NOTES_H
#include "door/keys.h"

/* Keeps the readings that stand in the scenario itself, and where its log is. */
void notes_read(struct reader *reader, const struct tree_node *node, void *unused);
#endif
