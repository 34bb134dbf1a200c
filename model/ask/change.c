/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/change.c - see ask/change.h. */
#include "ask/change.h"
#include "ask/vary.h"
#include "know/bound.h"
#include "run/calendar.h"
#include "run/handful.h"
#include <math.h>
#include <string.h>

static const double WORTH_A_WALK = 0.25;    /* of a bucket: less water isn't poured */
static const double ADDED = 0.1, LEAST_BUCKETS = 1; /* of the volume [trade] */
static const double BURY_M = 0.20, COVER_M = 0.10, CHOPPED_M = 0.03;
static const double CARRIED = 0.8;          /* of a bucket of water */
static const double M3_TO_L = 1000;

bool change_from_start(enum change_kind kind)
{
    return kind >= CHANGE_LID;
}

int change_family(enum change_kind kind)
{
    return kind == CHANGE_TURN_IN ? CHANGE_TURN_MIXED : (int)kind;
}

/* ---- on a day ---- */

static bool turned_on(const struct plan *plan, const struct scenario *scenario, int day)
{
    for (int e = 0; e < plan->events; e++)
        if (plan->event[e].deed == PLAN_TURN && plan->event[e].when != PLAN_RULE &&
            calendar_comes(scenario, &plan->event[e], day))
            return true;
    return false;
}

static enum change_bar pour(struct change *change, struct plan *plan, const struct change_pile *pile)
{
    double more_kg = pile->thirst_kg;
    if (more_kg < WORTH_A_WALK * CARRIED * pile->scenario->bucket_m3 * M3_TO_L)
        return CHANGE_WET_ENOUGH;
    struct plan_event *event = vary_event(plan, PLAN_WATER, pile->day);
    if (!event)
        return CHANGE_NONE;
    change->water_l = more_kg;
    event->water_kg = (struct span){more_kg, more_kg, more_kg};
    return CHANGE_CAN;
}

static enum change_bar turn(struct plan *plan, enum plan_way way, const struct change_pile *pile)
{
    if (pile->day == 0 || turned_on(plan, pile->scenario, pile->day))
        return CHANGE_SAME_DAY;
    int into = pile->scenario->bays > 1 ? PLAN_NEXT_BAY : PLAN_SAME_BAY;
    return vary_turn(plan, pile->day, way, into) ? CHANGE_CAN : CHANGE_NONE;
}

static enum change_bar loosen(struct plan *plan, const struct change_pile *pile)
{
    if (pile->day == 0 || turned_on(plan, pile->scenario, pile->day))
        return CHANGE_SAME_DAY;
    return vary_event(plan, PLAN_LOOSEN, pile->day) ? CHANGE_CAN : CHANGE_NONE;
}

/* What some plan of the keeper's lays on is at hand. */
static const struct plan_event *own_cover(const struct scenario *scenario)
{
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++) {
            const struct plan_event *event = &scenario->plan[p].event[e];
            if (event->deed == PLAN_COVER && event->cover >= 0)
                return event;
        }
    return NULL;
}

/* Is something on it by then? A turn takes covers off. */
static bool is_covered(const struct plan *plan, int day)
{
    bool covered = false;
    int last = -1;
    for (int e = 0; e < plan->events; e++) {
        const struct plan_event *event = &plan->event[e];
        bool lays = event->deed == PLAN_COVER, bares = event->deed == PLAN_TURN || event->deed == PLAN_UNCOVER;
        if ((lays || bares) && event->day <= day && event->day >= last) {
            covered = lays;
            last = event->day;
        }
    }
    return covered;
}

static enum change_bar cover(struct change *change, struct plan *plan, const struct change_pile *pile)
{
    const struct plan_event *own = own_cover(pile->scenario);
    if (is_covered(plan, pile->day))
        return CHANGE_HAS;
    change->cover = own ? own->cover : bound_find("straw", BOUND_COVER);
    change->cover_m = own ? own->cover_m : COVER_M;
    return vary_cover(plan, pile->day, change->cover, change->cover_m) ? CHANGE_CAN : CHANGE_NONE;
}

