/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/lesson_try.h - the experiments of a lesson, one by one. */
#ifndef ASK_LESSON_TRY_H
#define ASK_LESSON_TRY_H
#include "ask/lesson_found.h"

extern const double lesson_try_side_m[LESSON_SIZES], lesson_try_water_share[LESSON_WETS];
extern const double lesson_try_cover_m; /* of straw */

struct lesson_work {
    const struct lesson_ask *ask;
    struct lesson_found *found;
    int part, parts;
};

/* A run with a copy of the scenario, to be varied; left alone until a day; run to its end. */
struct trial *lesson_try_begin(struct lesson_work *work, enum lesson_kind kind,
                               struct trouble *why);
struct trial *lesson_try_alone(struct lesson_work *work, enum lesson_kind kind, int last_day,
                               struct trouble *why);
bool lesson_try_go(struct lesson_work *work, struct trial *run, struct trouble *why);

/* After the season that was asked for and the same left alone. */
bool lesson_try_sizes(struct lesson_work *work, struct trouble *why);
bool lesson_try_turn(struct lesson_work *work, struct trouble *why);
bool lesson_try_wets(struct lesson_work *work, struct trouble *why);
bool lesson_try_winter(struct lesson_work *work, struct trouble *why);
#endif
