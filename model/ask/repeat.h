/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/repeat.h - layers that come again, so that a recipe can be told as its keeper wrote it. */
#ifndef ASK_REPEAT_H
#define ASK_REPEAT_H
#include "run/plan.h"

/* so many layers from `first` on, so many times over */
struct repeat {
    int first, period, times;
};

/* The repetition that begins with a layer and saves most telling; a layer alone is one, once. */
struct repeat repeat_at(const struct scenario *scenario, int first);
#endif
