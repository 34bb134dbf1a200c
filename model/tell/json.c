/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/json.c - a season as JSON.
 *
 * With several possible piles a number is their median and has `_low` and `_high` beside it. What isn't
 * known is null, so that a script can tell it from a number. jansson keeps the order of keys and writes a
 * decimal point in every locale; it refuses NaN, which therefore becomes null here, by one hand.
 */
#include "tell/json.h"
#include "tell/allot.h"
#include "ask/asked.h"
#include "ask/hygiene.h"
#include "ask/ready.h"
#include "ask/visit.h"
#include "ask/yield.h"
#include "many/band.h"
#include "tell/column.h"
#include "tell/range.h"
#include "tell/steps.h"
#include <math.h>

static const double SECONDS_A_MINUTE = 60.0;

/* a value that may be missing: json_object_set_new would fail silently on NULL */
void json_put(json_t *object, const char *key, json_t *value)
{
    json_object_set_new(object, key, value ? value : json_null());
}

void json_put_number(json_t *object, const char *key, double value)
{
    json_put(object, key, isfinite(value) ? json_real(value == 0.0 ? 0.0 : value) : json_null());
}

void json_put_text(json_t *object, const char *key, const char *text)
{
    json_put(object, key, text ? json_string(text) : json_null());
}

void json_put_span(json_t *object, const char *key, struct span span, double factor)
{
    char end[96];
    json_put_number(object, key, span.mid * factor);
    snprintf(end, sizeof end, "%s_low", key);
    json_put_number(object, end, span.low * factor);
    snprintf(end, sizeof end, "%s_high", key);
    json_put_number(object, end, span.high * factor);
}

/* A number, with its range where there are several piles. */
static void put_span(json_t *object, const char *key, const struct tale *tale, struct span range,
                     double factor)
{
    if (tale->members == 1)
        json_put_number(object, key, range.mid * factor);
    else
        json_put_span(object, key, range, factor);
}

static void put_range(json_t *object, const char *key, const struct tale *tale,
                      double (*ask)(const struct record *, int, int), int a, int b)
{
    put_span(object, key, tale, range_of(tale, ask, a, b), 1);
}

/* One deed of one day, as far as the members did it: its kind and how often that kind came before it
 * on the same day. */
struct deed {
    struct record_event event;
    int row, nth;
};

static const struct record_event *deed_in(const struct record *record, const struct deed *deed)
{
    const struct record_day *day = &record->day[deed->row];
    int nth = deed->nth;
    for (int i = 0; i < day->events; i++) {
        const struct record_event *event = &record->event[day->first_event + i];
        if (event->deed == deed->event.deed && event->way == deed->event.way &&
            event->into == deed->event.into && nth-- == 0)
            return event;
    }
    return NULL;
}

/* A member of struct record_event, of all who did it. */
static void put_deed(json_t *object, const char *key, const struct tale *tale,
                     const struct deed *deed, size_t offset, double factor)
{
    int did = 0;
    for (int i = 0; i < tale->members; i++) {
        const struct record_event *event = deed_in(&tale->record[i], deed);
        if (event)
            tale->room[did++] = *(const double *)((const char *)event + offset);
    }
    put_span(object, key, tale, band_of(tale->room, did), factor);
}

/* An event with the keys that apply to it. */
static json_t *deed_object(const struct tale *tale, const struct deed *deed)
{
    const struct record_event *event = &deed->event;
    const struct scenario *scenario = tale->scenario;
    json_t *object = json_object();
    json_put_text(object, "do", steps_deed(event->deed));
    if (event->deed == PLAN_TURN) {
        json_put_text(object, "how", steps_way(event->way));
        int bay = event->into >= 0 && event->into < scenario->bays ? event->into : scenario->home;
        json_put_text(object, "into", scenario->bay[bay].name);
    }
    if (event->water_kg > 0.0 || event->deed == PLAN_WATER)
        put_deed(object, "water_l", tale, deed, offsetof(struct record_event, water_kg), 1);
    put_deed(object, "person_minutes", tale, deed, offsetof(struct record_event, person_s),
             1 / SECONDS_A_MINUTE);
    if (event->lifted_kg > 0.0)
        put_deed(object, "lifted_kg", tale, deed, offsetof(struct record_event, lifted_kg), 1);
    if (event->picked_out_kg > 0.0 || event->deed == PLAN_PICK)
        put_deed(object, "picked_out_kg", tale, deed, offsetof(struct record_event, picked_out_kg), 1);
    if (event->added_kg > 0.0 || event->deed == PLAN_ADD)
        put_deed(object, "added_kg", tale, deed, offsetof(struct record_event, added_kg), 1);
    return object;
}

