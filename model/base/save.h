/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/save.h - output that is whole or absent.
 *
 *     struct save save;
 *     if (!save_begin(&save, path, force, why))
 *         return false;
 *     fprintf(save.file, ...);
 *     return save_commit(&save, why);         or save_abandon(&save) to leave things as they were
 *
 * The program must ignore SIGXFSZ, so that a limit on file size comes back as an error.
 */
#ifndef BASE_SAVE_H
#define BASE_SAVE_H
#include "base/trouble.h"
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { SAVE_PATH = 4096 + 32 };

struct save {
    FILE *file;             /* write here */
    bool force;             /* may replace a file that is there */
    bool straight;          /* no temporary: a pipe, a terminal, a device, or standard output */
    char target[SAVE_PATH]; /* what the user named, links resolved */
    char part[SAVE_PATH];   /* the temporary beside it */
};

/* Opens an output. `-` is standard output. A file that exists is refused without force. */
bool save_begin(struct save *save, const char *path, bool force, struct trouble *why);
/* Could it be opened? Asked ahead of long work; leaves nothing behind. A pipe, which opens once, is taken
 * at its word. */
bool save_may(const char *path, bool force, struct trouble *why);
/* Puts what was written in place of the target; on failure the target is as it was. */
bool save_commit(struct save *save, struct trouble *why);
/* Throws away what was written. */
void save_abandon(struct save *save);
/* All of it at once. */
bool save_bytes(const char *path, const void *bytes, size_t size, bool force, struct trouble *why);
#endif
