/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/notes.c - what was read at the pile: `readings:`. Readings are checked and counted; the
 * last day and the thermometer are kept, since rules look through it.
 */
#include "door/notes.h"
#include "door/laid.h"
#include "run/thermometer.h"

static const double ICE_POINT_K = 273.15;

/* one row, only to be checked */
struct note {
    date_count day;
    struct span value;
    int word;
};

static void read_temperature(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_span(reader, node, UNIT_TEMP, 213.15, 373.15, "a temperature of -60 to 100 C",
              &((struct note *)into)->value);
}

static void read_day(struct reader *reader, const struct tree_node *node, void *into)
{
    struct note *note = into;
    if (keys_date(reader, node, &note->day) && reader->start_known
        && note->day < reader->scenario->start)
        keys_fault(reader, node, "this day is before the start; expected `start` or later");
}

static void read_hour(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    if (keys_open(reader, &words, node, "the hour of the day, 0 to 23")
        && words_whole(&words, 0, 23, &((struct note *)into)->word)) {
        words_take(&words, "h");
        words_done(&words);
    }
}

static void read_squeeze(struct reader *reader, const struct tree_node *node, void *into)
{
    laid_squeeze(reader, node, &((struct note *)into)->word);
}

static void read_height(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_span(reader, node, UNIT_LENGTH, 0.02, 5.0, "a height of 2 cm to 5 m",
              &((struct note *)into)->value);
}

static void read_remark(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    (void)into;
    keys_open(reader, &words, node, "a few words");
}

static const struct keys_row note_rows[] = {
    {"day", read_day},
    {"hour", read_hour},
    {"middle", read_temperature},
    {"30 cm in", read_temperature},
    {"hand deep", read_temperature},
    {"air", read_temperature},
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
        struct note note = {0};
        if (!keys_read(reader, one, note_rows, KEYS_COUNT(note_rows), "a reading", &note)
            || !keys_need(reader, one, "day", "a reading"))
            continue;
        if (one->children == 1)
            keys_fault(reader, one, "a day and no reading; expected `middle: 58 C` or another");
        reader->scenario->readings++;
        if (note.day > reader->scenario->last_reading)
            reader->scenario->last_reading = note.day;
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
    {"thermometer", read_thermometer}, {"log", read_remark}, {"also", read_also}};

void notes_read(struct reader *reader, const struct tree_node *node, void *unused)
{
    if (node->kind == TREE_LIST)
        read_also(reader, node, unused);
    else
        keys_read(reader, node, rows, KEYS_COUNT(rows), "the readings", NULL);
}
