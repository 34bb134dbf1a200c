/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/implicit.c - see run/implicit.h. */
#include "run/implicit.h"
#include "base/band.h"
#include "pile/read.h"

void implicit_take(struct implicit *s, struct balance *balance, struct arena *arena)
{
    const struct pile *pile = balance->pile;
    size_t cells = (size_t)pile->stride, rows = cells + MESH_SOILS;
    size_t outs = 2 * (size_t)(pile->mesh->rows + pile->mesh->cols) + 2;
    s->balance = balance;
    lane **each[] = {&s->over_sum, &s->drain_sum, &s->drain_slope, &s->drain_heat_J,
                     &s->per_capacity, &s->water_J, &s->grown_slope, &s->humified_slope,
                     &s->heat_slope, &s->pace_slope[0], &s->pace_slope[1], &s->pace_slope[2],
                     &s->pace_slope[3], &s->leach_per_s, &s->nitrogen_sum, &s->undrained,
                     &s->unleached, &s->microbe_slope, &s->living_slope, &s->humus_slope, &s->sour_slope,
                     &s->freed_slope, &s->bound_slope};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = arena_take(arena, cells, sizeof(lane));
    s->soil_sum = arena_take(arena, MESH_SOILS, sizeof(lane));
    s->warmer = arena_take(arena, rows, sizeof(lane));
    s->matrix = arena_take(arena, mesh_matrix_most(pile->mesh, false, MESH_SOILS), sizeof(lane));
    size_t fine = pile->mesh->fine ? cells : 0;
    s->seep_kg_per_s = arena_take(arena, 2 * fine, sizeof(lane));
    s->seep_J_per_kg = arena_take(arena, 2 * fine, sizeof(lane));
    s->wetter = arena_take(arena, fine, sizeof(lane));
    s->seep_matrix =
        arena_take(arena, fine ? mesh_matrix_most(pile->mesh, true, 0) : 0, sizeof(lane));
    s->face_slope = arena_take(arena, 2 * cells, sizeof(struct transport_slope));
    s->out_slope = arena_take(arena, outs, sizeof(struct transport_out_slope));
}

void implicit_clear(struct implicit *s)
{
    for (int c = 0; c < s->balance->pile->mesh->cells; c++)
        s->over_sum[c] = s->drain_sum[c] = s->nitrogen_sum[c] = lane_of(0);
    for (int i = 0; i < MESH_SOILS; i++)
        s->soil_sum[i] = lane_of(0);
}

/* Keeps the slopes of the first stage. */
void implicit_hold(struct implicit *s)
{
    struct balance *b = s->balance;
    const struct mesh *mesh = b->pile->mesh;
    transport_slopes(&b->transport, mesh, &b->medium, &b->air, &b->outside, s->face_slope, s->out_slope);
    for (int f = 0; mesh->fine && f < mesh->faces; f++) {
        s->seep_kg_per_s[f] = b->transport.seep_kg_per_s[f];
        s->seep_J_per_kg[f] = b->transport.seep_J_per_kg[f];
    }
    for (int l = 0; l < mesh->links; l++)
        s->link_W_per_K[l] = b->transport.link_W_per_K[l];
    s->jar_W_per_K = b->jar_W_per_K;
    for (int c = 0; c < mesh->cells; c++) {
        s->drain_slope[c] = b->transport.drain_slope[c];
        s->drain_heat_J[c] = read_water_enthalpy(b->medium.over_K[c]);
        s->per_capacity[c] = 1.0 / b->medium.capacity[c];
        s->water_J[c] = b->medium.water_J[c];
        s->grown_slope[c] = b->potential.grown_slope[c] * b->oxygen.factor[c];
        s->humified_slope[c] = b->potential.humified_slope[c] * b->oxygen.factor[c];
        s->bound_slope[c] = AMOUNT_MICROBE_OXYGEN * s->grown_slope[c] +
                            AMOUNT_HUMUS_OXYGEN * s->humified_slope[c];
        s->leach_per_s[c] =
            b->transport.drained[c] / pile_state(b->pile, STATE_WATER_KG)[c];
        const struct balance_potential *p = &b->potential;
        lane warming = p->warming_per_K[c], aired = b->oxygen.factor[c] * warming;
        s->heat_slope[c] = b->heat_J_per_kg * b->oxygen_kg[c] * warming;
        for (int k = 0; k < POOLS; k++)
            s->pace_slope[k][c] = p->pace[k][c] * aired;
        s->microbe_slope[c] = (p->grown[c] - p->eaten[c]) * aired;
        s->living_slope[c] = (p->grown[c] - p->dying[c]) * aired;
        s->humus_slope[c] = (p->humified[c] - p->humus[c]) * aired;
        s->sour_slope[c] = -p->sour[c] * aired;
        s->freed_slope[c] = b->pool_nitrogen_kg[c] * warming;
    }
}

