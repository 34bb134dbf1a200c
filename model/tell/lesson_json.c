/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_json.c - see tell/lesson_json.h.
 *
 * In `watts` the plain keys are means over the possible piles, so that they add up to `stored`; the
 * ends hold 8 in 10 of them. Everywhere else the plain key is a median.
 */
#include "tell/lesson_json.h"
#include "ask/lesson_try.h"
#include "ask/ready.h"
#include "ask/vary.h"
#include "tell/json.h"
#include <math.h>

static const double ICE_POINT_K = 273.15, MINUTE_S = 60;
/* plain letters and metric units, whatever the terminal and the scenario say */
static const struct phrase_style PLAIN = {false, 0, 0.012};

static void put_temp(json_t *object, const char *key, struct span temp_K)
{
    json_put_span(object, key,
                  (struct span){temp_K.low - ICE_POINT_K, temp_K.mid - ICE_POINT_K,
                                temp_K.high - ICE_POINT_K},
                  1);
}

static void put_day(json_t *object, const struct scenario *scenario, int day)
{
    char date[DATE_TEXT];
    date_write(scenario->start + day, date);
    json_put(object, "day", json_integer(day + 1));
    json_put_text(object, "date", date);
}

static json_t *watts(const struct budget_range *range)
{
    json_t *object = json_object();
    for (int i = 0; i < BUDGET_LINES; i++)
        json_put_span(object, budget_name[i], range->line_W[i], 1);
    return object;
}

