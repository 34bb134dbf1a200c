/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/season.h - one season of one pile under one plan. */
#ifndef RUN_SEASON_H
#define RUN_SEASON_H
#include "base/trouble.h"
#include "know/param.h"
#include "run/plan.h"
#include "run/record.h"
#include "sky/curve.h"
#include <signal.h>

struct season_setup {
    const struct scenario *scenario;
    int plan;                       /* row of scenario.plan */
    const struct curve *sky;        /* at least scenario.last_day + 1 days from scenario.start */
    const struct param *param;      /* a row for each member side by side */
    const int *picture_day;         /* days at whose end a cross-section is kept */
    int pictures;
    const volatile sig_atomic_t *stop; /* NULL, or set from outside to end early */
};

/* Runs the season and fills the record (record_free it in any case).
 * Fails with TROUBLE_LEDGER if a balance does not close to 1e-9, TROUBLE_SOLVE if a step can't be
 * made small enough, TROUBLE_NO if the plan can't be done, TROUBLE_MEMORY. */
bool season_run_x1(struct record record[1], const struct season_setup *setup, struct trouble *why);
/* Four members side by side (built for AVX2): four records, four rows of setup->param. */
bool season_run_x4(struct record record[4], const struct season_setup *setup, struct trouble *why);

static inline bool season_run(struct record *record, const struct season_setup *setup,
                              struct trouble *why)
{
    return season_run_x1(record, setup, why);
}
#endif
