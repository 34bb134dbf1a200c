/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_check.c - tell/check: sums of a recipe by hand, and bays that are in the way. */
#include "tell/check.h"
#include "tell/json.h"
#include "tell/season_made.h"

static const struct phrase_style STYLE = {true, 0, 0.012};

static char *told(const struct made *made, bool json)
{
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    struct check check = check_scenario(&made->scenario, &STYLE);
    if (json)
        assert_true(check_json(out, &check, &made->scenario, "9.9.9", &why));
    else
        check_text(out, &check, &made->scenario, &STYLE);
    assert_int_equal(fclose(out), 0);
    return text;
}

/* Three layers of 80 kg at 70 % water in 120 L, 10 kg at 10 % in 250 L, and 12 kg poured; a quarter
 * of the height is lost; the bay is 1.2 x 1.2 x 1 m. [derived, by hand] */
static void a_recipe_is_summed(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_near(check.laid_m3, 3 * 0.37, 1e-12);
    assert_near(check.settled_m3, 3 * 0.37 * 0.75, 1e-12);
    assert_near(check.holds_m3, 1.44, 1e-12);
    assert_near(check.wet_kg.mid, 3 * 102.0, 1e-12);
    assert_near(check.wet_kg.low, 3 * 80.0, 1e-12);
    assert_near(check.water_kg.mid, 3 * (56.0 + 1.0 + 12.0), 1e-12);
    assert_string_equal(check.reason, "");
    assert_string_equal(check.look, "");
    free(made);
}

static void layers_alike_are_told_once_and_assumed_values_once(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(made, false);
    assert_int_equal(strncmp(text, "Yes. ", 5), 0);
    assert_non_null(strstr(text, "layers 1 to 3: 3 times\n"));
    assert_non_null(strstr(text, "100-150, about 120 L (10 buckets), 80 (60-100) kg"));
    assert_non_null(strstr(text, "(60-80) % water"));
    assert_non_null(strstr(text, "assumed  walls: pallets\n"));
    assert_non_null(strstr(text, "assumed  bucket: 12 L\n"));
    assert_null(strchr(text, '\x1b')); /* a name can't steer the terminal */
    assert_true(made_widest(text) <= 80);
    free(text);
    free(made);
}

static void a_word_read_as_another_is_told_with_what_it_was_taken_for(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(made, false);
    assert_null(strstr(text, "read as"));
    free(text);
    made->scenario.takens = 1;
    snprintf(made->scenario.taken[0].word, PLAN_NAME, "golden straw");
    made->scenario.taken[0].stuff = 1;
    text = told(made, false);
    assert_non_null(strstr(text, "\n  read as  wheat straw (`golden straw`)\n"));
    free(text);
    text = told(made, true);
    json_t *json = json_loads(text, 0, NULL);
    const json_t *taken = json_array_get(json_object_get(json, "taken_for"), 0);
    assert_string_equal(json_string_value(json_object_get(taken, "word")), "golden straw");
    assert_string_equal(json_string_value(json_object_get(taken, "ingredient")), "wheat straw");
    json_decref(json);
    free(text);
    free(made);
}

static void layers_that_take_turns_are_told_once(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct plan_layer *layer = made->scenario.layer;
    made->scenario.layers = 8; /* A, then B C three times, then A */
    for (int i = 1; i < 8; i++)
        layer[i] = layer[0];
    for (int i = 1; i < 7; i++)
        layer[i].water_kg.low = layer[i].water_kg.high = i % 2 ? 20.0 : 30.0;
    char *text = told(made, false);
    assert_non_null(strstr(text, "layer 1\n"));
    assert_non_null(strstr(text, "layers 2 to 7: 3 times\n  layer 2\n"));
    assert_non_null(strstr(text, "layer 3\n"));
    assert_null(strstr(text, "layer 4\n"));
    assert_non_null(strstr(text, "layer 8\n"));
    free(text);
    free(made);
}

static void a_recipe_too_big_for_its_bay_deserves_a_look(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->scenario.bay[0].height_m = 0.7; /* 1.008 m3: 1.11 laid is over, 0.83 settled is not */
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_non_null(strstr(check.look, "heap it up"));
    made->scenario.bay[0].height_m = 0.5; /* 0.72 m3: 0.1125 m3 over */
    check = check_scenario(&made->scenario, &STYLE);
    assert_non_null(strstr(check.look, "112 L"));
    assert_string_equal(check.reason, "");
    free(made);
}

