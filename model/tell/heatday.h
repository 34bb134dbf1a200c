/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/heatday.h - the heat budget through the 24 hours of one day as a picture: watts in and out by
 * route on one axis. */
#ifndef TELL_HEATDAY_H
#define TELL_HEATDAY_H
#include "base/trouble.h"
#include "tell/finding.h"
#include "tell/why.h"

bool heatday_draw(const char *dir, bool force, const struct why_tale *tale, struct trouble *why);
bool heatday_may(const char *dir, bool force, struct trouble *why); /* are the names free, before the season? */
/* Its title, from the figures drawn. */
void heatday_find(char text[FINDING_TEXT], const struct why_tale *tale);
#endif