static const double THAWS_AHEAD = 2; /* steps: measured, docs/numerics.md */

void implicit_thaw(struct implicit *s, const lane *heat_W, lane size)
{
    const struct balance *b = s->balance;
    const struct pile *pile = b->pile;
    const lane *heat = pile_state(pile, STATE_HEAT_J), *dry = pile_state(pile, STATE_DRY_KG);
    const lane *water = pile_state(pile, STATE_WATER_KG);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane more = THAWS_AHEAD * size * heat_W[c], then = heat[c] + more, ash = b->frame.ash_kg[c];
        lane_mask thaws = lane_less(heat[c], lane_of(0)) & lane_less(lane_of(0), then);
        if (!lane_any(thaws))
            continue;
        lane warmer = read_heat(then, dry[c] - ash, ash, water[c]).over_K - b->medium.over_K[c];
        s->per_capacity[c] = lane_if(thaws, warmer / more, s->per_capacity[c]);
    }
}

static lane soil_capacity(const struct implicit *s, int i)
{
    return s->balance->outside.soil_J_per_m3K * s->balance->pile->mesh->soil_volume_m3[i];
}

static void matrix_face(struct implicit *s, int f, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    const struct lattice *at = &mesh->soiled;
    int a = mesh->face[f].a, b = mesh->face[f].b;
    const struct transport_slope *slope = &s->face_slope[f];
    lane ga = hg * s->per_capacity[a], gb = hg * s->per_capacity[b];
    s->matrix[at->diagonal[MESH_SOILS + a]] += ga * (slope->heat_a - s->water_J[a] * slope->water_a);
    s->matrix[at->ab[f]] += gb * (slope->heat_b - s->water_J[a] * slope->water_b);
    s->matrix[at->ba[f]] -= ga * (slope->heat_a - s->water_J[b] * slope->water_a);
    s->matrix[at->diagonal[MESH_SOILS + b]] -= gb * (slope->heat_b - s->water_J[b] * slope->water_b);
}

static void matrix_out(struct implicit *s, int o, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    const struct lattice *at = &mesh->soiled;
    int c = mesh->out[o].cell;
    const struct transport_out_slope *slope = &s->out_slope[o];
    lane g = hg * s->per_capacity[c];
    s->matrix[at->diagonal[MESH_SOILS + c]] +=
        g * (slope->air_heat + slope->vapour_heat + slope->film_heat -
             s->water_J[c] * (slope->air_water + slope->vapour_water));
    if (mesh->out[o].side == MESH_BASE) {
        int soil = MESH_SOILS - 1, edge = mesh->faces + c; /* the lowest row comes first */
        lane gs = hg / soil_capacity(s, soil);
        s->matrix[at->ba[edge]] += gs * slope->soil_heat;
        s->matrix[at->ab[edge]] -= g * slope->film_heat;
        s->matrix[at->diagonal[soil]] -= gs * slope->soil_heat;
    }
}

