/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/film.h - a cross-section of temperature through the season, as an animated GIF: a frame a day, or
 * every few days of a long season, with the date, the scale in figures, and where on the course it is.
 */
#ifndef TELL_FILM_H
#define TELL_FILM_H
#include "tell/plates.h"

enum { FILM_MOST = 120 }; /* frames */

/* The days from 1 that are frames; returns how many. */
int film_days(int day[FILM_MOST], int days);
/* Bytes of the film, the caller's to free; of `plates` the central pile has a cross-section for each
 * frame. */
char *film_draw(const struct plates *plates, size_t *size, struct trouble *why);
#endif