/* Means only, one row a day: what the picture is drawn of. */
static json_t *watt_days(const struct lesson_found *found)
{
    const struct able *able = &found->asked->able;
    json_t *list = json_array();
    for (int day = 0; day < found->asked->scenario->last_day + 1; day++) {
        struct budget_range range =
            budget_range_of(able->record, able->members, day, -1, found->room);
        json_t *object = json_object();
        put_day(object, found->asked->scenario, day);
        for (int i = 0; i < BUDGET_LINES; i++)
            json_put_number(object, budget_name[i], range.line_W[i].mid);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *today(const struct lesson_found *found)
{
    static const char *const how[] = {"named", "last reading", "furthest above the air"};
    json_t *object = json_object();
    put_day(object, found->asked->scenario, found->day);
    json_put_text(object, "day_is", how[found->how]);
    put_temp(object, "middle_c", found->middle_K);
    put_temp(object, "deep30cm_c", found->deep_30cm_K);
    put_temp(object, "hand_deep_c", found->hand_deep_K);
    put_temp(object, "air_c", found->air_K);
    return object;
}

static json_t *a_week_later(const struct lesson_found *found)
{
    if (found->next_day < 0)
        return NULL;
    json_t *object = json_object();
    put_day(object, found->asked->scenario, found->next_day);
    put_temp(object, "middle_c", found->next_middle_K);
    put_temp(object, "deep30cm_c", found->next_deep_30cm_K);
    put_temp(object, "hand_deep_c", found->next_hand_deep_K);
    return object;
}

static json_t *needs(const struct lesson_found *found)
{
    json_t *object = json_object();
    json_put_span(object, "dry_kg", found->dry_kg, 1);
    json_put_span(object, "quick_food_kg", found->quick_kg, 1);
    json_put_span(object, "water_kg", found->water_kg, 1);
    json_put_span(object, "free_air_share", found->free_air_share, 1);
    json_put_span(object, "used_up_kg", found->used_kg, 1);
    json_put_span(object, "heat_MJ_per_kg_used", found->heat_MJ_per_kg, 1);
    json_put_span(object, "water_dried_kg_per_kg_used", found->dried_kg_per_kg, 1);
    return object;
}

static json_t *warmth(const struct lesson_warmth *warmth)
{
    json_t *object = json_object();
    put_temp(object, "peak_c", warmth->peak_K);
    json_put_span(object, "days_above_45c", warmth->warm_days, 1);
    put_temp(object, "last_day_c", warmth->last_K);
    json_put_span(object, "used_up_share", warmth->used_share, 1);
    json_put_span(object, "oxygen_least_share", warmth->oxygen_least_share, 1);
    json_put_span(object, "free_air_share", warmth->free_air_share, 1);
    json_put_span(object, "water_share", warmth->water_share, 1);
    return object;
}

static json_t *sizes(const struct lesson_found *found)
{
    json_t *list = json_array();
    for (int i = 0; i < LESSON_SIZES; i++) {
        json_t *object = warmth(&found->size[i]);
        json_put_number(object, "side_m", lesson_try_side_m[i]);
        json_put_number(object, "surface_per_volume_per_m",
                        vary_cube_surface(lesson_try_side_m[i]));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *wets(const struct lesson_found *found)
{
    json_t *list = json_array();
    for (int i = 0; i < LESSON_WETS; i++) {
        json_t *object = warmth(&found->wet[i]);
        json_put_number(object, "built_with_water_share", lesson_try_water_share[i]);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *damp_most(const struct lesson_found *found)
{
    json_t *object = json_object();
    json_put(object, "piles", json_integer(found->damp_most));
    json_put(object, "of", json_integer(found->wet_sets));
    return object;
}

static json_t *turn(const struct lesson_found *found)
{
    json_t *object = json_object();
    put_day(object, found->alone->scenario, found->turn_day);
    put_temp(object, "middle_before_c", found->turn_before_K);
    put_temp(object, "middle_lowest_c", found->turn_low_K);
    put_temp(object, "middle_highest_c", found->turn_top_K);
    json_put_span(object, "days_to_highest", found->turn_after_days, 1);
    put_temp(object, "left_alone_highest_c", found->turn_alone_K);
    json_put_span(object, "oxygen_before_share", found->oxygen_before_share, 1);
    json_put_span(object, "oxygen_after_share", found->oxygen_after_share, 1);
    json_put(object, "drops_first", json_integer(found->turn_drops));
    json_put(object, "rises_above_left_alone", json_integer(found->turn_rises));
    json_put(object, "of", json_integer(found->turn_pairs));
    json_put_span(object, "hottest_over_55c_share", found->hottest_over_55_share, 1);
    return object;
}

static json_t *winter(const struct lesson_found *found)
{
    static const char *const place[2][3] = {
        {"middle_bare_c", "middle_covered_c", "middle_gain_k"},
        {"hand_deep_bare_c", "hand_deep_covered_c", "hand_deep_gain_k"}};
    json_t *object = json_object();
    json_put(object, "begun_in_winter_instead", json_boolean(found->winter_moved));
    json_put_span(object, "coldest_day", found->cold_day, 1);
    put_temp(object, "air_c", found->cold_air_K);
    for (int i = 0; i < 2; i++) {
        put_temp(object, place[i][0], found->bare_K[i]);
        put_temp(object, place[i][1], found->covered_K[i]);
        json_put_span(object, place[i][2], found->gain_K[i], 1);
    }
    json_put_number(object, "cover_cm", 100 * lesson_try_cover_m);
    json_put(object, "covered_on_day", json_integer(found->cover_day + 1));
    json_put_span(object, "heat_made_then_w", found->cold_made_W, 1);
    json_put_span(object, "heat_made_later_w", found->later_made_W, 1);
    json_put(object, "wakes", json_integer(found->wakes));
    json_put(object, "of", json_integer(found->winter_pairs));
    return object;
}

static json_t *plans(const struct lesson_found *found)
{
    json_t *object = json_object(), *list = json_array();
    for (int i = 0; i < 2; i++) {
        const struct contender *c = &found->contender[i];
        const struct standing *s = &found->standing[i];
        json_t *plan = json_object();
        json_put_text(plan, "plan", c->scenario->plan[c->plan].name);
        json_put_span(plan, "person_minutes", s->person_s, 1 / MINUTE_S);
        json_put_span(plan, "ready_day", s->ready_day, 1);
        json_put_span(plan, "chance_by_need", s->chance, 1);
        json_array_append_new(list, plan);
    }
    json_put(object, "plans", list);
    json_put_text(object, "ready_for", ready_use_word[outcome_use(found->asked->scenario)]);
    json_put_span(object, "ready_days_sooner", found->pair.sooner_days, 1);
    json_put_span(object, "extra_person_minutes", found->pair.extra_person_s, 1 / MINUTE_S);
    json_put_number(object, "chance_sooner", found->pair.chance_sooner);
    json_put(object, "sooner_is_clear", json_boolean(compare_clear(&found->pair)));
    return object;
}

static json_t *steps(const struct lesson_tale *tale)
{
    json_t *list = json_array();
    for (int i = 0; i < LESSON_STEPS; i++) {
        const struct lesson_row *row = &lesson_rows[i];
        json_t *object = json_object();
        json_put(object, "from_min", json_integer(row->from_min));
        json_put(object, "to_min", json_integer(row->to_min));
        json_put_text(object, "title", row->title);
        json_put_text(object, "do", row->does);
        json_put_text(object, "ask", row->asks);
        json_put_text(object, "shows", lesson_shows(tale, (enum lesson_step)i, &PLAIN).text);
        json_put_text(object, "real_pile", row->real);
        json_array_append_new(list, object);
    }
    return list;
}

bool lesson_json(FILE *out, const struct lesson_tale *tale, struct trouble *why)
{
    const struct lesson_found *found = tale->found;
    json_t *object = json_object();
    json_put_text(object, "midden", tale->version);
    json_put_text(object, "scenario", tale->scenario->name);
    json_put_text(object, "plan", tale->scenario->plan[tale->plan].name);
    json_put(object, "members", json_integer(found->members));
    json_put(object, "draw", json_integer(tale->draw));
    json_put(object, "today", today(found));
    json_put(object, "a_week_later", a_week_later(found));
    json_put(object, "needs", needs(found));
    json_put(object, "watts", watts(&found->budget));
    json_put(object, "watt_days", watt_days(found));
    json_put(object, "sizes", sizes(found));
    json_put(object, "turn", turn(found));
    json_put(object, "wetness", wets(found));
    json_put(object, "damp_uses_most", damp_most(found));
    json_put(object, "winter", winter(found));
    json_put(object, "two_plans", plans(found));
    json_put(object, "steps", steps(tale));
    json_put(object, "assumed", json_assumed(tale->scenario));
    return json_write(out, object, why);
}