/* Less than 40 cm high and than a third of its width, unless more is to come [trade: what lies flat cools]. */
static void a_carpet_in_a_wide_bay_deserves_a_look(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct plan_bay *bay = &made->scenario.bay[0];
    bay->length_m = bay->width_m = 1.8; /* 1.11 m3: 34 cm */
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_non_null(strstr(check.look, "to 34 cm only: a pile so flat hardly keeps its heat"));
    bay->length_m = bay->width_m = 1.6; /* 43 cm */
    check = check_scenario(&made->scenario, &STYLE);
    assert_string_equal(check.look, "");
    bay->length_m = bay->width_m = 1.8;
    bay->shape = PLAN_HEAP;
    check = check_scenario(&made->scenario, &STYLE);
    assert_string_equal(check.look, "");
    bay->shape = PLAN_BIN;
    made->scenario.plan[0].events = 1;
    made->scenario.plan[0].event[0].add.portions = 1;
    check = check_scenario(&made->scenario, &STYLE);
    assert_string_equal(check.look, "");
    free(made);
}

static void a_heap_has_no_edge_to_overflow(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->scenario.bay[0].shape = PLAN_HEAP;
    made->scenario.bay[0].height_m = 0.1;
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_string_equal(check.look, "");
    char *text = told(made, true);
    json_t *object = json_loads(text, 0, NULL);
    assert_non_null(object);
    assert_true(json_is_null(json_object_get(object, "bay_holds_m3")));
    json_decref(object);
    free(text);
    free(made);
}

/* Three times manure of 60, 80 or 100 kg, straw of 8, 10 or 12 and 12 of water: 240, 306, 372 kg; water
 * 56 + 1 + 12 of 102 [derived]. */
static void what_is_weighed_in_vessels_is_told_with_its_range(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(made, false);
    assert_non_null(strstr(text, "  in all   1.11 m3 as carried; 310 (240-370) kg with what is poured on, about\n"
                                 "           68 % of it water\n"));
    free(text);
    free(made);
}

static void a_turn_into_a_full_bay_cannot_be_done(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct plan *plan = &made->scenario.plan[1];
    plan->events = 1;
    plan->event[0] = (struct plan_event){.deed = PLAN_TURN, .when = PLAN_ON_DAY, .day = 40,
                                         .into = 1};
    made->scenario.bay[1].now = PLAN_BAY_FULL;
    made->scenario.bay[1].full_until = made->scenario.start + 41;
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_non_null(strstr(check.reason, "bay 2"));
    assert_non_null(strstr(check.reason, "27 November 2025"));
    made->scenario.bay[1].full_until = made->scenario.start + 40; /* free on the day itself */
    check = check_scenario(&made->scenario, &STYLE);
    assert_string_equal(check.reason, "");
    made->scenario.bay[1].full_until = 0; /* for ever */
    check = check_scenario(&made->scenario, &STYLE);
    assert_non_null(strstr(check.reason, "full"));
    char *text = told(made, false);
    assert_int_equal(strncmp(text, "Understood, but it can't be done: ", 34), 0);
    free(text);
    free(made);
}

/* The start is Saturday 18 October 2025; a visit on Wednesday 12 November, one on Saturday 15 November
 * away, and a rhythm of Tuesdays. */
static void visits_on_the_wrong_day_are_told_once(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct plan *plan = &made->scenario.plan[1];
    made->scenario.people = (struct plan_people){.weekdays = 1u << 5, .days_said = true, .aways = 1};
    made->scenario.people.away[0] = made->scenario.start + 28;
    plan->events = 5;
    for (int i = 0; i < 5; i++)
        plan->event[i] = (struct plan_event){.deed = i % 2 ? PLAN_WATER : PLAN_LOOSEN, .into = -1,
                                             .day = i < 2 ? 25 : 28, .until = i < 2 ? 25 : 28};
    plan->event[4] = (struct plan_event){.deed = PLAN_WATER, .when = PLAN_EVERY, .day = 3, .until = 90,
                                         .every_days = 7, .into = -1};
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_int_equal(check.odds, 3);
    char *text = told(made, false);
    assert_non_null(strstr(text, "3 things\nto look at"));
    assert_non_null(strstr(text, "12 November\n           2025 is a Wednesday, none of your days; done all the same"));
    assert_non_null(strstr(text, "15 November\n           2025 is a day away"));
    assert_non_null(strstr(text, "21 October 2025, a Tuesday"));
    assert_true(made_widest(text) <= 80);
    free(text);
    text = told(made, true);
    json_t *object = json_loads(text, 0, NULL);
    assert_int_equal(json_array_size(json_object_get(object, "look")), 3);
    json_decref(object);
    free(text);
    made->scenario.people.days_said = false; /* weekdays only assumed bind nobody */
    assert_int_equal(check_scenario(&made->scenario, &STYLE).odds, 1);
    free(made);
}

static void a_dial_is_told_with_what_its_readings_are_taken_for(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->scenario.thermometer =
        (struct plan_thermometer){.said = true, .in_ice = true, .ice_K = 4};
    char *text = told(made, false); /* shows 4 in ice, so 50 is 46 */
    assert_non_null(strstr(text, "dial thermometer: 50 "));
    assert_non_null(strstr(text, "is taken for 46 "));
    free(text);
    free(made);
}

