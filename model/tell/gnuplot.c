/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/gnuplot.c - gnuplot as a program that draws one script into one file. */
#include "tell/gnuplot.h"
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { SAID = 2048, TAIL = 32 };

/* Length of the character at the start of a text, 0 when it is not well-formed UTF-8 or is a
 * control character. Shape of the bytes: RFC 3629, section 4, whose special cases of the second
 * byte are below (no overlong forms, no surrogates, nothing past U+10FFFF) [memory]. */
static int character(const unsigned char *c)
{
    if (c[0] < 0x80)
        return c[0] >= 0x20 && c[0] != 0x7f;
    int length = c[0] >= 0xc2 && c[0] <= 0xdf ? 2 : (c[0] & 0xf0) == 0xe0 ? 3 : 0;
    if (c[0] >= 0xf0 && c[0] <= 0xf4)
        length = 4;
    /* after c2 are the C1 controls */
    int least = c[0] == 0xe0 || c[0] == 0xc2 ? 0xa0 : c[0] == 0xf0 ? 0x90 : 0x80;
    int most = c[0] == 0xed ? 0x9f : c[0] == 0xf4 ? 0x8f : 0xbf;
    if (length == 0 || c[1] < least || c[1] > most)
        return 0;
    for (int i = 2; i < length; i++)
        if (c[i] < 0x80 || c[i] > 0xbf)
            return 0;
    return length;
}

bool gnuplot_accept(const char *text, const char *what, struct trouble *why)
{
    const unsigned char *c = (const unsigned char *)text;
    while (*c) {
        int length = character(c);
        if (!length)
            return trouble_set(why, TROUBLE_INPUT,
                               "%s has the byte 0x%02x at place %ld, where a picture can show only "
                               "printable UTF-8 on one line; write it without",
                               what, *c, (long)(c - (const unsigned char *)text) + 1);
        c += length;
    }
    return true;
}

/* In single quotes gnuplot expands nothing. A quote itself stands between two such pieces: doubled,
 * as its manual has it, gnuplot 5.4 takes one at the very start for an empty text. */
void gnuplot_quote(FILE *script, const char *text)
{
    putc('\'', script);
    for (; *text; text++)
        if (*text == '\'')
            fputs("'.\"\\047\".'", script);
        else
            putc(*text, script);
    putc('\'', script);
}

/* A descriptor above the three standard ones (which may be closed) and closed in other programs. */
static int lift(int fd)
{
    if (fd < 0)
        return fd;
    int lifted = fcntl(fd, F_DUPFD_CLOEXEC, 3);
    int kept = errno;
    close(fd);
    errno = kept;
    return lifted;
}

/* The child gets back the usual signals, since midden itself ignores or catches some. */
static int start(pid_t *child, const char *script, int picture, int said)
{
    char path[4096] = "PATH=";
    const char *search = getenv("PATH");
    if (search && strlen(search) < sizeof path - 5)
        memcpy(path + 5, search, strlen(search) + 1);
    char *const word[] = {"gnuplot", "-d", (char *)script, NULL};
    char *const around[] = {path, "LC_ALL=C.UTF-8", "HOME=/nonexistent", NULL};
    posix_spawn_file_actions_t files;
    posix_spawnattr_t attributes;
    sigset_t none, usual;
    sigemptyset(&none);
    sigemptyset(&usual);
    sigaddset(&usual, SIGPIPE);
    sigaddset(&usual, SIGXFSZ);
    int fault = posix_spawn_file_actions_init(&files);
    if (fault)
        return fault;
    fault = posix_spawnattr_init(&attributes);
    if (!fault) {
        posix_spawnattr_setsigmask(&attributes, &none);
        posix_spawnattr_setsigdefault(&attributes, &usual);
        posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
        fault = posix_spawn_file_actions_addopen(&files, 0, "/dev/null", O_RDONLY, 0);
        if (!fault)
            fault = posix_spawn_file_actions_adddup2(&files, picture, 1);
        if (!fault)
            fault = posix_spawn_file_actions_adddup2(&files, said, 2);
        if (!fault)
            fault = posix_spawnp(child, word[0], &files, &attributes, word, around);
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&files);
    return fault;
}

/* Reads to the end, so that the child never waits; keeps the last line that says something. A signal that
 * midden catches means that nobody waits for the picture any more: false. */
