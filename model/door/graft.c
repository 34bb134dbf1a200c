/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/graft.c - see door/graft.h.
 *
 * YAML writes a map in lines that stand in alike, or within braces. The plan goes after the line of
 * the key `plans`, or after the brace; where there is no such key, at the end of the file, before the
 * mark `...` of its end.
 */
#include "door/graft.h"
#include "door/tree.h"
#include <stdlib.h>
#include <string.h>

/* The offset of a place; columns count characters, and the mark of byte order is none. */
static size_t offset_of(const char *text, int line, int column)
{
    const char *at = strncmp(text, "\xEF\xBB\xBF", 3) == 0 ? text + 3 : text;
    for (int i = 1; i < line; i++) {
        const char *end = strchr(at, '\n');
        if (!end)
            return strlen(text);
        at = end + 1;
    }
    for (int i = 1; i < column && *at; i++)
        for (at++; ((unsigned char)*at & 0xC0) == 0x80;)
            at++;
    return (size_t)(at - text);
}

/* Where the lines of the document end. */
static size_t end_of(const char *text)
{
    for (const char *at = text; (at = strstr(at, "\n...")) != NULL; at += 4)
        if (at[4] == '\0' || strchr(" \t\r\n", at[4]))
            return (size_t)(at + 1 - text);
    return strlen(text);
}

static void place(struct graft *graft, const char *text, const struct tree_node *root)
{
    const struct tree_node *plans = tree_find(root, "plans");
    const struct tree_node *map = plans ? plans : root;
    size_t at = offset_of(text, map->line, map->column);
    *graft = (struct graft){.first = !plans, .flow = text[at] == '{', .indent = map->column - 1};
    if (graft->flow)
        graft->offset = at + 1;
    else if (plans)
        graft->offset = offset_of(text, plans->key_line + 1, 1);
    else
        graft->offset = end_of(text);
    graft->line_end = !graft->flow && graft->offset > 0 && text[graft->offset - 1] != '\n';
}

bool graft_find(struct graft *graft, const char *text, size_t length)
{
    struct tree tree;
    struct fault *fault = calloc(1, sizeof *fault);
    if (!fault)
        return false;
    fault->file = "";
    bool good = tree_read(&tree, text, length, fault) && tree.root->kind == TREE_MAP;
    if (good)
        place(graft, text, tree.root);
    tree_free(&tree);
    free(fault);
    return good;
}