static void holds(struct made *made, const char *words)
{
    char *text = told(made, false);
    if (!strstr(text, words))
        fail_msg("no \"%s\" in\n%s", words, text);
    free(text);
}

/* A round jar of 30 cm, 40 cm high, holds pi/4 0.09 0.4 m3 [derived]. */
static void a_jar_is_round(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->scenario.bay[0].shape = PLAN_JAR;
    made->scenario.bay[0].width_m = made->scenario.bay[0].length_m = 0.3;
    made->scenario.bay[0].height_m = 0.4;
    assert_near(check_scenario(&made->scenario, &STYLE).holds_m3, 0.028274, 1e-6);
    free(made);
}

static void what_the_answer_rests_on_is_told(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct scenario *s = &made->scenario;
    s->sky = PLAN_SKY_FILE;
    strcpy(s->sky_file, "gate.csv");
    holds(made, "weather  daily, from gate.csv");
    s->sky = PLAN_SKY_NORMALS;
    holds(made, "made up from the monthly normals of the scenario");
    s->found = (struct plan_found){.is = true, .height_m = {0.6, 0.7, 0.8}, .built_days_ago = 45};
    holds(made, "as found a pile 70 cm high that had stood for about 45 days");
    s->found.built_days_ago = 1.2;
    holds(made, "for about 1 day\n");
    s->found.built_days_ago = 0;
    holds(made, "a pile 70 cm high, just built\n");
    s->thermometer = (struct plan_thermometer){.said = true};
    holds(made, "a dial thermometer, give or take ");
    holds(made, "half of that once it has");
    s->notes = 1;
    holds(made, ", 1 reading");
    s->notes = 12;
    holds(made, ", 12\nreadings");
    /* [memory] ICAO standard atmosphere at 1500 m: 845.6 hPa of 1013.25, 83 %; water boils near 95 C */
    s->place.elevation_m = 1500;
    holds(made, "boiling water reads 95.");
    holds(made, "air holds 83 %");
    free(made);
}

static void many_visits_on_the_wrong_day_are_counted_beyond_the_first(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct plan *plan = &made->scenario.plan[1];
    made->scenario.people = (struct plan_people){.weekdays = 1u << 5, .days_said = true}; /* Saturdays */
    plan->events = CHECK_ODDS + 5;
    for (int i = 0; i < plan->events; i++)
        plan->event[i] = (struct plan_event){.deed = PLAN_WATER, .into = -1, .day = 2 + 7 * i, .until = 2 + 7 * i};
    assert_int_equal(check_scenario(&made->scenario, &STYLE).odds, CHECK_ODDS + 5);
    holds(made, "and 5 more visits on the wrong day");
    free(made);
}

static void a_pile_cannot_be_built_in_a_full_bay(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->scenario.bay[0].now = PLAN_BAY_FULL;
    struct check check = check_scenario(&made->scenario, &STYLE);
    assert_non_null(strstr(check.reason, "bay 1 is full"));
    free(made);
}

static void json_says_the_same(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(made, true);
    json_t *object = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(object);
    assert_true(json_is_true(json_object_get(object, "possible")));
    assert_near(json_number_value(json_object_get(object, "wet_kg")), 306.0, 1e-9);
    assert_near(json_number_value(json_object_get(object, "water_share")), 207.0 / 306.0, 1e-9);
    assert_int_equal(json_array_size(json_object_get(object, "layers")), 3);
    assert_int_equal(json_array_size(json_object_get(object, "assumed")), 2);
    json_decref(object);
    free(text);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_recipe_is_summed),
        cmocka_unit_test(layers_alike_are_told_once_and_assumed_values_once),
        cmocka_unit_test(layers_that_take_turns_are_told_once),
        cmocka_unit_test(a_recipe_too_big_for_its_bay_deserves_a_look),
        cmocka_unit_test(a_word_read_as_another_is_told_with_what_it_was_taken_for),
        cmocka_unit_test(a_carpet_in_a_wide_bay_deserves_a_look),
        cmocka_unit_test(a_heap_has_no_edge_to_overflow),
        cmocka_unit_test(what_is_weighed_in_vessels_is_told_with_its_range),
        cmocka_unit_test(a_turn_into_a_full_bay_cannot_be_done),
        cmocka_unit_test(visits_on_the_wrong_day_are_told_once),
        cmocka_unit_test(a_dial_is_told_with_what_its_readings_are_taken_for),
        cmocka_unit_test(a_pile_cannot_be_built_in_a_full_bay),
        cmocka_unit_test(a_jar_is_round),
        cmocka_unit_test(what_the_answer_rests_on_is_told),
        cmocka_unit_test(many_visits_on_the_wrong_day_are_counted_beyond_the_first),
        cmocka_unit_test(json_says_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
