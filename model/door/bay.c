/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/bay.c - one place for a pile: its shape, size, walls, floor and lid.
 *
 * A heap is taken as a paraboloid (half of footprint times height), a windrow as a parabola drawn
 * out (two thirds). [derived]
 */
#include "door/bay.h"

static const double HALF_PI = 1.57079632679489661923;
static const double HEAP_STEEP =
    0.5; /* height over base when not said: sides at 45 degrees; trade */
static const char SIDE[] = "lengths of 0.2 to 50 m";

/* what is assumed of each shape when nothing is said [trade] */
static const struct {
    const char *word, *walls, *floor, *lid;
} usual[] = {
    [PLAN_BIN] = {"bin", "pallets", "soil", "none"},
    [PLAN_HEAP] = {"heap", "none", "soil", "none"},
    [PLAN_WINDROW] = {"windrow", "none", "soil", "none"},
    [PLAN_JAR] = {"jar", "plastic", "slab", "none"},
};

double bay_footprint_m2(const struct plan_bay *bay)
{
    if (bay->shape == PLAN_HEAP || bay->shape == PLAN_JAR)
        return 0.5 * HALF_PI * bay->width_m * bay->width_m;
    return bay->length_m * bay->width_m;
}

double bay_fullness(const struct plan_bay *bay)
{
    return bay->shape == PLAN_HEAP ? 0.5 : bay->shape == PLAN_WINDROW ? 2.0 / 3.0 : 1.0;
}

bool bay_is_held(const struct plan_bay *bay)
{
    return bay->shape == PLAN_JAR && bay->held_K > 0.0;
}

int bay_names(enum bound_kind kind, const char **names, int most)
{
    int count = 0;
    for (int i = 0; i < bound_count && count < most; i++)
        if (bound_rows[i].kind == kind)
            names[count++] = bound_rows[i].name;
    return count;
}

static void read_bound(struct reader *reader, const struct tree_node *node, enum bound_kind kind,
                       int *row)
{
    const char *names[40];
    struct words words;
    int index, count = bay_names(kind, names, KEYS_COUNT(names));
    char list[300];
    words_list(names, count, list, sizeof list);
    if (!keys_open(reader, &words, node, list))
        return;
    int found = bound_find(node->text, kind);
    if (found >= 0)
        *row = found;
    else if (words_choice(&words, names, count, &index))
        words_done(&words);
}

static void read_walls(struct reader *reader, const struct tree_node *node, void *into)
{
    read_bound(reader, node, BOUND_WALL, &((struct plan_bay *)into)->wall);
}

static void read_floor(struct reader *reader, const struct tree_node *node, void *into)
{
    read_bound(reader, node, BOUND_FLOOR, &((struct plan_bay *)into)->floor);
}

static void read_lid(struct reader *reader, const struct tree_node *node, void *into)
{
    read_bound(reader, node, BOUND_LID, &((struct plan_bay *)into)->lid);
}

void bay_read_size(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_bay *bay = into;
    struct words words;
    double side[3];
    if (!keys_open(reader, &words, node, "long x wide x high, such as `1.2 x 1.2 x 1 m`")
        || !words_sides(&words, 3, side) || !words_done(&words))
        return;
    for (int i = 0; i < 3; i++)
        if (!words_within(&words, side[i], 0.2, 50.0, SIDE))
            return;
    bay->length_m = side[0];
    bay->width_m = side[1];
    bay->height_m = side[2];
}

static void read_across(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_LENGTH, 0.05, 20.0, "a length of 5 cm to 20 m",
                  &((struct plan_bay *)into)->width_m);
}

static void read_high(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_LENGTH, 0.05, 5.0, "a height of 5 cm to 5 m",
                  &((struct plan_bay *)into)->height_m);
}

static void read_long(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_LENGTH, 0.2, 50.0, "a length of 20 cm to 50 m",
                  &((struct plan_bay *)into)->length_m);
}

static void read_shape(struct reader *reader, const struct tree_node *node, void *into)
{
    const char *const words[] = {"bin", "heap", "windrow", "jar"};
    int shape;
    if (keys_choice(reader, node, words, KEYS_COUNT(words), &shape))
        ((struct plan_bay *)into)->shape = (enum plan_shape)shape;
}

static void read_now(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char *const names[] = {"here", "empty", "full"};
    struct plan_bay *bay = into;
    struct words words;
    int now;
    if (!keys_open(reader, &words, node, "`here`, `empty`, `full` or `full until 2026-03-20`")
        || !words_choice(&words, names, KEYS_COUNT(names), &now))
        return;
    bay->now = (enum plan_bay_now)now;
    if (bay->now == PLAN_BAY_FULL && words_take(&words, "until")
        && !words_date(&words, &bay->full_until))
        return;
    words_done(&words);
}

static void read_held_at(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_TEMP, 253.15, 363.15, "a temperature of -20 to 90 C",
                  &((struct plan_bay *)into)->held_K);
}

static void read_held_water(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_SHARE, 0.01, 0.95, "a share of the whole mass of 1 to 95 %",
                  &((struct plan_bay *)into)->held_water_share);
}

