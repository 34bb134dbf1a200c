/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_find.h - what each figure of a lesson shows, as one sentence that stands above it. */
#ifndef TELL_LESSON_FIND_H
#define TELL_LESSON_FIND_H
#include "tell/finding.h"
#include "tell/lesson_shows.h"

enum lesson_figure {
    LESSON_FIGURE_WATTS,
    LESSON_FIGURE_SIZES,
    LESSON_FIGURE_TURNED,
    LESSON_FIGURE_WETNESS,
    LESSON_FIGURE_BLANKET,
    LESSON_FIGURES
};

void lesson_find(char text[FINDING_TEXT], const struct lesson_tale *tale,
                 enum lesson_figure figure);
#endif
