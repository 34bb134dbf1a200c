/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/compare.h - plans side by side: a sentence, a table of 80 columns, and JSON. */
#ifndef TELL_COMPARE_H
#define TELL_COMPARE_H
#include "ask/compare.h"
#include "tell/phrase.h"
#include <jansson.h>

/* what is told of: contenders with their standings, and what the answer rests on */
struct comparison {
    const struct contender *contender;  /* [count] */
    const struct standing *standing;    /* [count] */
    int count;
    int files;                          /* how many scenarios there are among them */
    int members, failures;
    long long draw;
    double *room;                       /* [members] */
};

void compare_text(FILE *out, const struct comparison *comparison, const struct phrase_style *style,
                  bool in_full);

/* Parts of it, for a page: the sentence; a row of the table; each plan against the one with the least
 * work, as margin lines. */
struct compare_row {
    struct phrase plan, ready, chance, work, water, hot;
};
void compare_sentence(FILE *out, const struct comparison *comparison);
struct compare_row compare_row(const struct comparison *comparison, int i);
void compare_against(FILE *out, const struct comparison *comparison, const char *label);
/* `runs` is a list of run objects in the order of the contenders; it is taken over. */
bool compare_json(FILE *out, const struct comparison *comparison, json_t *runs, struct trouble *why);
#endif
