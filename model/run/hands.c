/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hands.c - see run/hands.h. */
#include "run/hands.h"
#include "flow/gas.h"
#include "know/bound.h"
#include "pile/read.h"

/* a lid or wall that is shut leaks this much all the same */
static const double LEAK = 1e-4;
static const double TAP_K = 4.0;        /* poured water is no colder than this over the ice point */
static const double PICKED_SHARE = 0.7; /* of what is still a stick, found and taken out [trade] */
static const double STICK_M = 0.04;     /* pieces from this size are sticks and stalks [trade] */
static const double COVER_S_PER_M2 = 120; /* to lay or lift a cover [trade] */

void hands_param(struct hands *h, const struct param param[LANES])
{
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &param[i];
        lane_put(&h->turn_air, i, p->turn_air_kg_per_m3);
        lane_put(&h->turn_lift, i, p->turn_lift);
        lane_put(&h->mixed_share, i, p->mixed_share);
        lane_put(&h->stray_share, i, p->stray_share);
        lane_put(&h->fork_kg_per_s, i, p->fork_kg_per_s);
        lane_put(&h->pour_s_per_kg, i, p->pour_s_per_kg);
        lane_put(&h->top_absorbs, i, p->top_absorbs);
        lane_put(&h->heap_rain, i, p->heap_rain_share);
    }
}

static struct outside_skin skin_of(const struct bound *bound)
{
    struct outside_skin s;
    s.open_share = lane_of(bound->open_share > LEAK ? bound->open_share : LEAK);
    s.heat_m2K_per_W = lane_of(bound->heat_m2K_per_W);
    s.sun_share = lane_of(bound->sun_share);
    s.rain_share = lane_of(bound->rain_share);
    return s;
}

void hands_skin(struct hands *h)
{
    const struct plan_bay *bay = &h->lay.scenario->bay[h->bay];
    struct outside_skin *skin = h->balance->outside.skin;
    bool bare = bound_rows[bay->lid].open_share >= 1.0;
    skin[MESH_WALL] = skin_of(&bound_rows[bay->wall]);
    skin[MESH_BASE] = skin_of(&bound_rows[bay->floor]);
    skin[MESH_BASE].open_share = lane_of(bound_rows[bay->floor].open_share);
    struct outside_skin top = skin_of(&bound_rows[bay->lid]);
    if (bare)
        top.sun_share = h->top_absorbs;
    if (bay->shape == PLAN_HEAP || bay->shape == PLAN_WINDROW)
        top.rain_share *= h->heap_rain;
    for (int i = 0; i < h->covers; i++) {
        const struct bound *cover = &bound_rows[h->cover[i].row];
        top.open_share *= cover->open_share;
        top.rain_share *= cover->rain_share;
        top.heat_m2K_per_W += cover->heat_m2K_per_W * h->cover[i].thick_m;
        if (bare)
            top.sun_share = lane_of(cover->sun_share);
    }
    top.open_share = lane_max(top.open_share, lane_of(LEAK));
    skin[MESH_TOP] = top;
}