static bool listen(int fd, char line[SAID])
{
    char byte[512];
    size_t length = 0;
    bool fresh = true;
    ssize_t got;
    line[0] = '\0';
    while ((got = read(fd, byte, sizeof byte)) > 0)
        for (ssize_t i = 0; i < got; i++) {
            if (byte[i] == '\n') {
                fresh = true;
            } else if ((unsigned char)byte[i] > ' ' || !fresh) {
                length = fresh ? 0 : length;
                fresh = false;
                if (length < SAID - 1)
                    line[length++] = (unsigned char)byte[i] < ' ' ? ' ' : byte[i];
                line[length] = '\0';
            }
        }
    return got == 0 || errno != EINTR;
}

static bool ended_well(pid_t child, const char *said, struct trouble *why)
{
    int status = 0;
    while (waitpid(child, &status, 0) < 0)
        if (errno != EINTR)
            return trouble_set(why, TROUBLE_PROGRAM, "lost sight of gnuplot: %s", strerror(errno));
    if (WIFSIGNALED(status))
        return trouble_set(why, TROUBLE_PROGRAM, "gnuplot was ended by signal %d",
                           WTERMSIG(status));
    if (WEXITSTATUS(status) != 0)
        return trouble_set(why, TROUBLE_PROGRAM, "gnuplot stopped with status %d, saying: %s",
                           WEXITSTATUS(status), *said ? said : "nothing");
    return true;
}

static bool run(const char *script, int picture, struct trouble *why)
{
    int end[2];
    if (pipe(end))
        return trouble_set(why, TROUBLE_PROGRAM, "can't listen to gnuplot: %s", strerror(errno));
    int hear = lift(end[0]), said = lift(end[1]);
    pid_t child = 0;
    int fault = hear < 0 || said < 0 ? errno : start(&child, script, picture, said);
    if (said >= 0)
        close(said);
    char line[SAID] = "";
    if (!fault && !listen(hear, line))
        kill(child, SIGTERM);
    if (hear >= 0)
        close(hear);
    if (fault)
        return trouble_set(why, TROUBLE_PROGRAM,
                           "pictures need the program gnuplot, which can't be started (%s); "
                           "install it (on Debian: the package gnuplot-nox) or ask for no pictures",
                           strerror(fault));
    return ended_well(child, line, why);
}

static bool gif(const char *picture)
{
    char head[4] = "";
    FILE *in = fopen(picture, "rb");
    size_t got = in ? fread(head, 1, sizeof head, in) : 0;
    if (in)
        fclose(in);
    return got == sizeof head && !memcmp(head, "GIF8", sizeof head);
}

/* gnuplot does not notice a full disk, so the end of its picture is looked at. */
static bool whole(const char *picture, struct trouble *why)
{
    char tail[TAIL + 1] = "";
    FILE *in = fopen(picture, "rb");
    size_t got = 0;
    if (in && !fseek(in, -TAIL, SEEK_END))
        got = fread(tail, 1, TAIL, in);
    if (in)
        fclose(in);
    for (size_t i = 0; i < got; i++)
        if ((got - i >= 6 && !memcmp(tail + i, "</svg>", 6)) ||
            (got - i >= 8 && !memcmp(tail + i, "IEND\xae\x42\x60\x82", 8)) ||
            (got - i >= 5 && !memcmp(tail + i, "%%EOF", 5)))
            return true;
    if (got > 0 && tail[got - 1] == ';' && gif(picture)) /* a GIF ends so */
        return true;
    return trouble_set(why, TROUBLE_DEVICE, "the picture %s was cut short; is the disk full?",
                       picture);
}

bool gnuplot_draw(const char *script, const char *picture, struct trouble *why)
{
    /* gnuplot takes "<name" for a command to run and "-name" for an option */
    if (script[0] != '/' && script[0] != '.')
        return trouble_set(why, TROUBLE_PROGRAM, "a script's path must begin with / or .");
    int fd = lift(open(picture, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
    if (fd < 0)
        return trouble_set(why, TROUBLE_CREATE, "can't create %s: %s", picture, strerror(errno));
    bool good = run(script, fd, why);
    if (close(fd) && good)
        return trouble_set(why, TROUBLE_DEVICE, "can't write %s: %s", picture, strerror(errno));
    return good && whole(picture, why);
}
