/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hours.h - the 24 hours of one day of a season, kept only where they are asked for.
 *
 * Steps don't end at full hours. What flows in a step is shared over the hours it crosses by time, so
 * that the hours add up to the day; temperatures run straight from a step's start to its end. What a
 * deed moves belongs to the hour that begins with it.
 */
#ifndef RUN_HOURS_H
#define RUN_HOURS_H
#include "run/moment.h"
#include "run/watch.h"

struct hours {
    int day;                    /* from 0; -1 = none is kept */
    lane flux[RECORD_HOURS][FLUXES];
    lane probe_K_s[RECORD_HOURS][WATCH_PROBES], air_K_s[RECORD_HOURS], mean_K_s[RECORD_HOURS];
    lane seen_s[RECORD_HOURS];
    lane probe_K[WATCH_PROBES], mean_K; /* at the step's start, over the ice point */
};

/* Before a step is taken, in the days the members are in. */
void hours_before(struct hours *hours, const int day[LANES], const struct watch *watch);
/* After it, as watch_step, which comes first. */
void hours_step(struct hours *hours, const int day[LANES], const struct watch *watch, lane from_s, lane took_s,
                lane air_over_K, const lane flux[FLUXES]);
/* What was moved by hand at a moment, so long after the day began. */
void hours_deed(struct hours *hours, const struct moment *at, double after_s, const lane flux[FLUXES]);
/* At the day's end into those members' records, which have room for it. */
void hours_keep(const struct hours *hours, const struct moment *midnight, struct record record[LANES]);
#endif
