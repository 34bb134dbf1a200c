/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/watch.h - readings of a season: probes, daily means, cross-sections, into the records. */
#ifndef RUN_WATCH_H
#define RUN_WATCH_H
#include "life/death.h"
#include "life/dose.h"
#include "run/balance.h"
#include "run/ledger.h"
#include "run/moment.h"
#include "run/place.h"
#include "run/record.h"

enum { WATCH_PROBES = 3 };  /* middle, 30 cm deep, a hand deep: enum plan_place */

/* a cell's mean temperature and dry mass, to be sorted */
struct watch_cell {
    double temp_K, dry_kg;
};

/* where a probe's point lies: four cells and their weights, member by member */
struct watch_probe {
    int cell[4];
    double weight[4];
};

struct watch {
    struct balance *balance;
    struct death_law death;
    struct dose dose;
    lane *over_K;           /* [stride] now */
    lane *mean_K_s;         /* [stride] integral over the day so far */
    lane *before_K;         /* [stride] at the step's start */
    lane *wet_share;        /* [stride] now */
    lane *breath;           /* [stride] in the test state, of the day's end */
    lane *depth_m;          /* [stride] of the day's end */
    lane core_m;            /* the core is deeper */
    struct watch_cell *sorted; /* [stride] */
    lane probe_K_s[WATCH_PROBES], air_K_s, seen_s;
    struct watch_probe probe[WATCH_PROBES][LANES];
    lane probe_now[WATCH_PROBES];
    lane day_flux[FLUXES];
    lane seeds_start[SEEDS];
    lane ignition_s;        /* middle first at 40 C; NAN before */
    lane steps, refused;
};

void watch_take(struct watch *watch, struct balance *balance, struct arena *arena);
/* Where a point lies: on the axis, or so deep in from the nearest side, at half the height. */
enum { WATCH_AXIS = -1 };
void watch_place(const struct watch *watch, double depth_m, int member, struct watch_probe *probe);
/* Where the probes are now, and what is read: after every settling or deed. */
void watch_look(struct watch *watch);
/* After an attempt, during which the air's mean was this: means over the accepted step, seeds that died in it (booked into flux). */
void watch_step(struct watch *watch, lane from_s, lane size_s, lane_mask good, lane air_over_K,
                lane flux[FLUXES]);
/* The day's row of each member's record, and a new day begins. */
void watch_day(struct watch *watch, const struct moment *midnight, struct record record[LANES]);
/* A cross-section of a member's pile at the end of a day (from 1). */
bool watch_picture(struct watch *watch, int day, int member, struct record *record,
                   struct trouble *why);
#endif
