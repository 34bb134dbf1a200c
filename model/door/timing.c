/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/timing.c - when an event of a plan happens: on a day, every so often, or by a rule.
 *
 * A rule sees only what a person would: it is looked at on certain days, at a depth a probe
 * reaches, or by a squeezed handful.
 */
#include "door/timing.h"
#include "door/laid.h"
#include <math.h>

static const double DAY_S = 86400.0;
static const char WHEN[] = "`middle below 45 C`, `middle falls below 45 C`, `squeeze crumbles` or "
                           "`squeeze fails`";
static const double HARD_FROST_K = 268.15; /* -5 C, or a crust that rings when hit [trade] */

/* a date as a day of the season; it may not lie before the start */
static bool read_day(struct reader *reader, const struct tree_node *node, int *day)
{
    date_count date;
    if (!keys_date(reader, node, &date))
        return false;
    if (!reader->start_known)
        return true;
    long count = date - reader->scenario->start;
    if (count < 0)
        return keys_fault(reader, node, "this day is before the start; expected `start` or later");
    *day = (int)count;
    if (*day > reader->last_event) {
        reader->last_event = *day;
        reader->late = node;
    }
    return true;
}

static void read_on(struct reader *reader, const struct tree_node *node, void *into)
{
    read_day(reader, node, &((struct plan_event *)into)->day);
}

static void read_from(struct reader *reader, const struct tree_node *node, void *into)
{
    read_day(reader, node, &((struct plan_event *)into)->day);
}

static void read_until(struct reader *reader, const struct tree_node *node, void *into)
{
    read_day(reader, node, &((struct plan_event *)into)->until);
}

/* a whole number of days, from `14 days` or `2 weeks` */
static bool take_days(struct words *words, int *days)
{
    double time_s;
    if (!words_quantity(words, UNIT_TIME, &time_s)
        || !words_within(words, time_s, DAY_S, 366.0 * DAY_S, "1 to 366 days"))
        return false;
    *days = (int)lround(time_s / DAY_S);
    return fabs(*days * DAY_S - time_s) < 1.0 || words_fault(words, "not a whole number of days");
}

/* the first such weekday on or after event->day */
static void move_to_weekday(const struct reader *reader, int weekday, struct plan_event *event)
{
    int first = date_weekday(reader->scenario->start + event->day);
    event->day += (weekday - first + 7) % 7;
    event->every_days = 7;
}

static void read_rhythm(struct reader *reader, const struct tree_node *node,
                        struct plan_event *event)
{
    struct words words;
    int weekday;
    if (!keys_open(reader, &words, node, "a weekday such as `Saturday`, `day`, or `14 days`"))
        return;
    if (words_take(&words, "day|daily|every day"))
        event->every_days = 1;
    else if (words_take(&words, "week|weekly"))
        event->every_days = 7;
    else if (*words.at >= '0' && *words.at <= '9') {
        if (!take_days(&words, &event->every_days))
            return;
    } else if (!words_weekday(&words, &weekday))
        return;
    else if (reader->start_known)
        move_to_weekday(reader, weekday, event);
    words_done(&words);
}

static void read_every(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_event *event = into;
    event->when = PLAN_EVERY;
    read_rhythm(reader, node, event);
}

static void read_look(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_event *event = into;
    event->when = PLAN_RULE;
    read_rhythm(reader, node, event);
}

static const char *const places[] = {"middle|the middle", "30 cm in|30 cm deep",
                                     "hand deep|a hand deep"};

static bool take_temperature(struct words *words, struct plan_event *event)
{
    static const char *const sides[] = {"below|under", "above|over", "falls below|falls under",
                                        "rises above|rises over"};
    int place, side;
    if (event->rule_K > 0.0)
        return words_fault(words, "a second temperature; one rule reads one thermometer");
    if (!words_choice(words, places, KEYS_COUNT(places), &place)
        || !words_choice(words, sides, KEYS_COUNT(sides), &side)
        || !words_quantity(words, UNIT_TEMP, &event->rule_K))
        return false;
    event->rule_place = (enum plan_place)place;
    event->rule_hotter = side % 2 == 1;
    event->rule_passes = side >= 2;
    return words_within(words, event->rule_K, 253.15, 363.15, "a temperature of -20 to 90 C");
}

/* `squeeze crumbles`, from 30 cm in unless another place is named; what crumbles or is dusty fails
 * the squeeze test */
