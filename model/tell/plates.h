/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plates.h - the pictures of a report, each as an SVG that is legible on a phone and on paper.
 *
 * Curves are medians of all possible piles, the band their range, heat their mean; cross-sections are
 * those of the central pile.
 */
#ifndef TELL_PLATES_H
#define TELL_PLATES_H
#include "base/trouble.h"
#include "run/record.h"
#include "tell/chart.h"

enum plate { PLATE_TEMPERATURE, PLATE_WATER, PLATE_HEAT, PLATE_SECTION };

struct plates {
    const struct scenario *scenario;
    int plan;
    const struct record *typical;   /* of ask/typical */
    const struct record *central;   /* with the cross-sections */
    const struct span *middle_K;    /* [days] */
};

/* Whether the names in it can be drawn; else TROUBLE_INPUT. */
bool plates_accept(const struct plates *plates, struct trouble *why);
/* Writes one as an SVG within a page; `nth` is the row of a cross-section. */
bool plates_embed(FILE *page, const struct plates *plates, enum plate plate, int nth,
                  struct trouble *why);
/* Figures of a curve of temperatures, to be drawn by another script: see plots/temperature.gp. */
bool plates_course(FILE *script, const struct plates *plates, struct trouble *why);
/* A command that sets tics of days, at most so many; without its newline. */
void plates_tics(FILE *script, date_count start, int days, int most);
/* Readings as points: day, value in C, colour, marker; and how many. */
void plates_readings(FILE *script, const struct scenario *scenario);
#endif
