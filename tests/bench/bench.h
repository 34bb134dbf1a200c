/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/bench.h - seasons of the bench: set up, run by us, compared with CVODE's. */
#ifndef BENCH_BENCH_H
#define BENCH_BENCH_H
#include "bench/slopes.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "run/bdf_season.h"
#include "run/differences.h"
#include "run/season.h"
#include <stdio.h>

enum { BENCH_RUNS = 7, BENCH_MOST_DAYS = 400 };
static const double PATIENCE_D = 0.02; /* see rates_fold; the reference folds after every step */

struct bench {
    struct scenario scenario;
    struct curve sky;
    struct param param;
    const struct curve *skies[1];
    struct possible possible;
    struct setup setup;
    struct trouble why;
    int picture_day[BENCH_MOST_DAYS];
};

/* How far our season is from CVODE's. */
struct bench_gap {
    double rms_K, worst_K, within_half_K, ignition_d;
    double dry, water;          /* relative, at the end */
};

struct bench_ours {
    double tolerance_K, median_s;
    long steps, refused;
    struct bench_gap gap;
};

/* The copy of the kernel that the bench is linked with (see the Makefile). */
bool BENCH_SEASON(struct record record[1], const struct setup *setup, struct trouble *why);

static inline void bench_stop(const struct trouble *why)
{
    fprintf(stderr, "bench: %s\n", why->text);
    exit(1);
}

static inline struct bench *bench_open(const char *path, int days)
{
    struct bench *b = calloc(1, sizeof *b);
    if (!b)
        exit(1);
    if (!scenario_read(&b->scenario, path, &b->why))
        bench_stop(&b->why);
    if (days > 0)
        b->scenario.last_day = days - 1;
    if (!climate_curve(&b->sky, &b->scenario, 1, &b->why))
        bench_stop(&b->why);
    b->param = param_usual();
    b->skies[0] = &b->sky;
    possible_usual(&b->possible, &b->scenario, &b->param);
    b->setup = (struct setup){.scenario = &b->scenario, .sky = b->skies, .possible = &b->possible};
    for (int d = 0; d < BENCH_MOST_DAYS; d++)
        b->picture_day[d] = d + 1;
    return b;
}

static inline void bench_close(struct bench *b)
{
    curve_free(&b->sky);
    free(b);
}

/* A season by run/step; with cross-sections, from which every cell's temperature is read. */
static inline void bench_season(struct bench *b, struct record *record, bool cells)
{
    possible_usual(&b->possible, &b->scenario, &b->param);
    b->setup.picture_day = b->picture_day;
    b->setup.pictures = cells ? b->scenario.last_day + 1 : 0;
    if (!BENCH_SEASON(record, &b->setup, &b->why))
        bench_stop(&b->why);
}

static inline int bench_order(const void *a, const void *b)
{
    double d = *(const double *)a - *(const double *)b;
    return (d > 0) - (d < 0);
}

/* Median of the processor time of a season, its record thrown away. */
static inline double bench_time(struct bench *b, int runs)
{
    double took[BENCH_RUNS];
    for (int i = 0; i < runs; i++) {
        struct record record;
        double from = bdf_season_clock_s();
        bench_season(b, &record, false);
        took[i] = bdf_season_clock_s() - from;
        record_free(&record);
    }
    qsort(took, (size_t)runs, sizeof *took, bench_order);
    return took[runs / 2];
}

static inline struct bench_gap bench_compare(const struct record *record,
                                             const struct bdf_season *other)
{
    double sum = 0, within = 0;
    struct bench_gap gap = {0};
    for (int d = 0; d < other->days; d++)
        for (int c = 0; c < other->cells; c++) {
            double ours = record->picture[d].cell[c].temp_K - 273.15;
            double off = fabs(ours - other->over_K[d * other->cells + c]);
            sum += off * off;
            within += off <= 0.5;
            gap.worst_K = fmax(gap.worst_K, off);
        }
    double cell_days = (double)other->days * other->cells;
    int last = other->days - 1;
    const struct record_day *end = &record->day[last];
    gap.rms_K = sqrt(sum / cell_days);
    gap.within_half_K = within / cell_days;
    gap.ignition_d = record->ignition_day - other->ignition_day;
    gap.dry = end->dry_kg / other->dry_kg[last] - 1;
    gap.water = (end->wet_kg - end->dry_kg) / other->water_kg[last] - 1;
    return gap;
}

static inline struct bench_gap bench_compare_bdf(const struct bdf_season *a,
                                                 const struct bdf_season *other)
{
    double sum = 0;
    struct bench_gap gap = {0};
    for (int n = 0; n < other->days * other->cells; n++) {
        double off = fabs(a->over_K[n] - other->over_K[n]);
        sum += off * off;
        gap.worst_K = fmax(gap.worst_K, off);
    }
    gap.rms_K = sqrt(sum / other->days / other->cells);
    gap.ignition_d = a->ignition_day - other->ignition_day;
    return gap;
}

static inline struct bench_ours bench_measure(struct bench *b, double tolerance_K,
                                              const struct bdf_season *other, int runs)
{
    struct bench_ours m = {.tolerance_K = tolerance_K};
    struct record record;
    b->param.tolerance_K = tolerance_K;
    bench_season(b, &record, true);
    m.gap = bench_compare(&record, other);
    for (int d = 0; d < record.days; d++) {
        m.steps += record.day[d].steps;
        m.refused += record.day[d].refused;
    }
    record_free(&record);
    m.median_s = bench_time(b, runs);
    return m;
}
#endif
