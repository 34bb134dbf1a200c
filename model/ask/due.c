/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/due.c - see ask/due.h.
 *
 * A record doesn't say which event of the plan it was, but events are done in the plan's order:
 * each one of a record's day is the next of the plan that does the same.
 */
#include "ask/due.h"
#include "ask/agenda.h"
#include "ask/asked.h"
#include "many/band.h"
#include "run/calendar.h"
#include <math.h>
#include <stddef.h>

/* a bucket of water is carried at four fifths, and weighs a kilogram itself [trade] */
static const double CARRIED = 0.8, BUCKET_KG = 1.0;
/* more get in each other's way at one bin [trade] */
enum { HANDS_MOST = 4 };
/* A cubic metre forked over takes one person 45 minutes, 25 to 90 (common practice, no source). To
 * build there is a vessel a minute to fetch and tip besides, and ten minutes to begin [trade]. */
static const double FORK_S_PER_M3[] = {1500, 2700, 5400};
static const double VESSEL_S = 60, BEGIN_S = 600;
enum { FARTHEST_DAYS = 28 };

/* ---- matching records with the plan ---- */

static bool same(const struct plan_event *event, const struct record_event *done)
{
    return event->deed == done->deed && (event->deed != PLAN_TURN || event->way == done->way)
           && (event->deed != PLAN_TURN || event->into < 0 || done->into < 0
               || event->into == done->into);
}

/* What became of an event of the plan on a day, NULL where it wasn't done. */
static const struct record_event *done_of(const struct due_pile *pile, const struct record *record,
                                          int index, int day)
{
    const struct plan *plan = &pile->scenario->plan[pile->plan];
    const struct record_day *of = &record->day[day];
    for (int i = 0, e = 0; i < of->events && e <= index; e++) {
        const struct record_event *done = &record->event[of->first_event + i];
        if (!calendar_comes(pile->scenario, &plan->event[e], day) || !same(&plan->event[e], done))
            continue;
        if (e == index)
            return done;
        i++;
    }
    return NULL;
}

/* A member of struct record_event of all who did it, or the sum of a day of all. */
static struct span of_done(const struct due_pile *pile, int index, int day, size_t offset)
{
    int did = 0;
    for (int m = 0; m < pile->members; m++) {
        const struct record_event *done = done_of(pile, &pile->record[m], index, day);
        if (done)
            pile->room[did++] = *(const double *)((const char *)done + offset);
    }
    return did ? band_of(pile->room, did) : (struct span){0, 0, 0};
}

static struct span of_day(const struct due_pile *pile, int day, size_t offset)
{
    for (int m = 0; m < pile->members; m++) {
        const struct record *record = &pile->record[m];
        double sum = 0;
        for (int i = 0; i < record->day[day].events; i++)
            sum += *(const double *)((const char *)&record->event[record->day[day].first_event + i]
                                     + offset);
        pile->room[m] = sum;
    }
    return band_of(pile->room, pile->members);
}

struct span due_temp_K(const struct due_pile *pile, int day, size_t offset)
{
    if (day < 0 || pile->members < 1 || day >= pile->record[0].days)
        return (struct span){NAN, NAN, NAN};
    for (int m = 0; m < pile->members; m++)
        pile->room[m] = *(const double *)((const char *)&pile->record[m].day[day] + offset);
    return band_of(pile->room, pile->members);
}

/* The bay in which most members stand before a day; where two are alike, the first. */
static int bay_before(const struct due_pile *pile, int day)
{
    int count[PLAN_BAYS] = {0}, most = pile->scenario->home;
    for (int m = 0; m < pile->members; m++) {
        int bay = pile->scenario->home;
        const struct record *record = &pile->record[m];
        for (int i = 0; i < record->events && record->event[i].day <= day; i++)
            if (record->event[i].into >= 0)
                bay = record->event[i].into;
        count[bay]++;
    }
    for (int b = 0; b < pile->scenario->bays; b++)
        if (count[b] > count[most])
            most = b;
    return most;
}

static double deep_m(const struct due_pile *pile, int day)
{
    if (pile->members < 1 || day >= pile->record[0].days)
        return NAN;
    for (int m = 0; m < pile->members; m++)
        pile->room[m] = asked_deep_m(&pile->record[m], pile->scenario, day);
    return band_of(pile->room, pile->members).mid;
}

