/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/hygiene.c - see ask/hygiene.h. */
#include "ask/hygiene.h"
#include "run/calendar.h"
#include <math.h>
#include <string.h>

static const double ICE_POINT_K = 273.15;
static const double HALF = 0.5;
enum { TOUCHES_SOIL_DAYS = 120, ABOVE_SOIL_DAYS = 90 }; /* 7 CFR 205.203(c)(1) */

/* ---- rules ---- */

/* Turns by the end of a row that a rule counts: hot enough, and not too soon after the last. */
static int turns_by(const struct record *record, const struct rules_row *rule, int row)
{
    int count = 0, last = -rule->turns_apart_days;
    for (int i = 0; i < record->events; i++) {
        const struct record_event *event = &record->event[i];
        if (event->deed != PLAN_TURN || event->day > row + 1 ||
            event->day - last < rule->turns_apart_days ||
            (rule->turn_C > 0 && event->middle_K < rule->turn_C + ICE_POINT_K))
            continue;
        last = event->day;
        count++;
    }
    return count;
}

/* Of the first day's end, which is as good as the build's. */
static bool built_right(const struct record *record, const struct rules_row *rule)
{
    if (rule->most_c_to_n <= 0)
        return true;
    double c_to_n = record->day[0].carbon_kg / record->day[0].nitrogen_kg;
    return c_to_n >= rule->least_c_to_n && c_to_n <= rule->most_c_to_n;
}

double hygiene_met(const struct record *record, int rule, int row)
{
    const struct rules_row *asked = &rules_rows[rule];
    bool there = row >= asked->days && built_right(record, asked) &&
                 turns_by(record, asked, row) >= asked->turns;
    return there ? record->day[row].met_share[rule] : 0;
}

double hygiene_share(const struct record *record, int rule, int unused)
{
    (void)unused;
    return record->days > 0 ? hygiene_met(record, rule, record->days - 1) : NAN;
}

double hygiene_first(const struct record *record, int rule, int unused)
{
    (void)unused;
    for (int row = 0; row < record->days; row++)
        if (record->day[row].met_share[rule] >= HALF && hygiene_met(record, rule, row) >= HALF)
            return row + 1;
    return INFINITY;
}

double hygiene_turns_needed(const struct record *record, int rule, int unused)
{
    (void)unused;
    const struct rules_row *asked = &rules_rows[rule];
    int had = asked->turns > 0 ? turns_by(record, asked, record->days - 1) : 0;
    return had < asked->turns ? asked->turns - had : 0;
}

/* ---- what is alive ---- */

double hygiene_seeds(const struct record *record, int class, int unused)
{
    (void)unused;
    return record->seeds_laid[class] > 0 ? record->seeds_alive[class] / record->seeds_laid[class]
                                         : (double)NAN;
}

double hygiene_germs(const struct record *record, int class, int unused)
{
    (void)unused;
    return record->germs_laid[class] > 0 ? record->germs_alive[class] / record->germs_laid[class]
                                         : (double)NAN;
}

/* ---- days of heat ---- */

static double place_K(const struct record_day *day, int place)
{
    return place == HYGIENE_MIDDLE ? day->middle_K : day->coldest_tenth_K;
}

double hygiene_days(const struct record *record, int place, int over_C)
{
    int days = 0;
    for (int i = 0; i < record->days; i++)
        days += place_K(&record->day[i], place) >= over_C + ICE_POINT_K;
    return days;
}

double hygiene_run(const struct record *record, int place, int over_C)
{
    int longest = 0, run = 0;
    for (int i = 0; i < record->days; i++) {
        run = place_K(&record->day[i], place) >= over_C + ICE_POINT_K ? run + 1 : 0;
        longest = run > longest ? run : longest;
    }
    return longest;
}

/* ---- manure ---- */

static bool layer_has_dung(const struct scenario *scenario, const struct plan_layer *layer)
{
    for (int i = 0; i < layer->portions; i++)
        if (scenario->stuff[layer->portion[i].stuff].dung)
            return true;
    return false;
}

/* The last day, from 0, on which the plan lays any; -1 where it never does. */
static int last_dung(const struct scenario *scenario, int plan)
{
    int last = -1;
    for (int i = 0; i < scenario->layers; i++)
        if (layer_has_dung(scenario, &scenario->layer[i]))
            last = (int)scenario->start_span_days; /* perhaps not before its last day */
    for (int i = 0; i < scenario->plan[plan].events; i++) {
        const struct plan_event *event = &scenario->plan[plan].event[i];
        if (!layer_has_dung(scenario, &event->add))
            continue;
        int day = event->when == PLAN_ON_DAY ? event->day : event->until;
        while (day > last && !calendar_comes(scenario, event, day))
            day--;
        last = day > last ? day : last;
    }
    return last;
}

bool hygiene_dung(const struct scenario *scenario, int plan)
{
    return last_dung(scenario, plan) >= 0;
}

/* Crops whose eaten part grows well above the ground, by their whole name; of all others it is taken
 * to touch soil, by splashes if not by lying there [derived from the rule's words]. */
static bool above_soil(const char *crop)
{
    static const char *const high[] = {"sweet corn", "sweetcorn", "maize", "apples", "pears", "plums",
                                       "cherries", "grapes", "quinces", "peaches", "apricots"};
    for (size_t i = 0; i < sizeof high / sizeof *high; i++)
        if (strcmp(crop, high[i]) == 0)
            return true;
    return false;
}

int hygiene_waits(const struct scenario *scenario, int plan, struct hygiene_wait wait[PLAN_HARVESTS])
{
    int day = last_dung(scenario, plan), waits = 0;
    if (day < 0)
        return 0;
    for (; waits < scenario->need.harvests; waits++) {
        struct hygiene_wait *w = &wait[waits];
        w->crop = scenario->need.harvest[waits].crop;
        w->laid = scenario->start + day;
        w->harvest = scenario->need.harvest[waits].day;
        w->days = (int)(w->harvest - w->laid);
        w->wanted = above_soil(w->crop) ? ABOVE_SOIL_DAYS : TOUCHES_SOIL_DAYS;
        w->earliest = w->laid + w->wanted;
        w->enough = w->days >= w->wanted;
    }
    return waits;
}