/* Everything a batch brings, under the names of what is added (or, with sign -1, removed). */
static void book_batch(struct hands *h, const struct move_batch *batch, lane poured_kg, lane poured_J,
                       bool removed)
{
    const struct pile *pile = h->pile;
    const struct decay_law *law = &h->balance->decay;
    double sign = removed ? -1 : 1;
    lane microbe = batch->amount[move_of_state(STATE_MICROBE_KG)];
    lane humus = batch->amount[move_of_state(STATE_HUMUS_KG)];
    lane carbon = microbe + humus + batch->amount[move_of_state(STATE_SOUR_KG)] +
                  batch->amount[move_of_stock(STOCK_INERT_C_KG)];
    lane nitrogen = microbe / law->microbe_c_to_n + humus / law->humus_c_to_n +
                    batch->amount[move_of_state(STATE_NITROGEN_KG)];
    lane seeds = lane_of(0);
    for (int i = 0; i < pile->stuffs; i++) {
        for (int k = 0; k < POOLS; k++)
            carbon += batch->amount[move_of_pool(i, (enum pool)k)];
        nitrogen += pile->stuff[i].protein_nitrogen * batch->amount[move_of_pool(i, POOL_PROTEIN)];
    }
    for (int k = 0; k < SEEDS; k++)
        seeds += batch->amount[move_of_stock((enum stock)(STOCK_SEED_EASY + k))];
    h->flux[removed ? FLUX_removed_carbon : FLUX_added_carbon] += sign * carbon;
    h->flux[removed ? FLUX_removed_nitrogen : FLUX_added_nitrogen] += sign * nitrogen;
    h->flux[removed ? FLUX_removed_seeds : FLUX_added_seeds] += sign * seeds;
    h->flux[removed ? FLUX_removed_water : FLUX_added_water] +=
        sign * (batch->amount[move_of_state(STATE_WATER_KG)] - poured_kg);
    h->flux[removed ? FLUX_removed_heat : FLUX_added_heat] +=
        sign * (batch->amount[move_of_state(STATE_HEAT_J)] - poured_J);
    h->flux[FLUX_poured_water] += poured_kg;
    h->flux[FLUX_poured_heat] += poured_J;
}

static lane now_K(const struct hands *h) { return h->balance->outside.over_K; }

static lane pour_K(const struct hands *h, const struct plan_layer *layer)
{
    if (layer->pour_K > 0)
        return lane_of(layer->pour_K - GAS_ICE_POINT_K);
    return lane_max(now_K(h), lane_of(TAP_K));
}

/* A layer becomes a batch; the water poured with it comes at its own temperature. */
static void batch_of(struct hands *h, const struct plan_layer *layer, struct move_batch *batch)
{
    struct plan_layer dry = *layer;
    dry.water_kg = (struct span){0, 0, 0};
    lay_batch(&h->lay, h->pile, &dry, now_K(h), batch);
    lane poured = lane_of(layer->water_kg.mid);
    lane heat = poured * read_water_enthalpy(pour_K(h, layer));
    batch->amount[move_of_state(STATE_WATER_KG)] += poured;
    batch->amount[move_of_state(STATE_HEAT_J)] += heat;
    book_batch(h, batch, poured, heat, false);
}

/* Each row of the empty pile takes its share of the volume of the layers, in their order: the
 * layers' batches are poured upward. */
static lane built_volume(struct hands *h)
{
    const struct scenario *scenario = h->lay.scenario;
    lane whole = lane_of(0);
    for (int l = 0; l < scenario->layers; l++) {
        struct move_batch batch;
        lay_batch(&h->lay, h->pile, &scenario->layer[l], lane_of(0), &batch);
        whole += batch.amount[move_of_stock(STOCK_LOOSE_M3)];
    }
    return whole;
}

static void pour_layers(struct hands *h)
{
    lane whole_m3 = built_volume(h);
    const struct scenario *scenario = h->lay.scenario;
    struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    int amounts = pile_amounts(pile);
    lane bottom = lane_of(0);
    for (int l = 0; l < scenario->layers; l++) {
        struct move_batch batch;
        batch_of(h, &scenario->layer[l], &batch);
        lane volume = batch.amount[move_of_stock(STOCK_LOOSE_M3)], top = bottom + volume;
        lane start = lane_of(0);
        for (int j = 0; j < mesh->rows; j++) {
            lane end = start + mesh->row_share[j] * whole_m3;
            lane meets = lane_max(lane_min(end, top) - lane_max(start, bottom), lane_of(0)) / volume;
            for (int c = mesh->row_first[j]; c < mesh->row_first[j] + mesh->row_cols[j]; c++) {
                lane share = meets * (move_share(mesh, c) / mesh->row_share[j]);
                for (int k = 0; k < amounts; k++)
                    pile_amount(pile, k)[c] += share * batch.amount[k];
            }
            start = end;
        }
        bottom = top;
    }
}