/* ---- one deed ---- */

/* Where a deed leaves most of those piles that do it. */
static int into_of(const struct due_pile *pile, int index, int day, int from)
{
    const struct plan_event *event = &pile->scenario->plan[pile->plan].event[index];
    int count[PLAN_BAYS] = {0}, most = from, did = 0;
    for (int m = 0; m < pile->members; m++) {
        const struct record_event *done = done_of(pile, &pile->record[m], index, day);
        did += done != NULL;
        if (done && done->into >= 0)
            count[done->into]++;
    }
    if (did == 0 && event->deed == PLAN_TURN && event->into != PLAN_SAME_BAY)
        return event->into;
    for (int b = 0; b < pile->scenario->bays; b++)
        if (count[b] > count[most])
            most = b;
    return most;
}

static int doers(const struct due_pile *pile, int index, int day)
{
    int did = 0;
    for (int m = 0; m < pile->members; m++)
        did += done_of(pile, &pile->record[m], index, day) != NULL;
    return did;
}

static struct due_task task_of(const struct due_pile *pile, int index, int day, int from)
{
    return (struct due_task){
        .event = &pile->scenario->plan[pile->plan].event[index],
        .did = doers(pile, index, day),
        .chance = band_chance(doers(pile, index, day), pile->members),
        .person_s = of_done(pile, index, day, offsetof(struct record_event, person_s)),
        .lifted_kg = of_done(pile, index, day, offsetof(struct record_event, lifted_kg)),
        .water_kg = of_done(pile, index, day, offsetof(struct record_event, water_kg)),
        .added_kg = of_done(pile, index, day, offsetof(struct record_event, added_kg)),
        .picked_kg = of_done(pile, index, day, offsetof(struct record_event, picked_out_kg)),
        .into = into_of(pile, index, day, from)};
}

/* ---- building ---- */

double due_vessels(const struct plan_portion *portion)
{
    return portion->vessel_m3 > 0 ? portion->volume_m3.mid / portion->vessel_m3 : 0;
}

static void add_span(struct span *sum, struct span more)
{
    sum->low += more.low;
    sum->mid += more.mid;
    sum->high += more.high;
}

/* A layer has no event in a record: work and water are reckoned from what is laid. */
static void add_building(struct due *due, const struct due_pile *pile)
{
    const struct scenario *scenario = pile->scenario;
    double volume_m3 = 0, vessels = 0;
    struct span water_kg = {0, 0, 0}, laid_kg = {0, 0, 0};
    for (int i = 0; i < scenario->layers; i++) {
        const struct plan_layer *layer = &scenario->layer[i];
        add_span(&water_kg, layer->water_kg);
        for (int p = 0; p < layer->portions; p++) {
            volume_m3 += layer->portion[p].volume_m3.mid;
            vessels += due_vessels(&layer->portion[p]);
            add_span(&laid_kg, layer->portion[p].wet_kg);
        }
    }
    double pour = pile->param->pour_s_per_kg, rest_s = BEGIN_S + VESSEL_S * vessels;
    add_span(&due->person_s,
             (struct span){rest_s + FORK_S_PER_M3[0] * volume_m3 + pour * water_kg.low,
                           rest_s + FORK_S_PER_M3[1] * volume_m3 + pour * water_kg.mid,
                           rest_s + FORK_S_PER_M3[2] * volume_m3 + pour * water_kg.high});
    add_span(&due->water_kg, water_kg);
    add_span(&due->lifted_kg, water_kg);
    add_span(&due->lifted_kg, laid_kg);
}

/* ---- the days after ---- */

/* Is the pile built or turned on a day, for certain or perhaps? */
static bool moved_on(const struct scenario *scenario, int plan, int day, bool perhaps)
{
    return (day == 0 && !scenario->found.is) || agenda_turns_on(scenario, plan, day, perhaps);
}

/* The day to read next where the pile isn't moved: two or five days after it last was, or else the
 * next visit, before there is work again. */
