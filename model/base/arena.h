/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/arena.h - one block of memory, handed out in order and given back as a whole.
 *
 * A season asks for all its memory before it begins. Run the same asking code on an arena without
 * a block first: it only counts, and `used` tells how large the block must be.
 */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H
#include <stddef.h>

struct arena {
    char *block;    /* NULL while counting */
    size_t size, used;
};

/* A zeroed piece (if the block was) aligned for vectors; NULL while counting or when there is no
 * more room. */
void *arena_take(struct arena *arena, size_t count, size_t size);
#endif
