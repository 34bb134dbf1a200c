/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/glance.h - one pile of the command line, its plan, and its possible seasons up to a day. */
#ifndef DOOR_GLANCE_H
#define DOOR_GLANCE_H
#include "ask/due.h"
#include "door/ask.h"
#include "many/able.h"
#include <signal.h>

struct glance {
    struct scenario *scenario; /* its season may have been cut short; last_day tells */
    int plan, last_day;        /* last_day: of the season as its keeper has it */
    struct crew_done done;
    struct able able; /* what its records hold is done's */
};

/* Reads one of the files asked for and finds its plan. glance_free in any case. */
bool glance_read(struct glance *glance, const struct ask *ask, int file, struct trouble *why);
/* Runs its possible piles up to a day, which may be the season's last; part of so many such runs.
 */
bool glance_run(struct glance *glance, const struct ask *ask, int until, int part, int parts,
                const volatile sig_atomic_t *stop, struct trouble *why);
struct due_pile glance_pile(const struct glance *glance, const struct ask *ask);
void glance_free(struct glance *glance);
/* The day from 0 that --day names in this season, or that of the last reading, or the first. */
int glance_now(const struct glance *glance, const struct ask *ask, struct trouble *why);
#endif
