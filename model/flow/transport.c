/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/transport.c - see flow/transport.h. */
#include "flow/transport.h"
#include "flow/gas.h"
#include "pile/read.h"

/* h_m rho = h/(c_p Le^(2/3)) by the Lewis analogy, Le^(2/3) = 0.90 */
static const double LEWIS = 0.90;
/* water runs through saturated peat at 0.1 mm/s [Letts et al. 2000, seen]; taken a tenth of that */
static const double SATURATED_KG_PER_M2S = 0.01;

/* everything a face needs, gathered so that helpers have short lists */
struct view {
    struct transport *t;
    const struct mesh *mesh;
    const struct medium *m;
    const struct medium_frame *frame;
    const struct air *air;
    const struct outside *out;
    const lane *water, *dry;
};

void transport_take(struct transport *t, const struct mesh *mesh, struct arena *arena)
{
    size_t cells = (size_t)mesh->rows * (size_t)mesh->cols;
    size_t outs = 2 * (size_t)(mesh->rows + mesh->cols) + 2;
    t->heat_W = arena_take(arena, cells + MESH_SOILS, sizeof(lane));
    t->water_kg_per_s = arena_take(arena, cells, sizeof(lane));
    lane **cell[] = {&t->drain_slope, &t->drained, &t->wetness, &t->capillary, &t->room};
    for (size_t i = 0; i < sizeof cell / sizeof *cell; i++)
        *cell[i] = arena_take(arena, cells, sizeof(lane));
    lane **face[] = {&t->conduct_W_per_K, &t->diffuse_kg_per_s, &t->face_heat_W,
                     &t->face_water_kg_per_s, &t->seep_kg_per_s, &t->seep_J_per_kg};
    for (size_t i = 0; i < sizeof face / sizeof *face; i++)
        *face[i] = arena_take(arena, 2 * cells, sizeof(lane));
    lane **out[] = {&t->film_W_per_K, &t->vapour_kg_per_s, &t->leaving_kg_per_s};
    for (size_t i = 0; i < sizeof out / sizeof *out; i++)
        *out[i] = arena_take(arena, outs, sizeof(lane));
}

/* A face value, second order where smooth: the upwind cell's value plus half its size times the
 * harmonic mean of the slopes before and at the face, none where they differ in sign (van Leer). */
LANE_INLINE lane carried(lane behind, lane here, lane ahead, lane half)
{
    lane both = behind * ahead;
    lane slope = lane_if(lane_less(lane_of(0), both), 2.0 * both / (behind + ahead), lane_of(0));
    return here + slope * half;
}

/* What air that crosses a face has of a field x, from a to b and on if forward. */
LANE_INLINE lane carry(const lane *x, int before, int a, int b, int after, lane_mask forward,
                       lane behind_per, lane per, lane half)
{
    lane here = lane_if(forward, x[a], x[b]);
    return carried((here - lane_if(forward, x[before], x[after])) * behind_per, here,
                   (lane_if(forward, x[b], x[a]) - here) * per, half);
}

/* Two half cells in series, each of a conductance by area and depth. */
LANE_INLINE lane through(lane area, lane da, lane db, lane a, lane b)
{
    return area * a * b / (da * b + db * a);
}

