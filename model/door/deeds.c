/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/deeds.c - what is done to a pile and when: `plans:`.
 *
 * One item of a plan is one visit and may hold several deeds: what lies on top is taken off first,
 * then the pile is turned, loosened, fed, watered and covered, in this order. Water and picking out
 * belong to the turn when there is one.
 */
#include "door/deeds.h"
#include "door/bay.h"
#include "door/covers.h"
#include "door/laid.h"
#include "door/layers.h"
#include "door/timing.h"
#include <string.h>

enum { COMPARED_DAY = 28 }; /* of the turn to compare with: four weeks [trade] */

static const char *const ways[] = {"layer by layer", "mixed", "outside in", "out and back"};

/* one item of a plan; the event holds what all its deeds share, and then each deed's own */
struct visit {
    struct plan_event event; /* first: the rows of door/timing read into it */
    struct plan_layer food, sheet;
    double pour_K;
    bool turns, picks, loosens, adds, waters, covers, uncovers;
    int taken_off; /* row of the cover to take off, -1 = all */
};

static void read_turn(struct reader *reader, const struct tree_node *node, void *into)
{
    struct visit *visit = into;
    int way;
    visit->turns = true;
    if (keys_choice(reader, node, ways, KEYS_COUNT(ways), &way))
        visit->event.way = (enum plan_way)way;
}

static void read_into(struct reader *reader, const struct tree_node *node, void *into)
{
    const struct scenario *scenario = reader->scenario;
    const char *names[PLAN_BAYS + 2] = {"next", "same|the same"};
    int index, bays = scenario->bays;
    if (bays == 0)
        return; /* told where the bins are read */
    for (int i = 0; i < bays; i++)
        names[2 + i] = scenario->bay[i].name;
    if (!keys_choice(reader, node, names, 2 + bays, &index))
        return;
    ((struct visit *)into)->event.into = index == 0   ? PLAN_NEXT_BAY
                                         : index == 1 ? PLAN_SAME_BAY
                                                      : index - 2;
}

static void read_keep(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_LENGTH, 0.005, 0.5, "a thickness of 5 mm to 50 cm",
                  &((struct visit *)into)->event.keep_top_m);
}

static void read_water(struct reader *reader, const struct tree_node *node, void *into)
{
    struct visit *visit = into;
    struct words words;
    visit->waters = true;
    if (!keys_open(reader, &words, node, "water such as `6 buckets`, or `until it drips`"))
        return;
    if (words_take(&words, "until it drips"))
        visit->event.until_it_drips = true;
    else if (!laid_water(&words, &visit->event.water_kg, &visit->pour_K))
        return;
    words_done(&words);
}

static void read_pick(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char *const names[] = {"sticks|stalks|sticks and stalks"};
    int index;
    ((struct visit *)into)->picks = true;
    keys_choice(reader, node, names, KEYS_COUNT(names), &index);
}

static void read_add(struct reader *reader, const struct tree_node *node, void *into)
{
    struct visit *visit = into;
    visit->adds = true;
    layers_read_layer(reader, node, &visit->food);
}

static void read_bury(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_LENGTH, 0.01, 1.0, "a depth of 1 cm to 1 m",
                  &((struct visit *)into)->event.bury_m);
}

static void read_loosen(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char *const names[] = {"all over|all|with a fork|with a bar"};
    int index;
    ((struct visit *)into)->loosens = true;
    keys_choice(reader, node, names, KEYS_COUNT(names), &index);
}

static void read_cover(struct reader *reader, const struct tree_node *node, void *into)
{
    struct visit *visit = into;
    visit->covers = true;
    covers_read(reader, node, &visit->event, &visit->sheet);
}

static void read_uncover(struct reader *reader, const struct tree_node *node, void *into)
{
    struct visit *visit = into;
    const char *names[41] = {"all"};
    int index, count = 1 + bay_names(BOUND_COVER, names + 1, KEYS_COUNT(names) - 1);
    visit->uncovers = true;
    visit->taken_off = node->kind == TREE_TEXT ? bound_find(node->text, BOUND_COVER) : -1;
    if (visit->taken_off < 0)
        keys_choice(reader, node, names, count, &index);
}

static const struct keys_row deed_rows[] = {
    {"turn", read_turn},     {"into", read_into},       {"keep for the top", read_keep},
    {"water", read_water},   {"pick out", read_pick},   {"add", read_add},
    {"bury", read_bury},     {"loosen", read_loosen},   {"cover", read_cover},
    {"blanket", read_cover}, {"uncover", read_uncover},
};

enum { DEED_KEYS = sizeof deed_rows / sizeof deed_rows[0] };

static bool only_with(struct reader *reader, const struct tree_node *map, const char *key,
                      const char *other)
{
    const struct tree_node *node = tree_find(map, key);
    return !node || tree_find(map, other)
           || keys_key_fault(reader, node, "`%s` without `%s`; expected them together", key, other);
}

static bool settle(struct reader *reader, const struct tree_node *map, struct visit *visit)
{
    bool deed = visit->turns || visit->picks || visit->loosens || visit->adds || visit->waters
                || visit->covers || visit->uncovers;
    const struct tree_node *blanket = tree_find(map, "blanket");
    bool good = timing_settle(reader, map, &visit->event);
    good = only_with(reader, map, "into", "turn") && good;
    good = only_with(reader, map, "keep for the top", "turn") && good;
    good = only_with(reader, map, "bury", "add") && good;
    if (blanket && tree_find(map, "cover"))
        good = keys_key_fault(reader, blanket, "`blanket` and `cover` are the same; expected one");
    if (!deed)
        good = keys_key_fault(reader, map,
                              "nothing is done; expected `turn`, `water`, `add`, "
                              "`cover`, `uncover`, `loosen` or `pick out`");
    return good;
}

