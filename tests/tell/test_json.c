/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_json.c - tell/json on a made-up season, read back by jansson. */
#include "tell/json.h"
#include "tell/season_made.h"

static json_t *told(const struct tale *tale)
{
    struct trouble why = {0};
    json_error_t error;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    assert_true(json_season(out, tale, &why));
    assert_int_equal(fclose(out), 0);
    json_t *object = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(object);
    free(text);
    return object;
}

/* Exactly these keys, in any order. */
static void assert_keys(json_t *object, const char *const *keys)
{
    size_t count = 0;
    for (; keys[count]; count++)
        if (!json_object_get(object, keys[count]))
            fail_msg("key %s is missing", keys[count]);
    assert_int_equal(json_object_size(object), count);
}

static void rules_and_waits_have_their_keys_and_dates(void **state)
{
    (void)state;
    static const char *const rule[] = {"rule", "where", "source", "mark", "mass_share_met", "first_met", NULL};
    static const char *const turned[] = {"rule", "where", "source", "mark", "mass_share_met", "first_met",
                                         "turns_needed", NULL};
    static const char *const wait[] = {"crop", "laid", "harvest", "days", "days_wanted", "enough",
                                       "earliest", NULL};
    struct made *made = made_new();
    for (int i = 0; i < MADE_DAYS; i++)
        made->day[i].met_share[RULES_THREE_DAYS_55] = i < 6 ? 0.2 : 0.75;
    made->record.germs_laid[0] = 100;
    made->record.germs_alive[0] = 1;
    made->scenario.stuff[0].dung = true;
    made->scenario.need.harvests = 1;
    snprintf(made->scenario.need.harvest[0].crop, PLAN_NAME, "lettuce");
    made->scenario.need.harvest[0].day = made->scenario.start + 101;
    json_t *object = told(&made->tale);
    json_t *rules = json_object_get(object, "hygiene");
    assert_int_equal(json_array_size(rules), RULES);
    json_t *first = json_array_get(rules, RULES_THREE_DAYS_55);
    assert_keys(first, rule);
    assert_keys(json_array_get(rules, RULES_FIFTEEN_DAYS_55), turned);
    assert_near(json_number_value(json_object_get(first, "mass_share_met")), 0.75, 1e-9);
    assert_string_equal(json_string_value(json_object_get(first, "first_met")), "2025-10-24"); /* day 7 */
    json_t *germs = json_object_get(object, "pathogens");
    assert_int_equal(json_array_size(germs), 2);
    assert_string_equal(json_string_value(json_object_get(json_array_get(germs, 0), "class")), "gut bacteria");
    assert_string_equal(json_string_value(json_object_get(json_array_get(germs, 1), "class")), "worm eggs");
    assert_near(json_number_value(json_object_get(json_array_get(germs, 0), "live_share")), 0.01, 1e-9);
    json_t *manure = json_array_get(json_object_get(object, "raw_manure"), 0);
    assert_keys(manure, wait);
    assert_false(json_is_true(json_object_get(manure, "enough")));
    assert_string_equal(json_string_value(json_object_get(manure, "earliest")), "2026-02-15");
    json_decref(object);
    free(made);
}

static void a_season_has_the_promised_keys(void **state)
{
    (void)state;
    static const char *const season[] = {
        "midden", "scenario", "plan", "start", "members", "draw", "days", "balance", "ready",
        "hygiene", "seeds", "pathogens", "raw_manure", "yield", "work", "fluxes", "assumed",
        "cautions", NULL};
    static const char *const day[] = {
        "day", "date", "air_c", "middle_c", "deep30cm_c", "hand_deep_c", "mean_c", "hottest_c",
        "coldest_tenth_c", "water_share", "free_air_share", "oxygen_lowest_share", "height_m",
        "volume_m3", "dry_kg", "carbon_kg", "nitrogen_kg", "heat_made_w", "events", NULL};
    static const char *const balance[] = {"carbon", "nitrogen", "water", "energy", "seeds", NULL};
    static const char *const ready[] = {"mulch", "beds", "pots", NULL};
    static const char *const use[] = {"date", "early", "late", "chance_by_need", "never_share",
                                      "why_not", NULL};
    static const char *const seed[] = {"class", "live_share", "live_share_low", "live_share_high",
                                       NULL};
    static const char *const yield[] = {"volume_m3", "wet_kg", "dry_kg", "nitrogen_kg", "c_to_n",
                                        "bed_m2", "bed_share", "barrows", "sticks_kg", "sticks_m3",
                                        "of_laid_share", "nitrogen_first_year_kg", "date", NULL};
    static const char *const work[] = {"person_minutes", "lifted_kg", "turns", "water_l",
                                       "longest_visit", NULL};
    struct made *made = made_new();
    json_t *object = told(&made->tale);
    assert_keys(object, season);
    assert_int_equal(json_array_size(json_object_get(object, "days")), MADE_DAYS);
    assert_keys(json_array_get(json_object_get(object, "days"), 0), day);
    assert_keys(json_object_get(object, "balance"), balance);
    assert_keys(json_object_get(object, "ready"), ready);
    assert_keys(json_object_get(json_object_get(object, "ready"), "beds"), use);
    assert_int_equal(json_array_size(json_object_get(object, "seeds")), 3);
    assert_keys(json_array_get(json_object_get(object, "seeds"), 0), seed);
    assert_keys(json_object_get(object, "yield"), yield);
    assert_keys(json_object_get(object, "work"), work);
    assert_int_equal(json_object_size(json_object_get(object, "fluxes")), FLUXES);
    json_decref(object);
    free(made);
}

static double number(json_t *object, const char *key)
{
    json_t *value = json_object_get(object, key);
    assert_true(json_is_number(value));
    return json_number_value(value);
}