/* Heat and vapour that cross the faces by conduction, diffusion and draught. */
static void gas_and_heat(const struct view *v)
{
    const struct mesh *mesh = v->mesh;
    const int *before = mesh->line[MESH_BEFORE], *from = mesh->line[MESH_FROM];
    const int *to = mesh->line[MESH_TO], *after = mesh->line[MESH_AFTER];
    const lane *over = v->m->over_K, *humid = v->m->humid;
    const lane *conducts = v->m->conduct, *diffusive = v->m->diffusive;
    const lane *m_a = mesh->face_a_m, *m_b = mesh->face_b_m, *area = mesh->face_area_m2;
    const lane *per = mesh->face_per_m;
    const lane *before_per = mesh->face_before_per_m, *after_per = mesh->face_after_per_m;
    const lane *air = v->air->face_kg_per_s;
    const struct transport t = *v->t;
    LANE_APART
    for (int f = 0; f < mesh->faces; f++) {
        int a = from[f], b = to[f];
        lane conduct = through(area[f], m_a[f], m_b[f], conducts[a], conducts[b]);
        lane diffuse = through(area[f], m_a[f], m_b[f], diffusive[a], diffusive[b]);
        lane vapour = diffuse * (humid[a] - humid[b]), flow = air[f];
        lane_mask forward = lane_less(lane_of(0), flow);
        lane behind_per = lane_if(forward, before_per[f], after_per[f]), half = lane_if(forward, m_a[f], m_b[f]);
        lane warm = carry(over, before[f], a, b, after[f], forward, behind_per, per[f], half);
        lane moist = carry(humid, before[f], a, b, after[f], forward, behind_per, per[f], half);
        t.conduct_W_per_K[f] = conduct;
        t.diffuse_kg_per_s[f] = diffuse;
        t.face_heat_W[f] = conduct * (over[a] - over[b]) +
                           vapour * gas_vapour_enthalpy(0.5 * (over[a] + over[b])) +
                           flow * gas_enthalpy(warm, moist);
        t.face_water_kg_per_s[f] = vapour + flow * moist;
    }
}

/* Room left for water: 1 when the pores are empty, 0 when they are full. */
static inline lane room(lane volume_m3, lane solid_m3, lane water_kg)
{
    lane s = water_kg / ((volume_m3 - solid_m3) * READ_WATER_KG_PER_M3), s2 = s * s, s4 = s2 * s2;
    return lane_max(1.0 - s4 * s4, lane_of(0));
}

/* Water per dry mass, kg/kg, and what capillarity makes of it: diffusivity (u/1.5)^2 times density.
 * Drainage, still without what is below: the rate at field capacity times (water/held)^12 [Clapp and
 * Hornberger form, trade], at most what runs through saturated material, slowed by ice. */
static void each_cell(const struct view *v)
{
    const struct medium *m = v->m;
    const lane diffusivity = v->out->capillary_m2_per_s * (1.0 / 2.25);
    const lane at_held = v->out->drain_kg_per_m2s;
    const lane *water = v->water, *dry = v->dry, *volume = v->mesh->volume_m3;
    const lane *solid = v->frame->solid_m3, *hold = v->frame->hold_kg;
    const struct transport t = *v->t;
    LANE_APART
    for (int c = 0; c < v->mesh->cells; c++) {
        lane u = water[c] / dry[c], liquid = m->liquid[c];
        t.wetness[c] = u;
        t.capillary[c] = diffusivity * u * u * liquid * dry[c] / volume[c];
        t.room[c] = room(volume[c], solid[c], water[c]);
        lane x = water[c] / hold[c], x2 = x * x, x3 = x2 * x, x6 = x3 * x3;
        lane free = at_held * x6 * x6;
        lane held_back = 1.0 / (1.0 + free / SATURATED_KG_PER_M2S);
        t.drained[c] = free * held_back * liquid * liquid * liquid;
        t.drain_slope[c] = 12.0 * held_back / water[c];
    }
}

/* Capillarity: water per dry mass evens out, faster where it is wet. */
static void capillarity(const struct view *v)
{
    const struct mesh *mesh = v->mesh;
    const int *from = mesh->line[MESH_FROM], *to = mesh->line[MESH_TO];
    const lane *over = v->m->over_K, *wetness = v->t->wetness, *capillary = v->t->capillary;
    const lane *m_a = mesh->face_a_m, *m_b = mesh->face_b_m, *area = mesh->face_area_m2;
    const struct transport t = *v->t;
    LANE_APART
    for (int f = 0; f < mesh->faces; f++) {
        int a = from[f], b = to[f];
        lane ka = capillary[a], kb = capillary[b];
        lane both = ka * kb, sum = m_a[f] * kb + m_b[f] * ka;
        lane g = lane_if(lane_less(lane_of(0), sum), area[f] * both / sum, lane_of(0));
        t.seep_kg_per_s[f] = g;
        t.seep_J_per_kg[f] = read_water_enthalpy(
            lane_if(lane_less(lane_of(0), g * (wetness[a] - wetness[b])), over[a], over[b]));
    }
}

