/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/page.c - a text made in memory, whole or not at all.
 *
 * POSIX has open_memstream() for this. That of glibc (2.36, tests/faults) drops a write for which it finds
 * no memory, sets no error and goes on with the next, so that an answer could lack its middle. There
 * the stream is made by fopencookie(), over which a write that fails is remembered as on any file.
 */
#define _GNU_SOURCE /* fopencookie(), where there is one */
#include "base/page.h"
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>

#ifdef __GLIBC__
static bool make_room(struct page *page, size_t more)
{
    size_t needed = page->size + more + 1, room = page->room ? page->room : 4096;
    if (needed <= page->room)
        return true;
    while (room < needed)
        room *= 2;
    char *text = realloc(page->text, room);
    if (!text)
        return false;
    page->text = text;
    page->room = room;
    return true;
}

static ssize_t take(void *cookie, const char *bytes, size_t size)
{
    struct page *page = cookie;
    if (!make_room(page, size))
        return 0; /* stdio notes an error */
    memcpy(page->text + page->size, bytes, size);
    page->size += size;
    page->text[page->size] = '\0';
    return (ssize_t)size;
}

static FILE *stream(struct page *page)
{
    return make_room(page, 0) ? fopencookie(page, "w", (cookie_io_functions_t){.write = take}) : NULL;
}
#else
static FILE *stream(struct page *page)
{
    return open_memstream(&page->text, &page->size);
}
#endif

bool page_begin(struct page *page)
{
    *page = (struct page){0};
    page->out = stream(page);
    if (page->out) {
        if (page->text)
            page->text[0] = '\0';
        return true;
    }
    free(page->text);
    page->text = NULL;
    return false;
}

bool page_end(struct page *page)
{
    bool failed = fflush(page->out) != 0 || ferror(page->out) != 0;
    failed = fclose(page->out) != 0 || failed;
    page->out = NULL;
    if (!failed && page->text)
        return true;
    free(page->text);
    page->text = NULL;
    return false;
}