static int doers(const struct tale *tale, const struct deed *deed, int before)
{
    int count = 0;
    for (int i = 0; i < before; i++)
        count += deed_in(&tale->record[i], deed) != NULL;
    return count;
}

/* What any of the members did that day; a rule may have told some and not others. */
static json_t *events_list(const struct tale *tale, int row)
{
    json_t *list = json_array();
    for (int m = 0; m < tale->members; m++) {
        const struct record *record = &tale->record[m];
        const struct record_day *day = &record->day[row];
        for (int i = 0; i < day->events; i++) {
            struct deed deed = {record->event[day->first_event + i], row, 0};
            while (deed_in(record, &deed) != &record->event[day->first_event + i])
                deed.nth++;
            if (doers(tale, &deed, m) > 0)
                continue; /* told already */
            json_t *object = deed_object(tale, &deed);
            if (tale->members > 1)
                json_put_span(object, "chance",
                              band_chance(doers(tale, &deed, tale->members), tale->members), 1);
            json_array_append_new(list, object);
        }
    }
    return list;
}

static json_t *day_object(const struct tale *tale, int row)
{
    char date[DATE_TEXT];
    date_write(tale->scenario->start + row, date);
    json_t *object = json_object();
    json_put(object, "day", json_integer(row + 1));
    json_put_text(object, "date", date);
    for (int i = 0; i < column_count; i++)
        if (column_rows[i].promised)
            put_range(object, column_rows[i].name, tale, column_of_day, row, i);
    json_put(object, "events", events_list(tale, row));
    return object;
}

static json_t *days_list(const struct tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < tale->record->days; i++)
        json_array_append_new(list, day_object(tale, i));
    return list;
}

/* Of the worst member. */
static json_t *balance_object(const struct tale *tale)
{
    json_t *object = json_object();
    for (int i = 0; i < RECORD_BALANCES; i++) {
        double worst = 0.0;
        for (int m = 0; m < tale->members; m++)
            worst = fmax(worst, tale->record[m].balance[i]);
        json_put_number(object, record_balance_name[i], worst);
    }
    return object;
}

static void put_date(json_t *object, const char *key, const struct tale *tale, double day)
{
    char date[DATE_TEXT];
    if (isfinite(day))
        date_write(tale->scenario->start + (date_count)lround(day) - 1, date);
    json_put_text(object, key, isfinite(day) ? date : NULL);
}

/* When the compost serves a use. Of one pile alone no chance can be told. */
static json_t *use_object(const struct tale *tale, int use)
{
    struct ready_summary s = ready_summary(tale->record, tale->members, tale->scenario, use, tale->room);
    struct span unknown = {NAN, NAN, NAN};
    bool many = tale->members > 1;
    json_t *object = json_object();
    put_date(object, "date", tale, s.day.mid);
    put_date(object, "early", tale, many ? s.day.low : (double)NAN);
    put_date(object, "late", tale, many ? s.day.high : (double)NAN);
    put_span(object, "chance_by_need", tale, many ? s.chance : unknown, 1);
    put_span(object, "never_share", tale, many ? band_chance(s.never, s.members) : unknown, 1);
    json_put_text(object, "why_not", ready_why_word[s.why]);
    return object;
}

static json_t *ready_object(const struct tale *tale)
{
    json_t *object = json_object();
    for (int use = 0; use < READY_USES; use++)
        json_put(object, ready_use_word[use], use_object(tale, use));
    return object;
}

static json_t *hygiene_list(const struct tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < RULES; i++) {
        const struct rules_row *rule = &rules_rows[i];
        json_t *object = json_object();
        json_put_text(object, "rule", rule->name);
        json_put_text(object, "where", rule->where);
        json_put_text(object, "source", rule->source);
        json_put_text(object, "mark", rule->mark);
        put_range(object, "mass_share_met", tale, hygiene_share, i, 0);
        put_date(object, "first_met", tale, range_of(tale, hygiene_first, i, 0).mid);
        if (rule->turns > 0)
            put_range(object, "turns_needed", tale, hygiene_turns_needed, i, 0);
        json_array_append_new(list, object);
    }
    return list;
}

