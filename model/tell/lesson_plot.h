/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_plot.h - the figures of a lesson. */
#ifndef TELL_LESSON_PLOT_H
#define TELL_LESSON_PLOT_H
#include "base/trouble.h"
#include "tell/lesson_find.h"

bool lesson_plot_draw(const char *dir, bool force, const struct lesson_tale *tale,
                      struct trouble *why);
bool lesson_plot_may(const char *dir, bool force, struct trouble *why); /* are the names free, before the experiments? */
#endif
