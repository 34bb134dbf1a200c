/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/why_json.c - see tell/why_json.h.
 *
 * In `budget_w` the plain keys are means over the possible piles, so that they add up to `stored`; the
 * ends hold 8 in 10 of them. Everywhere else the plain key is a median.
 */
#include "tell/why_json.h"
#include "ask/ready.h"
#include "tell/ails.h"
#include "tell/json.h"
#include "tell/otherwise.h"
#include <math.h>

static const double HOUR_S = 3600, ICE_POINT_K = 273.15;
/* plain letters and metric units, whatever the terminal and the scenario say */
static const struct phrase_style PLAIN = {false, 0, 0.012};

static const char *const limit_key[RECORD_LIMITS] = {"temperature", "water", "oxygen", "nitrogen", "food"};
static const char *const place_key[RECORD_PLACES] = {"core", "shoulder", "rim"};

static void put_temp(json_t *object, const char *key, struct span temp_K)
{
    json_put_span(object, key, (struct span){temp_K.low - ICE_POINT_K, temp_K.mid - ICE_POINT_K,
                                             temp_K.high - ICE_POINT_K}, 1);
}

static json_t *budget_object(const struct budget_range *range)
{
    json_t *object = json_object();
    for (int i = 0; i < BUDGET_LINES; i++)
        json_put_span(object, budget_name[i], range->line_W[i], 1);
    return object;
}

static json_t *limits_object(const struct why_tale *tale)
{
    const struct able *able = &tale->found->able;
    json_t *places = json_object();
    for (int p = 0; p < RECORD_PLACES; p++) {
        json_t *limits = json_object();
        for (int k = 0; k < RECORD_LIMITS; k++)
            json_put_span(limits, limit_key[k],
                          held_range(able->record, able->members, tale->day, (enum record_place)p,
                                     (enum record_limit)k, tale->room), 1);
        json_put(places, place_key[p], limits);
    }
    return places;
}

/* What holds back at each place, most first. */
static json_t *held_object(const struct why_tale *tale)
{
    const struct able *able = &tale->found->able;
    json_t *places = json_object();
    for (int p = 0; p < RECORD_PLACES; p++) {
        struct held rank[RECORD_LIMITS];
        json_t *list = json_array();
        int count = held_rank_of(rank, able->record, able->members, tale->day, (enum record_place)p,
                                 tale->room);
        for (int i = 0; i < count; i++)
            json_array_append_new(list, json_string(limit_key[rank[i].what]));
        json_put(places, place_key[p], list);
    }
    return places;
}

static json_t *change_object(const struct why_tale *tale, const struct why_effect *effect)
{
    json_t *object = json_object();
    json_put_text(object, "change", otherwise_key[effect->change.kind]);
    json_put_text(object, "how", otherwise_said(effect, tale->scenario, &PLAIN).text);
    json_put(object, "from_start", json_boolean(change_from_start(effect->change.kind)));
    json_put_number(object, "water_l", effect->change.water_l);
    json_put_text(object, "ingredient", effect->change.stuff < 0 ? NULL : effect->stuff);
    json_put_span(object, "middle_c", effect->middle_K, 1);
    json_put_span(object, "ready_days", effect->ready_days, 1);
    json_put_number(object, "warmer_share", effect->members ? (double)effect->warmer / effect->members : NAN);
    json_put_number(object, "sooner_share", effect->members ? (double)effect->sooner / effect->members : NAN);
    json_put(object, "warmer", json_boolean(why_warms(effect)));
    json_put(object, "sooner", json_boolean(why_hastens(effect)));
    json_put(object, "members", json_integer(effect->members));
    return object;
}

static json_t *changes_array(const struct why_tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < tale->found->tells; i++) {
        const struct why_effect *effect = &tale->found->effect[tale->found->told[i]];
        if (effect->members > 0)
            json_array_append_new(list, change_object(tale, effect));
    }
    return list;
}

