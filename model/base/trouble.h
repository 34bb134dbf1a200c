/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/trouble.h - what went wrong, said once, with the exit status it deserves. */
#ifndef BASE_TROUBLE_H
#define BASE_TROUBLE_H
#include <stdbool.h>

/* kind, exit status (docs: the numbers of sysexits), meaning */
#define TROUBLE_KINDS(ROW)                                                \
    ROW(TROUBLE_NONE, 0, "no trouble")                                    \
    ROW(TROUBLE_NO, 1, "understood, but it can't be done")                \
    ROW(TROUBLE_USAGE, 64, "the command line can't be understood")        \
    ROW(TROUBLE_INPUT, 65, "a file or a value given can't be used")       \
    ROW(TROUBLE_ABSENT, 66, "a file named doesn't exist")                 \
    ROW(TROUBLE_PROGRAM, 69, "a program midden needs is missing")         \
    ROW(TROUBLE_LEDGER, 70, "a balance did not close")                    \
    ROW(TROUBLE_SOLVE, 70, "the model left its range or can't advance")   \
    ROW(TROUBLE_MEMORY, 70, "there is not enough memory")                 \
    ROW(TROUBLE_CREATE, 73, "an output exists or can't be created")       \
    ROW(TROUBLE_DEVICE, 74, "a file could not be read or written")

enum trouble_kind {
#define ROW(kind, status, meaning) kind,
    TROUBLE_KINDS(ROW)
#undef ROW
};

enum { TROUBLE_TEXT = 8192 }; /* room for twenty mistakes of a scenario, a line each */

struct trouble {
    enum trouble_kind kind;
    char text[TROUBLE_TEXT];
};

/* Records the first reason given and returns false: `return trouble_set(...)` reads as "fail".
 * A later reason is dropped, since it is mostly a consequence of the first. */
bool trouble_set(struct trouble *why, enum trouble_kind kind, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#ifdef TROUBLE_ANALYSED /* for `make analyse`, which sees one file at a time */
#define trouble_set(...) ((void)trouble_set(__VA_ARGS__), false)
#endif

/* Adds a further line to the reason (a new one if there was none); returns false as well. */
bool trouble_add(struct trouble *why, enum trouble_kind kind, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* The exit status of a kind. */
int trouble_status(enum trouble_kind kind);
#endif
