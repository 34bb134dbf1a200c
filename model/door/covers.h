/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/covers.h - what is laid on a pile: a cover of the table, or an ingredient as a sheet. */
#ifndef DOOR_COVERS_H
#define DOOR_COVERS_H
#include "door/keys.h"

/* Reads `straw 10 cm` into the event's cover and thickness; an ingredient the table of covers lacks
 * becomes a sheet as large as the bin, and the event's cover is -1. */
void covers_read(struct reader *reader, const struct tree_node *node, struct plan_event *event,
                 struct plan_layer *sheet);
#endif
