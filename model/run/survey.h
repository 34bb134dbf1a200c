/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/survey.h - what a laboratory and the eye would say of the pile at a day's end: how warm a
 * sample gets in the flask, how much can still be told as what it was, and what holds decay back
 * where.
 *
 * A piece keeps its shape while little of it has gone, and coarse ones keep it longer. Of the
 * pieces of an ingredient, when a share x of what can decay in it has gone, so many are still to be
 * told:
 *
 *     seen = d^2/(d^2 + 1 cm^2) / (1 + (x/x_half)^4),   x_half = crumble_share (d/5 cm)^0.3
 *
 * d is the size of its pieces: coffee grounds, sawdust and soil pass a garden sieve from the start,
 * whole leaves and straw don't. The form is the project's own [trade]; crumble_share is drawn.
 */
#ifndef RUN_SURVEY_H
#define RUN_SURVEY_H
#include "run/flask.h"
#include "run/lay.h"
#include "run/watch.h"

struct survey {
    const struct watch *watch;
    lane cools_s; /* the flask */
    struct flask_shelf shelf;
    /* by kind of ingredient: seen when fresh; 1/x_half; what can decay, and what the pools turn
     * over at 30 C, of a kilogram of dry mass as laid */
    lane fresh[PILE_MOST_STUFFS], per_half[PILE_MOST_STUFFS], decayable[PILE_MOST_STUFFS];
    lane food_laid[PILE_MOST_STUFFS];
    lane pace[POOLS]; /* of the clocks at 30 C, against their best */
};

void survey_param(struct survey *survey, const struct watch *watch, const struct lay *lay,
                  const struct param param[LANES]);
/* Into each member's row of a day (from 0), after watch_day; how warm the flask gets comes later, by
 * survey_end at the latest, and until then the rows must stay where they are. */
void survey_day(struct survey *survey, const struct moment *midnight, struct record record[LANES]);
void survey_end(struct survey *survey);
#endif
