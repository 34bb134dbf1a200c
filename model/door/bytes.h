/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/bytes.h - an input file whole, up to a limit. */
#ifndef DOOR_BYTES_H
#define DOOR_BYTES_H
#include "base/trouble.h"
#include <stddef.h>

struct bytes {
    char *text;     /* ends with a NUL that isn't counted, unless mapped */
    size_t length;
    bool mapped;    /* the file itself, which can't be written to */
};

/* Reads a file ("-" is standard input) of at most `most` bytes. Fails with TROUBLE_ABSENT,
 * TROUBLE_INPUT (a directory, or too long), TROUBLE_DEVICE or TROUBLE_MEMORY. */
bool bytes_read(struct bytes *bytes, const char *path, size_t most, struct trouble *why);
/* The same, but a regular file stays where it is: its pages are read when they are looked at, and may be
 * forgotten and read again, so that many of them need no memory. A page that isn't there any more, since the file
 * was cut short or can't be read, comes as SIGBUS. */
bool bytes_map(struct bytes *bytes, const char *path, size_t most, struct trouble *why);
void bytes_free(struct bytes *bytes);
#endif
