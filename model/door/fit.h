/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/fit.h - the possible piles of a command line brought in keeping with its readings. */
#ifndef DOOR_FIT_H
#define DOOR_FIT_H
#include "ask/learn.h"
#include "door/ask.h"
#include <signal.h>

/* fewer can't tell anything; more would take hours and say no more */
enum { FIT_MEMBERS = 16, FIT_MEMBERS_MOST = 1000 };

/* How many readings of the pile, not of the air, there are up to the end of a day from 0. */
int fit_readings(const struct scenario *scenario, int until);
/* Learns from them; on a terminal it tells how far it is. `learnt` may be NULL. The scenario's last day is
 * as before when it returns. posterior_free in any case. */
bool fit_learn(struct posterior *posterior, struct learnt *learnt, const struct ask *ask,
               struct scenario *scenario, int plan, int until, const volatile sig_atomic_t *stop,
               struct trouble *why);
#endif
