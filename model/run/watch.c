/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/watch.c - see run/watch.h. */
#include "run/watch.h"
#include "flow/gas.h"
#include "pile/read.h"
#include <stdlib.h>

static const double DEPTH_M[WATCH_PROBES] = {WATCH_AXIS, 0.30, 0.10};
static const double IGNITED_K = 40;
static const double STARVED_FACTOR = 0.5;
static const double TEST_OVER_K = 30, TEST_WET_SHARE = 0.55; /* a usual state of laboratory tests */

void watch_take(struct watch *w, struct balance *balance, struct arena *arena)
{
    w->balance = balance;
    w->over_K = arena_take(arena, (size_t)balance->pile->stride, sizeof(lane));
    w->mean_K_s = arena_take(arena, (size_t)balance->pile->stride, sizeof(lane));
    w->before_K = arena_take(arena, (size_t)balance->pile->stride, sizeof(lane));
    w->wet_share = arena_take(arena, (size_t)balance->pile->stride, sizeof(lane));
    dose_take(&w->dose, balance->pile->stride, arena);
    w->breath = arena_take(arena, (size_t)balance->pile->stride, sizeof(lane));
    w->depth_m = arena_take(arena, (size_t)balance->pile->stride, sizeof(lane));
    w->sorted = arena_take(arena, (size_t)balance->pile->stride, sizeof(struct watch_cell));
}

/* Two neighbours and the share of the second, for a place between the middles of pieces whose
 * edges are given. */
static double between(double place, const double *edge, int pieces, int *low, int *high)
{
    int i = 0;
    while (i < pieces - 1 && 0.5 * (edge[i] + edge[i + 1]) < place)
        i++;
    int before = i > 0 && 0.5 * (edge[i] + edge[i + 1]) >= place ? i - 1 : i;
    *low = before;
    *high = i;
    if (*low == *high)
        return 0;
    double a = 0.5 * (edge[before] + edge[before + 1]), b = 0.5 * (edge[i] + edge[i + 1]);
    double share = (place - a) / (b - a);
    return share < 0 ? 0 : share > 1 ? 1 : share;
}

void watch_place(const struct watch *w, double depth_m, int member, struct watch_probe *p)
{
    const struct mesh *mesh = w->balance->pile->mesh;
    double edge[MESH_MOST_LINE + 1] = {0};
    for (int j = 0; j < mesh->rows; j++)
        edge[j + 1] = edge[j] + lane_get(mesh->row_height_m[j], member);
    int row[2], col[2];
    double up = between(0.5 * edge[mesh->rows], edge, mesh->rows, &row[0], &row[1]);
    int cols = mesh->row_cols[row[1]];
    double at = depth_m < 0 ? 0 : mesh->col_edge_m[cols] - depth_m;
    double out = between(at > 0 ? at : 0, mesh->col_edge_m, cols, &col[0], &col[1]);
    for (int k = 0; k < 4; k++) {
        p->cell[k] = mesh->row_first[row[k / 2]] + col[k % 2];
        p->weight[k] = (k / 2 ? up : 1 - up) * (k % 2 ? out : 1 - out);
    }
}

static void read_all(struct watch *w, bool everybody, lane_mask good)
{
    const struct pile *pile = w->balance->pile;
    const lane *heat_J = pile_state(pile, STATE_HEAT_J), *dry = pile_state(pile, STATE_DRY_KG);
    const lane *water = pile_state(pile, STATE_WATER_KG), *ash = pile->stock[STOCK_ASH_KG];
    lane *over_K = w->over_K;
    const int cells = pile->mesh->cells;
    const lane_mask take = everybody ? lane_less(lane_of(0), lane_of(1)) : good;
    LANE_APART
    for (int c = 0; c < cells; c++) {
        lane now = read_heat(heat_J[c], dry[c] - ash[c], ash[c], water[c]).over_K;
        over_K[c] = lane_if(take, now, over_K[c]);
    }
    for (int k = 0; k < WATCH_PROBES; k++)
        for (int i = 0; i < LANES; i++) {
            double t = 0;
            for (int n = 0; n < 4; n++)
                t += w->probe[k][i].weight[n] * lane_get(w->over_K[w->probe[k][i].cell[n]], i);
            lane_put(&w->probe_now[k], i, t);
        }
}

