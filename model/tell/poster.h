/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/poster.h - a season as a poster for a wall, A2 upright (420 by 594 mm).
 *
 * It is read from two metres: no letter is smaller than 30 points, whose small letters are 5.8 mm high
 * in the type used and so are seen under ten minutes of arc, twice the least letter of a normal eye
 * (five minutes, Snellen 1862, memory; height of an x over the type size 0.547 in DejaVu Sans, derived
 * from its font file).
 */
#ifndef TELL_POSTER_H
#define TELL_POSTER_H
#include "tell/plates.h"
#include "tell/sketch.h"
#include "tell/tale.h"

enum { POSTER_TYPE = 30, POSTER_WIDE_MM = 420, POSTER_HIGH_MM = 594 };

/* Its bytes as SVG, PDF or PNG, the caller's to free. */
char *poster_draw(const struct tale *tale, const struct plates *plates, enum sketch_kind kind,
                  size_t *size, struct trouble *why);
#endif
