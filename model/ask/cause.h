/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/cause.h - what ails a pile that is cooler than its keeper hoped, and the cheapest test that
 * tells two causes apart.
 *
 * The cause is asked of one possible pile, whose secrets are known; among many piles that fit the
 * readings the share with a cause is the chance of it. The tests and what they show are common
 * practice without a source; those by figures follow from the model's own lines.
 */
#ifndef ASK_CAUSE_H
#define ASK_CAUSE_H
#include "run/record.h"

enum cause {
    CAUSE_NONE,     /* the middle is as warm as a working pile's */
    CAUSE_DRY,
    CAUSE_WET,
    CAUSE_WOODY,    /* too little nitrogen for its carbon, or little in it but wood */
    CAUSE_SMALL,    /* it makes heat and can't keep it */
    CAUSE_LOOSE,    /* the draught carries its heat away */
    CAUSE_PACKED,   /* no air gets in, though it isn't sodden */
    CAUSE_COLD,     /* the weather, where all else is right */
    CAUSE_FROZEN,
    CAUSE_FINISHED,
    CAUSES
};
extern const char *const cause_word[CAUSES];    /* as in JSON */
extern const char *const cause_said[CAUSES];    /* a few plain words */

/* What ails it at the end of a day (from 1), by its last three days. */
enum cause cause_of(const struct record *record, const struct scenario *scenario, int day);

/* so many of so many piles have a cause */
struct cause_odds {
    enum cause cause;
    int piles, of;
};
/* Causes by their number, the commonest first, none without a pile; how many there are. */
int cause_odds(struct cause_odds odds[CAUSES], const struct record *record, int members,
               const struct scenario *scenario, int day);

struct cause_test {
    const char *what;           /* "squeeze a handful from 30 cm in" */
    const char *shows, *else_shows; /* for the one cause, and for the other */
};
/* The cheapest test on which two causes differ; `what` is NULL where none does. A handful that was squeezed of
 * late has told what it can. */
struct cause_test cause_test(enum cause one, enum cause other, bool squeezed);
/* Does the log have a squeeze of the week up to a day (from 1)? */
bool cause_squeezed(const struct scenario *scenario, int day);
/* Litres of water that would bring a pile as dry as its core to the wetness that is wanted. */
double cause_water_l(const struct record *record, int day);
#endif