void watch_look(struct watch *w)
{
    for (int k = 0; k < WATCH_PROBES; k++)
        for (int i = 0; i < LANES; i++)
            watch_place(w, DEPTH_M[k], i, &w->probe[k][i]);
    read_all(w, true, lane_less(lane_of(0), lane_of(1)));
}

/* Seeds and germs of a cell; only seeds have a balance. */
static void kill(struct watch *w, int c, lane step_s, lane flux[FLUXES])
{
    const struct pile *pile = w->balance->pile;
    lane log_left[DEATH_LIVES];
    death_log_left(&w->death, w->before_K[c], w->over_K[c], w->wet_share[c], step_s, log_left);
    for (int k = 0; k < DEATH_LIVES; k++) {
        lane *alive = &pile->stock[STOCK_SEED_EASY + k][c];
        lane dead = *alive * death_share(log_left[k]);
        *alive -= dead;
        flux[FLUX_killed_seeds] -= k < DEATH_GERMS ? dead : lane_of(0);
    }
}

static void read_wetness(struct watch *w)
{
    const struct pile *pile = w->balance->pile;
    const lane *water = pile_state(pile, STATE_WATER_KG), *dry = pile_state(pile, STATE_DRY_KG);
    lane *wet = w->wet_share;
    LANE_APART
    for (int c = 0; c < pile->mesh->cells; c++)
        wet[c] = water[c] / (water[c] + dry[c]);
}

static void note_ignition(struct watch *w, lane from_s, lane size_s, lane before_K)
{
    for (int i = 0; i < LANES; i++) {
        double a = lane_get(before_K, i), b = lane_get(w->probe_now[0], i);
        if (!isnan(lane_get(w->ignition_s, i)) || b < IGNITED_K)
            continue;
        double share = a < IGNITED_K ? (IGNITED_K - a) / (b - a) : 0;
        lane_put(&w->ignition_s, i, lane_get(from_s, i) + share * lane_get(size_s, i));
    }
}

void watch_step(struct watch *w, lane from_s, lane size_s, lane_mask good, lane air_over_K,
                lane flux[FLUXES])
{
    const struct pile *pile = w->balance->pile;
    lane step = lane_if(good, size_s, lane_of(0)), before[WATCH_PROBES];
    for (int k = 0; k < WATCH_PROBES; k++)
        before[k] = w->probe_now[k];
    for (int c = 0; c < pile->mesh->cells; c++)
        w->mean_K_s[c] += 0.5 * step * w->over_K[c];
    for (int c = 0; c < pile->mesh->cells; c++)
        w->before_K[c] = w->over_K[c];
    read_all(w, false, good);
    read_wetness(w);
    for (int c = 0; c < pile->mesh->cells; c++) {
        w->mean_K_s[c] += 0.5 * step * w->over_K[c];
        kill(w, c, step, flux);
    }
    dose_step(&w->dose, w->balance->pile, w->before_K, w->over_K, w->wet_share, step);
    for (int k = 0; k < WATCH_PROBES; k++)
        w->probe_K_s[k] += 0.5 * step * (before[k] + w->probe_now[k]);
    note_ignition(w, from_s, step, before[0]);
    w->air_K_s += step * air_over_K;
    w->seen_s += step;
    w->steps += lane_if(good, lane_of(1), lane_of(0));
    for (int k = 0; k < FLUXES; k++)
        w->day_flux[k] += flux[k];
}

static int colder(const void *a, const void *b)
{
    double d = ((const struct watch_cell *)a)->temp_K - ((const struct watch_cell *)b)->temp_K;
    return d < 0 ? -1 : d > 0;
}

