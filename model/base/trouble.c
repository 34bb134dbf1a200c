/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/trouble.c - what went wrong, said once, with the exit status it deserves.
 *
 * The first reason is the one worth reading; what follows it is mostly its consequence. A file with
 * several mistakes is the exception: trouble_add collects them, a line each, while there is room.
 */
#include "base/trouble.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char CUT[] = " ...";

/* A text cut short says so, and isn't cut inside a letter of UTF-8 (bytes 10xxxxxx go on one). */
static void mark_cut(char *text, size_t size)
{
    size_t end = size - sizeof CUT;
    while (end > 0 && ((unsigned char)text[end] & 0xC0) == 0x80)
        --end;
    memcpy(text + end, CUT, sizeof CUT);
}

/* What a file or a command line held is quoted in reasons: its control characters, which a terminal
 * would obey (also those of two bytes, c2 80 to c2 9f), become question marks. */
static void tame(char *text)
{
    for (unsigned char *c = (unsigned char *)text; *c; c++)
        if (c[0] == 0xc2 && (c[1] & 0xe0) == 0x80)
            c[0] = c[1] = '?';
        else if ((*c < ' ' && *c != '\n' && *c != '\t') || *c == 0x7f)
            *c = '?';
}

static void write_text(char *text, size_t size, const char *format, va_list values)
    __attribute__((format(printf, 3, 0)));

static void write_text(char *text, size_t size, const char *format, va_list values)
{
    int length = vsnprintf(text, size, format, values);
    if (length >= 0 && (size_t)length >= size)
        mark_cut(text, size);
    tame(text);
}

bool (trouble_set)(struct trouble *why, enum trouble_kind kind, const char *format, ...)
{
    if (why->kind != TROUBLE_NONE)
        return false;
    va_list values;
    va_start(values, format);
    why->kind = kind;
    write_text(why->text, sizeof why->text, format, values);
    va_end(values);
    return false;
}

bool trouble_add(struct trouble *why, enum trouble_kind kind, const char *format, ...)
{
    size_t used = 0;
    if (why->kind == TROUBLE_NONE) {
        why->kind = kind;
    } else {
        used = strlen(why->text);
        if (used + 1 + 2 * sizeof CUT >= sizeof why->text)
            return false; /* full: the first reasons stay */
        why->text[used++] = '\n';
    }
    va_list values;
    va_start(values, format);
    write_text(why->text + used, sizeof why->text - used, format, values);
    va_end(values);
    return false;
}

int trouble_status(enum trouble_kind kind)
{
    switch (kind) {
#define ROW(kind, status, meaning) case kind: return status;
        TROUBLE_KINDS(ROW)
#undef ROW
    }
    return 70; /* no such kind: a defect of the program itself */
}