/* A pile found standing: aged, then warmed from the hand-deep reading outside to the middle's. */
static void find(struct hands *h)
{
    const struct scenario *scenario = h->lay.scenario;
    const struct plan_found *found = &scenario->found;
    struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    struct move_batch batch;
    lay_batch(&h->lay, pile, &scenario->layer[0], now_K(h), &batch);
    lay_age(&h->lay, pile, &batch, found->built_days_ago);
    double middle = found->middle_K.mid, rim = found->hand_deep_K.mid;
    double air = lane_get(now_K(h), 0) + GAS_ICE_POINT_K;
    middle = middle > 0 ? middle : rim > 0 ? rim : air + 5;
    rim = rim > 0 ? rim : 0.5 * (middle + air);
    lane heat = lane_of(0);
    for (int c = 0; c < mesh->cells; c++) {
        for (int k = 0; k < pile_amounts(pile); k++)
            pile_amount(pile, k)[c] = move_share(mesh, c) * batch.amount[k];
        int col = mesh->cell_col[c];
        double at = 0.5 * (mesh->col_edge_m[col] + mesh->col_edge_m[col + 1]) / mesh->reach_m;
        double up = (mesh->cell_row[c] + 0.5) / mesh->rows;
        double inner = (1 - at * at) * 4 * up * (1 - up);
        lane over = lane_of(rim + (middle - rim) * inner - GAS_ICE_POINT_K);
        lane ash = pile->stock[STOCK_ASH_KG][c], dry = pile_state(pile, STATE_DRY_KG)[c];
        lane *cell = &pile_state(pile, STATE_HEAT_J)[c];
        *cell = read_enthalpy(over, dry - ash, ash, pile_state(pile, STATE_WATER_KG)[c]);
        heat += *cell;
    }
    batch.amount[move_of_state(STATE_HEAT_J)] = heat;
    book_batch(h, &batch, lane_of(0), lane_of(0), false);
}

static void warm_soil(struct hands *h)
{
    struct balance *b = h->balance;
    for (int i = 0; i < MESH_SOILS; i++)
        pile_soil(h->pile)[i] = b->outside.ground_over_K[MESH_SOIL_LAYERS - 1 - i / MESH_RINGS] *
                                b->outside.soil_J_per_m3K * h->pile->mesh->soil_volume_m3[i];
}

void hands_build(struct hands *h)
{
    const struct scenario *scenario = h->lay.scenario;
    if (scenario->found.is)
        find(h);
    else
        pour_layers(h);
    warm_soil(h);
    for (int c = 0; c < h->pile->mesh->cells; c++)
        pile_state(h->pile, STATE_OXYGEN)[c] = lane_of(0.2);
    hands_skin(h);
    balance_settle(h->balance, lane_of(0), NULL);
}

/* One cell breathes `air_kg` of dry air while it lies open: its own saturated (by its water
 * activity) for the outside's. The temperature after solves
 *     H - M (h(T) - h_out) = H(T, W - M (x(T) - x_out)),
 * whose sides cross once; by bisection, the same number of halvings for all. */
static void breathe(struct hands *h, int c, lane air_kg)
{
    struct pile *pile = h->pile;
    const struct outside *out = &h->balance->outside;
    lane *heat = &pile_state(pile, STATE_HEAT_J)[c], *water = &pile_state(pile, STATE_WATER_KG)[c];
    lane dry = pile_state(pile, STATE_DRY_KG)[c], ash = pile->stock[STOCK_ASH_KG][c];
    lane here = read_heat(*heat, dry - ash, ash, *water).over_K, slope;
    lane activity = read_activity(*water, dry, h->balance->law.activity_half);
    lane low = lane_min(here, out->over_K) - 25.0, high = lane_max(here, out->over_K) + 1.0;
    lane enthalpy_out = gas_enthalpy(out->over_K, out->humid), x, lost, given;
    for (int halving = 0; halving < 44; halving++) {
        lane t = 0.5 * (low + high);
        x = gas_humidity(activity * gas_pressure_Pa(t, &slope), out->air_Pa);
        lost = lane_min(air_kg * (x - out->humid), 0.5 * *water);
        given = air_kg * (gas_enthalpy(t, x) - enthalpy_out);
        lane_mask too_warm = lane_less(*heat - given, read_enthalpy(t, dry - ash, ash, *water - lost));
        high = lane_if(too_warm, t, high);
        low = lane_if(too_warm, low, t);
    }
    *heat -= given;
    *water -= lost;
    h->flux[FLUX_turn_heat] -= given;
    h->flux[FLUX_turn_water] -= lost;
}