static void numbers_stand_in_the_unit_of_their_key(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->scenario.need.is = true;
    made->scenario.need.bed_depth_m = 0.025;
    json_t *object = told(&made->tale);
    json_t *peak = json_array_get(json_object_get(object, "days"), MADE_PEAK_DAY - 1);
    assert_near(number(peak, "middle_c"), 63.0, 1e-7);
    assert_near(number(peak, "day"), MADE_PEAK_DAY, 0.0);
    assert_string_equal(json_string_value(json_object_get(peak, "date")), "2025-10-21");
    assert_near(number(json_object_get(object, "work"), "person_minutes"), 85.0, 1e-9);
    assert_near(number(json_object_get(object, "yield"), "c_to_n"), 25.0, 1e-9);
    assert_near(number(json_object_get(object, "yield"), "bed_m2"), 44.0, 1e-7); /* 1.1 / 0.025 */
    assert_near(number(json_object_get(object, "fluxes"), "decay_heat_MJ"), 2592.0, 1e-6);
    assert_near(number(object, "draw"), 7.0, 0.0);
    assert_near(number(object, "members"), 1.0, 0.0);
    json_decref(object);
    free(made);
}

static void what_is_not_known_is_null(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->day[0].oxygen_lowest_share = NAN;
    made->day[MADE_DAYS - 1].test_breath_per_s = 20e-3 / 86400; /* raw at the end: for no use */
    made->record.balance[2] = INFINITY;
    json_t *object = told(&made->tale);
    json_t *first = json_array_get(json_object_get(object, "days"), 0);
    assert_true(json_is_null(json_object_get(first, "oxygen_lowest_share")));
    assert_true(json_is_null(json_object_get(json_object_get(object, "balance"), "water")));
    json_t *beds = json_object_get(json_object_get(object, "ready"), "beds");
    assert_true(json_is_null(json_object_get(beds, "date")));
    assert_true(json_is_null(json_object_get(beds, "chance_by_need"))); /* of one pile */
    assert_true(json_is_string(json_object_get(beds, "why_not")));
    json_t *seeds = json_object_get(object, "seeds");
    assert_near(number(json_array_get(seeds, 0), "live_share"), 0.01, 1e-12);
    assert_true(json_is_null(json_object_get(json_array_get(seeds, 2), "live_share"))); /* 0/0 */
    json_t *germs = json_object_get(object, "pathogens");
    assert_true(json_is_null(json_object_get(json_array_get(germs, 0), "live_share")));
    json_t *rule = json_array_get(json_object_get(object, "hygiene"), RULES_THREE_DAYS_55);
    assert_true(json_is_null(json_object_get(rule, "first_met")));
    json_decref(object);
    free(made);
}

static void events_carry_the_keys_that_apply(void **state)
{
    (void)state;
    struct made *made = made_new();
    json_t *object = told(&made->tale);
    json_t *events = json_object_get(json_array_get(json_object_get(object, "days"), 30), "events");
    assert_int_equal(json_array_size(events), MADE_EVENTS);
    json_t *turn = json_array_get(events, 0);
    assert_string_equal(json_string_value(json_object_get(turn, "do")), "turn");
    assert_string_equal(json_string_value(json_object_get(turn, "how")), "outside in");
    assert_string_equal(json_string_value(json_object_get(turn, "into")), "bay 2");
    assert_near(number(turn, "person_minutes"), 30.0, 1e-9);
    static const char *const words[MADE_EVENTS] = {"turn",    "water",  "add",     "cover",
                                                   "uncover", "loosen", "pick out"};
    for (size_t i = 0; i < MADE_EVENTS; i++)
        assert_string_equal(
            json_string_value(json_object_get(json_array_get(events, i), "do")), words[i]);
    assert_null(json_object_get(json_array_get(events, 1), "how"));
    json_decref(object);
    free(made);
}

static void cautions_follow_what_is_in_the_pile(void **state)
{
    (void)state;
    struct made *made = made_new();
    json_t *object = told(&made->tale);
    assert_int_equal(json_array_size(json_object_get(object, "cautions")), TALE_CAUTIONS);
    json_decref(object);
    /* no manure, no straw, and cool: heat, manure and weedkiller need not be spoken of */
    snprintf(made->scenario.stuff[0].name, sizeof made->scenario.stuff[0].name, "grass clippings");
    snprintf(made->scenario.stuff[1].name, sizeof made->scenario.stuff[1].name, "mixed leaves");
    for (int i = 0; i < MADE_DAYS; i++)
        made->day[i].hottest_K = 300.0;
    object = told(&made->tale);
    assert_int_equal(json_array_size(json_object_get(object, "cautions")), TALE_CAUTIONS - 3);
    json_decref(object);
    /* straw that only the plan brings counts as well */
    snprintf(made->scenario.stuff[2].name, sizeof made->scenario.stuff[2].name, "Straw, oat");
    made->scenario.plan[0].events = 1;
    made->scenario.plan[0].event[0].add =
        (struct plan_layer){.portions = 1, .portion = {{.stuff = 2}}};
    object = told(&made->tale);
    assert_int_equal(json_array_size(json_object_get(object, "cautions")), TALE_CAUTIONS - 2);
    json_decref(object);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_season_has_the_promised_keys),
        cmocka_unit_test(rules_and_waits_have_their_keys_and_dates),
        cmocka_unit_test(numbers_stand_in_the_unit_of_their_key),
        cmocka_unit_test(what_is_not_known_is_null),
        cmocka_unit_test(events_carry_the_keys_that_apply),
        cmocka_unit_test(cautions_follow_what_is_in_the_pile),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
