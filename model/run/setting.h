/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/setting.h - everything a season works with, laid out in one block, and the pile built.
 *
 * The same setting serves the program's own integrator and any other that is to run the same
 * right-hand side (tests compare with GSL's and SUNDIALS').
 */
#ifndef RUN_SETTING_H
#define RUN_SETTING_H
#include "run/hands.h"
#include "run/moment.h"
#include "run/hours.h"
#include "run/setup.h"
#include "run/step.h"
#include "run/survey.h"
#include "run/watch.h"

#define SETTING_DAY_S 86400.0
#define SETTING_DEED_S 36000.0  /* gardeners work at ten in the morning */
#define SETTING_LOWEST_M 0.03      /* what lies thinner is a mulch, not a pile */
#define SETTING_FIRST_STEP_S 3600.0 /* after a deed; the error decides what comes of it */

struct setting {
    const struct setup *setup;
    const struct scenario *scenario;
    const struct plan *plan;
    struct param param[LANES];
    struct mesh mesh[PLAN_BAYS], *mesh_of_bay[PLAN_BAYS]; /* bays alike have one mesh */
    struct pile pile, spare, passed_by;
    struct balance balance;
    struct around around;
    struct step step;
    struct keeper keeper;
    struct watch watch;
    struct hours hours;
    struct survey survey;
    struct ledger ledger;
    lane *dry_before;           /* at the last settling */
    lane settled_s;
    int last_done[PLAN_EVENTS][LANES]; /* day an event on a rule was last done */
    bool seen_before[PLAN_EVENTS][LANES]; /* since then the keeper read what its rule waits to see pass */
    bool standing;
    void *block;
};


/* Takes the memory and sets all parameters; setting_free in any case. Fails with TROUBLE_NO if the
 * mesh would be too large, TROUBLE_MEMORY. */
bool setting_make(struct setting *setting, const struct setup *setup, struct trouble *why);
/* Builds the pile at ten on day 0 and weighs it in. */
void setting_build(struct setting *setting);
void setting_build_some(struct setting *setting, lane_mask who);
/* Another member has come into a row of the setup, and its season is to begin: then it builds. */
void setting_replace(struct setting *setting, int member);
/* Somebody has worked on those piles at ten on a day: books it, looks again, starts with small steps. */
void setting_worked(struct setting *setting, const struct moment *ten);
/* Settles the pile at a moment, as at every midnight. */
void setting_settle(struct setting *setting, double now_s);
/* Those members alone, each at the end of its own day. */
void setting_settle_some(struct setting *setting, const struct moment *midnight);
void setting_free(struct setting *setting);
#endif
