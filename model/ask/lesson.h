/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/lesson.h - all that a lesson shows of one pile, run. */
#ifndef ASK_LESSON_H
#define ASK_LESSON_H
#include "ask/lesson_found.h"

/* lesson_free in any case. Fails as crew_run does; TROUBLE_NO where a pile or season can't show it.
 */
bool lesson_run(struct lesson_found *found, const struct lesson_ask *ask, struct trouble *why);
void lesson_free(struct lesson_found *found);
#endif
