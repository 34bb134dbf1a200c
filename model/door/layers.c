/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/layers.c - what a pile is made of: built, found standing, in stock, or added later.
 *
 * One item of a list is one layer. A repeated block is read once and copied, so that nesting can't
 * make a short file long. A standing pile is described as one layer, the parts of what is still
 * recognised; as seen it has settled already, so the volume before settling is larger.
 */
#include "door/layers.h"
#include "door/bay.h"
#include "door/ingredients.h"
#include "door/laid.h"
#include "run/possible.h"
#include <string.h>

static bool is_special(const char *key)
{
    return !strcmp(key, "water") || !strcmp(key, "squeeze") || !strcmp(key, "temperature");
}

/* A squeezed handful tells the wetness of all that was mixed: the dry matter stays, and the water
 * poured is part of what was felt. */
static void wet_as_felt(struct plan_layer *layer, int squeeze)
{
    struct span felt = laid_squeeze_share(squeeze);
    for (int i = 0; i < layer->portions; i++) {
        struct plan_portion *portion = &layer->portion[i];
        double dry = 1.0 - portion->water_share.mid, wetter = dry / (1.0 - felt.mid);
        struct span *bulk = &portion->bulk_kg_per_m3;
        *bulk = (struct span){wetter * bulk->low, wetter * bulk->mid, wetter * bulk->high};
        portion->felt = true;
        portion->wet_kg.low *= dry / (1.0 - felt.low);
        portion->wet_kg.mid *= dry / (1.0 - felt.mid);
        portion->wet_kg.high *= dry / (1.0 - felt.high);
        portion->water_share = felt;
    }
    layer->water_kg = (struct span){0};
}

static bool add_portion(struct reader *reader, const struct tree_node *node, bool parts,
                        struct plan_layer *layer, struct laid *laid)
{
    int row = ingredients_row_of_key(reader, node);
    if (layer->portions == PLAN_PORTIONS)
        return keys_key_fault(
            reader, node, "too much in one layer; expected at most %d ingredients", PLAN_PORTIONS);
    if (!laid_read(reader, node, parts, laid) || row < 0)
        return false;
    struct plan_portion *portion = &layer->portion[layer->portions++];
    portion->stuff = row;
    if (laid->by != LAID_PARTS)
        laid_portion(&reader->scenario->stuff[row], laid, portion);
    return true;
}

static bool read_pour(struct reader *reader, const struct tree_node *map, struct plan_layer *layer)
{
    struct words words;
    const struct tree_node *node = tree_find(map, "water");
    return !node
           || (keys_open(reader, &words, node, "water such as `2 buckets` or `20 L at 30 C`")
               && laid_water(&words, &layer->water_kg, &layer->pour_K) && words_done(&words));
}

bool layers_read_layer(struct reader *reader, const struct tree_node *node,
                       struct plan_layer *layer)
{
    int squeeze = -1, count = reader->fault.count;
    struct laid laid;
    *layer = (struct plan_layer){0};
    if (!keys_map(reader, node, "ingredients and amounts"))
        return false;
    for (const struct tree_node *one = node->child; one; one = one->next)
        if (!is_special(one->key))
            add_portion(reader, one, false, layer, &laid);
    read_pour(reader, node, layer);
    const struct tree_node *laid_at = tree_find(node, "temperature");
    if (laid_at)
        keys_quantity(reader, laid_at, UNIT_TEMP, 233.15, 363.15, "a temperature of -40 to 90 C",
                      &layer->laid_K);
    const struct tree_node *felt = tree_find(node, "squeeze");
    if (felt && laid_squeeze(reader, felt, &squeeze))
        wet_as_felt(layer, squeeze);
    if (reader->fault.count == count && layer->portions == 0)
        return keys_key_fault(reader, node,
                              "water alone is no layer; expected an ingredient with it");
    return reader->fault.count == count;
}

static bool read_items(struct reader *reader, const struct tree_node *list);

struct block {
    int repeat;
    const struct tree_node *layers;
};

static void read_times(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    if (keys_open(reader, &words, node, "how many times, from 1 to 96")
        && words_whole(&words, 1, PLAN_LAYERS, &((struct block *)into)->repeat))
        words_done(&words);
}

