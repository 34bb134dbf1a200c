/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/team.c - see door/team.h. */
#include "door/team.h"
#include <math.h>
#include <stdio.h>
#include <unistd.h>

static double seconds_since(const struct timespec *began)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - began->tv_sec) + 1e-9 * (double)(now.tv_nsec - began->tv_nsec);
}

/* "midden: 20 of 64 possible piles, about 3 s left" */
static void told(void *listener, int done, int of)
{
    struct team_progress *progress = listener;
    double spent_s = seconds_since(&progress->began);
    if (spent_s < 1.0)
        return; /* what is soon over needs no telling */
    fprintf(stderr, "\rmidden: %d of %d possible piles, about %.0f s left   ",
            progress->part * of + done, progress->parts * of,
            ceil(spent_s * (of * (progress->parts - progress->part) - done) / done));
    progress->shown = true;
}

struct crew team_crew(const struct ask *ask, const struct scenario *scenario, int plan,
                      const struct curve *sky, const volatile sig_atomic_t *stop,
                      struct team_progress *progress)
{
    struct crew crew = {.scenario = scenario, .plan = plan, .param = &ask->param,
                        .fixed = ask->fixed, .draw = (uint64_t)ask->draw, .first = ask->first,
                        .last = ask->last, .stop = stop, .listener = progress,
                        .threads = ask->threads ? ask->threads : crew_threads()};
    if (scenario->sky == PLAN_SKY_FILE)
        crew.sky = sky;
    if (isatty(STDERR_FILENO) && !ask->given[HELP_QUIET])
        crew.told = told;
    *progress = (struct team_progress){.parts = 1};
    clock_gettime(CLOCK_MONOTONIC, &progress->began);
    return crew;
}

void team_end(const struct team_progress *progress)
{
    if (progress->shown)
        fputs("\r\033[K", stderr);
}

bool team_run(struct crew_done *done, const struct ask *ask, const struct scenario *scenario,
              int plan, const struct curve *sky, int part, int parts, const volatile sig_atomic_t *stop,
              struct trouble *why)
{
    struct team_progress progress;
    struct crew crew = team_crew(ask, scenario, plan, sky, stop, &progress);
    progress.part = part;
    progress.parts = parts;
    bool good = crew_run(done, &crew, why);
    team_end(&progress);
    return good;
}

void team_tell_failed(const struct ask *ask, const struct crew_done *done)
{
    for (int i = 0; i < done->members && !ask->given[HELP_QUIET]; i++)
        if (done->failed[i])
            fprintf(stderr, "midden: member %d can't be run and is left out: %s\n", done->first + i,
                    done->failed[i]);
}
