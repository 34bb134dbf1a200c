/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/strip.h - the work done on a pile, as rows of marks above its temperatures.
 *
 * A row for each kind of work that was done, so that a pail a week for a year still shows; what was
 * done stands beside a mark as far as there is room. Turns and waterings are lines as well.
 */
#ifndef TELL_STRIP_H
#define TELL_STRIP_H
#include "tell/chart.h"

/* Writes the blocks, and where the vertical lines stand as shares of the panel; `upright` has room
 * for two of each event. An event belongs to the day that counts it (first_event, events). */
bool strip_write(const struct chart *chart, double *upright, int *uprights, struct trouble *why);
#endif