/* ---- ingredients ---- */

/* Of the recipe's ingredients of a group the one there is most of; -1 = none. */
static int most_of(const struct scenario *scenario, enum stuff_group group)
{
    double sum_kg[PLAN_STUFF] = {0};
    int most = -1;
    for (int l = 0; l < scenario->layers; l++)
        for (int i = 0; i < scenario->layer[l].portions; i++) {
            const struct plan_portion *portion = &scenario->layer[l].portion[i];
            if (scenario->stuff[portion->stuff].group == group)
                sum_kg[portion->stuff] += portion->wet_kg.mid;
        }
    for (int k = 0; k < scenario->stuffs; k++)
        if (sum_kg[k] > 0 && (most < 0 || sum_kg[k] > sum_kg[most]))
            most = k;
    return most;
}

/* The row of a table's ingredient, put there if there is room. */
static int row_of(struct scenario *scenario, const char *words)
{
    const struct stuff *stuff = stuff_find(words);
    for (int k = 0; stuff && k < scenario->stuffs; k++)
        if (strcmp(scenario->stuff[k].id, stuff->id) == 0)
            return k;
    if (!stuff || scenario->stuffs == PLAN_STUFF)
        return -1;
    scenario->stuff[scenario->stuffs] = *stuff;
    return scenario->stuffs++;
}

/* So many level buckets of it, as it usually comes. */
static struct plan_portion portion_of(const struct scenario *scenario, int stuff, double buckets)
{
    const struct stuff *row = &scenario->stuff[stuff];
    const struct span *bulk = &row->bulk_kg_per_m3;
    double volume = buckets * scenario->bucket_m3;
    return (struct plan_portion){.stuff = stuff,
                                 .wet_kg = {volume * bulk->low, volume * bulk->mid, volume * bulk->high},
                                 .water_share = row->water_share,
                                 .volume_m3 = {volume, volume, volume},
                                 .bulk_kg_per_m3 = *bulk,
                                 .piece_m = row->piece_m,
                                 .vessel = PLAN_BUCKET,
                                 .vessel_m3 = scenario->bucket_m3};
}

static enum change_bar add(struct change *change, struct scenario *changed, struct plan *plan,
                           enum stuff_group group, double bury_m, const struct change_pile *pile)
{
    int stuff = most_of(changed, group);
    if (stuff < 0)
        stuff = row_of(changed, group == STUFF_GREEN ? "grass clippings" : "straw");
    struct plan_event *event = stuff < 0 ? NULL : vary_event(plan, PLAN_ADD, pile->day);
    if (!event)
        return CHANGE_NONE;
    change->stuff = stuff;
    change->vessels = fmax(round(ADDED * pile->volume_m3 / changed->bucket_m3), LEAST_BUCKETS);
    event->add.portions = 1;
    event->add.portion[0] = portion_of(changed, stuff, change->vessels);
    event->bury_m = change->bury_m = bury_m;
    return CHANGE_CAN;
}

static enum change_bar add_browns(struct change *change, struct scenario *changed, struct plan *plan,
                                  const struct change_pile *pile)
{
    if (pile->water_share < handful_wet_share)
        return CHANGE_DRY_ENOUGH;
    if (pile->day == 0 || turned_on(plan, pile->scenario, pile->day))
        return CHANGE_SAME_DAY;
    enum change_bar bar = add(change, changed, plan, STUFF_BROWN, 0, pile);
    return bar == CHANGE_CAN ? turn(plan, PLAN_MIXED, pile) : bar;
}

/* ---- from the beginning ---- */

static enum change_bar close_lid(struct scenario *changed)
{
    int lid = bound_find("boards", BOUND_LID);
    if (bound_rows[changed->bay[changed->home].lid].open_share < 1)
        return CHANGE_HAS;
    for (int b = 0; b < changed->bays; b++)
        changed->bay[b].lid = lid;
    return CHANGE_CAN;
}

