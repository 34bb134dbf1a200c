/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/faults/shim.c - a library set before the C library, in which calls fail when they are told to.
 *
 *     FAULT_MEMORY=N      the Nth request for memory is refused (FAULT_ALL=1: and each after it)
 *     FAULT_PLACES=FILE   the first request is refused that comes from a place in the program or a library of
 *                         which FILE doesn't tell yet, and FILE tells of it from then on; one in each run
 *     FAULT_THREAD=N      the Nth thread can't be started, nor any after it
 *     FAULT_COUNT=FILE    the number of requests for memory is written there at the end
 *
 *     LD_PRELOAD=build/faults/shim.so FAULT_MEMORY=17 ./midden check pile.yaml
 *
 * glibc only: it calls what glibc's own malloc is called inside. Requests of the C library itself
 * (streams, locales) are refused too.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

static atomic_long asked, threads;
static long refused = -1, unstarted = -1, all;
static const char *places_file;
static char places[1 << 16];
static atomic_flag chosen = ATOMIC_FLAG_INIT;
static atomic_int over; /* main has returned */

static long number(const char *name)
{
    const char *text = getenv(name);
    return text ? strtol(text, NULL, 10) : -1;
}

__attribute__((constructor)) static void begin(void)
{
    refused = number("FAULT_MEMORY");
    unstarted = number("FAULT_THREAD");
    all = number("FAULT_ALL");
    places_file = getenv("FAULT_PLACES");
    int fd = places_file ? open(places_file, O_RDONLY) : -1;
    long length = fd < 0 ? 0 : read(fd, places, sizeof places - 1);
    places[length > 0 ? length : 0] = '\0';
    close(fd);
    atomic_store(&asked, 0);
}

__attribute__((destructor)) static void end(void)
{
    const char *path = getenv("FAULT_COUNT");
    char text[32];
    int fd = path ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0666) : -1;
    if (fd < 0)
        return;
    int length = snprintf(text, sizeof text, "%ld\n", atomic_load(&asked));
    if (write(fd, text, (size_t)length) < 0)
        errno = 0;
    close(fd);
}

/* Whether this is the first that was asked for from there, in this run and in those before it. Places go by
 * file and offset, since a program lies elsewhere each time. */
static int fresh(const void *from)
{
    Dl_info there;
    char place[64];
    if (!dladdr(from, &there) || !there.dli_fname)
        return 0;
    const char *slash = strrchr(there.dli_fname, '/');
    int length = snprintf(place, sizeof place, "\n%.24s+%lx ", slash ? slash + 1 : there.dli_fname,
                          (unsigned long)((const char *)from - (const char *)there.dli_fbase));
    if (strstr(places, place) || atomic_flag_test_and_set(&chosen))
        return 0;
    int fd = open(places_file, O_WRONLY | O_CREAT | O_APPEND, 0666);
    int told = fd >= 0 && write(fd, place, (size_t)length) == length;
    close(fd);
    return told;
}

static int refuse(const void *from)
{
    static _Thread_local int within; /* what is called here might ask for memory itself */
    long now = atomic_fetch_add(&asked, 1) + 1;
    int refuses = now == refused || (all > 0 && refused > 0 && now > refused);
    if (places_file && !within && !atomic_load(&over)) {
        within = 1;
        refuses = fresh(from);
        within = 0;
    }
    if (refuses && !atomic_load(&over))
        errno = ENOMEM;
    return refuses && !atomic_load(&over);
}

/* What counts lines asks for memory after main, where nobody could be told that there is none. */
static int (*real_main)(int, char **, char **);
static int whole(int count, char **word, char **about)
{
    int status = real_main(count, word, about);
    atomic_store(&over, 1);
    return status;
}

int __libc_start_main(int (*does)(int, char **, char **), int count, char **word, void (*init)(void),
                      void (*fini)(void), void (*late)(void), void *stack)
{
    int (*real)(int (*)(int, char **, char **), int, char **, void (*)(void), void (*)(void), void (*)(void),
                void *);
    *(void **)&real = dlsym(RTLD_NEXT, "__libc_start_main");
    real_main = does;
    return real(whole, count, word, init, fini, late, stack);
}

void *malloc(size_t size)
{
    return refuse(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return refuse(__builtin_return_address(0)) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return refuse(__builtin_return_address(0)) ? NULL : __libc_realloc(old, size);
}

int pthread_create(pthread_t *thread, const pthread_attr_t *how, void *(*does)(void *), void *with)
{
    static int (*real)(pthread_t *, const pthread_attr_t *, void *(*)(void *), void *);
    long now = atomic_fetch_add(&threads, 1) + 1;
    if (unstarted > 0 && now >= unstarted)
        return EAGAIN;
    if (!real)
        *(void **)&real = dlsym(RTLD_NEXT, "pthread_create");
    return real(thread, how, does, with);
}
