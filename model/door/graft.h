/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/graft.h - where in a scenario's text a further plan can be put, so that all the keeper wrote,
 * notes too, stays as it is.
 */
#ifndef DOOR_GRAFT_H
#define DOOR_GRAFT_H
#include <stdbool.h>
#include <stddef.h>

struct graft {
    size_t offset;     /* in bytes: the plan goes before this one */
    int indent;        /* of the plan's name, where it has lines of its own */
    bool flow;         /* within braces: the plan goes in one line, as `name: [{...}]` */
    bool first;        /* the file has no plans yet: `plans` must be written as well */
    bool line_end;     /* a line end is missing before the plan */
};

/* False where the text isn't a map, or not YAML. */
bool graft_find(struct graft *graft, const char *text, size_t length);
#endif
