/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/scenario.c - a scenario file to a struct scenario.
 *
 * The table below is the list of all keys a scenario may have, in the order they are understood:
 * vessels before amounts, bins before plans, the start before every other day.
 */
#include "door/scenario.h"
#include "door/bays.h"
#include "door/bytes.h"
#include "door/deeds.h"
#include "door/garden.h"
#include "door/ingredients.h"
#include "door/keys.h"
#include "door/layers.h"
#include "door/notes.h"
#include "door/people.h"
#include "door/timing.h"
#include <stdio.h>
#include <string.h>

enum {
    BYTES_MOST = 1 << 20,
    VERSION = 1,
    SPAN_MOST = 120, /* days over which a pile may be built */
    DAYS_AFTER_EVENT = 60,
    DAYS_USUAL = 120,
    DAYS_BEYOND_NEED = 42,
    DAYS_MOST = 730
};

static void read_version(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    struct words words;
    int version;
    if (!keys_open(reader, &words, node, "`midden: 1`, the version this program reads")
        || !words_whole(&words, 1, 1000, &version) || !words_done(&words))
        return;
    if (version != VERSION)
        keys_fault(reader, node, "version %d of the format; expected %d", version, VERSION);
}

static void read_name(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    keys_name(reader, node, reader->scenario->name);
}

/* `2025-10-18` or `2025-10-18 to 2025-10-25` */
static void read_start(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    struct scenario *scenario = reader->scenario;
    struct words words;
    date_count end;
    if (!keys_open(reader, &words, node,
                   "the day the pile is finished, such as 2025-10-18, or "
                   "`2025-10-18 to 2025-10-25`")
        || !words_date(&words, &scenario->start))
        return;
    if (words_take(&words, "to")) {
        if (!words_date(&words, &end))
            return;
        long days = end - scenario->start;
        if (days < 0 || days > SPAN_MOST) {
            words_fault(&words,
                        "the last layer comes %ld days after the first; 0 to %d can be done", days,
                        SPAN_MOST);
            return;
        }
        scenario->start_span_days = (double)days;
    }
    reader->start_known = words_done(&words);
}

static void read_show(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    static const char *const names[] = {"metric", "US", "both"};
    keys_choice(reader, node, names, KEYS_COUNT(names), &reader->scenario->show);
}

static const struct keys_row rows[] = {
    {"midden", read_version},
    {"name", read_name},
    {"start", read_start},
    {"show", read_show},
    {"measures", garden_read_measures},
    {"place", garden_read_place},
    {"sky", garden_read_sky},
    {"bin", bays_read_bin},
    {"heap", bays_read_heap},
    {"windrow", bays_read_windrow},
    {"jar", bays_read_jar},
    {"bins", bays_read_bins},
    {"ingredients", ingredients_read},
    {"build", layers_read_build},
    {"found", layers_read_found},
    {"have", layers_read_have},
    {"plans", deeds_read},
    {"need", people_read_need},
    {"people", people_read},
    {"readings", notes_read},
};

/* one of several keys, and not two of them */
static void need_one(struct reader *reader, const struct tree_node *file, const char *const *keys,
                     int count, int exclusive)
{
    const struct tree_node *first = NULL;
    bool misspelt = false;
    char list[120];
    words_list(keys, count, list, sizeof list);
    for (int i = 0; i < count; i++) {
        const struct tree_node *node = tree_find(file, keys[i]);
        misspelt = misspelt || keys_misspelt(file, keys[i]);
        if (node && first && i < exclusive)
            keys_key_fault(reader, node, "`%s` beside `%s`; expected one of them", keys[i],
                           first->key);
        if (node && !first)
            first = node;
    }
    if (!first && !misspelt)
        keys_key_fault(reader, file, "one of %s is missing; expected it in a scenario", list);
}

static void need_all(struct reader *reader, const struct tree_node *file)
{
    static const char *const always[] = {"midden", "start", "place", "sky"};
    static const char *const places[] = {"bin", "heap", "windrow", "jar", "bins"};
    static const char *const piles[] = {"build", "found", "have"};
    for (int i = 0; i < KEYS_COUNT(always); i++)
        keys_need(reader, file, always[i], "a scenario");
    need_one(reader, file, places, KEYS_COUNT(places), KEYS_COUNT(places));
    need_one(reader, file, piles, KEYS_COUNT(piles), 2);
}

/* the calendar of base/date ends with 2200 */
static long last_of_calendar(const struct scenario *scenario)
{
    return date_number((struct date){2200, 12, 31}) - scenario->start;
}

static long least(long a, long b)
{
    return a < b ? a : b;
}

