/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/bdf_season.h - a whole season by CVODE, deeds and settling as in run/season.
 *
 * Midnight changes the geometry but not y, so CVODE stops there and goes on; only a deed changes y
 * and makes it begin again. Rules of a plan aren't followed.
 */
#ifndef RUN_BDF_SEASON_H
#define RUN_BDF_SEASON_H
#include "run/bdf.h"
#include <time.h>

/* What a season left, of all that is compared. */
struct bdf_season {
    int days, cells;
    double *over_K;                         /* [days * cells] at each day's end */
    double *middle_K, *dry_kg, *water_kg;   /* [days] at each day's end */
    double ignition_day;                    /* NAN = never */
    double cpu_s;
    long steps, rates, matrices;
};

static inline double bdf_season_clock_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static inline bool bdf_season_go(struct bdf *b, double until_s, struct bdf_season *season)
{
    struct watch *watch = &b->rates.setting->watch;
    while (b->time_s < until_s) {
        double before_s = b->time_s, before_K = watch->probe_now[0];
        if (!bdf_step(b, until_s))
            return false;
        watch_look(watch);
        if (isnan(season->ignition_day) && watch->probe_now[0] >= 40) {
            double share = before_K < 40 ? (40 - before_K) / (watch->probe_now[0] - before_K) : 0;
            season->ignition_day = (before_s + share * (b->time_s - before_s)) / SETTING_DAY_S;
        }
    }
    rates_fold(&b->rates, b->y, 0);
    return true;
}

static inline bool bdf_season_due(const struct plan_event *e, int day)
{
    int every = e->every_days > 0 ? e->every_days : 1;
    return e->when == PLAN_ON_DAY ? day == e->day
                                  : day >= e->day && day <= e->until && (day - e->day) % every == 0;
}

static inline bool bdf_season_deeds(struct bdf *b, int day, struct bdf_season *season,
                                    struct trouble *why)
{
    struct setting *s = b->rates.setting;
    double at = day * SETTING_DAY_S + SETTING_DEED_S;
    bool any = false;
    for (int e = 0; e < s->plan->events; e++) {
        struct record_event done[1];
        if (!bdf_season_due(&s->plan->event[e], day))
            continue;
        if (s->plan->event[e].when == PLAN_RULE)
            return trouble_set(why, TROUBLE_NO, "CVODE's season follows no rules");
        if (!any && !bdf_season_go(b, at, season))
            return trouble_set(why, TROUBLE_SOLVE, "CVODE can't go on");
        around_fill(&s->around, at, &s->balance.outside);
        struct moment ten = moment_all(day);
        if (!hands_do(&s->keeper, &s->plan->event[e], &ten, done, why))
            return false;
        setting_worked(s, &ten);
        any = true;
    }
    if (any)
        bdf_begin(b, at);
    return true;
}

static inline void bdf_season_keep(const struct bdf *b, int day, struct bdf_season *season)
{
    const struct setting *s = b->rates.setting;
    for (int c = 0; c < season->cells; c++)
        season->over_K[day * season->cells + c] = s->watch.over_K[c];
    season->middle_K[day] = s->watch.probe_now[0];
    season->dry_kg[day] = pile_total(&s->pile, pile_state(&s->pile, STATE_DRY_KG));
    season->water_kg[day] = pile_total(&s->pile, pile_state(&s->pile, STATE_WATER_KG));
    season->days = day + 1;
}

static inline bool bdf_season_day(struct bdf *b, int day, struct bdf_season *season,
                                  struct trouble *why)
{
    struct setting *s = b->rates.setting;
    around_day(&s->around, day);
    if (day == 0) {
        setting_build(s);
        bdf_begin(b, SETTING_DEED_S);
    }
    if (!bdf_season_deeds(b, day, season, why))
        return false;
    if (!bdf_season_go(b, (day + 1) * SETTING_DAY_S, season))
        return trouble_set(why, TROUBLE_SOLVE, "CVODE can't go on");
    setting_settle(s, (day + 1) * SETTING_DAY_S);
    bdf_season_keep(b, day, season);
    return true;
}

static inline void bdf_season_free(struct bdf_season *season)
{
    double *rows[] = {season->over_K, season->middle_K, season->dry_kg, season->water_kg};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        free(rows[i]);
    *season = (struct bdf_season){0};
}

static inline bool bdf_season_take(struct bdf_season *season, const struct setting *s, size_t days)
{
    *season = (struct bdf_season){.ignition_day = NAN, .cells = s->pile.mesh->cells};
    season->over_K = calloc(days * (size_t)season->cells, sizeof(double));
    season->middle_K = calloc(days, sizeof(double));
    season->dry_kg = calloc(days, sizeof(double));
    season->water_kg = calloc(days, sizeof(double));
    return season->over_K && season->middle_K && season->dry_kg && season->water_kg;
}

/* Runs the season of a setup; bdf_season_free in any case. */
static inline bool bdf_season_run(struct bdf_season *season, const struct setup *setup,
                                  double relative, double patience_d,
                                  const struct bdf_newton *newton, struct trouble *why)
{
    struct setting *s = calloc(1, sizeof *s);
    struct bdf bdf;
    int days = setup->scenario->last_day + 1;
    *season = (struct bdf_season){0};
    bool good = s && setting_make(s, setup, why) && bdf_season_take(season, s, (size_t)days);
    if (good) {
        double from_s = bdf_season_clock_s();
        good = bdf_take(&bdf, s, relative, patience_d, newton);
        for (int day = 0; good && day < days; day++)
            good = bdf_season_day(&bdf, day, season, why);
        season->cpu_s = bdf_season_clock_s() - from_s;
        season->rates = bdf.rates.count;
        season->steps = bdf.steps;
        season->matrices = bdf.matrices;
        bdf_free(&bdf);
    }
    if (s)
        setting_free(s);
    free(s);
    return good;
}
#endif
