/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/page.h - a text made in memory, whole or not at all.
 *
 *     struct page page;
 *     if (!page_begin(&page))
 *         return ...no memory...;
 *     fprintf(page.out, ...);
 *     if (page_end(&page))
 *         ...use page.text and page.size...
 *     free(page.text);
 */
#ifndef BASE_PAGE_H
#define BASE_PAGE_H
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* not to be copied or moved between begin and end */
struct page {
    FILE *out;          /* write here */
    char *text;         /* after page_end: ends with a NUL that isn't counted */
    size_t size, room;
};

/* False when there is no memory; then there is nothing to end. */
bool page_begin(struct page *page);
/* Closes the stream. False, with text NULL, unless every byte written is there. */
bool page_end(struct page *page);
#endif
