/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hands.c - see run/hands.h. */
#include "run/hands.h"
#include "pile/read.h"
#include "run/fork.h"
#include "run/settle.h"
#include "run/some.h"

/* The work of a turn: a quarter of an hour to open the bay, fetch tools, probe, note and sweep up,
 * and all of it forked over at one pace, times what the way and the state of it ask. A dug hole is
 * half again as much as its share of the depth; a fork that only lifts, or a can that pours slowly
 * over the top, is a part of a turn. All trade. */
static const double TURN_S = 900;
static const double WAY[] = {[PLAN_LAYER_BY_LAYER] = 1.0, [PLAN_MIXED] = 1.2,
                             [PLAN_OUTSIDE_IN] = 1.4, [PLAN_OUT_AND_BACK] = 1.8};
static const double LOOSEN = 0.2, POUR = 0.15, BURY = 1.5;
static const double MATTED = 0.3, LOOSE_AIR = 0.30, MATTED_AIR = 0.15; /* free air */
static const double FROZEN = 0.75;        /* more work with a crust that is all ice */
static const double COVER_S_PER_M2 = 120; /* to lay or lift a cover [trade] */

static bool is_free(const struct scenario *scenario, int bay, int day)
{
    const struct plan_bay *b = &scenario->bay[bay];
    if (b->now != PLAN_BAY_FULL)
        return true;
    return b->full_until != 0 && scenario->start + day > b->full_until;
}

