/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/garden.h - where the garden lies and what is over it: `measures:`, `place:`, `sky:`. */
#ifndef DOOR_GARDEN_H
#define DOOR_GARDEN_H
#include "door/keys.h"

void garden_read_measures(struct reader *reader, const struct tree_node *node, void *unused);
void garden_read_place(struct reader *reader, const struct tree_node *node, void *unused);
void garden_read_sky(struct reader *reader, const struct tree_node *node, void *unused);
/* Sizes of vessels until a file says otherwise. */
void garden_usual_vessels(double vessel_m3[WORDS_VESSELS]);
/* What is assumed of vessels and place when the file does not say. */
void garden_assume(struct reader *reader, const struct tree_node *file);
#endif
