/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hands.c - see run/hands.h. */
#include "run/hands.h"
#include "run/fork.h"
#include "run/settle.h"

static const double TURN_S = 600;         /* to open the bay, fetch tools, sweep up [trade] */
static const double COVER_S_PER_M2 = 120; /* to lay or lift a cover [trade] */

static bool is_free(const struct scenario *scenario, int bay, int day)
{
    const struct plan_bay *b = &scenario->bay[bay];
    if (b->now != PLAN_BAY_FULL)
        return true;
    return b->full_until != 0 && scenario->start + day > b->full_until;
}

static bool find_bay(const struct keeper *h, const struct plan_event *event, int day, int *bay,
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
    *bay = h->bay;
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

static bool turn(struct keeper *h, const struct plan_event *event, int day, struct trouble *why)
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
        keeper_warm_soil(h);
    h->bay = bay;
    if (keep) {
        settle_pile(h->balance, lane_of(0), NULL);
        move_add(h->pile, h->spare, &kept, 0);
    }
    h->covers = 0; /* whatever lay on top was taken off */
    return true;
}

static void cover(struct keeper *h, const struct plan_event *event)
{
    if (event->cover < 0) {
        struct move_batch batch;
        keeper_batch(h, &event->add, &batch);
        move_add(h->pile, h->spare, &batch, 0);
    } else if (h->covers < KEEPER_COVERS) {
        h->cover[h->covers].row = event->cover;
        h->cover[h->covers++].thick_m = event->cover_m;
    }
}

static void uncover(struct keeper *h, int row)
{
    int left = 0;
    for (int i = 0; i < h->covers; i++)
        if (row >= 0 && h->cover[i].row != row)
            h->cover[left++] = h->cover[i];
    h->covers = left;
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

static bool perform(struct keeper *h, const struct plan_event *event, int day, struct cost *cost,
                    struct trouble *why)
{
    switch (event->deed) {
    case PLAN_TURN:
        cost->lifted = keeper_wet_kg(h->pile);
        if (event->pick_sticks)
            cost->picked = fork_pick(h);
        if (!turn(h, event, day, why))
            return false;
        fork_open(h);
        cost->water = fork_wet(h, event);
        break;
    case PLAN_LOOSEN:
        cost->lifted = 0.3 * keeper_wet_kg(h->pile); /* it is stirred, not carried [trade] */
        fork_open(h);
        break;
    case PLAN_WATER: cost->water = fork_pour(h, event); break;
    case PLAN_ADD:
        add(h, event, &cost->added);
        cost->lifted = cost->added;
        cost->water = lay_poured(&h->lay, &event->add.water_kg);
        break;
    case PLAN_COVER: cover(h, event); break;
    case PLAN_UNCOVER: uncover(h, event->cover); break;
    case PLAN_PICK: cost->picked = fork_pick(h); break;
    }
    cost->person_s = cost->lifted / h->fork_kg_per_s + cost->water * h->pour_s_per_kg +
                     2.0 * cost->picked / h->fork_kg_per_s;
    if (event->deed == PLAN_TURN)
        cost->person_s += TURN_S;
    if (event->deed == PLAN_COVER || event->deed == PLAN_UNCOVER)
        cost->person_s += COVER_S_PER_M2 * mesh_row_area(h->pile->mesh, 0);
    cost->lifted += cost->water;
    return true;
}

bool hands_do(struct keeper *h, const struct plan_event *event, int day,
              struct record_event done[LANES], struct trouble *why)
{
    struct cost cost = {lane_of(0), lane_of(0), lane_of(0), lane_of(0), lane_of(0)};
    int bay_before = h->bay;
    if (!perform(h, event, day, &cost, why))
        return false;
    keeper_skin(h);
    settle_pile(h->balance, lane_of(0), NULL);
    for (int i = 0; i < LANES; i++)
        done[i] = (struct record_event){
            .day = day + 1, .deed = event->deed, .way = event->way,
            .into = event->deed == PLAN_TURN && h->bay != bay_before ? h->bay : -1,
            .water_kg = lane_get(cost.water, i), .person_s = lane_get(cost.person_s, i),
            .lifted_kg = lane_get(cost.lifted, i), .picked_out_kg = lane_get(cost.picked, i),
            .added_kg = lane_get(cost.added, i)};
    return true;
}