/* Forking gives back a share of the volume lost beyond what the mass lost explains. */
static void lift(struct hands *h, int c)
{
    struct pile *pile = h->pile;
    lane laid = lane_of(0), dry = pile_state(pile, STATE_DRY_KG)[c];
    for (int i = 0; i < pile->stuffs; i++)
        laid += pile_laid(pile, i)[c];
    lane left = lane_min(dry / laid, lane_of(1));
    lane could = pile->stock[STOCK_FRESH_M3][c] * lane_exp(h->balance->shrink_power * lane_log(left));
    lane loose = pile->stock[STOCK_LOOSE_M3][c];
    lane lifted = loose + h->turn_lift * lane_max(could - loose, lane_of(0));
    pile->stock[STOCK_STIFF_J][c] *= lifted / loose;
    pile->stock[STOCK_LOOSE_M3][c] = lifted;
}

static void open_up(struct hands *h)
{
    struct pile *pile = h->pile;
    for (int c = 0; c < pile->mesh->cells; c++) {
        breathe(h, c, h->turn_air * pile->stock[STOCK_LOOSE_M3][c]);
        lift(h, c);
        pile_state(pile, STATE_OXYGEN)[c] = lane_of(0.2);
    }
}

static lane wet_kg(const struct pile *pile)
{
    return pile_total(pile, pile_state(pile, STATE_WATER_KG)) +
           pile_total(pile, pile_state(pile, STATE_DRY_KG));
}

static void pour(struct hands *h, int c, lane water_kg, lane over_K)
{
    lane heat = water_kg * read_water_enthalpy(over_K);
    pile_state(h->pile, STATE_WATER_KG)[c] += water_kg;
    pile_state(h->pile, STATE_HEAT_J)[c] += heat;
    h->flux[FLUX_poured_water] += water_kg;
    h->flux[FLUX_poured_heat] += heat;
}

static lane held(const struct hands *h, int c)
{
    return h->balance->hold_factor * h->pile->stock[STOCK_HOLD_KG][c];
}

/* Water given to each layer while the pile is open. Returns how much. */
static lane pour_throughout(struct hands *h, const struct plan_event *event)
{
    struct pile *pile = h->pile;
    lane dry = pile_total(pile, pile_state(pile, STATE_DRY_KG)), sum = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane water = event->until_it_drips
            ? lane_max(held(h, c) - pile_state(pile, STATE_WATER_KG)[c], lane_of(0))
            : event->water_kg.mid * pile_state(pile, STATE_DRY_KG)[c] / dry;
        pour(h, c, water, pour_K(h, &event->add));
        sum += water;
    }
    return sum;
}

/* Water on the top runs down its column: each cell keeps what it can hold, the rest runs through. */
static lane pour_on_top(struct hands *h, const struct plan_event *event)
{
    struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    lane over = pour_K(h, &event->add), sum = lane_of(0);
    for (int i = 0; i < mesh->cols; i++) {
        int top = mesh->rows - 1;
        while (i >= mesh->row_cols[top])
            top--;
        lane left = lane_of(event->water_kg.mid * mesh->col_area_m2[i] / mesh_row_area(mesh, 0));
        for (int j = top; j >= 0; j--) {
            int c = mesh->row_first[j] + i;
            lane room = lane_max(held(h, c) - pile_state(pile, STATE_WATER_KG)[c], lane_of(0));
            lane kept = event->until_it_drips ? room : lane_min(room, left);
            pour(h, c, kept, over);
            left -= kept;
            sum += kept;
        }
        if (event->until_it_drips)
            continue;
        lane heat = left * read_water_enthalpy(over);
        h->flux[FLUX_poured_water] += left;
        h->flux[FLUX_poured_heat] += heat;
        h->flux[FLUX_leachate_water] -= left;
        h->flux[FLUX_leachate_heat] -= heat;
        sum += left;
    }
    return sum;
}