static inline void cross(lane *rate, int a, int b, lane flow)
{
    rate[a] -= flow;
    rate[b] += flow;
}

/* What leaves a enters b: gas, heat, and what seeps. */
static void cross_faces(const struct view *v)
{
    const struct transport *t = v->t;
    const int *from = v->mesh->line[MESH_FROM], *to = v->mesh->line[MESH_TO];
    lane *heat_W = t->heat_W + MESH_SOILS, *water = t->water_kg_per_s;
    for (int f = 0; f < v->mesh->faces; f++) {
        int a = from[f], b = to[f];
        lane seeps = t->seep_kg_per_s[f] * (t->wetness[a] - t->wetness[b]);
        cross(heat_W, a, b, t->face_heat_W[f]);
        cross(heat_W, a, b, seeps * t->seep_J_per_kg[f]);
        cross(water, a, b, t->face_water_kg_per_s[f]);
        cross(water, a, b, seeps);
    }
}

/* Drainage, further slowed by a full cell below. */
static void drain(const struct view *v, int c)
{
    struct transport *t = v->t;
    int below = v->mesh->below[c];
    lane rate = t->drained[c] * v->mesh->col_area_m2[v->mesh->cell_col[c]];
    if (below >= 0)
        rate *= t->room[below];
    lane heat = rate * read_water_enthalpy(v->m->over_K[c]);
    t->drained[c] = rate;
    t->drain_slope[c] *= rate;
    t->water_kg_per_s[c] -= rate;
    t->heat_W[MESH_SOILS + c] -= heat;
    if (below >= 0) {
        t->water_kg_per_s[below] += rate;
        t->heat_W[MESH_SOILS + below] += heat;
    } else {
        t->flux[FLUX_leachate_water] -= rate;
        t->flux[FLUX_leachate_heat] -= heat;
    }
}

/* Heat, or water, that leaves the pile from a cell under a name. */
static void leaves_heat(struct transport *t, int c, enum flux name, lane heat_W)
{
    t->heat_W[MESH_SOILS + c] -= heat_W;
    t->flux[name] -= heat_W;
}

static void leaves_water(struct transport *t, int c, enum flux name, lane water_kg_per_s)
{
    t->water_kg_per_s[c] -= water_kg_per_s;
    t->flux[name] -= water_kg_per_s;
}

/* Draught, wind and diffusing vapour through the open part of a side. */
static void gas_out(const struct view *v, int o)
{
    const struct outside *out = v->out;
    const struct medium *m = v->m;
    int c = v->mesh->out[o].cell;
    enum mesh_side side = v->mesh->out[o].side;
    lane area = v->mesh->out_area_m2[o] * out->skin[side].open_share;
    lane film = out->film_W_per_m2K / (GAS_DRY_J_PER_KGK * LEWIS);
    lane g = area / (v->mesh->out_m[o] / m->diffusive[c] + out->skin[side].vapour_m2s_per_kg + 1.0 / film);
    lane swap = lane_of(0);
    if (side == MESH_WALL)
        swap = v->air->out_g[o] * v->mesh->out_m[o] * out->wind_Pa_per_m;
    lane flow = v->air->out_kg_per_s[o];
    lane leave = swap + lane_max(flow, lane_of(0)), enter = swap - lane_min(flow, lane_of(0));
    lane h_mean = gas_vapour_enthalpy(0.5 * (m->over_K[c] + out->over_K));
    lane vapour = g * (m->humid[c] - out->humid);
    leaves_heat(v->t, c, FLUX_air_heat, leave * gas_enthalpy(m->over_K[c], m->humid[c]) -
                                            enter * gas_enthalpy(out->over_K, out->humid));
    leaves_water(v->t, c, FLUX_air_water, leave * m->humid[c] - enter * out->humid);
    leaves_heat(v->t, c, FLUX_vapour_heat, vapour * h_mean);
    leaves_water(v->t, c, FLUX_vapour_water, vapour);
    v->t->leaving_kg_per_s[o] = leave;
    v->t->vapour_kg_per_s[o] = g;
}

