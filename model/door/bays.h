/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/bays.h - where a pile stands: bins, heaps, windrows and jars. */
#ifndef DOOR_BAYS_H
#define DOOR_BAYS_H
#include "door/keys.h"

/* `bin:`, `heap:`, `windrow:`, `jar:` - one alone; `bins:` - several by name. */
void bays_read_bin(struct reader *reader, const struct tree_node *node, void *unused);
void bays_read_heap(struct reader *reader, const struct tree_node *node, void *unused);
void bays_read_windrow(struct reader *reader, const struct tree_node *node, void *unused);
void bays_read_jar(struct reader *reader, const struct tree_node *node, void *unused);
void bays_read_bins(struct reader *reader, const struct tree_node *node, void *unused);
#endif
