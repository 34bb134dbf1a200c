/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/bytes.c - an input file whole, up to a limit.
 *
 * Whole, because a mistake in the encoding is known by its offset only and has to be found again;
 * up to a limit, because a wrong name (a device, a video) must not fill the memory.
 */
#include "door/bytes.h"
#include <errno.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>

static bool refuse(const char *path, struct trouble *why)
{
    int error = errno;
    bool absent = error == ENOENT || error == ENOTDIR;
    return trouble_set(why, absent ? TROUBLE_ABSENT : TROUBLE_DEVICE, "%s: %s", path,
                       absent ? "there is no such file" : strerror(error));
}

static FILE *opened(const char *path, struct trouble *why)
{
    struct stat about;
    if (!strcmp(path, "-"))
        return stdin;
    if (stat(path, &about) == 0 && S_ISDIR(about.st_mode)) {
        trouble_set(why, TROUBLE_INPUT, "%s: this is a directory; expected a file in it", path);
        return NULL;
    }
    FILE *file = fopen(path, "rb");
    if (!file)
        refuse(path, why);
    return file;
}

/* room for a further block; false when there is no memory */
static bool grow(struct bytes *bytes, size_t *room)
{
    if (bytes->length + 1 < *room)
        return true;
    size_t larger = *room ? 2 * *room : 16384;
    char *text = realloc(bytes->text, larger);
    if (!text)
        return false;
    bytes->text = text;
    *room = larger;
    return true;
}

static bool swallow(struct bytes *bytes, FILE *file, const char *path, size_t most,
                    struct trouble *why)
{
    size_t room = 0, got = 1;
    while (got > 0 && bytes->length <= most) {
        if (!grow(bytes, &room))
            return trouble_set(why, TROUBLE_MEMORY, "%s: not enough memory to read it", path);
        errno = 0;
        got = fread(bytes->text + bytes->length, 1, room - 1 - bytes->length, file);
        bytes->length += got;
    }
    if (ferror(file))
        return trouble_set(why, TROUBLE_DEVICE, "%s: can't be read: %s", path, strerror(errno));
    if (bytes->length > most)
        return trouble_set(why, TROUBLE_INPUT, "%s: longer than %zu bytes; is it the right file?",
                           path, most);
    bytes->text[bytes->length] = '\0';
    return true;
}

static bool map(struct bytes *bytes, FILE *file, size_t most)
{
    struct stat about;
    if (file == stdin || fstat(fileno(file), &about) != 0 || !S_ISREG(about.st_mode) ||
        about.st_size <= 0 || (uintmax_t)about.st_size > most)
        return false;
    void *here = mmap(NULL, (size_t)about.st_size, PROT_READ, MAP_PRIVATE, fileno(file), 0);
    if (here == MAP_FAILED)
        return false;
    *bytes = (struct bytes){here, (size_t)about.st_size, true};
    return true;
}

static bool take(struct bytes *bytes, const char *path, size_t most, bool may_map, struct trouble *why)
{
    *bytes = (struct bytes){0};
    FILE *file = opened(path, why);
    if (!file)
        return false;
    bool good = (may_map && map(bytes, file, most)) || swallow(bytes, file, path, most, why);
    if (file != stdin)
        fclose(file);
    if (!good)
        bytes_free(bytes);
    return good;
}

bool bytes_read(struct bytes *bytes, const char *path, size_t most, struct trouble *why)
{
    return take(bytes, path, most, false, why);
}

bool bytes_map(struct bytes *bytes, const char *path, size_t most, struct trouble *why)
{
    return take(bytes, path, most, true, why);
}

void bytes_free(struct bytes *bytes)
{
    if (bytes->mapped)
        munmap(bytes->text, bytes->length);
    else
        free(bytes->text);
    *bytes = (struct bytes){0};
}
