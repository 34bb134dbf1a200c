/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/faults/shim.c - a library set before the C library, in which calls fail when they are told to.
 *
 *     FAULT_MEMORY=N      the Nth request for memory is refused (FAULT_ALL=1: and each after it)
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
#include <unistd.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

static atomic_long asked, threads;
static long refused = -1, unstarted = -1, all;

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

static int refuse(void)
{
    long now = atomic_fetch_add(&asked, 1) + 1;
    if (now != refused && !(all > 0 && refused > 0 && now > refused))
        return 0;
    errno = ENOMEM;
    return 1;
}

void *malloc(size_t size)
{
    return refuse() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return refuse() ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return refuse() ? NULL : __libc_realloc(old, size);
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