static void read_layers(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)reader;
    ((struct block *)into)->layers = node;
}

static const struct keys_row block_rows[] = {{"repeat", read_times}, {"layers", read_layers}};

static bool fault_full(struct reader *reader, const struct tree_node *node)
{
    return keys_fault(reader, node, "more layers than a pile can have; expected at most %d",
                      PLAN_LAYERS);
}

/* false when the pile is full */
static bool read_block(struct reader *reader, const struct tree_node *node)
{
    struct scenario *scenario = reader->scenario;
    struct block block = {0};
    int first = scenario->layers;
    keys_read(reader, node, block_rows, KEYS_COUNT(block_rows), "a repeat", &block);
    if (!keys_need(reader, node, "repeat", "a repeated block")
        || !keys_need(reader, node, "layers", "a repeated block"))
        return true;
    if (!keys_list(reader, block.layers, "layers"))
        return true;
    if (!read_items(reader, block.layers))
        return false;
    int size = scenario->layers - first;
    if (first + size * block.repeat > PLAN_LAYERS)
        return fault_full(reader, node);
    for (int i = size; i < size * block.repeat; i++)
        scenario->layer[first + i] = scenario->layer[first + i % size];
    scenario->layers = block.repeat ? first + size * block.repeat : scenario->layers;
    return true;
}

/* false when the pile is full, so that it is told once */
static bool read_items(struct reader *reader, const struct tree_node *list)
{
    struct scenario *scenario = reader->scenario;
    for (const struct tree_node *item = list->child; item; item = item->next) {
        bool block =
            item->kind == TREE_MAP && (tree_find(item, "repeat") || tree_find(item, "layers"));
        if (block && !read_block(reader, item))
            return false;
        if (block)
            continue;
        if (scenario->layers == PLAN_LAYERS)
            return fault_full(reader, item);
        if (layers_read_layer(reader, item, &scenario->layer[scenario->layers]))
            scenario->layers++;
    }
    return true;
}

void layers_read_build(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    if (keys_list(reader, node, "layers from the bottom up"))
        read_items(reader, node);
}

/* Stock: no layer comes of it before somebody asks what it would make. */
void layers_read_have(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    struct scenario *scenario = reader->scenario;
    struct plan_layer stock = {0};
    struct laid laid;
    if (!keys_map(reader, node, "ingredients in stock with their amounts"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next) {
        stock.portions = 0;
        if (scenario->haves == PLAN_STUFF) {
            keys_key_fault(reader, one, "too much in stock; expected at most %d ingredients",
                           PLAN_STUFF);
            return;
        }
        if (add_portion(reader, one, false, &stock, &laid))
            scenario->have[scenario->haves++] = stock.portion[0];
    }
}

static void read_height(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_span(reader, node, UNIT_LENGTH, 0.05, 4.0, "a height of 5 cm to 4 m",
              &((struct plan_found *)into)->height_m);
}

static void read_squeeze(struct reader *reader, const struct tree_node *node, void *into)
{
    laid_squeeze(reader, node, &((struct plan_found *)into)->squeeze);
}

static void read_middle(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_span(reader, node, UNIT_TEMP, 233.15, 363.15, "a temperature of -40 to 90 C",
              &((struct plan_found *)into)->middle_K);
}

static void read_hand(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_span(reader, node, UNIT_TEMP, 233.15, 363.15, "a temperature of -40 to 90 C",
              &((struct plan_found *)into)->hand_deep_K);
}

/* `40 to 60 days ago`, or a date */
static void read_built(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_found *found = into;
    struct words words;
    struct span ago;
    date_count date;
    if (!keys_open(reader, &words, node, "`40 to 60 days ago`, or a date"))
        return;
    words_take(&words, "about");
    if (strchr(words.at, '-')) {
        if (!words_date(&words, &date) || !words_done(&words))
            return;
        ago.mid = 86400.0 * (double)(reader->scenario->start - date);
    } else if (!words_span(&words, UNIT_TIME, &ago) || !words_need(&words, "ago")
               || !words_done(&words)) {
        return;
    }
    if (words_within(&words, ago.mid, 0.0, 86400.0 * 3650.0,
                     "a time before `start`, at most 10 years"))
        found->built_days_ago = ago.mid / 86400.0;
}

static void read_of(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)reader, (void)node, (void)into; /* read once the height is known */
}

