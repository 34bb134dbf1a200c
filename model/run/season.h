/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/season.h - one season of one pile under one plan. */
#ifndef RUN_SEASON_H
#define RUN_SEASON_H
#include "base/trouble.h"
#include "run/bays.h"
#include "run/record.h"
#include "run/setup.h"

/* Runs the season and fills the record (record_free it in any case).
 * Fails with TROUBLE_LEDGER if a balance does not close to 1e-9, TROUBLE_SOLVE if a step can't be
 * made small enough, TROUBLE_NO if the plan can't be done, TROUBLE_MEMORY. */
bool season_run_x1(struct record record[1], const struct setup *setup, struct trouble *why);
/* Four and eight members side by side (built for AVX2 and AVX-512): as many records, rows of
 * setup->possible and of setup->sky. */
bool season_run_x4(struct record record[4], const struct setup *setup, struct trouble *why);
bool season_run_x8(struct record record[8], const struct setup *setup, struct trouble *why);
enum { SEASON_WIDEST = 8 };

/* The same as x1, compiled for processors with AVX2 and with AVX-512: the same digits, tested. */
bool season_run_x1_avx2(struct record record[1], const struct setup *setup, struct trouble *why);
bool season_run_x1_avx512(struct record record[1], const struct setup *setup, struct trouble *why);

/* Could members under this plan go side by side? Each at its own pace and each by its own looks at its
 * pile; but where bays differ in shape so do the meshes, and a rule could part who stands in which. */
static inline bool season_goes_wide(const struct scenario *scenario, int plan)
{
    const struct plan *p = &scenario->plan[plan];
    bool ruled = false;
    for (int e = 0; e < p->events; e++)
        ruled |= p->event[e].when == PLAN_RULE;
    return !ruled || bays_alike(scenario, p);
}

#ifdef SEASON_AVX2
static inline bool season_has_avx512(void)
{
    return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
           __builtin_cpu_supports("avx512vl") && __builtin_cpu_supports("avx512bw");
}
#endif

/* How many can here: 8, 4 or 1. */
static inline int season_width(const struct scenario *scenario, int plan)
{
#ifdef SEASON_AVX2
    if (season_goes_wide(scenario, plan) && __builtin_cpu_supports("avx2"))
        return season_has_avx512() ? 8 : 4;
#endif
    (void)scenario, (void)plan;
    return 1;
}

/* Eight or four members side by side, where season_width allows so many. */
static inline bool season_run_wide(int width, struct record *record, const struct setup *setup,
                                   struct trouble *why)
{
#ifdef SEASON_AVX2
    return (width == SEASON_WIDEST ? season_run_x8 : season_run_x4)(record, setup, why);
#else
    (void)width, (void)record, (void)setup;
    return trouble_set(why, TROUBLE_SOLVE, "this build runs one member at a time");
#endif
}

/* One season on what this processor offers. SEASON_AVX2 is set where the build made that copy. */
static inline bool season_run(struct record *record, const struct setup *setup, struct trouble *why)
{
#ifdef SEASON_AVX2
    if (season_has_avx512())
        return season_run_x1_avx512(record, setup, why);
    if (__builtin_cpu_supports("avx2"))
        return season_run_x1_avx2(record, setup, why);
#endif
    return season_run_x1(record, setup, why);
}
#endif