static json_t *left_out_array(const struct why_tale *tale)
{
    json_t *list = json_array();
    for (int kind = 0; kind < CHANGE_KINDS && tale->found->after_days > 0; kind++) {
        const struct change *change = &tale->found->effect[kind].change;
        if (change->bar == CHANGE_CAN)
            continue;
        json_t *object = json_object();
        json_put_text(object, "change", otherwise_key[kind]);
        json_put_text(object, "because", otherwise_bar[change->bar]);
        json_array_append_new(list, object);
    }
    return list;
}

static double hour_middle(const struct why_tale *tale, int hour)
{
    double sum = 0;
    for (int m = 0; m < tale->found->able.members; m++)
        sum += tale->found->able.record[m].hour[hour].middle_K;
    return sum / tale->found->able.members;
}

/* Means only; hours before the pile was built are left out. */
static json_t *hours_array(const struct why_tale *tale)
{
    const struct able *able = &tale->found->able;
    json_t *list = json_array();
    for (int h = 0; h < RECORD_HOURS; h++) {
        if (!(able->record[0].hour[h].seen_s > 0))
            continue;
        struct budget_range range = budget_range_of(able->record, able->members, tale->day, h, tale->room);
        json_t *object = json_object();
        json_put(object, "hour", json_integer(h));
        for (int i = 0; i < BUDGET_LINES; i++)
            json_put_number(object, budget_name[i], range.line_W[i].mid);
        json_put_number(object, "middle_c", hour_middle(tale, h) - ICE_POINT_K);
        json_array_append_new(list, object);
    }
    return list;
}

static void put_head(json_t *object, const struct why_tale *tale)
{
    static const char *const how[] = {"named", "last reading", "furthest above the air"};
    char date[DATE_TEXT];
    date_write(tale->scenario->start + tale->day, date);
    json_put_text(object, "midden", tale->version);
    json_put_text(object, "scenario", tale->scenario->name);
    json_put_text(object, "plan", tale->scenario->plan[tale->plan].name);
    json_put(object, "members", json_integer(tale->found->able.members));
    json_put(object, "draw", json_integer(tale->draw));
    json_put(object, "day", json_integer(tale->day + 1));
    json_put_text(object, "date", date);
    json_put(object, "hour", tale->hour < 0 ? json_null() : json_integer(tale->hour));
    json_put_text(object, "day_is", how[tale->how]);
}

bool why_json(FILE *out, const struct why_tale *tale, struct trouble *why)
{
    const struct why_found *found = tale->found;
    json_t *object = json_object();
    int most = budget_most(&found->budget);
    put_head(object, tale);
    json_put(object, "budget_w", budget_object(&found->budget));
    json_put_text(object, "budget_is", "mean");
    json_put_text(object, "most_heat_leaves_by", most < 0 ? NULL : why_way_word[most]);
    json_put_span(object, "dried_l_per_hour", found->budget.dried_kg_per_s, HOUR_S);
    json_put_span(object, "steam_w", found->budget.steam_W, 1);
    put_temp(object, "middle_c", found->middle_K);
    put_temp(object, "air_c", found->air_K);
    json_put_span(object, "water_share", found->water_share, 1);
    json_put(object, "limits", limits_object(tale));
    json_put(object, "held_back_by", held_object(tale));
    json_put(object, "readings", json_integer(tale->readings));
    json_put(object, "causes", ails_causes(found->odds, found->causes));
    json_put(object, "test",
             ails_test_object(found->odds, found->causes, cause_squeezed(tale->scenario, tale->day + 1)));
    json_put(object, "after_days", json_integer(found->after_days));
    json_put_text(object, "ready_for", ready_use_word[found->use]);
    json_put(object, "changes", changes_array(tale));
    json_put(object, "left_out", left_out_array(tale));
    json_put(object, "hours", hours_array(tale));
    json_put(object, "assumed", json_assumed(tale->scenario));
    return json_write(out, object, why);
}