/* For each harvest, when the pile holds manure. */
static json_t *manure_list(const struct tale *tale)
{
    struct hygiene_wait wait[PLAN_HARVESTS];
    int waits = hygiene_waits(tale->scenario, tale->plan, wait);
    json_t *list = json_array();
    for (int i = 0; i < waits; i++) {
        char date[DATE_TEXT];
        json_t *object = json_object();
        json_put_text(object, "crop", wait[i].crop);
        date_write(wait[i].laid, date);
        json_put_text(object, "laid", date);
        date_write(wait[i].harvest, date);
        json_put_text(object, "harvest", date);
        json_put(object, "days", json_integer(wait[i].days));
        json_put(object, "days_wanted", json_integer(wait[i].wanted));
        json_put(object, "enough", json_boolean(wait[i].enough));
        date_write(wait[i].earliest, date);
        json_put_text(object, "earliest", date);
        json_array_append_new(list, object);
    }
    return list;
}

/* Live shares of classes of seeds or germs; null where none were laid. */
static json_t *live_list(const struct tale *tale, const char *const classes[], int count,
                         double (*ask)(const struct record *, int, int))
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        struct span live = range_of(tale, ask, i, 0);
        json_t *object = json_object();
        json_put_text(object, "class", classes[i]);
        json_put_number(object, "live_share", live.mid);
        json_put_number(object, "live_share_low", tale->members > 1 ? live.low : NAN);
        json_put_number(object, "live_share_high", tale->members > 1 ? live.high : NAN);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *seeds_list(const struct tale *tale)
{
    static const char *const classes[] = {"easy", "moderate", "hard"};
    return live_list(tale, classes, 3, hygiene_seeds);
}

static json_t *germs_list(const struct tale *tale)
{
    static const char *const classes[] = {"gut bacteria", "worm eggs"};
    return live_list(tale, classes, 2, hygiene_germs);
}

/* On the day of need, or the season's last. */
static json_t *yield_object(const struct tale *tale)
{
    static const struct { const char *key; enum yield_thing thing; } yields[] = {
        {"volume_m3", YIELD_VOLUME_M3}, {"wet_kg", YIELD_WET_KG}, {"dry_kg", YIELD_DRY_KG},
        {"nitrogen_kg", YIELD_NITROGEN_KG}, {"c_to_n", YIELD_C_TO_N},
        {"of_laid_share", YIELD_OF_LAID}, {"sticks_kg", YIELD_STICKS_KG},
        {"sticks_m3", YIELD_STICKS_M3}};
    json_t *object = json_object();
    const struct scenario *scenario = tale->scenario;
    int day = ready_told_day(tale->record, scenario);
    put_date(object, "date", tale, day > 0 ? day : (double)NAN);
    for (size_t i = 0; i < sizeof yields / sizeof *yields; i++)
        put_range(object, yields[i].key, tale, yield_of, (int)yields[i].thing, day);
    struct span volume = range_of(tale, yield_of, YIELD_VOLUME_M3, day), covered = volume;
    double *ends[] = {&covered.low, &covered.mid, &covered.high};
    for (int i = 0; i < 3; i++)
        *ends[i] = yield_bed_share(&scenario->need, *ends[i]);
    put_span(object, "bed_m2", tale, volume, yield_bed_m2(&scenario->need, 1));
    put_span(object, "bed_share", tale, covered, 1);
    put_span(object, "barrows", tale, volume, scenario->barrow_m3 > 0 ? 1 / scenario->barrow_m3 : NAN);
    put_span(object, "nitrogen_first_year_kg", tale,
             yield_first_year_kg(range_of(tale, yield_of, YIELD_NITROGEN_KG, day)), 1);
    return object;
}

static double ask_minutes(const struct record *record, int unused, int unused_too)
{
    (void)unused, (void)unused_too;
    return record->person_s / SECONDS_A_MINUTE;
}