/* Where the pile of a member goes. */
static bool find_bay(const struct keeper *h, const struct plan_event *event, int member, int day,
                     int *bay, struct trouble *why)
{
    const struct scenario *scenario = h->lay.scenario;
    const int home = *bay = h->bay[member];
    if (event->into == PLAN_SAME_BAY)
        return true;
    if (event->into >= 0) {
        *bay = event->into;
        if (*bay == home || is_free(scenario, *bay, day))
            return true;
        return trouble_set(why, TROUBLE_NO, "%s is still full on the day of the turn",
                           scenario->bay[*bay].name);
    }
    for (int step = 1; step < scenario->bays; step++) {
        *bay = (home + step) % scenario->bays;
        if (is_free(scenario, *bay, day))
            return true;
    }
    *bay = home;
    if (scenario->bays == 1)
        return true; /* nowhere else to go: back where it was */
    return trouble_set(why, TROUBLE_NO, "no bay is free to turn into on day %d", day + 1);
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

/* Who goes into another bay, and into which mesh all go: bays that part members have one (run/bays). */
static bool find_bays(struct keeper *h, const struct plan_event *event, const struct moment *ten,
                      lane_mask *moved, struct mesh **into, struct trouble *why)
{
    *moved = lane_nobody();
    for (int i = 0; i < LANES; i++) {
        int bay;
        if (!moment_has(ten, i))
            continue;
        if (!find_bay(h, event, i, ten->day[i], &bay, why))
            return false;
        if (bay != h->bay[i])
            lane_join(moved, i);
        h->bay[i] = bay;
        *into = h->mesh_of_bay[bay];
    }
    return true;
}

static bool turn(struct keeper *h, const struct plan_event *event, const struct moment *ten,
                 struct trouble *why)
{
    lane_mask moved;
    struct mesh *into = h->pile->mesh;
    if (!find_bays(h, event, ten, &moved, &into, why))
        return false;
    struct move_batch kept;
    bool keep = event->keep_top_m > 0;
    if (keep)
        move_take_bottom(h->pile, &kept, event->keep_top_m);
    /* the soil stays where it is: a pile in another bin meets undisturbed ground */
    h->spare->mesh = into;
    for (int i = 0; i < MESH_SOILS; i++)
        pile_soil(h->spare)[i] = pile_soil(h->pile)[i];
    move_turn(h->spare, h->pile, way_of(event->way),
              event->way == PLAN_MIXED ? h->mixed_share : h->stray_share);
    move_swap(h->pile, h->spare);
    keeper_warm_soil(h, moved);
    if (keep) {
        settle_pile(h->balance, ten->who, lane_of(0), NULL);
        move_add(h->pile, h->spare, &kept, 0);
    }
    return true;
}

static void lay_cover(struct keeper_covers *covers, int row, double thick_m)
{
    if (covers->count < KEEPER_COVERS) {
        covers->of[covers->count].row = row;
        covers->of[covers->count++].thick_m = thick_m;
    }
}

static void lift_covers(struct keeper_covers *covers, int row)
{
    int left = 0;
    for (int i = 0; i < covers->count; i++)
        if (row >= 0 && covers->of[i].row != row)
            covers->of[left++] = covers->of[i];
    covers->count = left;
}

/* What lies on top of those piles after a deed; a turn takes off whatever lay there. */
static void change_covers(struct keeper *h, const struct plan_event *event, const struct moment *ten)
{
    for (int i = 0; i < LANES; i++) {
        if (!moment_has(ten, i))
            continue;
        if (event->deed == PLAN_TURN)
            h->covers[i].count = 0;
        else if (event->deed == PLAN_UNCOVER)
            lift_covers(&h->covers[i], event->cover);
        else if (event->deed == PLAN_COVER && event->cover >= 0)
            lay_cover(&h->covers[i], event->cover, event->cover_m);
    }
}

static void cover(struct keeper *h, const struct plan_event *event)
{
    struct move_batch batch;
    if (event->cover >= 0)
        return; /* lies on the pile and isn't of it */
    keeper_batch(h, &event->add, &batch);
    move_add(h->pile, h->spare, &batch, 0);
}

static void add(struct keeper *h, const struct plan_event *event, lane *added_kg)
{
    struct move_batch batch;
    keeper_batch(h, &event->add, &batch);
    move_add(h->pile, h->spare, &batch, event->bury_m);
    *added_kg = batch.amount[move_of_state(STATE_DRY_KG)] + batch.amount[move_of_state(STATE_WATER_KG)];
}

/* what a deed moved and took, for the record */
struct cost {
    lane water, lifted, picked, added, person_s;
};

/* How much harder than loose material it is to fork: matted, frozen. */
static lane stiffness(const struct keeper *h)
{
    const struct pile *pile = h->pile;
    lane ash = pile_total(pile, pile->stock[STOCK_ASH_KG]), volume = lane_of(0);
    lane organic = pile_total(pile, pile_state(pile, STATE_DRY_KG)) - ash;
    for (int c = 0; c < pile->mesh->cells; c++)
        volume += pile->mesh->volume_m3[c];
    lane solid = organic * (1 / READ_ORGANIC_KG_PER_M3) + ash * (1 / READ_ASH_KG_PER_M3);
    lane air = read_free_air(solid, pile_total(pile, pile_state(pile, STATE_WATER_KG)), volume);
    lane matted = (LOOSE_AIR - air) * (1 / (LOOSE_AIR - MATTED_AIR));
    matted = lane_max(lane_min(matted, lane_of(1)), lane_of(0));
    return (1.0 + MATTED * matted) * (1.0 + FROZEN * keeper_frozen_crust(h));
}

/* Mass forked once, loose, that would take as long as the deed on the pile as it lies. */
static lane effort_kg(const struct keeper *h, const struct plan_event *event)
{
    lane all = keeper_wet_kg(h->pile) * stiffness(h);
    switch (event->deed) {
    case PLAN_TURN: return all * WAY[event->way];
    case PLAN_LOOSEN: return all * LOOSEN;
    case PLAN_WATER: return all * POUR;
    case PLAN_ADD:
        return all * lane_min(BURY * event->bury_m / mesh_height(h->pile->mesh), lane_of(1));
    case PLAN_COVER: case PLAN_UNCOVER: case PLAN_PICK: break;
    }
    return lane_of(0);
}

static bool perform(struct keeper *h, const struct plan_event *event, const struct moment *ten,
                    struct cost *cost, struct trouble *why)
{
    lane effort = effort_kg(h, event);
    switch (event->deed) {
    case PLAN_TURN:
        cost->lifted = keeper_wet_kg(h->pile) * (event->way == PLAN_OUT_AND_BACK ? 2.0 : 1.0);
        if (event->pick_sticks)
            cost->picked = fork_pick(h);
        if (!turn(h, event, ten, why))
            return false;
        fork_open(h);
        cost->water = fork_wet(h, event);
        break;
    case PLAN_LOOSEN:
        cost->lifted = LOOSEN * keeper_wet_kg(h->pile); /* it is stirred, not carried */
        fork_open(h);
        break;
    case PLAN_WATER: cost->water = fork_pour(h, event); break;
    case PLAN_ADD:
        add(h, event, &cost->added);
        cost->lifted = cost->added;
        effort += cost->added;
        cost->water = lay_poured(&h->lay, &event->add.water_kg);
        break;
    case PLAN_COVER: cover(h, event); break;
    case PLAN_UNCOVER: break;
    case PLAN_PICK: cost->picked = fork_pick(h); break;
    }
    cost->person_s =
        (effort + 2.0 * cost->picked) / h->fork_kg_per_s + cost->water * h->pour_s_per_kg;
    if (event->deed == PLAN_TURN)
        cost->person_s += TURN_S;
    if (event->deed == PLAN_COVER || event->deed == PLAN_UNCOVER)
        cost->person_s += COVER_S_PER_M2 * mesh_row_area(h->pile->mesh, 0);
    cost->lifted += cost->water;
    return true;
}

bool hands_do(struct keeper *h, const struct plan_event *event, const struct moment *ten,
              struct record_event done[LANES], struct trouble *why)
{
    struct cost cost = {lane_of(0), lane_of(0), lane_of(0), lane_of(0), lane_of(0)};
    int bay_before[LANES];
    for (int i = 0; i < LANES; i++)
        bay_before[i] = h->bay[i];
    some_begin(h, ten->who);
    if (!perform(h, event, ten, &cost, why))
        return false;
    some_end(h, ten->who);
    change_covers(h, event, ten);
    keeper_skin(h);
    settle_pile(h->balance, ten->who, lane_of(0), NULL);
    for (int i = 0; i < LANES; i++)
        done[i] = (struct record_event){
            .day = ten->day[i] + 1, .deed = event->deed, .way = event->way,
            .into = event->deed == PLAN_TURN && h->bay[i] != bay_before[i] ? h->bay[i] : -1,
            .water_kg = lane_get(cost.water, i), .person_s = lane_get(cost.person_s, i),
            .lifted_kg = lane_get(cost.lifted, i), .picked_out_kg = lane_get(cost.picked, i),
            .added_kg = lane_get(cost.added, i)};
    return true;
}