/* a further event of a plan for one deed of a visit; what belongs to other deeds stays empty */
static struct plan_event *emit(struct plan *plan, const struct visit *visit, enum plan_deed deed)
{
    struct plan_event *event = &plan->event[plan->events++];
    *event = visit->event;
    event->deed = deed;
    bool turn = deed == PLAN_TURN, water = deed == PLAN_WATER || turn, cover = deed == PLAN_COVER;
    if (!turn) {
        event->into = PLAN_SAME_BAY;
        event->keep_top_m = 0.0;
    }
    if (!water) {
        event->water_kg = (struct span){0};
        event->until_it_drips = false;
    }
    if (!cover) {
        event->cover = deed == PLAN_UNCOVER ? visit->taken_off : -1;
        event->cover_m = 0.0;
    }
    if (deed != PLAN_ADD)
        event->bury_m = 0.0;
    event->pick_sticks = visit->picks && (turn || deed == PLAN_PICK);
    event->add = (struct plan_layer){.pour_K = water ? visit->pour_K : 0.0};
    return event;
}

static void emit_all(struct plan *plan, const struct visit *visit)
{
    if (visit->uncovers)
        emit(plan, visit, PLAN_UNCOVER);
    if (visit->turns)
        emit(plan, visit, PLAN_TURN);
    if (visit->picks && !visit->turns)
        emit(plan, visit, PLAN_PICK);
    if (visit->loosens)
        emit(plan, visit, PLAN_LOOSEN);
    if (visit->adds)
        emit(plan, visit, PLAN_ADD)->add = visit->food;
    if (visit->waters && !visit->turns)
        emit(plan, visit, PLAN_WATER);
    if (visit->covers)
        emit(plan, visit, PLAN_COVER)->add = visit->sheet;
}

static int deeds_in(const struct visit *visit)
{
    return visit->uncovers + visit->turns + (visit->picks && !visit->turns) + visit->loosens
           + visit->adds + (visit->waters && !visit->turns) + visit->covers;
}

static struct visit fresh_visit(const struct reader *reader)
{
    double span = reader->scenario->start_span_days;
    struct plan_event event = {.day = 1 + (int)span,
                               .until = TIMING_END,
                               .rule_squeeze = -1,
                               .into = PLAN_SAME_BAY,
                               .cover = -1};
    return (struct visit){.event = event, .taken_off = -1};
}

/* Does the pile stand in a jar that is held? Nobody comes to that. */
static bool is_shut(const struct reader *reader)
{
    const struct scenario *scenario = reader->scenario;
    return scenario->bays && scenario->home >= 0 && bay_is_held(&scenario->bay[scenario->home]);
}

static void read_visit(struct reader *reader, const struct tree_node *node, struct plan *plan)
{
    struct keys_row rows[TIMING_KEYS + DEED_KEYS];
    struct visit visit = fresh_visit(reader);
    int count = reader->fault.count;
    if (is_shut(reader)) {
        keys_fault(reader, node,
                   "a visit to a jar that is held; expected `[]`, a plan without any");
        return;
    }
    memcpy(rows, timing_rows, sizeof timing_rows);
    memcpy(rows + TIMING_KEYS, deed_rows, sizeof deed_rows);
    if (!keys_read(reader, node, rows, KEYS_COUNT(rows), "an event", &visit)
        || reader->fault.count != count || !settle(reader, node, &visit))
        return;
    if (plan->events + deeds_in(&visit) > PLAN_EVENTS)
        keys_fault(reader, node, "too much in one plan; expected at most %d deeds", PLAN_EVENTS);
    else
        emit_all(plan, &visit);
}

static void read_plan(struct reader *reader, const struct tree_node *node)
{
    struct scenario *scenario = reader->scenario;
    if (scenario->plans == PLAN_PLANS) {
        keys_key_fault(reader, node, "a plan too many; expected at most %d", PLAN_PLANS);
        return;
    }
    struct plan *plan = &scenario->plan[scenario->plans];
    *plan = (struct plan){0};
    if (!keys_key_name(reader, node, plan->name))
        return;
    if (node->kind != TREE_LIST) {
        keys_fault(reader, node,
                   "a plan is a list of events; expected `- {day: 2026-02-28, "
                   "turn: mixed}` a line, or `[]` for none");
        return;
    }
    scenario->plans++;
    for (const struct tree_node *item = node->child; item; item = item->next)
        read_visit(reader, item, plan);
}

void deeds_read(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    if (!keys_map(reader, node, "plans by name"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next)
        read_plan(reader, one);
}

void deeds_assume(struct reader *reader)
{
    struct scenario *scenario = reader->scenario;
    struct visit visit = fresh_visit(reader);
    visit.event.day = COMPARED_DAY - 1; /* day 1 is the start date, which is 0 here */
    visit.event.way = PLAN_MIXED;
    scenario->plan[0] = (struct plan){.name = "leave it"};
    scenario->plan[1] = (struct plan){.name = "one turn"};
    if (is_shut(reader)) {
        scenario->plans = 1;
        return;
    }
    emit(&scenario->plan[1], &visit, PLAN_TURN);
    scenario->plans = 2;
    keys_assume(reader, "plans: leave it, and for comparison one turn (mixed) on day %d",
                COMPARED_DAY);
}