static void matrix_soil(struct implicit *s, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    int band = mesh->band;
    for (int l = 0; l < mesh->links; l++) {
        int a = mesh->link[l].a, b = mesh->link[l].b;
        lane ga = hg * s->link_W_per_K[l] / soil_capacity(s, a);
        s->matrix[band_at(band, a, a)] += ga;
        if (b < 0)
            continue;
        lane gb = hg * s->link_W_per_K[l] / soil_capacity(s, b);
        s->matrix[band_at(band, a, b)] -= gb;
        s->matrix[band_at(band, b, a)] -= ga;
        s->matrix[band_at(band, b, b)] += gb;
    }
}

/* (dry mass + hg L) v = water, L v what seeps out of each cell that holds v kg/kg */
static void factor_seep(struct implicit *s, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    const struct lattice *at = &mesh->symmetric;
    lattice_clear(at, s->seep_matrix);
    for (int c = 0; c < mesh->cells; c++)
        s->seep_matrix[at->diagonal[c]] = pile_state(s->balance->pile, STATE_DRY_KG)[c];
    for (int f = 0; f < mesh->faces; f++) {
        lane g = hg * s->seep_kg_per_s[f];
        s->seep_matrix[at->diagonal[mesh->face[f].a]] += g;
        s->seep_matrix[at->diagonal[mesh->face[f].b]] += g;
        s->seep_matrix[at->ab[f]] -= g;
    }
    lattice_factor(at, s->seep_matrix);
}

static void solve_seep(struct implicit *s, lane hg, lane *heat, lane *water)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    for (int c = 0; c < mesh->cells; c++)
        s->wetter[c] = water[c];
    lattice_solve(&mesh->symmetric, s->seep_matrix, s->wetter);
    for (int f = 0; f < mesh->faces; f++) {
        int a = mesh->face[f].a, b = mesh->face[f].b;
        lane seeps = hg * s->seep_kg_per_s[f] * (s->wetter[a] - s->wetter[b]);
        lane with = seeps * s->seep_J_per_kg[f];
        water[a] -= seeps;
        water[b] += seeps;
        heat[a] -= with;
        heat[b] += with;
    }
}

/* What goes from cell to cell downward, and what is a cell's own. */
static void factor_down(struct implicit *s, lane hg)
{
    const struct balance *b = s->balance;
    const lane microbe = 1.0 / b->decay.microbe_c_to_n, humus = 1.0 / b->decay.humus_c_to_n;
    LANE_APART
    for (int c = 0; c < b->pile->mesh->cells; c++) {
        lane taken = s->grown_slope[c] * microbe + s->humified_slope[c] * humus;
        s->undrained[c] = 1.0 / (1.0 + hg * s->drain_slope[c]);
        s->unleached[c] = 1.0 / (1.0 + hg * (taken + s->leach_per_s[c]));
    }
}

void implicit_factor(struct implicit *s, lane hg)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    const struct lattice *at = &mesh->soiled;
    lattice_clear(at, s->matrix);
    for (int i = 0; i < mesh->nodes; i++)
        s->matrix[at->diagonal[i]] = lane_of(1);
    if (mesh->shape == MESH_POINT)
        s->matrix[at->diagonal[MESH_SOILS]] +=
            hg * s->jar_W_per_K * s->per_capacity[0];
    for (int c = 0; c < mesh->cells; c++)
        s->matrix[at->diagonal[MESH_SOILS + c]] -=
            hg * s->heat_slope[c] * s->per_capacity[c];
    for (int f = 0; f < mesh->faces; f++)
        matrix_face(s, f, hg);
    for (int o = 0; o < mesh->outs; o++)
        matrix_out(s, o, hg);
    matrix_soil(s, hg);
    lattice_factor(at, s->matrix);
    factor_down(s, hg);
    if (mesh->fine)
        factor_seep(s, hg);
}

/* Drainage, from the top cell downward: z takes what drains from above and gives what drains. */
static void solve_drain(struct implicit *s, lane hg, lane *heat, lane *water)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    for (int c = mesh->cells - 1; c >= 0; c--) {
        water[c] *= s->undrained[c];
        lane drained = hg * s->drain_slope[c] * water[c];
        int below = mesh->below[c];
        heat[c] -= drained * s->drain_heat_J[c];
        if (below >= 0) {
            water[below] += drained;
            heat[below] += drained * s->drain_heat_J[c];
        }
    }
}

