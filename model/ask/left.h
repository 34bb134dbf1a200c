/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/left.h - what becomes of a mix in its first four weeks, left as it is and with what is advised.
 *
 * Seasons of the same few possible piles under the scenario's own made-up weather; a difference of two
 * such numbers is worth more than either.
 */
#ifndef ASK_LEFT_H
#define ASK_LEFT_H
#include "ask/mix.h"
#include "many/crew.h"

enum { LEFT_DAYS = 28, LEFT_MEMBERS = 16 };

struct left {
    bool is;                    /* false: the weather comes from a file, which no mix reads */
    bool with;                  /* is there advice that adds something? */
    struct span warm_days[2];   /* with the middle above 45 C: left so, and as advised */
    struct span peak_K[2];
};

/* `crew` says how: parameters, draw and threads. Fails as crew_run does. */
bool left_run(struct left *left, const struct mix *mix, const struct scenario *scenario, struct crew crew,
              struct trouble *why);
#endif