static int next_reading(const struct scenario *scenario, int plan, int day, int last_day)
{
    int next = agenda_next(scenario, plan, day, last_day);
    int read = agenda_visit(scenario, day + 1, next < 0 ? last_day : next);
    for (int d = day > AGENDA_SECOND_READ ? day - AGENDA_SECOND_READ : 0; d < day; d++) {
        if (!moved_on(scenario, plan, d, false))
            continue;
        int soonest = d + (d + AGENDA_FIRST_READ > day ? AGENDA_FIRST_READ : AGENDA_SECOND_READ);
        if (soonest > day && soonest < read)
            read = soonest;
    }
    return read - day <= FARTHEST_DAYS ? read : -1;
}

static void reading_days(const struct scenario *scenario, int plan, int day, int last_day,
                         int read[DUE_READS])
{
    read[0] = day + AGENDA_FIRST_READ;
    read[1] = day + AGENDA_SECOND_READ;
    if (!moved_on(scenario, plan, day, true)) {
        read[0] = next_reading(scenario, plan, day, last_day);
        read[1] = -1;
    }
    for (int i = 0; i < DUE_READS; i++)
        if (read[i] <= day || read[i] > last_day)
            read[i] = -1;
}

int due_horizon(const struct scenario *scenario, int plan, int day)
{
    int read[DUE_READS], until = day;
    reading_days(scenario, plan, day, scenario->last_day, read);
    for (int i = 0; i < DUE_READS; i++)
        until = read[i] > until ? read[i] : until;
    return until;
}

/* ---- the whole ---- */

void due_on(struct due *due, const struct due_pile *pile, int day)
{
    const struct plan *plan = &pile->scenario->plan[pile->plan];
    int read[DUE_READS];
    *due = (struct due){.day = day,
                        .build = day == 0 && !pile->scenario->found.is,
                        .from = bay_before(pile, day),
                        .next_day = agenda_next(pile->scenario, pile->plan, day, pile->last_day)};
    for (int e = 0; e < plan->events; e++)
        if (calendar_comes(pile->scenario, &plan->event[e], day))
            due->task[due->tasks++] = task_of(pile, e, day, due->from);
    due->person_s = of_day(pile, day, offsetof(struct record_event, person_s));
    due->water_kg = of_day(pile, day, offsetof(struct record_event, water_kg));
    due->lifted_kg = of_day(pile, day, offsetof(struct record_event, lifted_kg));
    if (due->build)
        add_building(due, pile);
    due->middle_K = due_temp_K(pile, day - 1, offsetof(struct record_day, middle_K));
    due->air_K = due_temp_K(pile, day - 1, offsetof(struct record_day, air_K));
    due->deep_m = deep_m(pile, day > 0 ? day - 1 : 0);
    reading_days(pile->scenario, pile->plan, day, pile->last_day, read);
    for (int i = 0; i < DUE_READS; i++) {
        /* work begins with a reading, so on such a day it is the day before that tells */
        int of = read[i] - (read[i] > 0 && agenda_works_on(pile->scenario, pile->plan, read[i]));
        due->read[i] =
            (struct due_reading){read[i], due_temp_K(pile, of, offsetof(struct record_day, middle_K))};
    }
    due->next_look =
        due->next_day >= 0 && !agenda_works_on(pile->scenario, pile->plan, due->next_day);
}

bool due_any(const struct due *due)
{
    return due->build || due->tasks > 0;
}

/* ---- hands and vessels ---- */

struct due_load due_load(const struct scenario *scenario, double water_l)
{
    double carried_l = CARRIED * scenario->bucket_m3 * 1000.0;
    double most_kg = scenario->people.heaviest_load_kg;
    struct due_load load = {.parts = 1};
    while (load.parts < 4 && carried_l / load.parts + BUCKET_KG > most_kg)
        load.parts *= 2;
    load.each_l = carried_l / load.parts;
    /* a tenth of a vessel more or less isn't seen */
    if (water_l > 0 && load.each_l > 0)
        load.count = (int)fmax(ceil(water_l / load.each_l - 0.1), 1);
    return load;
}

int due_hands(double helpers)
{
    double hands = fmin(fmax(round(helpers), 1), HANDS_MOST);
    return (int)hands;
}

struct span due_clock(struct span person_s, struct span helpers)
{
    return (struct span){person_s.low / due_hands(helpers.high),
                         person_s.mid / due_hands(helpers.mid),
                         person_s.high / due_hands(helpers.low)};
}