/* Mean, hottest and coldest tenth of the day's mean temperatures, weighed by dry mass. */
static void spread_of(struct watch *w, int member, double seen_s, struct record_day *row)
{
    const struct pile *pile = w->balance->pile;
    int cells = pile->mesh->cells;
    struct watch_cell *cell = w->sorted;
    double all = 0, warm = 0;
    for (int c = 0; c < cells; c++) {
        cell[c].temp_K = lane_get(w->mean_K_s[c], member) / seen_s + GAS_ICE_POINT_K;
        cell[c].dry_kg = lane_get(pile_state(pile, STATE_DRY_KG)[c], member);
        all += cell[c].dry_kg;
        warm += cell[c].dry_kg * cell[c].temp_K;
    }
    qsort(cell, (size_t)cells, sizeof *cell, colder);
    row->mean_K = warm / all;
    row->hottest_K = cell[cells - 1].temp_K;
    double below = 0;
    int c = 0;
    while (c < cells - 1 && below + cell[c].dry_kg < 0.1 * all)
        below += cell[c++].dry_kg;
    row->coldest_tenth_K = cell[c].temp_K;
}

/* Of the moist gas in a cell's pores. */
static double oxygen_at(const struct watch *w, int c, int member)
{
    const struct balance *b = w->balance;
    double moist = 1 - lane_get(b->medium.vapour_Pa[c] / b->outside.air_Pa, member);
    return lane_get(b->oxygen.share[c], member) * moist;
}

static void shares_of(struct watch *w, int member, struct record_day *row)
{
    const struct balance *b = w->balance;
    const struct pile *pile = b->pile;
    double dry = 0, water = 0, air = 0, volume = 0, starved = 0, least = 1, over45 = 0, over55 = 0;
    for (int c = 0; c < pile->mesh->cells; c++) {
        double m = lane_get(pile_state(pile, STATE_DRY_KG)[c], member);
        double v = lane_get(pile->mesh->volume_m3[c], member);
        double t = lane_get(w->over_K[c], member);
        double oxygen = oxygen_at(w, c, member);
        dry += m;
        water += lane_get(pile_state(pile, STATE_WATER_KG)[c], member);
        volume += v;
        air += v * lane_get(b->medium.free_air[c], member);
        least = oxygen < least ? oxygen : least;
        starved += lane_get(b->oxygen.factor[c], member) < STARVED_FACTOR ? m : 0;
        over45 += t > 45 ? m : 0;
        over55 += t > 55 ? m : 0;
    }
    row->dry_kg = dry;
    row->wet_kg = dry + water;
    row->water_share = water / (dry + water);
    row->volume_m3 = volume;
    row->free_air_share = air / volume;
    row->oxygen_lowest_share = least;
    row->starved_share = starved / dry;
    row->over_45C_share = over45 / dry;
    row->over_55C_share = over55 / dry;
}

struct wetness {
    double water, dry;
};

static void add_wetness(struct wetness *wetness, const struct pile *pile, int c, int member)
{
    wetness->water += lane_get(pile_state(pile, STATE_WATER_KG)[c], member);
    wetness->dry += lane_get(pile_state(pile, STATE_DRY_KG)[c], member);
}

static double share_of(const struct wetness *wetness)
{
    return wetness->water / (wetness->water + wetness->dry);
}

/* Core and rim, base and crest. */
static void places_of(struct watch *w, int member, struct record_day *row)
{
    const struct pile *pile = w->balance->pile;
    const struct mesh *mesh = pile->mesh;
    struct wetness core = {0}, rim = {0};
    double air[2] = {0}, volume[2] = {0};
    for (int c = 0; c < mesh->cells; c++) {
        double deep = lane_get(w->depth_m[c], member);
        if (deep >= lane_get(w->core_m, member))
            add_wetness(&core, pile, c, member);
        if (deep <= PLACE_RIM_M)
            add_wetness(&rim, pile, c, member);
        int end = mesh->cell_row[c] == 0 ? 0 : mesh->cell_row[c] == mesh->rows - 1 ? 1 : -1;
        if (end < 0)
            continue;
        double v = lane_get(mesh->volume_m3[c], member);
        volume[end] += v;
        air[end] += v * oxygen_at(w, c, member);
    }
    row->core_water_share = share_of(&core);
    row->rim_water_share = rim.dry > 0 ? share_of(&rim) : NAN;
    row->oxygen_base_share = air[0] / volume[0];
    row->oxygen_crest_share = volume[1] > 0 ? air[1] / volume[1] : row->oxygen_base_share;
}

