/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/bays.c - which bins, heaps, windrows or jars there are, and in which of them the pile
 * stands.
 *
 * The pile stands in the one bay that is neither empty nor full.
 */
#include "door/bays.h"
#include "door/bay.h"
#include <stdio.h>
#include <string.h>

static void read_alone(struct reader *reader, const struct tree_node *node, enum plan_shape shape)
{
    struct scenario *scenario = reader->scenario;
    struct plan_bay bay = bay_fresh(shape);
    int count = reader->fault.count;
    if (scenario->bays)
        return; /* two places: told by door/scenario */
    snprintf(bay.name, sizeof bay.name, "%s", bay_word(shape));
    if (node->kind == TREE_TEXT && shape == PLAN_BIN)
        bay_read_size(reader, node, &bay);
    else if (node->kind == TREE_TEXT)
        bay_read_phrase(reader, node, &bay);
    else
        keys_read(reader, node, bay_rows + 1, BAY_KEYS - 1, bay_word(shape), &bay);
    if (reader->fault.count != count || !bay_settle(reader, node, &bay))
        return;
    if (bay.now != PLAN_BAY_HERE) {
        keys_fault(reader, node, "the only bin is not free; expected `now: here`, or more `bins:`");
        return;
    }
    scenario->bay[scenario->bays++] = bay;
}

void bays_read_bin(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    read_alone(reader, node, PLAN_BIN);
}

void bays_read_heap(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    read_alone(reader, node, PLAN_HEAP);
}

void bays_read_windrow(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    read_alone(reader, node, PLAN_WINDROW);
}

void bays_read_jar(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    read_alone(reader, node, PLAN_JAR);
}

static bool begin_like(struct reader *reader, const struct tree_node *node, struct plan_bay *bay)
{
    const struct scenario *scenario = reader->scenario;
    const char *names[PLAN_BAYS];
    int index;
    for (int i = 0; i < scenario->bays; i++)
        names[i] = scenario->bay[i].name;
    if (scenario->bays == 0)
        return keys_fault(reader, node,
                          "no bin stands above this one; expected `like:` to name one "
                          "already described");
    if (!keys_choice(reader, node, names, scenario->bays, &index))
        return false;
    *bay = scenario->bay[index];
    bay->now = PLAN_BAY_HERE;
    bay->full_until = 0;
    return true;
}

static void read_one(struct reader *reader, const struct tree_node *node)
{
    struct scenario *scenario = reader->scenario;
    struct plan_bay bay = bay_fresh(PLAN_BIN);
    char name[PLAN_NAME];
    int count = reader->fault.count;
    if (scenario->bays == PLAN_BAYS) {
        keys_key_fault(reader, node, "a bin too many; expected at most %d", PLAN_BAYS);
        return;
    }
    if (!keys_key_name(reader, node, name) || !keys_map(reader, node, "a bin"))
        return;
    const struct tree_node *like = tree_find(node, "like");
    if (like && !begin_like(reader, like, &bay))
        return;
    keys_read(reader, node, bay_rows, BAY_KEYS, "a bin", &bay);
    memcpy(bay.name, name, sizeof name);
    if (reader->fault.count != count || !bay_settle(reader, node, &bay))
        return;
    scenario->bay[scenario->bays++] = bay;
}

static bool says_now(const struct tree_node *bins, const char *name)
{
    return tree_find(tree_find(bins, name), "now") != NULL;
}

/* the pile stands where `now: here` is written, else in the first bin of which nothing is said */
static void find_home(struct reader *reader, const struct tree_node *node)
{
    struct scenario *scenario = reader->scenario;
    int said = -1, silent = -1;
    for (int i = 0; i < scenario->bays; i++) {
        struct plan_bay *bay = &scenario->bay[i];
        bool here = bay->now == PLAN_BAY_HERE, says = says_now(node, bay->name);
        if (here && says && said >= 0)
            keys_fault(reader, node, "two bins are `now: here`; expected the pile in one of them");
        if (here && says)
            said = i;
        if (here && !says && silent < 0)
            silent = i;
    }
    scenario->home = said >= 0 ? said : silent;
    if (scenario->home < 0)
        keys_fault(reader, node, "every bin is empty or full; expected one with `now: here`");
    for (int i = 0; i < scenario->bays; i++)
        if (i != scenario->home && scenario->bay[i].now == PLAN_BAY_HERE) {
            scenario->bay[i].now = PLAN_BAY_EMPTY;
            keys_assume(reader, "%s stands empty", scenario->bay[i].name);
        }
}

void bays_read_bins(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    int count = reader->fault.count;
    if (reader->scenario->bays)
        return; /* two places: told by door/scenario */
    if (!keys_map(reader, node, "bins by name"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next)
        read_one(reader, one);
    if (reader->fault.count == count)
        find_home(reader, node);
}
