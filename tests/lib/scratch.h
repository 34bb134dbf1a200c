/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/lib/scratch.h - a folder of its own for a test that touches files. */
#ifndef LIB_SCRATCH_H
#define LIB_SCRATCH_H
#include "lib/near.h"
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

enum { SCRATCH_FOLDER = 32, SCRATCH_PATH = 1024, SCRATCH_TEXT = 512 };

struct scratch {
    char folder[SCRATCH_FOLDER];
};

static inline int scratch_open(void **state)
{
    static struct scratch scratch;
    snprintf(scratch.folder, sizeof scratch.folder, "/tmp/midden-test-XXXXXX");
    *state = &scratch;
    return mkdtemp(scratch.folder) ? 0 : -1;
}

/* The path of a name in the folder; four can be in use at a time. */
static inline const char *scratch_path(void **state, const char *name)
{
    static char paths[4][SCRATCH_PATH];
    static int turn;
    char *path = paths[turn++ % 4];
    snprintf(path, sizeof paths[0], "%s/%s", ((struct scratch *)*state)->folder, name);
    return path;
}

static inline void scratch_write(void **state, const char *name, const char *text)
{
    FILE *file = fopen(scratch_path(state, name), "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
}

/* The first bytes of a file, or "(absent)". */
static inline const char *scratch_read(void **state, const char *name)
{
    static char text[SCRATCH_TEXT];
    FILE *file = fopen(scratch_path(state, name), "r");
    if (!file)
        return "(absent)";
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    return text;
}

/* How many files there are, hidden ones too. */
static inline int scratch_count(void **state)
{
    int count = 0;
    DIR *folder = opendir(((struct scratch *)*state)->folder);
    assert_non_null(folder);
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(folder);
    return count;
}

static inline int scratch_close(void **state)
{
    const char *path = ((struct scratch *)*state)->folder;
    DIR *folder = opendir(path);
    if (!folder)
        return -1;
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
        unlink(scratch_path(state, entry->d_name)); /* `.` and `..` refuse */
    closedir(folder);
    return rmdir(path);
}
#endif
