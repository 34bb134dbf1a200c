/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/meshes.h - the error of the usual mesh, from the same seasons on two finer ones.
 *
 * Days are told apart by the middle on the finest mesh: the plateau is within a kelvin of its
 * highest daily mean, the rising flank before, the falling flank after.
 */
#ifndef BENCH_MESHES_H
#define BENCH_MESHES_H
#include "bench/bench.h"

enum { MESHES = 3, MESHES_DAYS = 60 };
enum meshes_phase { MESHES_RISE, MESHES_PLATEAU, MESHES_FALL };
static const double MESHES_FINER[MESHES] = {1, 2, 4};

struct meshes_run {
    struct record record;
    double rim_m, growth, took_s;
    long steps;
    int cells;
};

/* The usual rim over `finer`; growth such that cells of one place shrink alike. */
static inline void meshes_one(struct bench *b, double finer, struct meshes_run *run)
{
    struct param usual = param_usual();
    run->rim_m = b->param.rim_m = usual.rim_m / finer;
    run->growth = b->param.mesh_growth = pow(usual.mesh_growth, 1 / finer);
    b->param.row_most_m = usual.row_most_m / finer;
    b->param.column_growth = pow(usual.column_growth, 1 / finer);
    double from = bdf_season_clock_s();
    bench_season(b, &run->record, true);
    run->took_s = bdf_season_clock_s() - from;
    run->cells = run->record.picture[0].cells;
    run->steps = 0;
    for (int d = 0; d < run->record.days; d++)
        run->steps += run->record.day[d].steps + run->record.day[d].refused;
}

static inline int meshes_hottest(const struct record *r)
{
    int hottest = 0;
    for (int d = 0; d < r->days; d++)
        if (r->day[d].middle_K > r->day[hottest].middle_K)
            hottest = d;
    return hottest;
}

static inline enum meshes_phase meshes_phase(const struct record *fine, int day)
{
    int hottest = meshes_hottest(fine);
    if (fine->day[day].middle_K > fine->day[hottest].middle_K - 1)
        return MESHES_PLATEAU;
    return day < hottest ? MESHES_RISE : MESHES_FALL;
}

/* Largest difference of the middle's daily means in a phase. */
static inline double meshes_middle(const struct record *coarse, const struct record *fine,
                                   enum meshes_phase phase)
{
    double worst = 0;
    for (int d = 0; d < fine->days; d++)
        if (meshes_phase(fine, d) == phase)
            worst = fmax(worst, fabs(coarse->day[d].middle_K - fine->day[d].middle_K));
    return worst;
}

/* Days from the start until the middle has cooled to 40 C, between daily means. */
static inline double meshes_cooled(const struct record *r)
{
    for (int d = meshes_hottest(r); d + 1 < r->days; d++) {
        double now = r->day[d].middle_K - 313.15, next = r->day[d + 1].middle_K - 313.15;
        if (now >= 0 && next < 0)
            return d + now / (now - next);
    }
    return NAN;
}

static inline double meshes_lost(const struct record *r)
{
    return 1 - r->day[r->days - 1].dry_kg / r->day[0].dry_kg;
}

static inline double meshes_water(const struct record *r)
{
    const struct record_day *end = &r->day[r->days - 1];
    return end->wet_kg - end->dry_kg;
}

/* log2 of the ratio of successive differences */
static inline double meshes_order(double coarse, double middle, double fine)
{
    return log2(fabs((coarse - middle) / (middle - fine)));
}

static inline void meshes_tell(const struct meshes_run run[MESHES])
{
    const struct record *fine = &run[MESHES - 1].record;
    printf("%6s %7s %6s %6s %8s %7s %8s %7s %9s %9s %9s\n", "rim m", "growth", "cells", "steps",
           "s", "rise C", "plateau", "fall C", "cool day", "dry lost", "water kg");
    for (int i = 0; i < MESHES; i++) {
        const struct record *r = &run[i].record;
        printf("%6.3f %7.3f %6d %6ld %8.3f %7.2f %8.2f %7.2f %9.2f %9.4f %9.2f\n", run[i].rim_m,
               run[i].growth, run[i].cells, run[i].steps, run[i].took_s,
               meshes_middle(r, fine, MESHES_RISE), meshes_middle(r, fine, MESHES_PLATEAU),
               meshes_middle(r, fine, MESHES_FALL), meshes_cooled(r), meshes_lost(r),
               meshes_water(r));
    }
    const struct record *r[MESHES] = {&run[0].record, &run[1].record, fine};
    printf("observed order: day of cooling %.1f, dry mass lost %.1f, water %.1f\n\n",
           meshes_order(meshes_cooled(r[0]), meshes_cooled(r[1]), meshes_cooled(r[2])),
           meshes_order(meshes_lost(r[0]), meshes_lost(r[1]), meshes_lost(r[2])),
           meshes_order(meshes_water(r[0]), meshes_water(r[1]), meshes_water(r[2])));
}

static inline void meshes(const char *folder, const char *name)
{
    char path[512];
    struct meshes_run run[MESHES];
    snprintf(path, sizeof path, "%s/%s.yaml", folder, name);
    struct bench *b = bench_open(path, MESHES_DAYS);
    for (int i = 0; i < MESHES; i++)
        meshes_one(b, MESHES_FINER[i], &run[i]);
    printf("meshes: %s, %d days; middle: daily means against the finest mesh, at worst\n", name,
           MESHES_DAYS);
    meshes_tell(run);
    for (int i = 0; i < MESHES; i++)
        record_free(&run[i].record);
    bench_close(b);
}
#endif
