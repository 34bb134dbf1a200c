/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/air.c - see flow/air.h. */
#include "flow/air.h"
#include "flow/gas.h"

void air_take(struct air *air, const struct mesh *mesh, struct arena *arena)
{
    size_t cells = (size_t)mesh->rows * (size_t)mesh->cols;
    size_t outs = 2 * (size_t)(mesh->rows + mesh->cols) + 2;
    air->face_kg_per_s = arena_take(arena, 2 * cells, sizeof(lane));
    air->face_g = arena_take(arena, 2 * cells, sizeof(lane));
    air->push_Pa = arena_take(arena, 2 * cells, sizeof(lane));
    air->out_kg_per_s = arena_take(arena, outs, sizeof(lane));
    air->out_g = arena_take(arena, outs, sizeof(lane));
    air->pressure_Pa = arena_take(arena, cells, sizeof(lane));
    air->matrix = arena_take(arena, mesh_matrix_most(mesh, true, 0), sizeof(lane));
}

static void face_terms(struct air *air, const struct mesh *mesh, const struct medium *m,
                       const struct outside *outside)
{
    const int *from = mesh->line[MESH_FROM], *to = mesh->line[MESH_TO];
    const lane *m_a = mesh->face_a_m, *m_b = mesh->face_b_m, *area = mesh->face_area_m2;
    const lane *mobility = m->mobility, *dry_rho = m->dry_rho, *rho = m->rho;
    const lane rho_out = outside->rho;
    const double *rise = mesh->face_rise;
    lane *face_g = air->face_g, *push_Pa = air->push_Pa;
    LANE_APART
    for (int f = 0; f < mesh->faces; f++) {
        int a = from[f], b = to[f];
        lane resist = m_a[f] * mobility[b] + m_b[f] * mobility[a]; /* times both mobilities */
        face_g[f] = area[f] * 0.5 * (dry_rho[a] + dry_rho[b]) * mobility[a] * mobility[b] / resist;
        push_Pa[f] = GAS_GRAVITY * rise[f] * ((rho_out - rho[a]) * m_a[f] + (rho_out - rho[b]) * m_b[f]);
    }
}

static lane out_conductance(const struct mesh *mesh, const struct medium *m,
                            const struct outside *outside, int o)
{
    int c = mesh->out[o].cell;
    return mesh->out_area_m2[o] * outside->skin[mesh->out[o].side].open_share * m->dry_rho[c] *
           m->mobility[c] / mesh->out_m[o];
}

/* Buoyancy between a cell's middle and its face to the outside. */
static lane out_push(const struct mesh *mesh, const struct medium *m,
                     const struct outside *outside, int o)
{
    int c = mesh->out[o].cell;
    lane lift = GAS_GRAVITY * (outside->rho - m->rho[c]) * mesh->out_m[o];
    switch (mesh->out[o].side) {
    case MESH_TOP: return lift;
    case MESH_BASE: return -lift;
    case MESH_WALL: break;
    }
    return lane_of(0);
}

static void assemble(struct air *air, const struct mesh *mesh, const struct medium *m,
                     const struct outside *outside)
{
    const struct lattice *at = &mesh->symmetric;
    lattice_clear(at, air->matrix);
    for (int c = 0; c < mesh->cells; c++)
        air->pressure_Pa[c] = lane_of(0);
    face_terms(air, mesh, m, outside);
    for (int f = 0; f < mesh->faces; f++) {
        int a = mesh->face[f].a, b = mesh->face[f].b;
        lane g = air->face_g[f], source = g * air->push_Pa[f];
        air->matrix[at->diagonal[a]] += g;
        air->matrix[at->diagonal[b]] += g;
        air->matrix[at->ab[f]] -= g;
        air->pressure_Pa[a] -= source;
        air->pressure_Pa[b] += source;
    }
    for (int o = 0; o < mesh->outs; o++) {
        int c = mesh->out[o].cell;
        lane g = air->out_g[o] = out_conductance(mesh, m, outside, o);
        air->matrix[at->diagonal[c]] += g;
        air->pressure_Pa[c] -= g * out_push(mesh, m, outside, o);
    }
}

void air_solve(struct air *air, const struct mesh *mesh, const struct medium *m,
               const struct outside *outside)
{
    assemble(air, mesh, m, outside);
    lattice_factor(&mesh->symmetric, air->matrix);
    lattice_solve(&mesh->symmetric, air->matrix, air->pressure_Pa);
    const lane *p = air->pressure_Pa;
    for (int f = 0; f < mesh->faces; f++)
        air->face_kg_per_s[f] = air->face_g[f] *
            (p[mesh->face[f].a] - p[mesh->face[f].b] + air->push_Pa[f]);
    for (int o = 0; o < mesh->outs; o++)
        air->out_kg_per_s[o] = air->out_g[o] *
            (p[mesh->out[o].cell] + out_push(mesh, m, outside, o));
}