/* Top: half a cell, covers, snow and the film in series; sun and sky act at the outer face
 * (sol-air temperature), of which the film's share comes through. */
static void top_out(const struct view *v, int o)
{
    const struct outside *out = v->out;
    const struct outside_skin *skin = &out->skin[MESH_TOP];
    int c = v->mesh->out[o].cell;
    lane area = v->mesh->out_area_m2[o];
    lane film = out->film_W_per_m2K + out->radiant_W_per_m2K;
    lane u = area / (v->mesh->out_m[o] / v->m->conduct[c] + skin->heat_m2K_per_W +
                     out->snow_m2K_per_W + 1.0 / film);
    leaves_heat(v->t, c, FLUX_top_heat, u * (v->m->over_K[c] - out->over_K));
    lane sun = out->sun_W_per_m2 * skin->sun_share * (1.0 - out->snow_share);
    leaves_heat(v->t, c, FLUX_sun_heat, -u * sun / film);
    leaves_heat(v->t, c, FLUX_sky_heat, -u * out->sky_W_per_m2 / film);
    v->t->film_W_per_K[o] = u;
}

void transport_rain(struct transport *t, const struct mesh *mesh, const struct medium_frame *frame,
                    const struct outside *out, const lane *water_kg, lane *heat_W,
                    lane *water_kg_per_s)
{
    lane falls = out->rain_kg_per_m2s * out->skin[MESH_TOP].rain_share;
    lane warmth = read_water_enthalpy(out->over_K);
    for (int o = 0; o < mesh->outs; o++) {
        int c = mesh->out[o].cell;
        if (mesh->out[o].side != MESH_TOP)
            continue;
        lane rain = falls * mesh->col_area_m2[mesh->cell_col[c]];
        lane over = rain * (1.0 - room(mesh->volume_m3[c], frame->solid_m3[c], water_kg[c]));
        heat_W[c] += (rain - over) * warmth;
        water_kg_per_s[c] += rain - over;
        t->flux[FLUX_rain_heat] += rain * warmth;
        t->flux[FLUX_rain_water] += rain;
        t->flux[FLUX_runoff_heat] -= over * warmth;
        t->flux[FLUX_runoff_water] -= over;
    }
}

static void wall_out(const struct view *v, int o)
{
    int c = v->mesh->out[o].cell;
    lane film = v->out->film_W_per_m2K + v->out->radiant_W_per_m2K;
    lane u = v->mesh->out_area_m2[o] / (v->mesh->out_m[o] / v->m->conduct[c] +
                                        v->out->skin[MESH_WALL].heat_m2K_per_W + 1.0 / film);
    leaves_heat(v->t, c, FLUX_wall_heat, u * (v->m->over_K[c] - v->out->over_K));
    v->t->film_W_per_K[o] = u;
}

static void base_out(const struct view *v, int o, lane soil_over_K)
{
    int c = v->mesh->out[o].cell;
    lane u = v->mesh->out_area_m2[o] /
             (v->mesh->out_m[o] / v->m->conduct[c] + v->out->skin[MESH_BASE].heat_m2K_per_W +
              v->mesh->base_soil_m / v->out->soil_W_per_mK);
    lane heat = u * (v->m->over_K[c] - soil_over_K);
    leaves_heat(v->t, c, FLUX_ground_heat, heat);
    v->t->heat_W[MESH_SOILS - 1] += heat; /* the soil node under the pile comes last */
    v->t->film_W_per_K[o] = u;
}

static void soil_links(const struct view *v, const lane *soil_over_K)
{
    lane film = v->out->film_W_per_m2K + v->out->radiant_W_per_m2K;
    for (int l = 0; l < v->mesh->links; l++) {
        const struct mesh_link *link = &v->mesh->link[l];
        lane g = v->out->soil_W_per_mK * link->shape_m, other = v->out->over_K;
        if (link->b >= 0)
            other = soil_over_K[link->b];
        else if (link->b == -1)
            other = v->out->ground_over_K[link->depth_m > 1.99 ? MESH_SOIL_LAYERS
                                          : MESH_SOIL_LAYERS - 1 - link->a / MESH_RINGS];
        else /* open air: soil and film in series; shape is area over half the layer */
            g = g * film / (film + v->out->soil_W_per_mK / v->mesh->base_soil_m);
        v->t->link_W_per_K[l] = g;
        lane heat = g * (soil_over_K[link->a] - other);
        v->t->heat_W[link->a] -= heat;
        if (link->b >= 0)
            v->t->heat_W[link->b] += heat;
    }
}

