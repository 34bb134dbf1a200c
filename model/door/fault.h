/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/fault.h - the mistakes of one file, each with its place, told together and in order.
 *
 * A reader goes on after a mistake, so that one reading tells all of them: at most twenty, since
 * more than that are mostly consequences.
 */
#ifndef DOOR_FAULT_H
#define DOOR_FAULT_H
#include "base/trouble.h"
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

enum { FAULT_MOST = 20, FAULT_TEXT = 480, FAULT_QUOTE = 44 };

struct fault {
    const char *file; /* as the user named it; "-" is standard input */
    bool memory;      /* it ran out: nothing is wrong with the file */
    int count;        /* all mistakes, also those not kept */
    struct fault_line {
        int line, column; /* from 1; columns count characters */
        char text[FAULT_TEXT];
    } kept[FAULT_MOST]; /* the first in the file, in its order */
};

/* Records a mistake and returns false. */
bool fault_at(struct fault *fault, int line, int column, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* There is no memory to read on; returns false. */
bool fault_memory(struct fault *fault);
bool fault_at_list(struct fault *fault, int line, int column, const char *format, va_list list);
/* Hands all mistakes over as lines `FILE:LINE:COLUMN: what`; true when there were none. */
bool fault_report(const struct fault *fault, struct trouble *why);
/* Text short enough to be quoted in a message, whole characters, "..." where it is cut. */
const char *fault_quote(const char *text, char quote[FAULT_QUOTE]);
#endif