static bool take_squeeze(struct words *words, struct plan_event *event)
{
    int place = PLAN_DEEP_30CM;
    if (words_take(words, "fails|test fails"))
        event->rule_squeeze = PLAN_CRUMBLES;
    else if (!words_choice(words, laid_squeezes, PLAN_SQUEEZES, &event->rule_squeeze))
        return false;
    words_try_choice(words, places, KEYS_COUNT(places), &place);
    event->squeeze_place = (enum plan_place)place;
    words->expected = "`30 cm in` or `hand deep`";
    return place != PLAN_MIDDLE || words_fault(words, "no arm reaches the middle");
}

static bool take_condition(struct words *words, struct plan_event *event)
{
    if (words_take(words, "squeeze"))
        return take_squeeze(words, event);
    return take_temperature(words, event);
}

static void read_when(struct reader *reader, const struct tree_node *node, void *into)
{
    struct words words;
    if (!keys_open(reader, &words, node, WHEN))
        return;
    do {
        if (!take_condition(&words, into))
            return;
    } while (words_take(&words, "and"));
    words_done(&words);
}

static void read_unless(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_event *event = into;
    struct words words;
    if (!keys_open(reader, &words, node, "`air below -5 C` or `hard frost`"))
        return;
    if (words_take(&words, "hard frost|in hard frost")) {
        event->unless_air_below_K = HARD_FROST_K;
        event->unless_frozen = true;
        words_done(&words);
    } else if (words_need(&words, "air") && words_need(&words, "below|under")
               && words_quantity(&words, UNIT_TEMP, &event->unless_air_below_K)
               && words_done(&words)) {
        words_within(&words, event->unless_air_below_K, 233.15, 313.15, "-40 to 40 C");
    }
}

static void read_at_most(struct reader *reader, const struct tree_node *node, void *into)
{
    struct plan_event *event = into;
    struct words words;
    if (!keys_open(reader, &words, node, "`every 14 days`, `weekly` or `once`"))
        return;
    if (words_take(&words, "once"))
        event->at_most_days = 10000; /* longer than any season */
    else if (words_take(&words, "weekly|every week|once a week"))
        event->at_most_days = 7;
    else if (!words_need(&words, "every") || !take_days(&words, &event->at_most_days))
        return;
    words_done(&words);
}

/* `from` before the rhythm, so that a weekday is counted from there */
const struct keys_row timing_rows[TIMING_KEYS] = {
    {"day", read_on},      {"from", read_from}, {"every", read_every},   {"look", read_look},
    {"until", read_until}, {"when", read_when}, {"unless", read_unless}, {"at most", read_at_most},
};

/* a key that makes sense only beside another */
static bool fits(struct reader *reader, const struct tree_node *map, const char *key, bool other,
                 const char *needs)
{
    const struct tree_node *node = tree_find(map, key);
    return !node || other
           || keys_key_fault(reader, node, "`%s` without %s; expected them together", key, needs);
}

static bool settle_keys(struct reader *reader, const struct tree_node *map, bool again, bool look)
{
    static const char *const rhythm_keys[] = {"from", "until", "unless", "at most"};
    bool good = true;
    for (int i = 0; i < KEYS_COUNT(rhythm_keys); i++)
        if (!fits(reader, map, rhythm_keys[i], again, "`every` or `look`"))
            good = false;
    return fits(reader, map, "when", look, "`look`") && good;
}

bool timing_settle(struct reader *reader, const struct tree_node *map, struct plan_event *event)
{
    bool day = tree_find(map, "day"), every = tree_find(map, "every"),
         look = tree_find(map, "look");
    int times = day + every + look;
    if (times != 1)
        return keys_key_fault(reader, map,
                              "%s; expected one of `day: 2026-02-28`, "
                              "`every: Saturday` or `look: Saturday`",
                              times ? "several times for one event" : "no time is said");
    if (!settle_keys(reader, map, !day, look))
        return false;
    if (look && !tree_find(map, "when"))
        return keys_key_fault(reader, map,
                              "`look` without `when`; expected a rule such as "
                              "`when: middle below 45 C`, or `every` in place of `look`");
    if (every && (event->unless_air_below_K > 0.0 || event->at_most_days))
        event->when = PLAN_RULE; /* a rule that asks for nothing but that */
    if (event->until != TIMING_END && event->until < event->day)
        return keys_fault(reader, tree_find(map, "until"),
                          "this ends before it begins; expected a "
                          "day on or after the first one");
    return true;
}