static void test_of(struct watch *w, int member, struct record_day *row)
{
    const struct pile *pile = w->balance->pile;
    double organic = 0, breath = 0;
    for (int c = 0; c < pile->mesh->cells; c++) {
        organic += lane_get(pile_state(pile, STATE_DRY_KG)[c] - pile->stock[STOCK_ASH_KG][c], member);
        breath += lane_get(w->breath[c], member);
    }
    row->test_breath_per_s = breath / organic;
}

static double total(const struct pile *pile, const lane *amount, int member)
{
    return lane_get(pile_total(pile, amount), member);
}

static void pools_of(const struct pile *pile, int member, struct record_day *day)
{
    double *pool_kg = day->pool_kg;
    for (int k = 0; k < POOLS; k++) {
        pool_kg[k] = 0;
        for (int i = 0; i < pile->stuffs; i++)
            pool_kg[k] += total(pile, pile_pool(pile, i, (enum pool)k), member) *
                          lane_get(pile_carbon_of(&pile->stuff[i], (enum pool)k).dry, member);
    }
    day->enclosed_kg = 0;
    for (int i = 0; i < pile->stuffs; i++) {
        lane lignin_kg = pile_total(pile, pile_pool(pile, i, POOL_LIGNIN));
        day->enclosed_kg += lane_get(pile_enclosed_dry(&pile->stuff[i], lignin_kg), member);
    }
    pool_kg[POOL_SLOW] += day->enclosed_kg;
    pool_kg[POOL_LIGNIN] -= day->enclosed_kg;
    pool_kg[0] += AMOUNT_SOUR_DRY * total(pile, pile_state(pile, STATE_SOUR_KG), member);
    pool_kg[4] = AMOUNT_MICROBE_DRY * total(pile, pile_state(pile, STATE_MICROBE_KG), member);
    pool_kg[5] = AMOUNT_HUMUS_DRY * total(pile, pile_state(pile, STATE_HUMUS_KG), member) +
                 total(pile, pile->stock[STOCK_ASH_KG], member) +
                 total(pile, pile->stock[STOCK_INERT_C_KG], member);
}

static void fill_row(struct watch *w, int member, struct record_day *row)
{
    const struct balance *b = w->balance;
    double seen = lane_get(w->seen_s, member);
    struct pile_weighed weighed = pile_weigh(b->pile, b->decay.microbe_c_to_n, b->decay.humus_c_to_n);
    row->air_K = lane_get(w->air_K_s, member) / seen + GAS_ICE_POINT_K;
    row->middle_K = lane_get(w->probe_K_s[0], member) / seen + GAS_ICE_POINT_K;
    row->deep_30cm_K = lane_get(w->probe_K_s[1], member) / seen + GAS_ICE_POINT_K;
    row->hand_deep_K = lane_get(w->probe_K_s[2], member) / seen + GAS_ICE_POINT_K;
    spread_of(w, member, seen, row);
    shares_of(w, member, row);
    places_of(w, member, row);
    test_of(w, member, row);
    row->laid_kg = 0;
    for (int i = 0; i < b->pile->stuffs; i++)
        row->laid_kg += total(b->pile, pile_laid(b->pile, i), member);
    row->height_m = lane_get(mesh_height(b->pile->mesh), member);
    row->carbon_kg = lane_get(weighed.carbon_kg, member);
    row->nitrogen_kg = lane_get(weighed.nitrogen_kg, member);
    row->heat_made_W = lane_get(w->day_flux[FLUX_decay_heat], member) / seen;
    pools_of(b->pile, member, row);
    for (int k = 0; k < FLUXES; k++)
        row->flux[k] = lane_get(w->day_flux[k], member);
    row->steps = (int)lane_get(w->steps, member);
    row->refused = (int)lane_get(w->refused, member);
}

