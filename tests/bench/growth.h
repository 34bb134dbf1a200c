/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/growth.h - how cost and memory grow with cells, days, members and threads.
 *
 * Each point is a process of its own, so that its peak of memory is its own. Rows:
 *     what, how many, s, peak MB, attempts or lanes' shares, repetition
 */
#ifndef BENCH_GROWTH_H
#define BENCH_GROWTH_H
#include "bench/bench.h"
#include "many/crew.h"
#include <sys/wait.h>
#include <unistd.h>

enum { GROWTH_DAYS = 2, GROWTH_CREW = 16, GROWTH_SHARED = 64, /* as many as an answer takes */
       GROWTH_MANY = 256, GROWTH_MANY_RUNS = 3 };

static inline double growth_peak_MB(void)
{
    char line[256];
    long kB = -1;
    FILE *status = fopen("/proc/self/status", "r");
    while (status && fgets(line, sizeof line, status))
        if (sscanf(line, "VmHWM: %ld", &kB) == 1)
            break;
    if (status)
        fclose(status);
    return 1e-3 * (double)kB;
}

static inline double growth_wall_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* In a child; false in the parent, once the child has ended. */
static inline bool growth_child(void)
{
    fflush(stdout);
    pid_t child = fork();
    if (child == 0)
        return true;
    waitpid(child, NULL, 0);
    return false;
}

static inline void growth_row(const char *what, double many, double took_s, double more, int round)
{
    printf("%s\t%g\t%.6f\t%.3f\t%g\t%d\n", what, many, took_s, growth_peak_MB(), more, round);
    fflush(stdout);
}

/* a mesh: rim and thickest row, m; growth of rows and of columns */
struct growth_mesh { double rim_m, row_most_m, growth, column_growth; };
static const struct growth_mesh GROWTH_MESH[] = {
    {0.12, 0.2, 1.28, 1.6}, {0.06, 0.12, 1.28, 1.6}, {0.03, 0.06, 1.28, 1.6},
    {0.02, 0.055, 1.28, 1.6}, {0.015, 0.04, 1.2, 1.3}, {0.015, 0.02, 1.1, 1.15},
    {0.012, 0.014, 1.05, 1.05}, {0.011, 0.011, 1.01, 1.01}, {0.008, 0.008, 1.01, 1.01},
    {0.00425, 0.00425, 1.01, 1.01}, {0.0037, 0.0037, 1.01, 1.01}};
enum { GROWTH_MESHES = sizeof GROWTH_MESH / sizeof *GROWTH_MESH };

static inline long growth_attempts(const struct record *record)
{
    long attempts = 0;
    for (int d = 0; d < record->days; d++)
        attempts += record->day[d].steps + record->day[d].refused;
    return attempts;
}

static inline void growth_cells(const char *path, const struct growth_mesh *mesh)
{
    struct bench *b = bench_open(path, GROWTH_DAYS);
    struct record record;
    b->param.rim_m = mesh->rim_m;
    b->param.row_most_m = mesh->row_most_m;
    b->param.mesh_growth = mesh->growth;
    b->param.column_growth = mesh->column_growth;
    double total = 0;
    possible_usual(&b->possible, &b->scenario, &b->param);
    struct setting *s = calloc(1, sizeof *s);
    if (!s || !setting_make(s, &b->setup, &b->why))
        bench_stop(&b->why);
    int cells = s->pile.mesh->cells;
    setting_free(s);
    free(s);
    for (int k = 0; k < BENCH_RUNS && (k == 0 || total < 0.5); k++) {
        double from = bdf_season_clock_s();
        if (!BENCH_SEASON(&record, &b->setup, &b->why)) {
            printf("refused: %s\t%d\t0\t0\t0\t0\n", b->why.text, cells);
            break;
        }
        double took = bdf_season_clock_s() - from;
        total += took;
        long attempts = growth_attempts(&record);
        double peak_MB = growth_peak_MB();
        record_free(&record);
        printf("cells\t%d\t%.6f\t%.3f\t%ld\t%d\n", cells, took, peak_MB, attempts, k);
    }
    fflush(stdout);
}

static inline void growth_days(const char *path, int days, int round)
{
    struct bench *b = bench_open(path, days);
    struct record record;
    double from = bdf_season_clock_s();
    bench_season(b, &record, false);
    growth_row("days", days, bdf_season_clock_s() - from, (double)growth_attempts(&record), round);
}

/* Wall time of a crew, since threads are asked about. */
static inline void growth_members(const char *path, const char *what, int members, int threads,
                                  int many, int round)
{
    struct bench *b = bench_open(path, 0);
    static const bool fixed[PARAM_ROWS];
    struct crew crew = {.scenario = &b->scenario, .param = &b->param, .fixed = fixed, .draw = 1,
                        .first = 1, .last = members, .threads = threads};
    struct crew_done done;
    double from = growth_wall_s(), cpu = bdf_season_clock_s();
    if (!crew_run(&done, &crew, &b->why))
        bench_stop(&b->why);
    double took = growth_wall_s() - from;
    growth_row(what, many, took, bdf_season_clock_s() - cpu, round);
}

/* The same members one after another, on the copy that this processor would run. */
static inline void growth_alone(const char *path, int round)
{
    struct bench *b = bench_open(path, 0);
    static const bool fixed[PARAM_ROWS];
    struct crew crew = {.scenario = &b->scenario, .param = &b->param, .fixed = fixed, .draw = 1,
                        .first = 1, .last = GROWTH_CREW, .threads = 1};
    double from = growth_wall_s(), cpu = bdf_season_clock_s();
    for (int i = 1; i <= GROWTH_CREW; i++) {
        struct record record;
        if (!crew_member(&record, &crew, i, &b->why))
            bench_stop(&b->why);
        record_free(&record);
    }
    double took = growth_wall_s() - from;
    growth_row("alone", GROWTH_CREW, took, bdf_season_clock_s() - cpu, round);
}

static inline void growth(const char *path)
{
    static const int DAYS[] = {15, 30, 60, 120, 240}, MEMBERS[] = {4, 8, 16, 32, 64};
    for (int i = 0; i < GROWTH_MESHES; i++)
        if (growth_child()) {
            growth_cells(path, &GROWTH_MESH[i]);
            _exit(0);
        }
    for (int k = 0; k < BENCH_RUNS; k++)
        for (int i = 0; i < 5; i++)
            if (growth_child()) {
                growth_days(path, DAYS[i], k);
                _exit(0);
            }
    for (int i = 0; i < 5; i++)
        if (growth_child()) {
            growth_members(path, "members", MEMBERS[i], 1, MEMBERS[i], 0);
            _exit(0);
        }
    for (int k = 0; k < BENCH_RUNS; k++)
        for (int threads = 1; threads <= 2; threads++)
            if (growth_child()) {
                growth_members(path, "threads", GROWTH_SHARED, threads, threads, k);
                _exit(0);
            }
    for (int k = 0; k < GROWTH_MANY_RUNS; k++)
        for (int threads = 1; threads <= 2; threads++)
            if (growth_child()) {
                growth_members(path, "threads of many", GROWTH_MANY, threads, threads, k);
                _exit(0);
            }
    for (int k = 0; k < BENCH_RUNS; k++) {
        if (growth_child()) {
            growth_alone(path, k);
            _exit(0);
        }
        if (growth_child()) {
            growth_members(path, "beside", GROWTH_CREW, 1, GROWTH_CREW, k);
            _exit(0);
        }
    }
    if (growth_child()) {
        growth_members(path, "thousand", 1000, crew_threads(), 1000, 0);
        _exit(0);
    }
}
#endif