/* the season ends on the day of need; else some time after the last thing done, or the start */
static void find_last_day(struct reader *reader, const struct tree_node *file)
{
    struct scenario *scenario = reader->scenario;
    long last = reader->last_event ? reader->last_event + DAYS_AFTER_EVENT : DAYS_USUAL;
    if (scenario->need.is)
        last = scenario->need.by - scenario->start;
    if (last > DAYS_MOST && scenario->need.is)
        keys_fault(reader, tree_find(file, "need"), "%ld days after the start; expected at most %d",
                   last, DAYS_MOST);
    else if (reader->last_event > DAYS_MOST)
        keys_fault(reader, reader->late, "%d days after the start; expected at most %d",
                   reader->last_event, DAYS_MOST);
    else if (scenario->need.is && reader->last_event > last)
        keys_fault(reader, reader->late,
                   "this day is after the day of `need`, with which the "
                   "season ends; expected an earlier one");
    scenario->last_day = (int)least(least(last, DAYS_MOST), last_of_calendar(scenario));
}

int scenario_last_looked(const struct scenario *scenario)
{
    if (!scenario->need.is || scenario->sky == PLAN_SKY_FILE)
        return scenario->last_day;
    long last = scenario->last_day + DAYS_BEYOND_NEED;
    return (int)least(least(last, DAYS_MOST), last_of_calendar(scenario));
}

void scenario_look_on(struct scenario *scenario)
{
    scenario->last_day = scenario_last_looked(scenario);
}

static void settle_until(struct scenario *scenario)
{
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++) {
            struct plan_event *event = &scenario->plan[p].event[e];
            if (event->until == TIMING_END)
                event->until = event->when == PLAN_ON_DAY ? event->day : scenario->last_day;
        }
}

/* what a rule looks through, where the file doesn't say */
static void assume_thermometer(struct reader *reader)
{
    const struct scenario *scenario = reader->scenario;
    bool looked_through = false;
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++)
            looked_through |= scenario->plan[p].event[e].rule_K > 0.0;
    if (looked_through && !scenario->thermometer.said)
        keys_assume(reader, "thermometer: a dial that was never held in ice water");
}

static void finish(struct reader *reader, const struct tree_node *file)
{
    struct scenario *scenario = reader->scenario;
    need_all(reader, file);
    garden_assume(reader, file);
    people_assume(reader, file);
    if (!tree_find(file, "plans"))
        deeds_assume(reader);
    assume_thermometer(reader);
    if (!*scenario->name)
        memcpy(scenario->name, "pile", sizeof "pile");
    if (reader->start_known && (!scenario->need.is || scenario->need.by > scenario->start))
        find_last_day(reader, file);
    settle_until(scenario);
    scenario->bucket_m3 = reader->vessel_m3[WORDS_BUCKET];
    scenario->barrow_m3 = reader->vessel_m3[WORDS_BARROW];
    scenario->bag_m3 = reader->vessel_m3[WORDS_BAG];
}

static void read_file(struct reader *reader, const char *text, size_t length)
{
    struct tree tree;
    if (tree_read(&tree, text, length, &reader->fault)
        && keys_read(reader, tree.root, rows, KEYS_COUNT(rows), "a scenario", NULL))
        finish(reader, tree.root);
    tree_free(&tree);
}

/* the folder of a file with its slash; false when it is longer than any path that can be kept */
static bool folder_of(const char *name, char *folder, size_t size)
{
    const char *slash = strrchr(name, '/');
    size_t length = slash ? (size_t)(slash - name) + 1 : 0;
    if (length >= size)
        return false;
    memcpy(folder, name, length);
    folder[length] = '\0';
    return true;
}

bool scenario_read_text(struct scenario *scenario, const char *text, size_t length,
                        const char *shown_name, struct trouble *why)
{
    char folder[sizeof scenario->sky_file];
    struct reader reader = {.fault.file = shown_name, .scenario = scenario, .folder = folder};
    memset(scenario, 0, sizeof *scenario);
    scenario->show = PLAN_SHOW_USUAL;
    scenario->place.sun = PLAN_HALF_SUN;
    scenario->place.wind = PLAN_SOME_WIND;
    scenario->found.squeeze = -1;
    garden_usual_vessels(reader.vessel_m3);
    if (!folder_of(shown_name, folder, sizeof folder))
        return trouble_set(why, TROUBLE_INPUT, "%s: the name of its folder is too long",
                           shown_name);
    if (length > BYTES_MOST)
        return trouble_set(why, TROUBLE_INPUT, "%s: longer than %d bytes; is it the right file?",
                           shown_name, BYTES_MOST);
    read_file(&reader, text, length);
    return fault_report(&reader.fault, why);
}

bool scenario_read(struct scenario *scenario, const char *path, struct trouble *why)
{
    struct bytes bytes;
    if (!bytes_read(&bytes, path, BYTES_MOST, why))
        return false;
    bool good = scenario_read_text(scenario, bytes.text, bytes.length, path, why);
    bytes_free(&bytes);
    return good;
}
