/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plans.h - plans side by side as a picture. */
#ifndef TELL_PLANS_H
#define TELL_PLANS_H
#include "tell/compare.h"

/* Draws plans.svg and plans.png, as tell/picture does; of very many plans those with the least work
 * and the one to take. Fails with TROUBLE_INPUT if a name can't be drawn. */
bool plans_draw(const char *dir, bool force, const struct comparison *comparison,
                struct trouble *why);
bool plans_may(const char *dir, bool force, struct trouble *why); /* are the names free, before the comparison? */
/* What the picture shows, as one sentence. */
void plans_find(char text[], size_t size, const struct comparison *comparison);
#endif
