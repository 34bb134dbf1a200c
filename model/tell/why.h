/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/why.h - a pile on a day, told: where its heat goes, what that feels like, what holds decay back,
 * what one change would do. */
#ifndef TELL_WHY_H
#define TELL_WHY_H
#include "ask/why.h"
#include "tell/phrase.h"

/* what is told of */
struct why_tale {
    const struct why_found *found;
    const struct scenario *scenario;
    int plan, day, hour;        /* day and hour from 0; hour -1 = the day */
    int readings;               /* that the piles were brought in keeping with */
    bool plan_named;
    enum why_day how;           /* that day was chosen */
    long long draw;
    const char *version, *guess; /* NULL = nobody was asked; what was read */
    double *room;               /* [found->able.members] */
};

/* A sitting person gives off about 58 W of each square metre of skin, of which there are 1.8 (ISO 8996,
 * resting; DuBois's usual area; memory). */
#define WHY_PERSON_W (58.0 * 1.8)

/* The question before the answer. */
extern const char why_question[];
/* The way that a guess names, -1 where it names none. */
int why_guessed(const char *guess);
extern const char *const why_way_word[BUDGET_WAYS];
/* "the walls take", "the top takes" */
struct phrase why_way_takes(enum budget_way way);
/* What holds back, in a word or two. */
const char *why_held_word(const struct held *held);
void why_text(FILE *out, const struct why_tale *tale, const struct phrase_style *style, bool in_full);
#endif
