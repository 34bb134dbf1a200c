/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/people.c - what the compost is for and who works: `need:`, `people:`. People are counts. */
#include "door/people.h"
#include "base/unit.h"

enum { SATURDAY = 5, AWAY_MOST = sizeof((struct plan_people){0}.away) / sizeof(date_count) };

static const double USUAL_CHANCE = 0.8, USUAL_VISIT_S = 5400.0, USUAL_LOAD_KG = 15.0; /* trade */
static const char *const uses[] = {"mulch", "beds", "pots"};
enum { USE_BEDS = 1 };

static bool after_start(struct reader *reader, const struct tree_node *node, date_count date)
{
    return !reader->start_known || date > reader->scenario->start
           || keys_fault(reader, node, "this day is not after the start; expected a later one");
}

static void read_by(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_need *need = into;
    if (keys_date(reader, node, &need->by))
        after_start(reader, node, need->by);
}

static void read_use(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_choice(reader, node, uses, KEYS_COUNT(uses), &((struct plan_need *)into)->what);
}

/* `8 in 10` */
static void read_chance(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    int good = 0, all = 0;
    if (!keys_open(reader, &words, node, "a chance such as `8 in 10`")
        || !words_whole(&words, 1, 100, &good) || !words_need(&words, "in")
        || !words_whole(&words, 2, 100, &all) || !words_done(&words))
        return;
    if (good >= all)
        words_fault(&words, "%d in %d is certain, which no pile is", good, all);
    else
        ((struct plan_need *)into)->chance = (double)good / all;
}

/* `4 of 1.2 x 3 m at 2.5 cm`, or `14 m2 at 1 in` */
static void read_beds(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_need *need = into;
    struct words words, start;
    double number, side[2];
    int count = 0;
    struct unit unit;
    if (!keys_open(reader, &words, node,
                   "beds such as `4 of 1.2 x 3 m at 2.5 cm` or `14 m2 at 3 cm`"))
        return;
    start = words;
    if (!words_number(&words, &number))
        return;
    if (words_take(&words, "of")) {
        if (!words_whole(&start, 1, 1000, &count) || !words_sides(&words, 2, side))
            return;
        need->bed_area_m2 = count * side[0] * side[1];
    } else if (words_unit(&words, 1u << UNIT_AREA, &unit)) {
        need->bed_area_m2 = unit_to_SI(&unit, number);
    } else {
        return;
    }
    if (words_need(&words, "at") && words_quantity(&words, UNIT_LENGTH, &need->bed_depth_m)
        && words_done(&words)
        && words_within(&words, need->bed_depth_m, 0.002, 0.5, "a depth of 2 mm to 50 cm"))
        words_within(&words, need->bed_area_m2, 0.01, 1e5, "an area of 0.01 to 100 000 m2");
}

static void read_harvest(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_need *need = into;
    if (!keys_map(reader, node, "crops with the day of their harvest"))
        return;
    for (const struct tree_node *one = node->child; one; one = one->next) {
        if (need->harvests == PLAN_HARVESTS) {
            keys_key_fault(reader, one, "a crop too many; expected at most %d", PLAN_HARVESTS);
            return;
        }
        date_count *day = &need->harvest[need->harvests].day;
        if (keys_key_name(reader, one, need->harvest[need->harvests].crop)
            && keys_date(reader, one, day) && after_start(reader, one, *day))
            need->harvests++;
    }
}

static const struct keys_row need_rows[] = {
    {"by", read_by},     {"for", read_use},         {"chance", read_chance},
    {"beds", read_beds}, {"harvest", read_harvest},
};

/* `need: by 2026-04-18` */
static void read_need_text(struct reader *reader, const struct tree_node *node,
                           struct plan_need *need)
{
    struct words words;
    if (keys_open(reader, &words, node, "`by` and a date, such as `by 2026-04-18`")
        && words_need(&words, "by") && words_date(&words, &need->by) && words_done(&words))
        after_start(reader, node, need->by);
}

void people_read_need(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    struct plan_need *need = &reader->scenario->need;
    *need = (struct plan_need){.is = true, .what = USE_BEDS, .chance = USUAL_CHANCE};
    if (node->kind == TREE_TEXT)
        read_need_text(reader, node, need);
    else if (keys_read(reader, node, need_rows, KEYS_COUNT(need_rows), "the need", need))
        keys_need(reader, node, "by", "the need");
}

