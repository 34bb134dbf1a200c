/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/setup.h - what a season is asked to run. */
#ifndef RUN_SETUP_H
#define RUN_SETUP_H
#include "run/possible.h"
#include "run/record.h"
#include "sky/curve.h"
#include <signal.h>

struct setup {
    const struct scenario *scenario;
    int plan;                       /* row of scenario.plan */
    const struct possible *possible;/* a row for each member side by side */
    const struct curve *const *sky; /* one for each member: at least scenario.last_day + 1 days from
                                     * scenario.start, all at one height */
    const int *picture_day;         /* days at whose end a cross-section is kept */
    int pictures;
    int hours_day;                  /* from 1: the day whose hours are kept; 0 = none */
    const volatile sig_atomic_t *stop; /* NULL, or set from outside to end early */
    /* A member side by side with others has ended: takes its record away and puts another member into
     * its rows of possible and sky. False: there is none left, and the record stays. NULL: nobody asks. */
    bool (*next)(void *asker, int lane, struct record *record);
    void *asker;
};
#endif
