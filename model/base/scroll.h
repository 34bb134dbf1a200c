/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/scroll.h - a text made in memory, whole or not at all.
 *
 *     struct scroll scroll;
 *     if (!scroll_begin(&scroll))
 *         return ...no memory...;
 *     fprintf(scroll.out, ...);
 *     if (scroll_end(&scroll))
 *         ...use scroll.text and scroll.size...
 *     free(scroll.text);
 */
#ifndef BASE_SCROLL_H
#define BASE_SCROLL_H
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* not to be copied or moved between begin and end */
struct scroll {
    FILE *out;          /* write here */
    char *text;         /* after scroll_end: ends with a NUL that isn't counted */
    size_t size, room;
};

/* False when there is no memory; then there is nothing to end. */
bool scroll_begin(struct scroll *scroll);
/* Closes the stream. False, with text NULL, unless every byte written is there. */
bool scroll_end(struct scroll *scroll);
#endif