/* Heat and water from the temperatures solved for: what a face takes from one side it gives the
 * other. `warmer`: temperature part of z, cells and soil. */
static void spread(struct implicit *s, lane hg, const lane *warmer, lane *heat, lane *water, lane *soil)
{
    const struct mesh *mesh = s->balance->pile->mesh;
    const lane *cell = warmer + MESH_SOILS;
    for (int f = 0; f < mesh->faces; f++) {
        int a = mesh->face[f].a, b = mesh->face[f].b;
        const struct transport_slope *slope = &s->face_slope[f];
        lane dh = hg * (slope->heat_a * cell[a] + slope->heat_b * cell[b]);
        lane dw = hg * (slope->water_a * cell[a] + slope->water_b * cell[b]);
        heat[a] -= dh;
        heat[b] += dh;
        water[a] -= dw;
        water[b] += dw;
    }
    for (int o = 0; o < mesh->outs; o++) {
        int c = mesh->out[o].cell;
        const struct transport_out_slope *slope = &s->out_slope[o];
        lane through = hg * (slope->film_heat * cell[c] + slope->soil_heat * warmer[MESH_SOILS - 1]);
        heat[c] -= through + hg * (slope->air_heat + slope->vapour_heat) * cell[c];
        water[c] -= hg * (slope->air_water + slope->vapour_water) * cell[c];
        if (mesh->out[o].side == MESH_BASE)
            soil[MESH_SOILS - 1] += through;
    }
    if (mesh->shape == MESH_POINT)
        heat[0] -= hg * s->jar_W_per_K * cell[0];
    for (int l = 0; l < mesh->links; l++) {
        int a = mesh->link[l].a, b = mesh->link[l].b;
        lane dh = hg * s->link_W_per_K[l] * (warmer[a] - (b >= 0 ? warmer[b] : lane_of(0)));
        soil[a] -= dh;
        if (b >= 0)
            soil[b] += dh;
    }
}

/* Mineral nitrogen against growth and leaching, from the top cell downward as water drains; and the
 * gas reading, each cell's own. What nitrogen the linear part takes up goes into microbes and humus, so
 * nitrogen closes too, and its oxygen isn't used for heat. */
static void solve_local(const struct implicit *s, lane hg, double weight, lane *z)
{
    const struct balance *b = s->balance;
    int stride = b->pile->stride;
    lane *nitrogen = z + STATE_NITROGEN_KG * stride, *microbe = z + STATE_MICROBE_KG * stride;
    lane *living = z + STATE_LIVING_KG * stride, *humus = z + STATE_HUMUS_KG * stride;
    lane *oxygen = z + STATE_OXYGEN * stride;
    lane *heat = z + STATE_HEAT_J * stride;
    lane lag = 1.0 / (1.0 + hg / b->gas_lag_s);
    for (int c = b->pile->mesh->cells - 1; c >= 0; c--) {
        lane n = nitrogen[c] * s->unleached[c];
        int below = b->pile->mesh->below[c];
        nitrogen[c] = n;
        s->nitrogen_sum[c] += weight * n;
        if (below >= 0)
            nitrogen[below] += hg * s->leach_per_s[c] * n;
        heat[c] -= hg * b->heat_J_per_kg * s->bound_slope[c] * n;
        microbe[c] += hg * s->grown_slope[c] * n;
        living[c] += hg * s->grown_slope[c] * n;
        humus[c] += hg * s->humified_slope[c] * n;
        oxygen[c] *= lag;
    }
}

