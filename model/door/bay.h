/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/bay.h - one place for a pile: its shape, size, walls, floor and lid. */
#ifndef DOOR_BAY_H
#define DOOR_BAY_H
#include "door/keys.h"
#include "know/bound.h"

enum { BAY_KEYS = 13 };
extern const struct keys_row bay_rows[BAY_KEYS]; /* `like` first, which the caller has read */

const char *bay_word(enum plan_shape shape); /* "bin" */
struct plan_bay bay_fresh(enum plan_shape shape);
/* `1.2 x 1.2 x 1 m` */
void bay_read_size(struct reader *reader, const struct tree_node *node, void *bay);
/* `1.5 m across`, `4 m long and 1.5 m across and 1 m high` */
void bay_read_phrase(struct reader *reader, const struct tree_node *node, struct plan_bay *bay);
/* Checks the sizes a shape needs and takes the usual for what isn't said. */
bool bay_settle(struct reader *reader, const struct tree_node *node, struct plan_bay *bay);

bool bay_is_held(const struct plan_bay *bay); /* a jar in a laboratory, which takes no visits */
double bay_footprint_m2(const struct plan_bay *bay);
/* volume of a pile of some height as a share of footprint times height */
double bay_fullness(const struct plan_bay *bay);
/* Names of a kind of bound, for messages and choices; returns how many. */
int bay_names(enum bound_kind kind, const char **names, int most);
#endif