static const struct keys_row found_rows[] = {
    {"height", read_height},  {"squeeze", read_squeeze}, {"middle", read_middle},
    {"hand deep", read_hand}, {"built", read_built},     {"of", read_of},
};

/* what is recognised of a standing pile: all in parts by volume, or all in amounts */
static bool read_contents(struct reader *reader, const struct tree_node *of,
                          struct plan_layer *layer, struct laid laid[PLAN_PORTIONS])
{
    int parts = 0, count = reader->fault.count;
    if (!keys_map(reader, of, "ingredients with their parts by volume"))
        return false;
    for (const struct tree_node *one = of->child; one; one = one->next) {
        struct laid amount = {0};
        if (!add_portion(reader, one, true, layer, &amount))
            continue;
        laid[layer->portions - 1] = amount;
        parts += amount.by == LAID_PARTS;
    }
    if (parts && parts != layer->portions)
        return keys_fault(reader, of, "parts and amounts together; expected all of one kind");
    return reader->fault.count == count;
}

static void share_out(struct scenario *scenario, struct plan_layer *layer,
                      struct laid laid[PLAN_PORTIONS])
{
    const struct plan_bay *bay = &scenario->bay[scenario->home];
    const struct span *height = &scenario->found.height_m;
    double seen_m2 = bay_footprint_m2(bay) * bay_fullness(bay), total = 0.0, parts[PLAN_PORTIONS];
    for (int i = 0; i < layer->portions; i++)
        total += parts[i] = laid[i].amount.mid;
    for (int i = 0; i < layer->portions && laid[i].by == LAID_PARTS; i++) {
        struct plan_portion *portion = &layer->portion[i];
        const struct stuff *stuff = &scenario->stuff[portion->stuff];
        laid[i].by = LAID_VOLUME;
        laid[i].amount = (struct span){1.0, 1.0, 1.0}; /* for its density */
        double part = seen_m2 * parts[i] / total;
        laid_portion(stuff, &laid[i], portion);
        double dry = portion->wet_kg.mid * (1.0 - portion->water_share.mid) / portion->volume_m3.mid;
        double base_m2 = part / possible_settled(stuff, dry);
        laid[i].amount =
            (struct span){base_m2 * height->low, base_m2 * height->mid, base_m2 * height->high};
        laid_portion(stuff, &laid[i], portion);
    }
}

void layers_read_found(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    struct scenario *scenario = reader->scenario;
    struct plan_found *found = &scenario->found;
    struct plan_layer *layer = &scenario->layer[0];
    struct laid laid[PLAN_PORTIONS] = {0};
    int count = reader->fault.count;
    *found = (struct plan_found){.is = true, .squeeze = -1};
    if (scenario->layers
        || !keys_read(reader, node, found_rows, KEYS_COUNT(found_rows), "a pile found", found))
        return; /* built and found at once: told by door/scenario */
    const struct tree_node *of = keys_need(reader, node, "of", "a pile found");
    keys_need(reader, node, "height", "a pile found");
    if (!tree_find(node, "built"))
        keys_assume(reader, "found: built that day, nothing used up yet (else `built: 45 days ago`)");
    if (!tree_find(node, "middle") && !tree_find(node, "hand deep"))
        keys_assume(reader, "found: the middle 5 C warmer than the air (else `middle: 40 C`)");
    *layer = (struct plan_layer){0};
    if (!of || !read_contents(reader, of, layer, laid) || reader->fault.count != count
        || scenario->bays == 0)
        return;
    share_out(scenario, layer, laid);
    if (found->squeeze >= 0)
        wet_as_felt(layer, found->squeeze);
    scenario->layers = 1;
}

bool layers_make_sheet(struct reader *reader, const char *ingredient, double volume_m3,
                       struct plan_layer *layer)
{
    int row = ingredients_row(reader, ingredient);
    struct laid laid = {.amount = {volume_m3, volume_m3, volume_m3}, .by = LAID_VOLUME};
    if (row < 0)
        return false;
    *layer = (struct plan_layer){.portions = 1, .portion = {{.stuff = row}}};
    laid_portion(&reader->scenario->stuff[row], &laid, &layer->portion[0]);
    return true;
}
