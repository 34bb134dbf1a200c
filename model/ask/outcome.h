/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/outcome.h - what a keeper wants to know of one season, in a few numbers, so that thousands of
 * seasons can be kept side by side.
 */
#ifndef ASK_OUTCOME_H
#define ASK_OUTCOME_H
#include "run/record.h"

enum { OUTCOME_USES = 3 };      /* mulch, beds, pots */

struct outcome {
    bool computed;              /* false: this possible pile could not be run, and nothing below holds */
    double ready_day[OUTCOME_USES]; /* from this day of the season on; NAN = not within it */
    double person_s, water_kg;
    double longest_s;           /* person-seconds of the day with most of them */
    double peak_K;              /* of the middle's daily means */
    int hot_days;               /* middle above 55 C */
};

struct outcome outcome_of(const struct record *record, const struct scenario *scenario);
/* The day it was ready, where never counts as the day after the season's end: at best. */
double outcome_day(const struct outcome *outcome, int use, const struct scenario *scenario);
/* Is it ready on the day of a need, for a season from `start`? False where there is none. */
bool outcome_in_time(const struct outcome *outcome, const struct plan_need *need, date_count start);
/* Is a chance what the need asks for? Chances are asked for and told in tenths, so it is as it is told:
 * 0.76 is 8 in 10. False where there is no need. */
bool outcome_enough(double chance, const struct scenario *scenario);
/* The use that is asked for: that of `need`, else beds. */
int outcome_use(const struct scenario *scenario);
#endif
