/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/ready.h - from which day on compost serves a use, and if not, what holds it.
 *
 * Three uses, each stricter than the one before: mulch lies on top, bed compost is dug in, pot
 * compost is sown into. A day passes when the middle is no longer hot, the laboratory's test of
 * breath and the flask of its test of self-heating say so, it has cured since it was last hot,
 * carbon and nitrogen are in proportion, and little is left to screen out. Compost is ready from
 * the first day from which every day to the season's end passes: a frozen pile breathes nothing,
 * but its sample does.
 *
 * Sources of the lines stand beside them in ask/ready.c.
 */
#ifndef ASK_READY_H
#define ASK_READY_H
#include "many/band.h"
#include "run/record.h"

enum ready_use { READY_MULCH, READY_BEDS, READY_POTS, READY_USES }; /* as plan_need.what */

/* why compost isn't ready on a day: the closed list */
enum ready_why {
    READY_IS,
    READY_WORKING,
    READY_SMALL,
    READY_COLD,
    READY_FROZEN,
    READY_DRY,
    READY_WET,
    READY_AIRLESS,
    READY_HUNGRY,
    READY_WOODY,
    READY_RESTING,
    READY_WHYS
};
extern const char *const ready_why_word[READY_WHYS]; /* NULL for READY_IS */
extern const char *const ready_use_word[READY_USES];

/* The first day, from 1, from which on the compost serves a use until the season's end; NAN = not
 * within it. */
double ready_day(const struct record *record, const struct scenario *scenario, int use);
/* What holds it on a day (from 1); READY_IS when it is ready by then. */
enum ready_why ready_why(const struct record *record, const struct scenario *scenario, int use,
                         int day);

/* what many possible piles say of a use */
struct ready_summary {
    struct span day;    /* median, early and late, over all of them: NAN = not within the season */
    struct span chance; /* that it is ready by the date of need, with the sampling error; NAN
                         * where there is no need */
    int never;          /* so many are not within the season */
    int not_ready, members; /* by the date of need, else by the season's end; of so many */
    enum ready_why why;     /* what holds most of those back; READY_IS where there are none */
};
/* `room` holds a number for each member. */
struct ready_summary ready_summary(const struct record *record, int members,
                                   const struct scenario *scenario, int use, double *room);
/* The day (from 1) of which yield and readiness are told: of need, or the season's last. */
int ready_told_day(const struct record *record, const struct scenario *scenario);

/* Days of curing since the middle was last above 45 C, up to the end of a day (from 1); cold days
 * count in part, and of a pile found cool those before it was found. */
double ready_cured_days(const struct record *record, const struct scenario *scenario, int day);
#endif