/* `2 to 4`: people, so whole ones */
static void read_helpers(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char range[] = "a count of people such as `2 to 4`, at most 100";
    struct words words;
    struct span helpers = {0};
    if (!keys_open(reader, &words, node, range) || !words_range(&words, &helpers))
        return;
    words_take(&words, "people|helpers|person");
    if (!words_done(&words) || !words_within(&words, helpers.low, 1.0, 100.0, range)
        || !words_within(&words, helpers.high, 1.0, 100.0, range))
        return;
    if (helpers.low != (double)(int)helpers.low || helpers.high != (double)(int)helpers.high)
        keys_fault(reader, node, "people are counted whole; expected %s", range);
    else
        ((struct plan_people *)into)->helpers = helpers;
}

/* `Saturday`, `Wednesday and Saturday`, `any day` */
static void read_day_words(struct reader *reader, const struct tree_node *node, unsigned *weekdays)
{
    struct words words;
    int weekday;
    if (!keys_open(reader, &words, node, "weekdays such as `Saturday` or `any day`"))
        return;
    if (words_take(&words, "any day|any|every day|all"))
        *weekdays = 0x7Fu;
    while (*words.at) {
        if (!words_weekday(&words, &weekday))
            return;
        *weekdays |= 1u << weekday;
        words_take(&words, "and|or|,");
    }
}

static void read_days(struct reader *reader, const struct tree_node *node, void *into)
{
    unsigned *weekdays = &((struct plan_people *)into)->weekdays;
    *weekdays = 0;
    ((struct plan_people *)into)->days_said = true;
    if (node->kind != TREE_LIST)
        read_day_words(reader, node, weekdays);
    else if (keys_list(reader, node, "weekdays"))
        for (const struct tree_node *one = node->child; one; one = one->next)
            read_day_words(reader, one, weekdays);
}

static void read_one_away(struct reader *reader, const struct tree_node *node,
                          struct plan_people *people)
{
    if (people->aways == AWAY_MOST)
        keys_fault(reader, node, "a day too many; expected at most %d days away", AWAY_MOST);
    else if (keys_date(reader, node, &people->away[people->aways]))
        people->aways++;
}

static void read_away(struct reader *reader, const struct tree_node *node, void *into)
{
    if (node->kind != TREE_LIST)
        read_one_away(reader, node, into);
    else if (keys_list(reader, node, "dates"))
        for (const struct tree_node *one = node->child; one; one = one->next)
            read_one_away(reader, one, into);
}

static void read_visit(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_TIME, 300.0, 86400.0, "a time of 5 min to 24 h",
                  &((struct plan_people *)into)->visit_s);
}

static void read_load(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_MASS, 1.0, 50.0, "a mass of 1 to 50 kg",
                  &((struct plan_people *)into)->heaviest_load_kg);
}

static const struct keys_row people_rows[] = {
    {"helpers", read_helpers}, {"days", read_days},          {"away", read_away},
    {"visit", read_visit},     {"heaviest load", read_load},
};

void people_read(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    keys_read(reader, node, people_rows, KEYS_COUNT(people_rows), "the people",
              &reader->scenario->people);
}

static bool says(const struct tree_node *map, const char *key)
{
    return map && map->kind == TREE_MAP && tree_find(map, key);
}

void people_assume(struct reader *reader, const struct tree_node *file)
{
    const struct tree_node *people = tree_find(file, "people"), *need = tree_find(file, "need");
    struct plan_people *who = &reader->scenario->people;
    if (!says(people, "helpers")) {
        who->helpers = (struct span){1.0, 1.5, 2.0};
        keys_assume(reader, "people: 1 to 2 helpers");
    }
    if (!says(people, "days")) {
        who->weekdays = 1u << SATURDAY;
        keys_assume(reader, "people: on Saturdays");
    }
    if (!says(people, "visit")) {
        who->visit_s = USUAL_VISIT_S;
        keys_assume(reader, "people: a visit of %g minutes", USUAL_VISIT_S / 60.0);
    }
    if (!says(people, "heaviest load")) {
        who->heaviest_load_kg = USUAL_LOAD_KG;
        if (reader->scenario->show == PLAN_SHOW_US)
            keys_assume(reader, "people: no load above %.0f lb", USUAL_LOAD_KG / UNIT_POUND_KG);
        else
            keys_assume(reader, "people: no load above %g kg", USUAL_LOAD_KG);
    }
    if (need && !says(need, "for"))
        keys_assume(reader, "need: for beds");
    if (need && !says(need, "chance"))
        keys_assume(reader, "need: with a chance of 8 in 10");
}
