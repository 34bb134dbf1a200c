/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/keys.h - reading a map by a table of its keys, and what all such readers share.
 *
 * The table is the law: a key without a row is a mistake, the nearest key offered is one of its
 * rows, and rows are read in the order of the table whatever the order in the file.
 */
#ifndef DOOR_KEYS_H
#define DOOR_KEYS_H
#include "door/fault.h"
#include "door/tree.h"
#include "door/words.h"
#include "run/plan.h"

struct reader {
    struct fault fault;
    struct scenario *scenario;
    const char *folder; /* of the file, with its slash; "" for standard input */
    double vessel_m3[WORDS_VESSELS];
    bool start_known;
    int last_event;               /* the last day any plan names, 0 = none */
    const struct tree_node *late; /* the node that names it */
};

struct keys_row {
    const char *name;
    void (*read)(struct reader *reader, const struct tree_node *node, void *into);
};

#define KEYS_COUNT(rows) ((int)(sizeof(rows) / sizeof(rows)[0]))

/* Reads a map; `what` names it in messages ("a bin"). False when it is no map. */
bool keys_read(struct reader *reader, const struct tree_node *map, const struct keys_row *rows,
               int count, const char *what, void *into);
/* Fails with a mistake unless the map has the key; NULL then. */
const struct tree_node *keys_need(struct reader *reader, const struct tree_node *map,
                                  const char *key, const char *what);
/* Does the map have a key so near to this one that a slip was told already? */
bool keys_misspelt(const struct tree_node *map, const char *key);
/* Fails unless the node is a list with something in it. */
bool keys_list(struct reader *reader, const struct tree_node *node, const char *what);
/* Fails unless it is a map with something in it. */
bool keys_map(struct reader *reader, const struct tree_node *node, const char *what);

/* A cursor on a node's text, with the vessels as units. */
bool keys_open(struct reader *reader, struct words *words, const struct tree_node *node,
               const char *expected);
/* A node whose whole text is one quantity within bounds, which read as `range`. */
bool keys_quantity(struct reader *reader, const struct tree_node *node, enum unit_kind kind,
                   double least, double most, const char *range, double *SI);
bool keys_span(struct reader *reader, const struct tree_node *node, enum unit_kind kind,
               double least, double most, const char *range, struct span *SI);
bool keys_date(struct reader *reader, const struct tree_node *node, date_count *date);
bool keys_choice(struct reader *reader, const struct tree_node *node, const char *const *names,
                 int count, int *index);
/* A short text as it stands: names of people's own things. */
bool keys_name(struct reader *reader, const struct tree_node *node, char name[PLAN_NAME]);
/* The key of a node as such a name. */
bool keys_key_name(struct reader *reader, const struct tree_node *node, char name[PLAN_NAME]);

/* The name of a file as it can be opened: a relative one begins in the scenario's folder. */
bool keys_path(struct reader *reader, const struct tree_node *node, const char *expected,
               char *path, size_t size);

/* Records a mistake at a node, or at its key; returns false. */
bool keys_fault(struct reader *reader, const struct tree_node *node, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
bool keys_key_fault(struct reader *reader, const struct tree_node *node, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* Records a default value taken. */
void keys_assume(struct reader *reader, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
#endif
