/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/place.h - where a name can stand in a picture without covering what is drawn.
 *
 * Pure geometry in units of the panel: 0 to 1 rightward and upward. Value i of n stands at
 * (i + 1/2)/n; values that are NAN are not there.
 */
#ifndef TELL_PLACE_H
#define TELL_PLACE_H
#include <stdbool.h>

struct place_label {
    double width, height;       /* given */
    double x, y;                /* found: its centre */
};

struct place_panel {
    int points;
    int lines;
    const double *const *line;  /* [lines][points] */
    int uprights;
    const double *upright;      /* x of vertical lines, better not crossed */
};

/* Just above or below line `which`, clear of all lines and of the `taken` labels already placed. */
bool place_on_line(struct place_label *label, int which, const struct place_panel *panel,
                   const struct place_label *placed, int taken);
/* Within the band between two lines, where it is thickest over the label's width. */
bool place_in_band(struct place_label *label, const double *low, const double *high, int points);
#endif