void implicit_solve(struct implicit *s, lane hg, double weight, lane *z)
{
    const struct pile *pile = s->balance->pile;
    int cells = pile->mesh->cells, stride = pile->stride;
    lane *heat = z + STATE_HEAT_J * stride, *water = z + STATE_WATER_KG * stride;
    lane *microbe = z + STATE_MICROBE_KG * stride, *made = z + STATE_HUMUS_KG * stride;
    lane *living = z + STATE_LIVING_KG * stride;
    lane *sour = z + STATE_SOUR_KG * stride, *nitrogen = z + STATE_NITROGEN_KG * stride;
    lane *soil = z + STATES * stride, *warmer = s->warmer;
    const lane in_microbe = 1.0 / s->balance->decay.microbe_c_to_n;
    const lane in_humus = 1.0 / s->balance->decay.humus_c_to_n;
    solve_drain(s, hg, heat, water);
    for (int i = 0; i < MESH_SOILS; i++)
        warmer[i] = soil[i];
    for (int c = 0; c < cells; c++)
        s->drain_sum[c] += weight * water[c];
    if (pile->mesh->fine)
        solve_seep(s, hg, heat, water);
    for (int c = 0; c < cells; c++)
        warmer[MESH_SOILS + c] = heat[c] - s->water_J[c] * water[c];
    lattice_solve(&pile->mesh->soiled, s->matrix, warmer);
    for (int i = 0; i < MESH_SOILS; i++) {
        warmer[i] /= soil_capacity(s, i);
        s->soil_sum[i] += weight * warmer[i];
    }
    for (int c = 0; c < cells; c++) {
        warmer[MESH_SOILS + c] *= s->per_capacity[c];
        s->over_sum[c] += weight * warmer[MESH_SOILS + c];
    }
    spread(s, hg, warmer, heat, water, soil);
    for (int c = 0; c < cells; c++) {
        lane warmed = hg * warmer[MESH_SOILS + c];
        heat[c] += s->heat_slope[c] * warmed;
        for (int k = 0; k < POOLS; k++)
            z[(STATE_CLOCK + k) * stride + c] += s->pace_slope[k][c] * warmed;
        lane microbes = s->microbe_slope[c] * warmed, humus = s->humus_slope[c] * warmed;
        microbe[c] += microbes;
        living[c] += s->living_slope[c] * warmed;
        made[c] += humus;
        sour[c] += s->sour_slope[c] * warmed;
        nitrogen[c] += s->freed_slope[c] * warmed - in_microbe * microbes - in_humus * humus;
    }
    solve_local(s, hg, weight, z);
}

/* Books the linear part of the whole step. */
void implicit_book(const struct implicit *s, lane hg, lane flux[FLUXES])
{
    static const enum flux FILM[] = {FLUX_top_heat, FLUX_wall_heat, FLUX_ground_heat};
    const struct mesh *mesh = s->balance->pile->mesh;
    for (int o = 0; o < mesh->outs; o++) {
        const struct transport_out_slope *slope = &s->out_slope[o];
        lane warmer = hg * s->over_sum[mesh->out[o].cell];
        flux[FLUX_air_heat] -= slope->air_heat * warmer;
        flux[FLUX_vapour_heat] -= slope->vapour_heat * warmer;
        flux[FLUX_air_water] -= slope->air_water * warmer;
        flux[FLUX_vapour_water] -= slope->vapour_water * warmer;
        flux[FILM[mesh->out[o].side]] -=
            slope->film_heat * warmer + hg * slope->soil_heat * s->soil_sum[MESH_SOILS - 1];
    }
    if (mesh->shape == MESH_POINT)
        flux[FLUX_wall_heat] -= hg * s->jar_W_per_K * s->over_sum[0];
    for (int c = 0; c < mesh->cells; c++)
        flux[FLUX_decay_heat] += hg * (s->heat_slope[c] * s->over_sum[c] -
                                       s->balance->heat_J_per_kg * s->bound_slope[c] * s->nitrogen_sum[c]);
    for (int c = 0; c < mesh->cells && mesh->below[c] < 0; c++) {
        lane drained = hg * s->drain_slope[c] * s->drain_sum[c];
        flux[FLUX_leachate_water] -= drained;
        flux[FLUX_leachate_heat] -= drained * s->drain_heat_J[c];
        flux[FLUX_leached_nitrogen] -= hg * s->leach_per_s[c] * s->nitrogen_sum[c];
    }
}
