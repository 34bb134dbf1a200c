/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/oxygen.c - see flow/oxygen.h. */
#include "flow/oxygen.h"
#include "flow/gas.h"

static const double OXYGEN_OVER_VAPOUR = 1.820 / 2.178; /* diffusivities, Massman 1998 */

void oxygen_take(struct oxygen *oxygen, const struct mesh *mesh, struct arena *arena)
{
    size_t cells = (size_t)mesh->rows * (size_t)mesh->cols;
    oxygen->share = arena_take(arena, cells, sizeof(lane));
    oxygen->factor = arena_take(arena, cells, sizeof(lane));
    oxygen->rest = arena_take(arena, cells, sizeof(lane));
    oxygen->matrix = arena_take(arena, mesh_matrix_most(mesh, false, 0), sizeof(lane));
    oxygen->leaves = arena_take(arena, cells, sizeof(lane));
    oxygen->from_a = arena_take(arena, 2 * cells, sizeof(lane));
    oxygen->from_b = arena_take(arena, 2 * cells, sizeof(lane));
}

/* Diffusion and upwind draught over the faces: what leaves a and enters b, and back. */
static void add_faces(struct oxygen *ox, const struct mesh *mesh, const struct medium *m, const struct air *air)
{
    const int *from = mesh->line[MESH_FROM], *to = mesh->line[MESH_TO];
    const lane *m_a = mesh->face_a_m, *m_b = mesh->face_b_m, *area = mesh->face_area_m2;
    const lane *diffusive = m->diffusive, *flow = air->face_kg_per_s;
    lane *from_a = ox->from_a, *from_b = ox->from_b;
    LANE_APART
    for (int f = 0; f < mesh->faces; f++) {
        lane a = diffusive[from[f]], b = diffusive[to[f]];
        lane g = OXYGEN_OVER_VAPOUR * area[f] * a * b / (m_a[f] * b + m_b[f] * a);
        from_a[f] = g + lane_max(flow[f], lane_of(0));
        from_b[f] = g - lane_min(flow[f], lane_of(0));
    }
    for (int f = 0; f < mesh->faces; f++) {
        ox->leaves[from[f]] += from_a[f];
        ox->leaves[to[f]] += from_b[f];
        ox->matrix[mesh->plain.ba[f]] = -from_a[f];
        ox->matrix[mesh->plain.ab[f]] = -from_b[f];
    }
}

static void add_out(struct oxygen *ox, const struct mesh *mesh, const struct medium *m,
                    const struct air *air, const struct outside *outside, int o)
{
    int c = mesh->out[o].cell;
    const struct outside_skin *skin = &outside->skin[mesh->out[o].side];
    lane g = OXYGEN_OVER_VAPOUR * mesh->out_area_m2[o] * skin->open_share /
             (mesh->out_m[o] / m->diffusive[c] + skin->vapour_m2s_per_kg);
    if (mesh->out[o].side == MESH_WALL)
        g += air->out_g[o] * mesh->out_m[o] * outside->wind_Pa_per_m;
    lane flow = air->out_kg_per_s[o];
    ox->leaves[c] += g + lane_max(flow, lane_of(0));
    ox->rest[c] += (g - lane_min(flow, lane_of(0))) * GAS_OXYGEN_OUTSIDE;
}

static void assemble(struct oxygen *ox, const struct mesh *mesh, const struct medium *m,
                     const struct air *air, const struct outside *outside)
{
    lattice_clear(&mesh->plain, ox->matrix);
    for (int c = 0; c < mesh->cells; c++)
        ox->rest[c] = ox->leaves[c] = lane_of(0);
    add_faces(ox, mesh, m, air);
    for (int o = 0; o < mesh->outs; o++)
        add_out(ox, mesh, m, air, outside, o);
}

/* What is still missing: what comes from outside less what leaves, by flow alone. Each cell's sum goes
 * by neighbours in their order. */
static lane missing(const struct oxygen *ox, const struct mesh *mesh, int c)
{
    int below = mesh->face_below[c], inner = mesh->face_inner[c];
    int outer = mesh->face_outer[c], above = mesh->face_above[c];
    const lane *y = ox->share;
    lane rest = ox->rest[c];
    if (below >= 0)
        rest += ox->from_a[below] * y[mesh->face[below].a];
    if (inner >= 0)
        rest += ox->from_a[inner] * y[c - 1];
    rest -= ox->leaves[c] * y[c];
    if (outer >= 0)
        rest += ox->from_b[outer] * y[c + 1];
    if (above >= 0)
        rest += ox->from_b[above] * y[mesh->face[above].b];
    return rest;
}

void oxygen_solve(struct oxygen *ox, const struct mesh *mesh, const struct medium *m,
                  const struct air *air, const struct outside *outside, const lane *uptake,
                  const lane *felt, const lane *half)
{
    assemble(ox, mesh, m, air, outside);
    for (int c = 0; c < mesh->cells; c++) {
        lane dilution = 1.0 - m->vapour_Pa[c] / outside->air_Pa;
        ox->factor[c] = dilution; /* kept for the correction */
        ox->matrix[mesh->plain.diagonal[c]] =
            ox->leaves[c] + uptake[c] * dilution / ((half[c] + dilution * felt[c]) * GAS_OXYGEN_KG);
        ox->share[c] = ox->rest[c];
    }
    lattice_factor(&mesh->plain, ox->matrix);
    lattice_solve(&mesh->plain, ox->matrix, ox->share);
    lane *step = ox->rest;
    for (int c = 0; c < mesh->cells; c++) {
        lane moist = ox->factor[c] * ox->share[c];
        step[c] = missing(ox, mesh, c) - uptake[c] * moist / ((half[c] + moist) * GAS_OXYGEN_KG);
    }
    lattice_solve(&mesh->plain, ox->matrix, step);
    for (int c = 0; c < mesh->cells; c++) {
        /* the correction may not take away more than nine tenths: y stays positive */
        lane y = lane_max(ox->share[c] + step[c], 0.1 * ox->share[c]);
        ox->share[c] = y;
        ox->factor[c] = ox->factor[c] * y / (half[c] + ox->factor[c] * y);
    }
}
