/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/learn.h - what readings say, told. */
#ifndef TELL_LEARN_H
#define TELL_LEARN_H
#include "ask/learn.h"
#include "tell/phrase.h"
#include "tell/tale.h"

struct learn_tale {
    const struct learnt *learnt;
    const struct tale *before, *after;  /* the season without and with the readings */
    int now;                            /* day of the last reading, from 1 */
    double now_share;                   /* of what was tried at the end, how much was kept */
};

/* The answer first, then the margin lines; the long form adds every reading, and the unknowns of which
 * something was learnt. */
void learn_text(FILE *out, const struct learn_tale *tale, const struct phrase_style *style,
                bool long_form);
/* Fails only for want of memory. */
bool learn_json(FILE *out, const struct learn_tale *tale, struct trouble *why);
#endif
