/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/ingredients.h - the keeper's own ingredients, and which ingredient a name means. */
#ifndef DOOR_INGREDIENTS_H
#define DOOR_INGREDIENTS_H
#include "door/keys.h"

/* Reads `ingredients:`, a map of names to what differs from the table. */
void ingredients_read(struct reader *reader, const struct tree_node *node, void *unused);
/* Row of scenario.stuff for a name, copied there from the table when it is new; -1 when unknown
 * (no mistake is recorded). */
int ingredients_row(struct reader *reader, const char *name);
/* The same for the key of a node, with the mistake recorded. */
int ingredients_row_of_key(struct reader *reader, const struct tree_node *node);
#endif