static enum change_bar chop(struct scenario *changed)
{
    bool coarser = false;
    if (changed->found.is)
        return CHANGE_FOUND;
    for (int l = 0; l < changed->layers; l++)
        for (int i = 0; i < changed->layer[l].portions; i++) {
            struct plan_portion *portion = &changed->layer[l].portion[i];
            coarser |= portion->piece_m > CHOPPED_M;
            portion->piece_m = fmin(portion->piece_m, CHOPPED_M);
        }
    return coarser ? CHANGE_CAN : CHANGE_HAS;
}

static double laid_m3(const struct scenario *scenario)
{
    double sum_m3 = 0;
    for (int l = 0; l < scenario->layers; l++)
        for (int i = 0; i < scenario->layer[l].portions; i++)
            sum_m3 += scenario->layer[l].portion[i].volume_m3.mid;
    return sum_m3;
}

bool change_grows(const struct plan *plan)
{
    for (int e = 0; e < plan->events; e++)
        if (plan->event[e].add.portions)
            return true;
    return false;
}

/* Would it take so many times what is laid in it? What comes later has no height yet, nor has what was found. */
static bool has_room(const struct scenario *scenario, const struct plan *plan, double times)
{
    const struct plan_bay *bay = &scenario->bay[scenario->home];
    return bay->shape == PLAN_BIN && !scenario->found.is && !change_grows(plan) &&
           times * laid_m3(scenario) <= bay->length_m * bay->width_m * bay->height_m;
}

static void double_it(struct change *change, struct scenario *changed, const struct plan *plan)
{
    change->higher = has_room(changed, plan, 2);
    vary_size(changed, change->higher ? 1 : 2, 2);
}

/* All faces of a pile of so much in a bin. */
static double outside_m2(double volume_m3, double length_m, double width_m)
{
    double high_m = volume_m3 / (length_m * width_m);
    return 2 * (length_m * width_m + (length_m + width_m) * high_m);
}

/* Worth it only if the higher pile has less outside: in a square bin, one lower than 0.6 of its width. */
static enum change_bar fence(struct change *change, struct scenario *changed, const struct plan *plan)
{
    struct plan_bay was = changed->bay[changed->home], *bay = &changed->bay[changed->home];
    double volume_m3 = laid_m3(changed);
    if (changed->found.is)
        return CHANGE_FOUND;
    if (change_grows(plan))
        return CHANGE_GROWS;
    if (!has_room(changed, plan, 2))
        return CHANGE_HIGH;
    vary_size(changed, 0.5, 1);
    change->length_m = bay->length_m;
    change->width_m = bay->width_m;
    return outside_m2(volume_m3, bay->length_m, bay->width_m) <
                   outside_m2(volume_m3, was.length_m, was.width_m) ? CHANGE_CAN : CHANGE_HIGH;
}

struct change change_make(struct scenario *changed, enum change_kind kind,
                          const struct change_pile *pile)
{
    struct change change = {.kind = kind, .stuff = -1, .cover = -1};
    *changed = *pile->scenario;
    struct plan *plan = &changed->plan[pile->plan];
    switch (kind) {
    case CHANGE_WATER: change.bar = pour(&change, plan, pile); break;
    case CHANGE_TURN_MIXED: change.bar = turn(plan, PLAN_MIXED, pile); break;
    case CHANGE_TURN_IN: change.bar = turn(plan, PLAN_OUTSIDE_IN, pile); break;
    case CHANGE_LOOSEN: change.bar = loosen(plan, pile); break;
    case CHANGE_COVER: change.bar = cover(&change, plan, pile); break;
    case CHANGE_GREENS: change.bar = add(&change, changed, plan, STUFF_GREEN, BURY_M, pile); break;
    case CHANGE_BROWNS: change.bar = add_browns(&change, changed, plan, pile); break;
    case CHANGE_LID: change.bar = close_lid(changed); break;
    case CHANGE_CHOPPED: change.bar = chop(changed); break;
    case CHANGE_TWICE: double_it(&change, changed, plan); break;
    case CHANGE_FENCED: change.bar = fence(&change, changed, plan); break;
    case CHANGE_KINDS: break;
    }
    return change;
}
