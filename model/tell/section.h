/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/section.h - figures of the cross-sections: temperature, water, oxygen, each cell in place.
 *
 * A row of panels for each quantity, a column for each day kept; all panels have one scale of
 * length, the same both ways, and all panels of a row one scale of colour.
 */
#ifndef TELL_SECTION_H
#define TELL_SECTION_H
#include "tell/chart.h"

/* of more days kept, this many are drawn, evenly picked, the first and the last among them */
enum { SECTION_COLUMNS = 6 };

bool section_write(const struct chart *chart, struct trouble *why);
/* How high that picture is, in points: CHART_HEIGHT, or less where the pile is low. */
int section_high(const struct record *record, bool US);
/* So many of the days kept, from the row `first` on, under the scales of all that were kept. */
bool section_some(const struct chart *chart, int first, int count, struct trouble *why);
/* Of a room of such a width and height, in points: how much of its height the largest panel that fits leaves
 * empty, if it frames all the days kept. */
double section_spare(const struct record *record, double room_wide, double room_high);
#endif
