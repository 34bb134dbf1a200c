/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/hygiene.h - what a season's record says of the rules of hygiene, and how long manure waits.
 *
 * A rule is met by the material that has had its dose (run/record), once the turns, weeks and the C:N
 * that it asks for are there as well. Questions of a record have the form that tell/range takes: a
 * record and two numbers. All of it is a forecast; no rule can be shown by one.
 */
#ifndef ASK_HYGIENE_H
#define ASK_HYGIENE_H
#include "run/record.h"

/* Share of the dry mass, as laid, that has met a rule by the end of a day's row; of the last row. */
double hygiene_met(const struct record *record, int rule, int row);
double hygiene_share(const struct record *record, int rule, int unused);
/* The day, from 1, by whose end half of it first has; INFINITY = never. */
double hygiene_first(const struct record *record, int rule, int unused);
/* Turns that a rule asks for and the season hasn't had, as the rule counts them. */
double hygiene_turns_needed(const struct record *record, int rule, int unused);
/* Share of a class of seeds, or of germs, alive at the end; NAN where none were laid. */
double hygiene_seeds(const struct record *record, int class, int unused);
double hygiene_germs(const struct record *record, int class, int unused);

/* Of the middle and of the coldest tenth: days whose mean is at least so many C, all or in one run. */
enum hygiene_place { HYGIENE_MIDDLE, HYGIENE_COLDEST };
double hygiene_days(const struct record *record, int place, int over_C);
double hygiene_run(const struct record *record, int place, int over_C);

/* Is any droppings, alone or with bedding, laid or added by the plan? */
bool hygiene_dung(const struct scenario *scenario, int plan);

/* How long a crop may have to wait for raw manure: 120 days to harvest where what is eaten touches
 * soil, 90 where it doesn't [7 CFR 205.203(c)(1), seen]; counted from the last day manure was laid. */
struct hygiene_wait {
    const char *crop;
    date_count laid, harvest, earliest;
    int days, wanted;
    bool enough;
};
/* One for each harvest of `need`; returns how many, 0 where there is no manure. */
int hygiene_waits(const struct scenario *scenario, int plan, struct hygiene_wait wait[PLAN_HARVESTS]);
#endif
