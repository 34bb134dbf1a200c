/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/recipe.h - what a mix adds up to, and what would put it right, in words. */
#ifndef TELL_RECIPE_H
#define TELL_RECIPE_H
#include "ask/left.h"
#include "tell/phrase.h"

struct recipe_tale {
    const struct mix *mix;
    const struct left *left;    /* NULL = not asked: nothing is wrong */
    long long draw;
    const char *version;
};

void recipe_text(FILE *out, const struct recipe_tale *tale, const struct phrase_style *style,
                 bool in_full);
#endif
