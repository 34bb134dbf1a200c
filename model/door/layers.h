/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/layers.h - what a pile is made of: built, found standing, in stock, or added later. */
#ifndef DOOR_LAYERS_H
#define DOOR_LAYERS_H
#include "door/keys.h"

void layers_read_build(struct reader *reader, const struct tree_node *node, void *unused);
void layers_read_found(struct reader *reader, const struct tree_node *node, void *unused);
void layers_read_have(struct reader *reader, const struct tree_node *node, void *unused);
/* One layer: a map of ingredients to amounts, with `water:` and `squeeze:`. */
bool layers_read_layer(struct reader *reader, const struct tree_node *node,
                       struct plan_layer *layer);
/* A sheet of one ingredient of some volume, for a cover. */
bool layers_make_sheet(struct reader *reader, const char *ingredient, double volume_m3,
                       struct plan_layer *layer);
#endif
