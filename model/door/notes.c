/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/notes.c - what was read at the pile: `readings:`. */
#include "door/notes.h"
#include "door/laid.h"
#include "door/noted.h"
#include "run/thermometer.h"

static const double ICE_POINT_K = 273.15;

static bool read_temperature(struct reader *reader, const struct tree_node *node,
                             struct span *temp_K)
{
    return keys_span(reader, node, UNIT_TEMP, 213.15, 373.15, "a temperature of -60 to 100 C",
                     temp_K);
}

static void read_middle(struct reader *reader, const struct tree_node *node, void *into)
{
    read_temperature(reader, node, &((struct noted *)into)->middle_K);
}

static void read_air(struct reader *reader, const struct tree_node *node, void *into)
{
    read_temperature(reader, node, &((struct noted *)into)->air_K);
}

static void read_30cm(struct reader *reader, const struct tree_node *node, void *into)
{
    struct span temp_K;
    if (read_temperature(reader, node, &temp_K))
        noted_inside(into, 0.30, temp_K);
}

static void read_hand(struct reader *reader, const struct tree_node *node, void *into)
{
    struct span temp_K;
    if (read_temperature(reader, node, &temp_K))
        noted_inside(into, 0.10, temp_K);
}

/* `inside: {20 cm: 47 C, 45 cm: 60 C}`: how far in from the nearest side */
static void read_inside(struct reader *reader, const struct tree_node *node, void *into)
{
    struct noted *noted = into;
    if (!keys_map(reader, node, "depths and what was read there"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next) {
        struct tree_node key = {.kind = TREE_TEXT, .text = one->key, .line = one->key_line,
                                .column = one->key_column};
        double depth_m;
        struct span temp_K;
        if (!keys_quantity(reader, &key, UNIT_LENGTH, 0.01, 3.0,
                           "how far in from the nearest side, 1 cm to 3 m", &depth_m)
            || !read_temperature(reader, one, &temp_K))
            continue;
        if (noted->insides == NOTED_INSIDE)
            keys_key_fault(reader, one, "more than %d depths in one reading; expected fewer",
                           (int)NOTED_INSIDE);
        noted_inside(noted, depth_m, temp_K);
    }
}

static void read_day(struct reader *reader, const struct tree_node *node, void *into)
{
    struct noted *noted = into;
    if (keys_date(reader, node, &noted->day) && reader->start_known
        && noted->day < reader->scenario->start)
        keys_fault(reader, node, "this day is before the start; expected `start` or later");
}

static void read_hour(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    if (keys_open(reader, &words, node, "the hour of the day, 0 to 23")
        && words_whole(&words, 0, 23, &((struct noted *)into)->hour)) {
        words_take(&words, "h");
        words_done(&words);
    }
}

static void read_squeeze(struct reader *reader, const struct tree_node *node, void *into)
{
    laid_squeeze(reader, node, &((struct noted *)into)->squeeze);
}

static void read_height(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_span(reader, node, UNIT_LENGTH, 0.02, 5.0, "a height of 2 cm to 5 m",
              &((struct noted *)into)->height_m);
}

static void read_remark(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    (void)into;
    keys_open(reader, &words, node, "a few words");
}

/* a path as it can be opened; the file itself is read later, by door/log */
static void read_log(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    keys_path(reader, node, "the name of a CSV file with readings", reader->scenario->log_file,
              sizeof reader->scenario->log_file);
}

static const struct keys_row note_rows[] = {
    {"day", read_day},
    {"hour", read_hour},
    {"middle", read_middle},
    {"30 cm in", read_30cm},
    {"hand deep", read_hand},
    {"inside", read_inside},
    {"air", read_air},
    {"squeeze", read_squeeze},
    {"height", read_height},
    {"we did", read_remark},
};

static void read_also(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    if (!keys_list(reader, node, "readings"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next) {
        struct noted noted = noted_none();
        if (!keys_read(reader, one, note_rows, KEYS_COUNT(note_rows), "a reading", &noted)
            || !keys_need(reader, one, "day", "a reading"))
            continue;
        if (one->children == 1)
            keys_fault(reader, one, "a day and no reading; expected `middle: 58 C` or another");
        if (!noted_keep(&noted, reader->scenario))
            keys_fault(reader, one, "more than %d readings; expected fewer", (int)PLAN_READINGS);
    }
}

static void read_kind(struct reader *reader, const struct tree_node *node, void *into)
{
    int kind;
    if (keys_choice(reader, node, thermometer_kinds, THERMOMETER_KINDS, &kind))
        ((struct plan_thermometer *)into)->kind = (enum plan_kind)kind;
}

static void read_ice(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_thermometer *thermometer = into;
    double temp_K;
    thermometer->in_ice = keys_quantity(reader, node, UNIT_TEMP, 258.15, 288.15,
                                        "what it shows, within 15 C of 0 C", &temp_K);
    if (thermometer->in_ice)
        thermometer->ice_K = temp_K - ICE_POINT_K;
}

static const struct keys_row thermometer_rows[] = {{"kind", read_kind}, {"in ice water", read_ice}};

static void read_thermometer(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    struct plan_thermometer *thermometer = &reader->scenario->thermometer;
    thermometer->said = true;
    keys_read(reader, node, thermometer_rows, KEYS_COUNT(thermometer_rows), "a thermometer",
              thermometer);
}

static const struct keys_row rows[] = {
    {"thermometer", read_thermometer}, {"log", read_log}, {"also", read_also}};

void notes_read(struct reader *reader, const struct tree_node *node, void *unused)
{
    if (node->kind == TREE_LIST)
        read_also(reader, node, unused);
    else
        keys_read(reader, node, rows, KEYS_COUNT(rows), "the readings", NULL);
}
