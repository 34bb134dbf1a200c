/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/agenda.h - the days of a plan: work, looks by a rule, and days on which to read the pile.
 *
 * Days count from 0, the start date. A pile is read two and five days after it was built or turned:
 * a reheat shows within two or three days and is over its first steep rise after five [trade].
 */
#ifndef ASK_AGENDA_H
#define ASK_AGENDA_H
#include "run/plan.h"

enum agenda_kind { AGENDA_BUILD, AGENDA_WORK, AGENDA_LOOK, AGENDA_PEAK, AGENDA_READ };
enum { AGENDA_FIRST_READ = 2, AGENDA_SECOND_READ = 5 };

struct agenda_row {
    int day;
    enum agenda_kind kind;
    int nth;   /* of its kind, from 1 */
    int since; /* AGENDA_READ: days since the pile was last built or turned */
};

/* Is there work, or a look, on a day? */
bool agenda_works_on(const struct scenario *scenario, int plan, int day);
bool agenda_looks_on(const struct scenario *scenario, int plan, int day);
/* Is the pile turned on a day: for certain, or, with `perhaps`, by a rule as well? */
bool agenda_turns_on(const struct scenario *scenario, int plan, int day, bool perhaps);
/* The first day after another, up to a last one, with work or a look; -1 = none. */
int agenda_next(const struct scenario *scenario, int plan, int after, int last);
/* The first day from one on that is a weekday of those who work and not away; `last` if there is
 * none before. Where any weekday will do, the weekday of the start. */
int agenda_visit(const struct scenario *scenario, int from, int last);

/* Room for agenda_make's rows. */
int agenda_most(const struct scenario *scenario);
/* All rows of a season in order of their days, none of them for reading on a day of work; peak_day
 * -1 = no day of the greatest heat. Returns how many. */
int agenda_make(struct agenda_row *row, const struct scenario *scenario, int plan, int peak_day);
#endif
