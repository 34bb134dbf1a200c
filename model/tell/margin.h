/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/margin.h - an answer told in margin lines, taken apart again: its labels and their sentences,
 * each in one piece. So a page says what the terminal says, in the same words.
 */
#ifndef TELL_MARGIN_H
#define TELL_MARGIN_H
#include "base/scroll.h"
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { MARGIN_LABEL = 16, MARGIN_LINES = 256 };

struct margin_line {
    char label[MARGIN_LABEL]; /* empty: a sentence at the left edge */
    char *text;
};

struct margin {
    FILE *out; /* tellers write here, by phrase_line only */
    struct scroll scroll;
    struct margin_line line[MARGIN_LINES];
    int lines;
};

/* False only for want of memory; margin_free in any case. */
bool margin_begin(struct margin *margin);
/* What was told since, as lines. */
bool margin_end(struct margin *margin);
void margin_free(struct margin *margin);
#endif