/* Of all the dry mass that was laid, what has had the dose of each rule. */
static void meet_rules(const struct watch *w, const struct moment *midnight,
                       struct record record[LANES])
{
    const struct pile *pile = w->balance->pile;
    lane laid = lane_of(0);
    for (int i = 0; i < pile->stuffs; i++)
        laid += pile_total(pile, pile_laid(pile, i));
    for (int k = 0; k < RULES; k++) {
        lane met = dose_met(pile, rules_rows[k].dose, rules_rows[k].stage) / laid;
        for (int i = 0; i < LANES; i++)
            if (moment_has(midnight, i)) /* 1 but for rounding */
                record[i].day[midnight->day[i]].met_share[k] = fmin(lane_get(met, i), 1);
    }
}

static void begin_day(struct watch *w, lane_mask who)
{
    const lane none = lane_of(0);
    for (int c = 0; c < w->balance->pile->stride; c++)
        w->mean_K_s[c] = lane_if(who, none, w->mean_K_s[c]);
    for (int k = 0; k < WATCH_PROBES; k++)
        w->probe_K_s[k] = lane_if(who, none, w->probe_K_s[k]);
    for (int k = 0; k < FLUXES; k++)
        w->day_flux[k] = lane_if(who, none, w->day_flux[k]);
    lane *const sums[] = {&w->air_K_s, &w->seen_s, &w->steps, &w->refused};
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++)
        *sums[i] = lane_if(who, none, *sums[i]);
}

void watch_day(struct watch *w, const struct moment *midnight, struct record record[LANES])
{
    meet_rules(w, midnight, record);
    for (int c = 0; c < w->balance->pile->mesh->cells; c++)
        w->breath[c] = balance_breath(w->balance, c, TEST_OVER_K, TEST_WET_SHARE);
    w->core_m = place_core_m(place_depths(w->balance->pile->mesh, w->depth_m));
    for (int i = 0; i < LANES; i++)
        if (moment_has(midnight, i))
            fill_row(w, i, &record[i].day[midnight->day[i]]);
    begin_day(w, midnight->who);
}

static struct record_cell cell_of(const struct watch *w, int c, int member)
{
    const struct balance *b = w->balance;
    const struct mesh *mesh = b->pile->mesh;
    int row = mesh->cell_row[c], col = mesh->cell_col[c];
    double bottom = 0, water = lane_get(pile_state(b->pile, STATE_WATER_KG)[c], member);
    for (int j = 0; j < row; j++)
        bottom += lane_get(mesh->row_height_m[j], member);
    double dry = lane_get(pile_state(b->pile, STATE_DRY_KG)[c], member);
    return (struct record_cell){
        .inner_m = (float)mesh->col_edge_m[col], .outer_m = (float)mesh->col_edge_m[col + 1],
        .bottom_m = (float)bottom,
        .top_m = (float)(bottom + lane_get(mesh->row_height_m[row], member)),
        .temp_K = (float)(lane_get(w->over_K[c], member) + GAS_ICE_POINT_K),
        .water_share = (float)(water / (water + dry)),
        .oxygen_share = (float)oxygen_at(w, c, member),
        .free_air_share = (float)lane_get(b->medium.free_air[c], member)};
}

bool watch_picture(struct watch *w, int day, int member, struct record *record,
                   struct trouble *why)
{
    int cells = w->balance->pile->mesh->cells;
    struct record_picture *picture = &record->picture[record->pictures];
    picture->cell = malloc((size_t)cells * sizeof *picture->cell);
    if (!picture->cell)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for a cross-section");
    picture->day = day;
    picture->cells = cells;
    picture->mirror = true;
    for (int c = 0; c < cells; c++)
        picture->cell[c] = cell_of(w, c, member);
    record->pictures++;
    return true;
}
