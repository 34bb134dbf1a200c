/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_rows.h - the steps of a lesson: what is done and asked, alike for every pile. */
#ifndef TELL_LESSON_ROWS_H
#define TELL_LESSON_ROWS_H

enum lesson_step {
    LESSON_HANDS,
    LESSON_NEEDS,
    LESSON_WATTS,
    LESSON_SIZE,
    LESSON_FORK,
    LESSON_WATER,
    LESSON_WINTER,
    LESSON_CHOICE,
    LESSON_LOG,
    LESSON_STEPS
};

struct lesson_row {
    int from_min, to_min;
    const char *title, *does, *asks, *listen, *real;
};
extern const struct lesson_row lesson_rows[LESSON_STEPS];
#endif
