/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/arena.c - see base/arena.h. */
#include "base/arena.h"

enum { ALIGN = 64 };

void *arena_take(struct arena *arena, size_t count, size_t size)
{
    size_t bytes = (count * size + ALIGN - 1) / ALIGN * ALIGN;
    size_t from = arena->used;
    arena->used += bytes;
    if (!arena->block || arena->used > arena->size)
        return NULL;
    return arena->block + from;
}
