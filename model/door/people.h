/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/people.h - what the compost is for and who works: `need:`, `people:`. */
#ifndef DOOR_PEOPLE_H
#define DOOR_PEOPLE_H
#include "door/keys.h"

void people_read_need(struct reader *reader, const struct tree_node *node, void *unused);
void people_read(struct reader *reader, const struct tree_node *node, void *unused);
/* What is assumed where the file does not say. */
void people_assume(struct reader *reader, const struct tree_node *file);
#endif