static void clear(struct transport *t, const struct mesh *mesh)
{
    for (int i = 0; i < mesh->nodes; i++)
        t->heat_W[i] = lane_of(0);
    for (int c = 0; c < mesh->cells; c++)
        t->water_kg_per_s[c] = lane_of(0);
    for (int k = 0; k < FLUXES; k++)
        t->flux[k] = lane_of(0);
}

void transport_fill(struct transport *t, const struct mesh *mesh, const struct medium *medium,
                    const struct medium_frame *frame, const struct air *air,
                    const struct outside *outside, const lane *water_kg, const lane *dry_kg,
                    const lane *soil_over_K)
{
    struct view v = {t, mesh, medium, frame, air, outside, water_kg, dry_kg};
    clear(t, mesh);
    each_cell(&v);
    gas_and_heat(&v);
    capillarity(&v);
    cross_faces(&v);
    for (int o = 0; o < mesh->outs; o++) {
        gas_out(&v, o);
        switch (mesh->out[o].side) {
        case MESH_TOP: top_out(&v, o); break;
        case MESH_WALL: wall_out(&v, o); break;
        case MESH_BASE: base_out(&v, o, soil_over_K[MESH_SOILS - 1]); break;
        }
    }
    transport_rain(t, mesh, frame, outside, water_kg, t->heat_W + MESH_SOILS, t->water_kg_per_s);
    for (int c = 0; c < mesh->cells; c++)
        drain(&v, c);
    soil_links(&v, soil_over_K);
}

/* Moist air's enthalpy per kelvin along its vapour curve. */
static inline lane moist_slope(const struct medium *m, int c)
{
    return GAS_DRY_J_PER_KGK + m->humid[c] * GAS_VAPOUR_J_PER_KGK +
           m->humid_slope[c] * gas_vapour_enthalpy(m->over_K[c]);
}

void transport_slopes(const struct transport *t, const struct mesh *mesh, const struct medium *m,
                      const struct air *air, const struct outside *outside,
                      struct transport_slope *face, struct transport_out_slope *out)
{
    const lane *humid_slope = m->humid_slope;
    for (int f = 0; f < mesh->faces; f++) {
        int a = mesh->face[f].a, b = mesh->face[f].b;
        lane conduct = t->conduct_W_per_K[f], diffuse = t->diffuse_kg_per_s[f];
        lane h_mean = gas_vapour_enthalpy(0.5 * (m->over_K[a] + m->over_K[b]));
        lane ahead = lane_max(air->face_kg_per_s[f], lane_of(0));
        lane back = lane_min(air->face_kg_per_s[f], lane_of(0));
        face[f].heat_a = conduct + diffuse * h_mean * humid_slope[a] + ahead * moist_slope(m, a);
        face[f].heat_b = -conduct - diffuse * h_mean * humid_slope[b] + back * moist_slope(m, b);
        face[f].water_a = (diffuse + ahead) * humid_slope[a];
        face[f].water_b = (back - diffuse) * humid_slope[b];
    }
    for (int o = 0; o < mesh->outs; o++) {
        int c = mesh->out[o].cell;
        lane leave = t->leaving_kg_per_s[o], vapour = t->vapour_kg_per_s[o];
        lane h_mean = gas_vapour_enthalpy(0.5 * (m->over_K[c] + outside->over_K));
        out[o].air_heat = leave * moist_slope(m, c);
        out[o].air_water = leave * humid_slope[c];
        out[o].vapour_heat = vapour * h_mean * humid_slope[c];
        out[o].vapour_water = vapour * humid_slope[c];
        out[o].film_heat = t->film_W_per_K[o];
        out[o].soil_heat = mesh->out[o].side == MESH_BASE ? -t->film_W_per_K[o] : lane_of(0);
    }
}