/* Sticks and stalks picked out: a share of every ingredient in pieces, with its water and warmth. */
static lane pick(struct hands *h)
{
    struct pile *pile = h->pile;
    struct move_batch out = {{lane_of(0)}};
    lane before = wet_kg(pile);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane dry = pile_state(pile, STATE_DRY_KG)[c], taken = lane_of(0);
        for (int i = 0; i < pile->stuffs; i++) {
            if (h->lay.kind[i].piece_m < STICK_M)
                continue;
            const double per[POOLS] = {AMOUNT_FAST_DRY, 0, AMOUNT_SLOW_DRY, AMOUNT_LIGNIN_DRY};
            for (int k = 0; k < POOLS; k++) {
                lane *pool = &pile_pool(pile, i, (enum pool)k)[c];
                /* only what is still tough: leaves and grass have no sticks */
                lane moved = PICKED_SHARE * *pool;
                *pool -= moved;
                out.amount[move_of_pool(i, (enum pool)k)] += moved;
                taken += moved * (k == POOL_PROTEIN ? pile->stuff[i].protein_dry : lane_of(per[k]));
            }
        }
        lane share = taken / dry;
        static const enum state goes[] = {STATE_HEAT_J, STATE_WATER_KG};
        for (int k = 0; k < 2; k++) {
            lane moved = share * pile_state(pile, goes[k])[c];
            pile_state(pile, goes[k])[c] -= moved;
            out.amount[move_of_state(goes[k])] += moved;
        }
        for (int k = STOCK_LOOSE_M3; k <= STOCK_HOLD_KG; k++)
            pile->stock[k][c] *= 1.0 - share;
        pile_state(pile, STATE_DRY_KG)[c] = dry - taken;
    }
    book_batch(h, &out, lane_of(0), lane_of(0), true);
    return before - wet_kg(pile);
}

static bool is_free(const struct scenario *scenario, int bay, int day)
{
    const struct plan_bay *b = &scenario->bay[bay];
    if (b->now != PLAN_BAY_FULL)
        return true;
    return b->full_until != 0 && scenario->start + day > b->full_until;
}

static bool find_bay(const struct hands *h, const struct plan_event *event, int day, int *bay,
                     struct trouble *why)
{
    const struct scenario *scenario = h->lay.scenario;
    *bay = h->bay;
    if (event->into == PLAN_SAME_BAY)
        return true;
    if (event->into >= 0) {
        *bay = event->into;
        if (*bay == h->bay || is_free(scenario, *bay, day))
            return true;
        return trouble_set(why, TROUBLE_NO, "%s is still full on the day of the turn",
                           scenario->bay[*bay].name);
    }
    for (int step = 1; step < scenario->bays; step++) {
        *bay = (h->bay + step) % scenario->bays;
        if (is_free(scenario, *bay, day))
            return true;
    }
    *bay = h->bay; /* nowhere else to go: back where it was */
    return true;
}

static enum move_way way_of(enum plan_way way)
{
    switch (way) {
    case PLAN_OUTSIDE_IN: return MOVE_OUTSIDE_IN;
    case PLAN_OUT_AND_BACK: return MOVE_SAME_ORDER;
    case PLAN_LAYER_BY_LAYER: case PLAN_MIXED: break;
    }
    return MOVE_UPSIDE_DOWN;
}

static bool turn(struct hands *h, const struct plan_event *event, int day, struct trouble *why)
{
    int bay;
    if (!find_bay(h, event, day, &bay, why))
        return false;
    struct move_batch kept;
    bool keep = event->keep_top_m > 0;
    if (keep)
        move_take_bottom(h->pile, &kept, event->keep_top_m);
    /* the soil stays where it is: a pile in another bin meets undisturbed ground */
    h->spare->mesh = &h->mesh_of_bay[bay];
    for (int i = 0; i < MESH_SOILS; i++)
        pile_soil(h->spare)[i] = pile_soil(h->pile)[i];
    move_turn(h->spare, h->pile, way_of(event->way),
              event->way == PLAN_MIXED ? h->mixed_share : h->stray_share);
    move_swap(h->pile, h->spare);
    if (bay != h->bay)
        warm_soil(h);
    h->bay = bay;
    if (keep) {
        balance_settle(h->balance, lane_of(0), NULL);
        move_add(h->pile, h->spare, &kept, 0);
    }
    h->covers = 0; /* whatever lay on top was taken off */
    return true;
}

