/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/json.c - a season as JSON.
 *
 * What this version does not work out (readiness, rules of hygiene, ranges over several possible
 * piles) is null or an empty list, so that a script can tell "not known" from a number. jansson
 * keeps the order of keys and writes a decimal point in every locale; it refuses NaN, which
 * therefore becomes null here, by one hand.
 */
#include "tell/json.h"
#include "tell/column.h"
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
    char end[64];
    json_put_number(object, key, span.mid * factor);
    snprintf(end, sizeof end, "%s_low", key);
    json_put_number(object, end, span.low * factor);
    snprintf(end, sizeof end, "%s_high", key);
    json_put_number(object, end, span.high * factor);
}

static const char *deed_word(enum plan_deed deed)
{
    static const char *const words[] = {"turn",    "water",  "add",     "cover",
                                        "uncover", "loosen", "pick out"};
    return words[deed];
}

static const char *way_word(enum plan_way way)
{
    static const char *const words[] = {"layer by layer", "mixed", "outside in", "out and back"};
    return words[way];
}

/* An event with the keys that apply to it. */
static json_t *event_object(const struct record_event *event, const struct scenario *scenario)
{
    json_t *object = json_object();
    json_put_text(object, "do", deed_word(event->deed));
    if (event->deed == PLAN_TURN) {
        json_put_text(object, "how", way_word(event->way));
        int bay = event->into >= 0 && event->into < scenario->bays ? event->into : scenario->home;
        json_put_text(object, "into", scenario->bay[bay].name);
    }
    if (event->water_kg > 0.0 || event->deed == PLAN_WATER)
        json_put_number(object, "water_l", event->water_kg);
    json_put_number(object, "person_minutes", event->person_s / SECONDS_A_MINUTE);
    if (event->lifted_kg > 0.0)
        json_put_number(object, "lifted_kg", event->lifted_kg);
    if (event->picked_out_kg > 0.0 || event->deed == PLAN_PICK)
        json_put_number(object, "picked_out_kg", event->picked_out_kg);
    if (event->added_kg > 0.0 || event->deed == PLAN_ADD)
        json_put_number(object, "added_kg", event->added_kg);
    return object;
}

static json_t *day_object(const struct tale *tale, int row)
{
    const struct record *record = tale->record;
    const struct record_day *day = &record->day[row];
    char date[DATE_TEXT];
    date_write(tale->scenario->start + row, date);
    json_t *object = json_object(), *events = json_array();
    json_put(object, "day", json_integer(row + 1));
    json_put_text(object, "date", date);
    for (int i = 0; i < column_count; i++)
        if (column_rows[i].promised)
            json_put_number(object, column_rows[i].name, column_value(&column_rows[i], day));
    for (int i = 0; i < day->events; i++)
        json_array_append_new(
            events, event_object(&record->event[day->first_event + i], tale->scenario));
    json_put(object, "events", events);
    return object;
}

static json_t *days_list(const struct tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < tale->record->days; i++)
        json_array_append_new(list, day_object(tale, i));
    return list;
}

static json_t *balance_object(const struct record *record)
{
    json_t *object = json_object();
    for (int i = 0; i < RECORD_BALANCES; i++)
        json_put_number(object, record_balance_name[i], record->balance[i]);
    return object;
}

/* When the compost serves each use: not worked out by this version, so every value is null. */
static json_t *ready_object(void)
{
    static const char *const uses[] = {"mulch", "beds", "pots"};
    static const char *const keys[] = {"date", "early", "late", "chance_by_need", "never_share",
                                       "why_not"};
    json_t *object = json_object();
    for (int i = 0; i < 3; i++) {
        json_t *use = json_object();
        for (int k = 0; k < 6; k++)
            json_put(use, keys[k], json_null());
        json_put(object, uses[i], use);
    }
    return object;
}

static void add_class(json_t *list, const char *class, double live_share)
{
    json_t *object = json_object();
    json_put_text(object, "class", class);
    json_put_number(object, "live_share", live_share);
    json_put(object, "live_share_low", json_null());
    json_put(object, "live_share_high", json_null());
    json_array_append_new(list, object);
}

static json_t *seeds_list(const struct record *record)
{
    static const char *const classes[] = {"easy", "moderate", "hard"};
    json_t *list = json_array();
    for (int i = 0; i < 3; i++) /* 0/0 is not known rather than none */
        add_class(list, classes[i], record->seeds_alive[i] / record->seeds_at_start[i]);
    return list;
}

static json_t *yield_object(const struct tale *tale)
{
    json_t *object = json_object();
    const struct record *record = tale->record;
    const struct record_day *last = record->days ? &record->day[record->days - 1] : NULL;
    const struct plan_need *need = &tale->scenario->need;
    double volume_m3 = last ? last->volume_m3 : NAN;
    json_put_number(object, "volume_m3", volume_m3);
    json_put_number(object, "wet_kg", last ? last->wet_kg : NAN);
    json_put_number(object, "dry_kg", last ? last->dry_kg : NAN);
    json_put_number(object, "nitrogen_kg", last ? last->nitrogen_kg : NAN);
    json_put_number(object, "c_to_n", last ? last->carbon_kg / last->nitrogen_kg : NAN);
    json_put_number(object, "bed_m2",
               need->is && need->bed_depth_m > 0.0 ? volume_m3 / need->bed_depth_m : NAN);
    return object;
}

static json_t *work_object(const struct record *record)
{
    json_t *object = json_object();
    json_put_number(object, "person_minutes", record->person_s / SECONDS_A_MINUTE);
    json_put_number(object, "lifted_kg", record->lifted_kg);
    json_put(object, "turns", json_integer(record->turns));
    json_put_number(object, "water_l", record->water_l);
    return object;
}

static json_t *fluxes_object(const struct record *record)
{
    json_t *object = json_object();
    for (int i = 0; i < FLUXES; i++) {
        char key[64];
        snprintf(key, sizeof key, "%s_%s", flux_rows[i].name, flux_unit((enum flux)i));
        json_put_number(object, key, column_flux(record->flux_total, (enum flux)i));
    }
    return object;
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

static json_t *season_object(const struct tale *tale)
{
    const struct scenario *scenario = tale->scenario;
    char start[DATE_TEXT];
    date_write(scenario->start, start);
    json_t *object = json_object();
    json_put_text(object, "midden", tale->version);
    json_put_text(object, "scenario", scenario->name);
    json_put_text(object, "plan", scenario->plan[tale->plan].name);
    json_put_text(object, "start", start);
    json_put(object, "members", json_integer(1));
    json_put(object, "draw", json_integer(tale->draw));
    json_put(object, "days", days_list(tale));
    json_put(object, "balance", balance_object(tale->record));
    json_put(object, "ready", ready_object());
    json_put(object, "hygiene", json_array());
    json_put(object, "seeds", seeds_list(tale->record));
    json_put(object, "yield", yield_object(tale));
    json_put(object, "work", work_object(tale->record));
    json_put(object, "fluxes", fluxes_object(tale->record));
    json_put(object, "assumed", json_assumed(scenario));
    json_put(object, "cautions", cautions_list(tale));
    return object;
}

bool json_write(FILE *out, json_t *object, struct trouble *why)
{
    bool done = object && json_dumpf(object, out, JSON_INDENT(1) | JSON_REAL_PRECISION(10)) == 0;
    json_decref(object);
    fputc('\n', out);
    return done || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
}

bool json_season(FILE *out, const struct tale *tale, struct trouble *why)
{
    return json_write(out, season_object(tale), why);
}
