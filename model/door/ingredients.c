/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/ingredients.c - the keeper's own ingredients, and which ingredient a name means.
 *
 * An own ingredient begins as a copy of a row of the table (`like:`, or the row of its own name)
 * and changes what the keeper knows better. What follows from a changed figure is worked out again:
 * the free air from density and water, the ash from carbon.
 */
#include "door/ingredients.h"
#include "base/near.h"
#include "door/laid.h"
#include <stdio.h>
#include <string.h>

static const char SEE[] = "an ingredient of `midden list ingredients` or one of `ingredients:`";

static bool room(struct reader *reader, const struct tree_node *node)
{
    return reader->scenario->stuffs < PLAN_STUFF
           || keys_key_fault(reader, node, "a %dth ingredient; expected at most %d in one scenario",
                             PLAN_STUFF + 1, PLAN_STUFF);
}

/* row already in the scenario, by the name given or as a row of the table; -1 if it is not there */
static int row_here(const struct scenario *scenario, const char *name, const struct stuff *table)
{
    for (int i = 0; i < scenario->stuffs; i++)
        if (!strcmp(scenario->stuff[i].name, name))
            return i;
    for (int i = 0; table && i < scenario->stuffs; i++)
        if (!strcmp(scenario->stuff[i].id, table->id))
            return i;
    return -1;
}

/* Keeps a word that isn't the ingredient's name, so that check can say what it was taken for. */
static void keep_word(struct scenario *scenario, const char *word, int row)
{
    bool kept = stuff_called(scenario->stuff[row].name, word) || scenario->takens == PLAN_STUFF;
    for (int i = 0; i < scenario->takens && !kept; i++)
        kept = stuff_called(scenario->taken[i].word, word);
    if (kept)
        return;
    struct plan_taken *taken = &scenario->taken[scenario->takens++];
    snprintf(taken->word, sizeof taken->word, "%s", word);
    taken->stuff = row;
}

int ingredients_row(struct reader *reader, const char *name)
{
    struct scenario *scenario = reader->scenario;
    const struct stuff *table = stuff_find(name);
    int row = row_here(scenario, name, table);
    if (row < 0 && table && scenario->stuffs < PLAN_STUFF) {
        row = scenario->stuffs++;
        scenario->stuff[row] = *table;
    }
    if (row >= 0)
        keep_word(scenario, name, row);
    return row;
}

static const char *nearest(const struct scenario *scenario, const char *name)
{
    const char *own[PLAN_STUFF];
    for (int i = 0; i < scenario->stuffs; i++)
        own[i] = scenario->stuff[i].name;
    const char *near = near_name(name, own, scenario->stuffs);
    return near ? near : stuff_nearest(name);
}

static void fault_unknown(struct reader *reader, const struct tree_node *node, bool at_key,
                          const char *name)
{
    char quote[FAULT_QUOTE];
    const char *near = nearest(reader->scenario, name);
    const char *join = near ? "; did you mean `" : "", *end = near ? "`?" : "";
    fault_quote(name, quote);
    if (at_key && !near)
        keys_key_fault(reader, node, "`%s` is not an ingredient known here; expected %s: there you can write "
                       "`%s: {like: kitchen scraps}`, with what it resembles", quote, SEE, quote);
    else if (at_key)
        keys_key_fault(reader, node, "`%s` is not an ingredient known here; expected %s%s%s%s",
                       quote, SEE, join, near, end);
    else
        keys_fault(reader, node, "`%s` is not an ingredient known here; expected %s%s%s%s", quote,
                   SEE, join, near ? near : "", end);
}

int ingredients_row_of_key(struct reader *reader, const struct tree_node *node)
{
    int row = ingredients_row(reader, node->key);
    if (row < 0 && (!stuff_find(node->key) || room(reader, node)))
        fault_unknown(reader, node, true, node->key);
    return row;
}

static void read_weighs(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    struct words words;
    struct span mass;
    struct unit unit;
    if (!keys_open(reader, &words, node, "a mass in a vessel, such as `5 kg a bucket`")
        || !words_span(&words, UNIT_MASS, &mass) || !words_need(&words, "a|an|per|each")
        || !words_unit(&words, 1u << UNIT_VOLUME, &unit) || !words_done(&words))
        return;
    struct span bulk = {mass.low / unit.factor, mass.mid / unit.factor, mass.high / unit.factor};
    if (!words_within(&words, bulk.low, 2.0, 3000.0, "something of 2 to 3000 kg/m3")
        || !words_within(&words, bulk.high, 2.0, 3000.0, "something of 2 to 3000 kg/m3"))
        return;
    stuff->bulk_kg_per_m3 = bulk;
    stuff->bulk_mark = STUFF_GIVEN;
}

static void read_bulk(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    if (keys_span(reader, node, UNIT_DENSITY, 2.0, 3000.0, "a density of 2 to 3000 kg/m3",
                  &stuff->bulk_kg_per_m3))
        stuff->bulk_mark = STUFF_GIVEN;
}

static void read_water(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    if (keys_span(reader, node, UNIT_SHARE, 0.01, 0.95, "a share of the whole mass of 1 to 95 %",
                  &stuff->water_share))
        stuff->water_mark = STUFF_GIVEN;
}

