/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/tree.h - YAML as a small tree that keeps line and column.
 *
 * Only what a person writes by hand: texts, lists and maps in one document. Anchors, aliases, tags,
 * further documents, keys that aren't text and keys that stand twice are mistakes. No text is taken
 * for a number, a date or a truth value here.
 */
#ifndef DOOR_TREE_H
#define DOOR_TREE_H
#include "door/fault.h"
#include <stdbool.h>
#include <stddef.h>

enum { TREE_KEYS = 1000, TREE_DEPTH = 64, TREE_NODES = 100000 };

enum tree_kind { TREE_TEXT, TREE_LIST, TREE_MAP };

struct tree_node {
    enum tree_kind kind;
    bool broken;      /* a mistake was told already: say nothing more about it */
    bool plain;       /* an unquoted text on one line: columns within it can be counted */
    int line, column; /* of its first character, from 1 */
    char *text;       /* TREE_TEXT */
    char *key;        /* its key in a map, else NULL */
    int key_line, key_column;
    struct tree_node *child, *next; /* first child; next of the same parent */
    struct tree_node *last, *older; /* for the making only */
    int children;
};

struct tree {
    struct tree_node *root;
    struct tree_node *newest;
    int nodes;
};

/* Builds the tree; mistakes go to `fault`. False when the text can't be read to its end, so that
 * what follows from that isn't told as well; tree_free in any case. */
bool tree_read(struct tree *tree, const char *text, size_t length, struct fault *fault);
void tree_free(struct tree *tree);
const struct tree_node *tree_find(const struct tree_node *map, const char *key);
#endif
