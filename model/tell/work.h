/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/work.h - what a search found as a picture: how much chance so much work buys. */
#ifndef TELL_WORK_H
#define TELL_WORK_H
#include "ask/search.h"

/* Draws work.svg and work.png, as tell/picture does. Fails with TROUBLE_INPUT if the garden's name
 * can't be drawn. */
bool work_draw(const char *dir, bool force, const struct search *search, struct trouble *why);
bool work_may(const char *dir, bool force, struct trouble *why); /* are the names free, before the search? */
/* What the picture shows, as one sentence. */
void work_find(char text[], size_t size, const struct search *search);
#endif
