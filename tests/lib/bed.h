/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/lib/bed.h - a bed of material of which a test sets every property by hand.
 *
 * The mesh and the laws of flow/ are the program's own; what fills the cells is not read from
 * amounts but given, so that a published solution for constant properties can be met: dry, still,
 * one conductivity, each side cold, insulated or with a surface coefficient.
 */
#ifndef LIB_BED_H
#define LIB_BED_H
#include "base/band.h"
#include "flow/gas.h"
#include "flow/oxygen.h"
#include "flow/transport.h"
#include "lib/near.h"
#include <stdlib.h>

struct bed {
    struct mesh mesh;
    struct medium medium;
    struct medium_frame frame;
    struct air air;
    struct oxygen oxygen;
    struct transport transport;
    struct transport_slope *face_slope;
    struct transport_out_slope *out_slope;
    struct outside outside;
    lane *water_kg, *dry_kg, *source_W, *source_slope;
    lane *matrix, *change, *work[5];
    lane soil_over_K[MESH_SOILS];
    void *block;
};

/* resistance of a side from its surface coefficient, W/(m2 K) */
#define BED_COLD INFINITY
#define BED_INSULATED 0.0

static inline void bed_take(struct bed *bed, const struct mesh_design *design, struct arena *arena)
{
    assert_true(mesh_lay(&bed->mesh, design, arena));
    size_t cells = (size_t)bed->mesh.rows * (size_t)bed->mesh.cols;
    medium_take(&bed->medium, &bed->frame, (int)cells, arena);
    air_take(&bed->air, &bed->mesh, arena);
    oxygen_take(&bed->oxygen, &bed->mesh, arena);
    transport_take(&bed->transport, &bed->mesh, arena);
    lane **each[] = {&bed->water_kg, &bed->dry_kg, &bed->source_W, &bed->source_slope, &bed->change,
                     &bed->work[0], &bed->work[1], &bed->work[2], &bed->work[3], &bed->work[4]};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = arena_take(arena, cells, sizeof(lane));
    bed->face_slope = arena_take(arena, 2 * cells, sizeof *bed->face_slope);
    bed->out_slope = arena_take(arena, 2 * (size_t)(bed->mesh.rows + bed->mesh.cols) + 2, sizeof *bed->out_slope);
    bed->matrix = arena_take(arena, cells * (size_t)band_width(bed->mesh.band), sizeof(lane));
}

/* A side takes the outside's temperature through this coefficient; the base takes the soil's. */
static inline void bed_side(struct bed *bed, enum mesh_side side, double film_W_per_m2K)
{
    bed->outside.skin[side].heat_m2K_per_W = film_W_per_m2K > 0 ? 1 / film_W_per_m2K : 1e30;
}

/* Dry and still, at the ice point, with air of one density inside and out; sides sealed and
 * cold. */
static inline void bed_rest(struct bed *bed, double conduct_W_per_mK)
{
    double dry_rho = gas_dry_density(0, 0, 101325);
    struct outside *out = &bed->outside;
    *out = (struct outside){.air_Pa = 101325, .film_W_per_m2K = 1e30, .soil_W_per_mK = 1e30,
                            .soil_J_per_m3K = 2e6, .dry_rho = dry_rho, .rho = dry_rho};
    for (int side = 0; side < 3; side++)
        bed_side(bed, (enum mesh_side)side, BED_COLD);
    for (int c = 0; c < bed->mesh.cells; c++) {
        bed->dry_kg[c] = 100 * bed->mesh.volume_m3[c];
        bed->water_kg[c] = 1e-9 * bed->dry_kg[c];
        bed->frame.solid_m3[c] = 0.1 * bed->mesh.volume_m3[c];
        bed->frame.hold_kg[c] = bed->dry_kg[c];
        bed->medium.liquid[c] = 1;
        bed->medium.free_air[c] = 0.5;
        bed->medium.dry_rho[c] = bed->medium.rho[c] = dry_rho;
        bed->medium.mobility[c] = 1e-8 / 2e-5;
        bed->medium.diffusive[c] = 0.25 * dry_rho * 2.178e-5;
        bed->medium.conduct[c] = conduct_W_per_mK;
    }
}

static inline void bed_make(struct bed *bed, const struct mesh_design *design, double conduct)
{
    struct arena count = {0};
    memset(bed, 0, sizeof *bed);
    bed_take(bed, design, &count);
    bed->block = calloc(1, count.used);
    assert_non_null(bed->block);
    bed_take(bed, design, &(struct arena){bed->block, count.used, 0});
    bed_rest(bed, conduct);
}

static inline void bed_free(struct bed *bed) { free(bed->block); }

/* A column one cell wide: a slab of this thickness, its base the middle plane. */
static inline struct mesh_design bed_slab(double thick_m, int cells)
{
    return (struct mesh_design){MESH_LONG, thick_m / cells, 1, thick_m, false, thick_m / cells, 1, 0, 0};
}

/* A row one cell high: a long cylinder, seen from its end. */
static inline struct mesh_design bed_disc(double radius_m, int cells)
{
    return (struct mesh_design){MESH_ROUND, radius_m, 1, radius_m / cells, false,
                                radius_m / cells, 1, 0, 0};
}