/* The visit that takes longest by the clock; null where nobody comes. */
static json_t *longest_visit(const struct tale *tale)
{
    char date[DATE_TEXT];
    struct visit_too_long longest =
        visit_too_long(tale->record, tale->members, &tale->scenario->people, tale->room);
    if (!(longest.clock_s.high > 0))
        return json_null();
    date_write(tale->scenario->start + longest.usual.day, date);
    json_t *object = json_object();
    json_put_text(object, "date", date);
    json_put_text(object, "do", steps_deed(longest.usual.deed));
    put_span(object, "clock_minutes", tale, longest.clock_s, 1 / SECONDS_A_MINUTE);
    json_put_number(object, "visit_minutes", longest.allowed_s / SECONDS_A_MINUTE);
    json_put_number(object, "over_minutes", fmax(longest.over_s, 0) / SECONDS_A_MINUTE);
    json_put_number(object, "chance_over", (double)longest.over / tale->members);
    return object;
}

static json_t *work_object(const struct tale *tale)
{
    json_t *object = json_object();
    put_range(object, "person_minutes", tale, ask_minutes, 0, 0);
    put_range(object, "lifted_kg", tale, asked_work, ASKED_LIFTED_KG, 0);
    if (tale->members == 1)
        json_put(object, "turns", json_integer(tale->record->turns));
    else
        put_range(object, "turns", tale, asked_work, ASKED_TURNS, 0);
    put_range(object, "water_l", tale, asked_work, ASKED_WATER_L, 0);
    json_put(object, "longest_visit", longest_visit(tale));
    return object;
}

static double ask_flux(const struct record *record, int which, int unused)
{
    (void)unused;
    return column_flux(record->flux_total, (enum flux)which);
}

static json_t *fluxes_object(const struct tale *tale)
{
    json_t *object = json_object();
    for (int i = 0; i < FLUXES; i++) {
        char key[64];
        snprintf(key, sizeof key, "%s_%s", flux_rows[i].name, flux_unit((enum flux)i));
        put_range(object, key, tale, ask_flux, i, 0);
    }
    return object;
}

/* Possible piles that could not be run: their numbers, so that none is dropped in silence. */
static json_t *failed_list(const struct tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < tale->failures; i++)
        json_array_append_new(list, json_integer(tale->failed[i]));
    return list;
}

json_t *json_assumed(const struct scenario *scenario)
{
    json_t *list = json_array();
    for (int i = 0; i < scenario->assumed; i++)
        json_array_append_new(list, json_string(scenario->assumption[i]));
    return list;
}

static json_t *cautions_list(const struct tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(tale, (enum tale_caution)i))
            json_array_append_new(list, json_string(tale_caution_full((enum tale_caution)i)));
    return list;
}

json_t *json_season_object(const struct tale *tale, bool with_days)
{
    const struct scenario *scenario = tale->scenario;
    char start[DATE_TEXT];
    date_write(scenario->start, start);
    json_t *object = json_object();
    json_put_text(object, "midden", tale->version);
    json_put_text(object, "scenario", scenario->name);
    json_put_text(object, "plan", scenario->plan[tale->plan].name);
    json_put_text(object, "start", start);
    json_put(object, "members", json_integer(tale->members));
    json_put(object, "draw", json_integer(tale->draw));
    if (tale->failures)
        json_put(object, "failed", failed_list(tale));
    if (with_days)
        json_put(object, "days", days_list(tale));
    json_put(object, "balance", balance_object(tale));
    json_put(object, "ready", ready_object(tale));
    json_put(object, "hygiene", hygiene_list(tale));
    json_put(object, "seeds", seeds_list(tale));
    json_put(object, "pathogens", germs_list(tale));
    json_put(object, "raw_manure", manure_list(tale));
    json_put(object, "yield", yield_object(tale));
    json_put(object, "work", work_object(tale));
    json_put(object, "fluxes", fluxes_object(tale));
    json_put(object, "assumed", json_assumed(scenario));
    json_put(object, "cautions", cautions_list(tale));
    return object;
}

bool json_write(FILE *out, json_t *object, struct trouble *why)
{
    bool done = object && !allot_refused() && json_dumpf(object, out, JSON_INDENT(1) | JSON_REAL_PRECISION(10)) == 0;
    json_decref(object);
    fputc('\n', out);
    return done || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
}

bool json_season(FILE *out, const struct tale *tale, struct trouble *why)
{
    return json_write(out, json_season_object(tale, true), why);
}
