/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_shows.h - what the program shows at each step of a lesson, in sentences. */
#ifndef TELL_LESSON_SHOWS_H
#define TELL_LESSON_SHOWS_H
#include "ask/lesson_found.h"
#include "tell/lesson_rows.h"
#include "tell/phrase.h"
#include "tell/saying.h"

struct lesson_tale {
    const struct lesson_found *found;
    const struct scenario *scenario;
    int plan;
    bool plan_named;
    long long draw;
    const char *version, *file;
};

struct saying lesson_shows(const struct lesson_tale *tale, enum lesson_step step,
                           const struct phrase_style *style);
/* "9 (7-12)" and "9 (7-12) %", in whole numbers. */
struct phrase lesson_shows_count(struct span span);
struct phrase lesson_shows_percent(struct span share);
#endif