static inline void bed_fill(struct bed *bed)
{
    transport_fill(&bed->transport, &bed->mesh, &bed->medium, &bed->frame, &bed->air, &bed->outside,
                   bed->water_kg, bed->dry_kg, bed->soil_over_K);
}

/* -d(heat)/dT from the slopes of what transport_fill left, less the sources' own slope. */
static inline void bed_slopes(struct bed *bed)
{
    const struct mesh *mesh = &bed->mesh;
    const struct transport_slope *face = bed->face_slope;
    int band = mesh->band;
    transport_slopes(&bed->transport, mesh, &bed->medium, &bed->air, &bed->outside, bed->face_slope,
                     bed->out_slope);
    memset(bed->matrix, 0, (size_t)(mesh->cells * band_width(band)) * sizeof(lane));
    for (int f = 0; f < mesh->faces; f++) {
        int a = mesh->face[f].a, b = mesh->face[f].b;
        bed->matrix[band_at(band, a, a)] += face[f].heat_a;
        bed->matrix[band_at(band, a, b)] += face[f].heat_b;
        bed->matrix[band_at(band, b, a)] -= face[f].heat_a;
        bed->matrix[band_at(band, b, b)] -= face[f].heat_b;
    }
    for (int o = 0; o < mesh->outs; o++) {
        const struct transport_out_slope *s = &bed->out_slope[o];
        int c = mesh->out[o].cell;
        bed->matrix[band_at(band, c, c)] += s->air_heat + s->vapour_heat + s->film_heat;
    }
    for (int c = 0; c < mesh->cells; c++)
        bed->matrix[band_at(band, c, c)] -= bed->source_slope[c];
}

/* One step of Newton's method toward heat + source = 0; returns the largest change, K. */
static inline double bed_newton(struct bed *bed)
{
    double most = 0;
    bed_fill(bed);
    bed_slopes(bed);
    band_factor(bed->matrix, bed->mesh.cells, bed->mesh.band);
    for (int c = 0; c < bed->mesh.cells; c++)
        bed->change[c] = bed->transport.heat_W[MESH_SOILS + c] + bed->source_W[c];
    band_solve(bed->matrix, bed->mesh.cells, bed->mesh.band, bed->change);
    for (int c = 0; c < bed->mesh.cells; c++) {
        bed->medium.over_K[c] += bed->change[c];
        most = fmax(most, fabs(bed->change[c]));
    }
    return most;
}

/* Steady temperatures; the fluxes themselves, not the matrix, decide when they are. */
static inline void bed_steady(struct bed *bed)
{
    double change = 1;
    for (int turn = 0; turn < 200 && change > 1e-12; turn++)
        change = bed_newton(bed);
    assert_near(change, 0, 1e-10);
}

/* dT/dt of every cell */
static inline void bed_rate(struct bed *bed, double capacity_J_per_m3K, lane *rate)
{
    bed_fill(bed);
    for (int c = 0; c < bed->mesh.cells; c++)
        rate[c] = (bed->transport.heat_W[MESH_SOILS + c] + bed->source_W[c]) /
                  (capacity_J_per_m3K * bed->mesh.volume_m3[c]);
}

/* Time by the classical method of order 4 (Kutta 1901), small steps: what is left is space. */
static inline void bed_run(struct bed *bed, double capacity, double time_s, double step_s)
{
    static const double at[4] = {0, 0.5, 0.5, 1}, weight[4] = {1. / 6, 1. / 3, 1. / 3, 1. / 6};
    int steps = (int)ceil(time_s / step_s), cells = bed->mesh.cells;
    double h = time_s / steps;
    lane *start = bed->work[4], *T = bed->medium.over_K;
    for (int n = 0; n < steps; n++) {
        memcpy(start, T, (size_t)cells * sizeof *T);
        for (int k = 0; k < 4; k++) {
            for (int c = 0; c < cells && k > 0; c++)
                T[c] = start[c] + h * at[k] * bed->work[k - 1][c];
            bed_rate(bed, capacity, bed->work[k]);
        }
        for (int c = 0; c < cells; c++) {
            T[c] = start[c];
            for (int k = 0; k < 4; k++)
                T[c] += h * weight[k] * bed->work[k][c];
        }
    }
}

/* A field even about the axis and the base, drawn on to where they meet. */
static inline double bed_corner(const struct bed *bed, const lane *x)
{
    const struct mesh *mesh = &bed->mesh;
    double row[2] = {0, 0};
    for (int j = 0; j < 2 && j < mesh->rows; j++) {
        const lane *r = x + mesh->row_first[j];
        row[j] = mesh->cols > 1 ? (9 * r[0] - r[1]) / 8 : r[0];
    }
    return mesh->rows > 1 ? (9 * row[0] - row[1]) / 8 : row[0];
}

/* Richardson's extrapolation of an error of order 2 from a mesh and one twice as fine. */
static inline double bed_limit(double coarse, double fine) { return fine + (fine - coarse) / 3; }
#endif
