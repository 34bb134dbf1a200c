/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/team.h - the crew that a command line asks for, and how far it is, on a terminal. */
#ifndef DOOR_TEAM_H
#define DOOR_TEAM_H
#include "door/ask.h"
#include "many/crew.h"
#include <time.h>

struct team_progress {
    struct timespec began;
    bool shown;
    int part, parts;            /* this crew of several, from 0; 0 of 1 unless set */
};

/* Members, draw, threads and numbers as asked; `sky` is used only where the weather comes from a
 * file. On a terminal the crew tells of its progress, until team_end. */
struct crew team_crew(const struct ask *ask, const struct scenario *scenario, int plan,
                      const struct curve *sky, const volatile sig_atomic_t *stop,
                      struct team_progress *progress);
void team_end(const struct team_progress *progress);
/* Such a crew run to its end, as one part of so many; crew_free in any case. */
bool team_run(struct crew_done *done, const struct ask *ask, const struct scenario *scenario,
              int plan, const struct curve *sky, int part, int parts, const volatile sig_atomic_t *stop,
              struct trouble *why);
/* Which members could not be run, and why, unless --quiet. */
void team_tell_failed(const struct ask *ask, const struct crew_done *done);
#endif
