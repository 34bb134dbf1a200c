/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/allot.c - memory for jansson that remembers whether any was refused.
 *
 * A value that jansson can't make becomes NULL, and what it stood in lacks it: an answer with a number
 * missing or null would look whole. Rather than asking at each of some hundred values, the one who
 * writes asks once at the end. jansson's allocator is one for the whole program, and so is this note.
 */
#include "tell/allot.h"
#include <jansson.h>
#include <stdlib.h>

static bool refused;

static void *take(size_t size)
{
    void *memory = malloc(size);
    refused = refused || !memory;
    return memory;
}

void allot_watch(void)
{
    json_set_alloc_funcs(take, free);
}

bool allot_refused(void)
{
    return refused;
}
