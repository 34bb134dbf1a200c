/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/scroll.c - a text made in memory, whole or not at all.
 *
 * POSIX has open_memstream() for this. That of glibc (2.36, tests/faults) drops a write for which it finds
 * no memory, sets no error and goes on with the next, so that an answer could lack its middle. There
 * the stream is made by fopencookie(), over which a write that fails is remembered as on any file.
 */
#define _GNU_SOURCE /* fopencookie(), where there is one */
#include "base/scroll.h"
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>

#ifdef __GLIBC__
static bool make_room(struct scroll *scroll, size_t more)
{
    size_t needed = scroll->size + more + 1, room = scroll->room ? scroll->room : 4096;
    if (needed <= scroll->room)
        return true;
    while (room < needed)
        room *= 2;
    char *text = realloc(scroll->text, room);
    if (!text)
        return false;
    scroll->text = text;
    scroll->room = room;
    return true;
}

static ssize_t take(void *cookie, const char *bytes, size_t size)
{
    struct scroll *scroll = cookie;
    if (!make_room(scroll, size))
        return 0; /* stdio notes an error */
    memcpy(scroll->text + scroll->size, bytes, size);
    scroll->size += size;
    scroll->text[scroll->size] = '\0';
    return (ssize_t)size;
}

static FILE *stream(struct scroll *scroll)
{
    return make_room(scroll, 0) ? fopencookie(scroll, "w", (cookie_io_functions_t){.write = take}) : NULL;
}
#else
static FILE *stream(struct scroll *scroll)
{
    return open_memstream(&scroll->text, &scroll->size);
}
#endif

bool scroll_begin(struct scroll *scroll)
{
    *scroll = (struct scroll){0};
    scroll->out = stream(scroll);
    if (scroll->out) {
        if (scroll->text)
            scroll->text[0] = '\0';
        return true;
    }
    free(scroll->text);
    scroll->text = NULL;
    return false;
}

bool scroll_end(struct scroll *scroll)
{
    bool failed = fflush(scroll->out) != 0 || ferror(scroll->out) != 0;
    failed = fclose(scroll->out) != 0 || failed;
    scroll->out = NULL;
    if (!failed && scroll->text)
        return true;
    free(scroll->text);
    scroll->text = NULL;
    return false;
}