static void cover(struct hands *h, const struct plan_event *event)
{
    if (event->cover < 0) {
        struct move_batch batch;
        batch_of(h, &event->add, &batch);
        move_add(h->pile, h->spare, &batch, 0);
    } else if (h->covers < HANDS_COVERS) {
        h->cover[h->covers].row = event->cover;
        h->cover[h->covers++].thick_m = event->cover_m;
    }
}

static void uncover(struct hands *h, int row)
{
    int left = 0;
    for (int i = 0; i < h->covers; i++)
        if (row >= 0 && h->cover[i].row != row)
            h->cover[left++] = h->cover[i];
    h->covers = left;
}

static void add(struct hands *h, const struct plan_event *event, lane *added_kg)
{
    struct move_batch batch;
    batch_of(h, &event->add, &batch);
    move_add(h->pile, h->spare, &batch, event->bury_m);
    *added_kg = batch.amount[move_of_state(STATE_DRY_KG)] + batch.amount[move_of_state(STATE_WATER_KG)];
}

/* what a deed moved and took, for the record */
struct cost {
    lane water, lifted, picked, added, person_s;
};

static bool perform(struct hands *h, const struct plan_event *event, int day, struct cost *cost,
                    struct trouble *why)
{
    switch (event->deed) {
    case PLAN_TURN:
        cost->lifted = wet_kg(h->pile);
        if (event->pick_sticks)
            cost->picked = pick(h);
        if (!turn(h, event, day, why))
            return false;
        open_up(h);
        cost->water = pour_throughout(h, event);
        break;
    case PLAN_LOOSEN:
        cost->lifted = 0.3 * wet_kg(h->pile); /* it is stirred, not carried [trade] */
        open_up(h);
        break;
    case PLAN_WATER: cost->water = pour_on_top(h, event); break;
    case PLAN_ADD:
        add(h, event, &cost->added);
        cost->lifted = cost->added;
        cost->water = lane_of(event->add.water_kg.mid);
        break;
    case PLAN_COVER: cover(h, event); break;
    case PLAN_UNCOVER: uncover(h, event->cover); break;
    case PLAN_PICK: cost->picked = pick(h); break;
    }
    cost->person_s = cost->lifted / h->fork_kg_per_s + cost->water * h->pour_s_per_kg +
                     2.0 * cost->picked / h->fork_kg_per_s;
    if (event->deed == PLAN_COVER || event->deed == PLAN_UNCOVER)
        cost->person_s += COVER_S_PER_M2 * mesh_row_area(h->pile->mesh, 0);
    cost->lifted += cost->water;
    return true;
}

bool hands_do(struct hands *h, const struct plan_event *event, int day,
              struct record_event done[LANES], struct trouble *why)
{
    struct cost cost = {lane_of(0), lane_of(0), lane_of(0), lane_of(0), lane_of(0)};
    int bay_before = h->bay;
    if (!perform(h, event, day, &cost, why))
        return false;
    hands_skin(h);
    balance_settle(h->balance, lane_of(0), NULL);
    for (int i = 0; i < LANES; i++)
        done[i] = (struct record_event){
            .day = day + 1, .deed = event->deed, .way = event->way,
            .into = event->deed == PLAN_TURN && h->bay != bay_before ? h->bay : -1,
            .water_kg = lane_get(cost.water, i), .person_s = lane_get(cost.person_s, i),
            .lifted_kg = lane_get(cost.lifted, i), .picked_out_kg = lane_get(cost.picked, i),
            .added_kg = lane_get(cost.added, i)};
    return true;
}