static void read_nitrogen(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    if (keys_span(reader, node, UNIT_SHARE, 1e-4, 0.2, "a share of the dry mass of 0.01 to 20 %",
                  &stuff->nitrogen_share))
        stuff->nitrogen_mark = STUFF_GIVEN;
}

static void read_carbon(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    keys_quantity(reader, node, UNIT_SHARE, 0.01, 0.95, "a share of the dry mass of 1 to 95 %",
                  &stuff->carbon_share);
}

static void read_ash(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    if (keys_quantity(reader, node, UNIT_SHARE, 0.0, 0.99, "a share of the dry mass of 0 to 99 %",
                      &stuff->ash_share))
        stuff->ash_mark = STUFF_GIVEN;
}

static void read_piece(struct reader *reader, const struct tree_node *node, void *into)
{
    struct stuff *stuff = into;
    if (keys_quantity(reader, node, UNIT_LENGTH, 1e-4, 0.5, "a length of 0.1 mm to 50 cm",
                      &stuff->piece_m))
        stuff->size_mark = STUFF_GIVEN;
}

static void read_seeds(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char *const words[] = {"none", "some", "many"};
    struct stuff *stuff = into;
    keys_choice(reader, node, words, KEYS_COUNT(words), &stuff->weed_seeds);
}

static void read_like(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)reader, (void)node, (void)into; /* read before all others, in begin() */
}

static const struct keys_row rows[] = {
    {"like", read_like},   {"weighs", read_weighs},     {"bulk", read_bulk},
    {"water", read_water}, {"nitrogen", read_nitrogen}, {"carbon", read_carbon},
    {"ash", read_ash},     {"piece", read_piece},       {"seeds", read_seeds},
};

/* a key for programs: letters and digits, the rest joined by underscores */
static void make_id(const char *name, char *id, size_t size)
{
    size_t used = 0;
    for (; *name && used + 1 < size; name++) {
        bool capital = *name >= 'A' && *name <= 'Z';
        bool plain = (*name >= 'a' && *name <= 'z') || (*name >= '0' && *name <= '9');
        if (capital)
            id[used++] = (char)(*name - 'A' + 'a');
        else if (plain)
            id[used++] = *name;
        else if (used > 0 && id[used - 1] != '_')
            id[used++] = '_';
    }
    id[used] = '\0';
}

/* the row an own ingredient begins as; false with a mistake when there is none */
static bool begin(struct reader *reader, const struct tree_node *node, struct stuff *stuff)
{
    const struct tree_node *like = tree_find(node, "like");
    const struct stuff *named = stuff_find(node->key);
    const struct stuff *table = named;
    char name[PLAN_NAME];
    if (like && !keys_name(reader, like, name))
        return false;
    if (like && !(table = stuff_find(name)))
        return fault_unknown(reader, like, false, name), false;
    if (!table)
        return keys_key_fault(reader, node,
                              "`%s` is not in the table; expected `like:` with the "
                              "ingredient it resembles",
                              node->key);
    *stuff = *table;
    stuff->like_dry_kg_per_m3 = table->bulk_kg_per_m3.mid * (1.0 - table->water_share.mid);
    if (!keys_key_name(reader, node, stuff->name))
        return false;
    if (named)
        memcpy(stuff->id, named->id, sizeof stuff->id); /* other names of that row mean this too */
    else
        make_id(node->key, stuff->id, sizeof stuff->id);
    return true;
}

/* What isn't organic matter, given the carbon: by the carbon of each pool (run/lay). */
static double ash_of_carbon(const struct stuff *stuff)
{
    double carbon = 0.42 * stuff->fast_share + 0.53 * stuff->protein_fat_share +
                    0.45 * stuff->slow_share + 0.62 * stuff->lignin_share;
    double ash = 1.0 - stuff->carbon_share / carbon;
    return ash > 0.0 ? ash : 0.0;
}

static void read_one(struct reader *reader, const struct tree_node *node)
{
    struct scenario *scenario = reader->scenario;
    struct stuff *stuff = &scenario->stuff[scenario->stuffs];
    if (!keys_map(reader, node, "what differs from the table") || !room(reader, node)
        || !begin(reader, node, stuff))
        return;
    keys_read(reader, node, rows, KEYS_COUNT(rows), "an ingredient", stuff);
    if (stuff->bulk_kg_per_m3.mid > laid_solid(stuff, stuff->water_share.mid))
        keys_key_fault(reader, node,
                       "`%s` would weigh more than it can without any air in it; "
                       "expected a smaller mass or another `water:`",
                       stuff->name);
    if (tree_find(node, "carbon") && !tree_find(node, "ash"))
        stuff->ash_share = ash_of_carbon(stuff);
    if (stuff->bulk_mark == STUFF_GIVEN || stuff->water_mark == STUFF_GIVEN)
        stuff->free_air_share = laid_free_air(stuff);
    scenario->stuffs++;
}

void ingredients_read(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    if (!keys_map(reader, node, "names of ingredients"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next)
        read_one(reader, one);
}
