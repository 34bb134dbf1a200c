/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/race.h - one season by every contender in turn, over and over, a row for each run.
 *
 * Contenders take turns, so that what else the machine does hits all alike. Rows are raw; medians,
 * spreads and ratios within a repetition are made of them by page.py:
 *     contender, setting, right-hand sides, s of the processor, rms K, worst K
 */
#ifndef BENCH_RACE_H
#define BENCH_RACE_H
#include "bench/bench.h"

static const double REFERENCE = 1e-7;
static const double TOLERANCES[] = {0.25, 0.16, 0.08, 0.04, 0.02, 0.01, 0.005, 0.002};
static const double RELATIVES[] = {1e-2, 1e-3, 1e-4, 1e-5}, RACED = 1e-4;
static const char CVODE_OWN[] = "CVODE, its own differences";
enum { TOLERANCE_ROWS = sizeof TOLERANCES / sizeof *TOLERANCES,
       RELATIVE_ROWS = sizeof RELATIVES / sizeof *RELATIVES };

static inline void race_row(const char *name, double setting, long rates, double took_s,
                            const struct bench_gap *gap)
{
    printf("%s\t%g\t%ld\t%.6f\t%.6g\t%.6g\n", name, setting, rates, took_s, gap->rms_K, gap->worst_K);
    fflush(stdout);
}

static inline void race_reference(struct bench *b, struct bdf_season *season)
{
    if (!bdf_season_run(season, &b->setup, REFERENCE, 0, &DIFFERENCES, &b->why))
        bench_stop(&b->why);
}

/* What a season of ours comes to at a tolerance: found once, since it is the same every time. */
struct race_found {
    bool known;
    long rates;                 /* four stages an attempt */
    struct bench_gap gap;
};

static inline void race_ours(struct bench *b, double tolerance_K, const struct bdf_season *reference,
                             struct race_found *found)
{
    struct bench_ours m = {0};
    b->param.tolerance_K = tolerance_K;
    if (!found->known) {
        m = bench_measure(b, tolerance_K, reference, 1);
        *found = (struct race_found){true, STEP_STAGES * (m.steps + m.refused), m.gap};
    } else {
        m.median_s = bench_time(b, 1);
    }
    race_row("ours", tolerance_K, found->rates, m.median_s, &found->gap);
}

#ifdef BENCH_WIDE
enum { RACE_WIDTHS = 2 };
static const int RACE_WIDTH[RACE_WIDTHS] = {4, SEASON_WIDEST};
static const char *const RACE_WIDE[RACE_WIDTHS] = {"ours, four lanes, a member",
                                                   "ours, eight lanes, a member"};

static inline void race_run_wide(struct bench *b, int width, struct possible *alike, int pictures,
                                 struct record record[SEASON_WIDEST])
{
    const struct curve *sky[SEASON_WIDEST];
    struct setup setup = b->setup;
    for (int i = 0; i < width; i++) {
        possible_usual(&alike[i], &b->scenario, &b->param);
        sky[i] = &b->sky;
    }
    setup.possible = alike;
    setup.sky = sky;
    setup.picture_day = b->picture_day;
    setup.pictures = pictures;
    if (!season_run_wide(width, record, &setup, &b->why))
        bench_stop(&b->why);
}

/* The same member so many times side by side: time of one. Its error is measured in the first round,
 * of the last of them. */
static inline void race_wide(struct bench *b, int which, double tolerance_K,
                             const struct bdf_season *reference, struct race_found *found)
{
    int width = RACE_WIDTH[which], last = width - 1;
    struct possible *alike = malloc((size_t)width * sizeof *alike);
    struct record record[SEASON_WIDEST];
    if (!alike)
        exit(1);
    b->param.tolerance_K = tolerance_K;
    double from = bdf_season_clock_s();
    race_run_wide(b, width, alike, 0, record);
    double took = (bdf_season_clock_s() - from) / width;
    for (int i = 0; i < width; i++)
        record_free(&record[i]);
    if (!found->known) {
        race_run_wide(b, width, alike, b->scenario.last_day + 1, record);
        *found = (struct race_found){.known = true, .gap = bench_compare(&record[last], reference)};
        for (int d = 0; d < record[last].days; d++)
            found->rates += STEP_STAGES * (record[last].day[d].steps + record[last].day[d].refused);
        for (int i = 0; i < width; i++)
            record_free(&record[i]);
    }
    race_row(RACE_WIDE[which], tolerance_K, found->rates, took, &found->gap);
    free(alike);
}
#else
enum { RACE_WIDTHS = 0 };
#endif

static inline void race_cvode(struct bench *b, const char *name, const struct bdf_newton *newton,
                              double relative, const struct bdf_season *reference)
{
    struct bdf_season season;
    if (!bdf_season_run(&season, &b->setup, relative, PATIENCE_D, newton, &b->why)) {
        fprintf(stderr, "%s at %g: %s\n", name, relative, b->why.text);
        return;
    }
    struct bench_gap gap = bench_compare_bdf(&season, reference);
    race_row(name, relative, season.rates, season.cpu_s, &gap);
    bdf_season_free(&season);
}

static inline void race_round(struct bench *b, const struct bdf_season *reference, bool own,
                              struct race_found found[1 + RACE_WIDTHS][TOLERANCE_ROWS])
{
    bool first = !found[0][0].known;
    for (int i = 0; i < TOLERANCE_ROWS; i++) {
        race_ours(b, TOLERANCES[i], reference, &found[0][i]);
#ifdef BENCH_WIDE
        for (int w = 0; w < RACE_WIDTHS && RACE_WIDTH[w] <= season_width(&b->scenario, 0); w++)
            race_wide(b, w, TOLERANCES[i], reference, &found[1 + w][i]);
#endif
    }
    b->param = param_usual();
    possible_usual(&b->possible, &b->scenario, &b->param);
    for (int i = 0; i < RELATIVE_ROWS; i++) {
        if (!first && RELATIVES[i] < RACED) /* finer than ours go: its error is found, its time needs no median */
            continue;
        race_cvode(b, "CVODE, our slopes", &SLOPES, RELATIVES[i], reference);
        race_cvode(b, "CVODE, differences, two unknowns a node", &DIFFERENCES, RELATIVES[i],
                   reference);
    }
    if (own)
        race_cvode(b, CVODE_OWN, &(struct bdf_newton){0}, 1e-3, reference);
}

/* Temperatures of the reference, for contenders in other programs. */
static inline void race_leave(const struct bdf_season *reference, const char *path)
{
    size_t count = (size_t)(reference->days * reference->cells);
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(reference->over_K, sizeof(double), count, file) != count || fclose(file) != 0)
        exit(1);
}

/* `days` 0: the whole season. CVODE's own differences run in the first `own` rounds; where there are
 * no rounds, they alone. */
static inline void race(const char *path, int days, int rounds, int own, const char *leave)
{
    struct bench *b = bench_open(path, days);
    struct bdf_season reference;
    struct race_found found[1 + RACE_WIDTHS][TOLERANCE_ROWS] = {0};
    race_reference(b, &reference);
    if (leave)
        race_leave(&reference, leave);
    for (int k = 0; k < rounds; k++)
        race_round(b, &reference, k < own, found);
    if (rounds == 0)
        race_cvode(b, CVODE_OWN, &(struct bdf_newton){0}, 1e-3, &reference);
    bdf_season_free(&reference);
    bench_close(b);
}
#endif
