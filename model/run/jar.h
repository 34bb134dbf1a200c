/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/jar.h - a laboratory jar held at a temperature, a wetness and an oxygen share.
 *
 * One cell whose surroundings never change, so that nothing is left but decay: the laws of
 * life/decay that a pile also follows, its pools at their closed form. What is imposed is booked
 * under its own names: water added or dried off to stay as wet, and the heat that the bath takes.
 * A jar begins at midnight of the start date, so that day n ends after n times 24 hours.
 *
 * Everything is smooth but mineral nitrogen, which growth can use up within an hour. The classical
 * Runge-Kutta method of order 4 takes steps of 1/64 day (less by longest_step_s) or a fraction of
 * the time in which growth would halve the last trace of nitrogen, whichever is shorter.
 */
#ifndef RUN_JAR_H
#define RUN_JAR_H
#include "run/setting.h"

static inline bool jar_is_held(const struct scenario *scenario)
{
    const struct plan_bay *home = &scenario->bay[scenario->home];
    return home->shape == PLAN_JAR && home->held_K > 0;
}

/* The whole season of a setting just made, into records that have room for its days. Fails with
 * TROUBLE_NO if the plan has deeds, TROUBLE_LEDGER if a balance does not close. */
bool jar_run(struct setting *setting, struct record record[LANES], struct trouble *why);
#endif
