/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/save.c - output that is whole or absent.
 *
 * Written to a hidden file beside the target, forced to disk, and only then given its name, which
 * POSIX rename() and link() do at once: a reader, a crash or a full disk meets the old file or the
 * new one, never half of one. A killed process may leave its hidden `.NAME.PROCESS.NUMBER.part`.
 * A link is followed and its target replaced. The permissions of a replaced file are kept; its
 * owner, access lists and further hard links are not. What is no ordinary file is written straight.
 */
#define _XOPEN_SOURCE 700 /* glibc shows realpath(), of POSIX 2008, only so */
#include "base/save.h"
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

_Static_assert(SAVE_PATH >= PATH_MAX, "realpath() needs this much room");

static bool cannot_create(const char *path, struct trouble *why)
{
    return trouble_set(why, TROUBLE_CREATE, "%s: can't be created: %s", path, strerror(errno));
}

static bool is_standard_output(const struct stat *found)
{
    struct stat out;
    return fstat(STDOUT_FILENO, &out) == 0 && out.st_dev == found->st_dev
           && out.st_ino == found->st_ino;
}

/* length of the folder part with its slash; 0 when there is none */
static int folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? (int)(slash - path) + 1 : 0;
}

/* Opens a hidden file that did not exist, named by process and number rather than by chance; the
 * kernel applies the umask. */
static int open_part(struct save *save)
{
    int folder = folder_length(save->target), fd = -1;
    for (int number = 0; number < 1000; ++number) {
        int length = snprintf(save->part, sizeof save->part, "%.*s.%.200s.%ld.%d.part", folder,
                              save->target, save->target + folder, (long)getpid(), number);
        if (length < 0 || (size_t)length >= sizeof save->part) {
            errno = ENAMETOOLONG;
            return -1;
        }
        fd = open(save->part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (fd >= 0 || errno != EEXIST)
            break;
    }
    return fd;
}

/* `mode` is that of the file to be replaced; 0 when there is none */
static bool begin_part(struct save *save, mode_t mode, struct trouble *why)
{
    int fd = open_part(save);
    if (fd < 0)
        return cannot_create(save->target, why);
    if ((mode == 0 || fchmod(fd, mode & 0777) == 0) && (save->file = fdopen(fd, "w")) != NULL)
        return true;
    cannot_create(save->target, why);
    close(fd);
    unlink(save->part);
    return false;
}

static bool begin_straight(struct save *save, const char *path, struct trouble *why)
{
    save->straight = true;
    save->file = strcmp(path, "-") == 0 ? stdout : fopen(path, "w");
    return save->file ? true : cannot_create(path, why);
}

static bool begin_new(struct save *save, const char *path, struct trouble *why)
{
    struct stat link;
    if (errno != ENOENT) /* a name too long, a file used as a folder, ... */
        return cannot_create(path, why);
    if (lstat(path, &link) == 0)
        return trouble_set(why, TROUBLE_CREATE, "%s: is a link to a file that isn't there; "
                           "remove the link or name the file itself", path);
    snprintf(save->target, sizeof save->target, "%s", path);
    return begin_part(save, 0, why);
}

static bool begin_over(struct save *save, const char *path, mode_t mode, struct trouble *why)
{
    if (!save->force)
        return trouble_set(why, TROUBLE_CREATE,
                           "%s: exists already; give --force to replace it, or name another file",
                           path);
    if (access(path, W_OK) != 0 || !realpath(path, save->target))
        return cannot_create(path, why);
    return begin_part(save, mode, why);
}

bool save_begin(struct save *save, const char *path, bool force, struct trouble *why)
{
    struct stat found;
    memset(save, 0, sizeof *save);
    save->force = force;
    memcpy(save->target, "-", 2);
    if (strcmp(path, "-") == 0)
        return begin_straight(save, path, why);
    if (stat(path, &found) != 0)
        return begin_new(save, path, why);
    if (!S_ISREG(found.st_mode) || is_standard_output(&found)) {
        snprintf(save->target, sizeof save->target, "%s", path);
        return begin_straight(save, path, why);
    }
    return begin_over(save, path, found.st_mode, why);
}

bool save_may(const char *path, bool force, struct trouble *why)
{
    struct save save;
    struct stat found;
    bool is = stat(path, &found) == 0;
    if (strcmp(path, "-") == 0 || (is && !S_ISREG(found.st_mode) && !S_ISDIR(found.st_mode)) ||
        (is && is_standard_output(&found)))
        return true;
    if (!save_begin(&save, path, force, why))
        return false;
    save_abandon(&save);
    return true;
}

/* Keeps the first reason, since closing after a failed write reports another, or none. */
static void keep_reason(bool done, int *reason)
{
    if (!done && *reason == 0)
        *reason = errno ? errno : EIO;
}

/* Closes the file and answers 0 if everything written is on the disk, else the errno. A pipe or a
 * terminal has no disk to wait for; the program's end closes standard output and checks it. */
static int finish_file(struct save *save)
{
    int reason = 0;
    errno = 0;
    keep_reason(fflush(save->file) == 0, &reason);
    errno = 0; /* an earlier write failed, and its errno is lost */
    keep_reason(!ferror(save->file), &reason);
    if (!save->straight)
        keep_reason(fsync(fileno(save->file)) == 0, &reason);
    if (save->file != stdout)
        keep_reason(fclose(save->file) == 0, &reason);
    save->file = NULL;
    return reason;
}

/* Gives the temporary its name. Without force by link(), which refuses a name taken meanwhile;
 * where a file system has no links, by looking and renaming. */
static bool put_in_place(const struct save *save)
{
    struct stat taken;
    if (save->force)
        return rename(save->part, save->target) == 0;
    if (link(save->part, save->target) == 0) {
        (void)unlink(save->part); /* a hidden second name does no harm */
        return true;
    }
    if (lstat(save->target, &taken) == 0) {
        errno = EEXIST;
        return false;
    }
    return rename(save->part, save->target) == 0;
}

/* The name must reach the disk too; where a folder can't be synced there is no more to do. */
static void sync_folder(const char *target)
{
    char folder[SAVE_PATH] = ".";
    int length = folder_length(target);
    if (length > 0) {
        memcpy(folder, target, (size_t)length);
        folder[length] = '\0';
    }
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return;
    (void)fsync(fd);
    close(fd);
}

bool save_commit(struct save *save, struct trouble *why)
{
    int reason = finish_file(save);
    if (reason != 0) {
        trouble_set(why, TROUBLE_DEVICE, "%s: can't be written: %s", save->target,
                    strerror(reason));
        save_abandon(save);
        return false;
    }
    if (save->straight)
        return true;
    if (!put_in_place(save)) {
        cannot_create(save->target, why);
        save_abandon(save);
        return false;
    }
    sync_folder(save->target);
    return true;
}

void save_abandon(struct save *save)
{
    if (save->file && save->file != stdout)
        fclose(save->file);
    save->file = NULL;
    if (!save->straight && save->part[0] != '\0')
        unlink(save->part);
    save->part[0] = '\0';
}

bool save_bytes(const char *path, const void *bytes, size_t size, bool force, struct trouble *why)
{
    struct save save;
    if (!save_begin(&save, path, force, why))
        return false;
    (void)fwrite(bytes, 1, size, save.file); /* a failure stays in the stream for save_commit */
    return save_commit(&save, why);
}