static void read_held_oxygen(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_SHARE, 0.001, 0.5, "a share of the gas of 0.1 to 50 %",
                  &((struct plan_bay *)into)->held_oxygen_share);
}

/* copied before the other keys are read: in begin_like() */
static void read_like(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)reader, (void)node, (void)into;
}

const struct keys_row bay_rows[BAY_KEYS] = {
    {"like", read_like},
    {"shape", read_shape},
    {"size", bay_read_size},
    {"across", read_across},
    {"high", read_high},
    {"long", read_long},
    {"walls", read_walls},
    {"floor", read_floor},
    {"lid", read_lid},
    {"now", read_now},
    {"held at", read_held_at},
    {"held water", read_held_water},
    {"held oxygen", read_held_oxygen},
};

void bay_read_phrase(struct reader *reader, const struct tree_node *node, struct plan_bay *bay)
{
    static const char *const names[] = {"across|wide", "high|tall", "long"};
    double *const side[] = {&bay->width_m, &bay->height_m, &bay->length_m};
    struct words words;
    if (!keys_open(reader, &words, node, "lengths such as `1.5 m across and 1 m high`"))
        return;
    do {
        double length;
        int which;
        if (!words_quantity(&words, UNIT_LENGTH, &length)
            || !words_within(&words, length, 0.05, 50.0, "lengths of 5 cm to 50 m")
            || !words_choice(&words, names, KEYS_COUNT(names), &which))
            return;
        *side[which] = length;
    } while (words_take(&words, "and") || words_take(&words, ",|, "));
    words_done(&words);
}

static void assume_bound(struct reader *reader, const char *what, int *row, enum bound_kind kind,
                         const char *word)
{
    if (*row >= 0)
        return;
    *row = bound_find(word, kind);
    keys_assume(reader, "%s: %s", what, word);
}

static void assume_bounds(struct reader *reader, struct plan_bay *bay)
{
    enum plan_shape shape = bay->shape;
    assume_bound(reader, "walls", &bay->wall, BOUND_WALL, usual[shape].walls);
    assume_bound(reader, "floor", &bay->floor, BOUND_FLOOR, usual[shape].floor);
    assume_bound(reader, "lid", &bay->lid, BOUND_LID, usual[shape].lid);
}

static bool settle_size(struct reader *reader, const struct tree_node *node, struct plan_bay *bay)
{
    if (bay->shape == PLAN_BIN
        && !(bay->length_m > 0.0 && bay->width_m > 0.0 && bay->height_m > 0.0))
        return keys_key_fault(reader, node,
                              "this bin has no size; expected long x wide x high, "
                              "such as `size: 1.2 x 1.2 x 1 m`");
    if (bay->shape != PLAN_BIN && !(bay->width_m > 0.0))
        return keys_key_fault(reader, node, "this %s has no width; expected it as `across: 1.5 m`",
                              usual[bay->shape].word);
    if (bay->shape == PLAN_WINDROW && !(bay->length_m > 0.0))
        return keys_key_fault(reader, node,
                              "this windrow has no length; expected it as "
                              "`long: 4 m`");
    if (bay->shape == PLAN_JAR && !(bay->height_m > 0.0))
        return keys_key_fault(reader, node, "this jar has no height; expected it as `high: 25 cm`");
    if (!(bay->height_m > 0.0)) {
        bay->height_m = HEAP_STEEP * bay->width_m;
        keys_assume(reader, "at most %g m high: as steep as a heap stands", bay->height_m);
    }
    if (bay->shape == PLAN_HEAP || bay->shape == PLAN_JAR)
        bay->length_m = bay->width_m;
    return true;
}

/* What is held of a jar, if anything is: its temperature at least. */
static bool settle_held(struct reader *reader, const struct tree_node *node,
                        const struct plan_bay *bay)
{
    const struct tree_node *at = tree_find(node, "held at");
    const struct tree_node *also = tree_find(node, "held water");
    also = also ? also : tree_find(node, "held oxygen");
    const struct tree_node *any = at ? at : also;
    if (any && bay->shape != PLAN_JAR)
        return keys_key_fault(reader, any, "`%s` of a %s; expected it of a jar", any->key,
                              usual[bay->shape].word);
    if (also && !(bay->held_K > 0.0))
        return keys_key_fault(reader, also,
                              "`%s` without a temperature; expected `held at: 55 C` beside it",
                              also->key);
    if (bay_is_held(bay) && !(bay->held_water_share > 0.0))
        keys_assume(reader, "held as wet as it is laid");
    if (bay_is_held(bay) && !(bay->held_oxygen_share > 0.0))
        keys_assume(reader, "held in open air, 20.9 %% oxygen");
    return true;
}

struct plan_bay bay_fresh(enum plan_shape shape)
{
    return (struct plan_bay){.shape = shape, .wall = -1, .floor = -1, .lid = -1};
}

bool bay_settle(struct reader *reader, const struct tree_node *node, struct plan_bay *bay)
{
    if (!settle_size(reader, node, bay) || !settle_held(reader, node, bay))
        return false;
    assume_bounds(reader, bay);
    return true;
}

const char *bay_word(enum plan_shape shape)
{
    return usual[shape].word;
}
