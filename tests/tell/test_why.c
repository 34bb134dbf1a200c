/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_why.c - every number that `why` says is the one it was given.
 *
 * The figures are made up and easy to follow [derived]; what a person at rest gives off is 58 W/m2 of
 * 1.8 m2 (ISO 8996; memory).
 */
#include "tell/why_json.h"
#include "tell/otherwise.h"
#include <jansson.h>
#include "door/scenario.h"
#include "know/bound.h"
#include "lib/near.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MEMBERS = 3, DAY = 4 };

static struct made {
    struct scenario scenario;
    struct record record[MEMBERS];
    struct record_day day[MEMBERS][8];
    struct record_hour hour[MEMBERS][RECORD_HOURS];
    struct why_found found;
    struct why_tale tale;
    double room[MEMBERS];
} *m;

static const struct phrase_style METRIC = {true, 0, 0.010}, US = {true, 1, 0.010};

static void flow(int member, enum flux flux, double W)
{
    m->day[member][DAY].flux[flux] = 86400 * W;
    for (int h = 0; h < RECORD_HOURS; h++)
        m->hour[member][h].flux[flux] = 3600 * W;
}

/* decay makes 400 W in the mean; the walls take 110, steam and air 200, the top 60, the sun brings 20 */
static int setup(void **state)
{
    static const char text[] = "midden: 1\nname: Sorrel Bank\nstart: 2025-10-01\n"
        "place: {latitude: 47 N, elevation: 400 m}\nsky: cold winters\nbin: 1 x 1 x 1 m\n"
        "measures: {bucket: 10 L}\nbuild:\n  - mixed leaves: 100 kg\nplans:\n  quiet: []\n";
    struct trouble why = {0};
    (void)state;
    m = calloc(1, sizeof *m);
    if (!m || !scenario_read_text(&m->scenario, text, strlen(text), "test", &why))
        return 1;
    for (int i = 0; i < MEMBERS; i++) {
        m->record[i] = (struct record){.days = 8, .day = m->day[i], .hour = m->hour[i]};
        struct record_day *day = &m->day[i][DAY];
        *day = (struct record_day){.middle_K = 320 + i, .air_K = 283, .mean_K = 310, .water_share = 0.5,
                                   .deep_30cm_K = 310, .hand_deep_K = 300};
        for (int h = 0; h < RECORD_HOURS; h++)
            m->hour[i][h].seen_s = 3600, m->hour[i][h].mean_K = 310;
        for (int p = 0; p < RECORD_PLACES; p++)
            for (int k = 0; k < RECORD_LIMITS; k++)
                day->limit[p][k] = p == RECORD_CORE && k == RECORD_OXYGEN ? 0.3 + 0.1 * i
                                   : p == RECORD_RIM && k == RECORD_FOOD ? 0.5 : 0.9;
        flow(i, FLUX_decay_heat, 300 + 100 * i);
        flow(i, FLUX_wall_heat, -110);
        flow(i, FLUX_air_heat, -150);
        flow(i, FLUX_vapour_heat, -50);
        flow(i, FLUX_top_heat, -80);
        flow(i, FLUX_sun_heat, 20);
        flow(i, FLUX_air_water, -0.2 / 3600);
        flow(i, FLUX_vapour_water, -0.1 / 3600);
    }
    m->found = (struct why_found){.able = {.record = m->record, .members = MEMBERS, .room = m->room},
                                  .done = {.members = MEMBERS}, .after_days = 14, .use = 1, .deep_m = 0.5, .tried = 5,
                                  .middle_K = {320, 321, 322}};
    m->found.budget = budget_range_of(m->record, MEMBERS, DAY, -1, m->room);
    for (int k = 0; k < CHANGE_KINDS; k++)
        m->found.effect[k].change = (struct change){.kind = (enum change_kind)k, .stuff = -1, .cover = -1};
    m->found.effect[CHANGE_LID].change.bar = CHANGE_HAS;
    m->found.effect[CHANGE_WATER] = (struct why_effect){
        .change = {.kind = CHANGE_WATER, .water_l = 24, .stuff = -1, .cover = -1}, .members = MEMBERS,
        .middle_K = {2, 5, 9}, .ready_days = {-15, -8, -3}};
    m->found.effect[CHANGE_TURN_IN].members = MEMBERS;
    m->found.effect[CHANGE_TURN_IN].warmer = 2;
    m->found.effect[CHANGE_TURN_IN].sooner = 1;
    m->found.effect[CHANGE_TURN_IN].middle_K = (struct span){-3, -1, 1};
    m->found.effect[CHANGE_TURN_IN].ready_days = (struct span){-4, 1, 6};
    m->found.told[0] = CHANGE_WATER;
    m->found.told[1] = CHANGE_TURN_IN;
    m->found.tells = 2;
    m->tale = (struct why_tale){.found = &m->found, .scenario = &m->scenario, .day = DAY, .hour = -1,
                                .version = "test", .room = m->room};
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    free(m);
    return 0;
}

/* The answer with each run of blanks as one, so that where lines break doesn't matter. */
static char *told(const struct phrase_style *style, bool in_full)
{
    char *text = NULL, *to;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    why_text(out, &m->tale, style, in_full);
    fclose(out);
    to = text;
    for (const char *from = text; *from; from++)
        if (*from != '\n' && *from != ' ')
            *to++ = *from;
        else if (to > text && to[-1] != ' ')
            *to++ = ' ';
    *to = '\0';
    return text;
}

static void assert_says(const struct phrase_style *style, bool in_full, const char *words)
{
    char *text = told(style, in_full);
    if (!strstr(text, words))
        fail_msg("`%s` is not in: %s", words, text);
    free(text);
}

static void the_answer_names_the_way_that_takes_most(void **state)
{
    (void)state;
    assert_says(&METRIC, false, "On 5 Oct (day 5) steam and air take most heat, 200 W; the walls 110, the top 60. "
                "Decay makes 400 (300-500) W; the pile warms by 30 W.");
    m->tale.hour = 14;
    assert_says(&METRIC, false, "From 14 to 15 h on 5 Oct (day 5) steam");
}

static void a_way_that_brings_heat_says_in(void **state)
{
    (void)state;
    m->found.budget.way_W[BUDGET_BY_TOP].mid = -7;
    assert_says(&METRIC, false, "the walls 110, 7 W come in by the top.");
    for (int way = 0; way < BUDGET_WAYS; way++)
        m->found.budget.way_W[way].mid = -1;
    assert_says(&METRIC, false, "On 5 Oct (day 5) no way takes heat out of the pile");
}

/* 400 / (58 x 1.8) = 3.8 people; 0.3 L of water */
static void heat_is_told_as_people_at_rest(void **state)
{
    (void)state;
    assert_says(&METRIC, false, "as 4 people at rest (104 W each, ISO 8996); steam 0.3 L/h");
    m->found.budget.line_W[BUDGET_DECAY].mid = 52.2;
    assert_says(&METRIC, false, "as 50 % of a person at rest");
    m->found.budget.line_W[BUDGET_DECAY].mid = 130;
    assert_says(&METRIC, false, "as one person at rest");
}

static void what_holds_back_is_told_by_place_with_its_range(void **state)
{
    (void)state;
    assert_says(&METRIC, false, "core (innermost): short of air, 40 % (30-50) of its best pace; "
                "rim (outer 15 cm): 50 % of its food left");
    assert_says(&US, false, "rim (outer 6 in): 50 % of its food left");
    assert_says(&METRIC, true, "between them: hardly held back");
}

/* A pile 16 cm high has no outer 15 cm to speak of, nor anything between them and its core. */
static void a_low_pile_has_another_rim(void **state)
{
    (void)state;
    m->found.deep_m = 0.16;
    for (int i = 0; i < MEMBERS; i++)
        for (int k = 0; k < RECORD_LIMITS; k++)
            m->day[i][DAY].limit[RECORD_SHOULDER][k] = NAN;
    assert_says(&METRIC, false, "core (innermost third): short of air, 40 % (30-50) of its best pace; "
                "rim (top and sides): 50 % of its food left");
    char *text = told(&METRIC, true);
    assert_null(strstr(text, "15 cm"));
    assert_null(strstr(text, "nan"));
    assert_null(strstr(text, "between them"));
    assert_non_null(strstr(text, "rim (top and sides) "));
    free(text);
}

static void a_clear_change_is_told_and_an_unclear_one_called_so(void **state)
{
    (void)state;
    assert_says(&METRIC, false, "pour 24 L (3 buckets): beds 8 days sooner (3-15); middle 5 °C warmer (2-9)");
    assert_says(&METRIC, false, "turn it, outside in: middle -3 to +1 °C, warmer in 2 of 3 piles; beds -4 to +6 days, sooner in 1 of 3");
    assert_says(&US, false, "middle 9 °F warmer (4-16)");
    assert_says(&METRIC, false, "not lid (so already); 5 tried; degrees: middle, next 14 days");
    m->found.effect[CHANGE_TURN_IN].middle_K = (struct span){0.2, 1, 3};
    assert_says(&METRIC, false, "turn it, outside in: middle 0 to +3 °C, warmer in 2 of 3 piles");
    m->found.effect[CHANGE_LOOSEN].change.bar = CHANGE_HAS;
    assert_says(&METRIC, false, "not loosen, lid (so already); 5 tried");
    m->found.effect[CHANGE_WATER].never_with = m->found.effect[CHANGE_WATER].never_without = MEMBERS;
    m->found.effect[CHANGE_WATER].ready_days = (struct span){0, 0, 0};
    assert_says(&METRIC, false, "middle 5 °C warmer (2-9); beds not ready this season either way");
}

static void tell_of(enum change_kind kind)
{
    m->found.effect[kind].members = MEMBERS;
    m->found.effect[kind].middle_K = (struct span){1, 4, 20};
    m->found.effect[kind].ready_days = (struct span){-34, -20, -5};
    m->found.told[0] = kind;
}

static void depths_are_told_in_the_keepers_units(void **state)
{
    (void)state;
    tell_of(CHANGE_COVER);
    m->found.effect[CHANGE_COVER].change.cover = bound_find("straw", BOUND_COVER);
    m->found.effect[CHANGE_COVER].change.cover_m = 0.10;
    assert_says(&METRIC, false, "do lay 10 cm of straw on it: ");
    assert_says(&US, false, "do lay 4 in of straw on it: ");
    tell_of(CHANGE_GREENS);
    strcpy(m->found.effect[CHANGE_GREENS].stuff, "grass");
    m->found.effect[CHANGE_GREENS].change.vessels = 6;
    m->found.effect[CHANGE_GREENS].change.bury_m = 0.20;
    assert_says(&METRIC, false, "do add 6 buckets of grass 20 cm deep: ");
    assert_says(&US, false, "do add 6 buckets of grass 8 in deep: ");
}

static void how_a_pile_was_to_be_built_is_told_with_its_place(void **state)
{
    (void)state;
    tell_of(CHANGE_FENCED);
    m->found.effect[CHANGE_FENCED].change.length_m = 0.7071;
    m->found.effect[CHANGE_FENCED].change.width_m = 1.06;
    assert_says(&METRIC, false, "do the same fenced in to 71 cm x 106 cm from the start: beds 20 days sooner (5-34); "
                "middle 4 °C warmer (1-20)");
    tell_of(CHANGE_TWICE);
    assert_says(&METRIC, false, "do twice as much from the start, on twice the ground: beds 20 days");
    m->found.effect[CHANGE_TWICE].change.higher = true;
    assert_says(&METRIC, false, "do twice as much from the start, so higher: beds 20 days");
    m->found.effect[CHANGE_FENCED].change.bar = CHANGE_HIGH;
    assert_says(&METRIC, false, "not lid (so already); half the ground (not low in a bin); 5 tried");
    m->found.effect[CHANGE_FENCED].change.bar = CHANGE_GROWS;
    assert_says(&METRIC, false, "not lid (so already); half the ground (more is to come); 5 tried");
}

/* what ails a pile in spring isn't what keeps it from being ready in summer: each says its time */
static void what_ails_it_is_said_of_that_day(void **state)
{
    (void)state;
    m->found.odds[0] = (struct cause_odds){CAUSE_DRY, MEMBERS, MEMBERS};
    m->found.causes = 1;
    assert_says(&METRIC, false, "ails that day: too dry to work ");
}

static void the_long_form_has_every_line_of_the_budget(void **state)
{
    (void)state;
    assert_says(&METRIC, true, "made by decay +400.0 +300.0 to +500.0");
    assert_says(&METRIC, true, "sun and sky +20.0");
    assert_says(&METRIC, true, "stored: the pile warms or cools +30.0 -70.0 to +130.0");
}

static void a_guess_is_answered_by_its_number(void **state)
{
    (void)state;
    static const struct { const char *guess; int way; } words[] = {
        {"the WALLS, I think\n", BUDGET_BY_WALLS}, {"Steam", BUDGET_STEAM_AND_AIR},
        {"top", BUDGET_BY_TOP}, {"into the soil", BUDGET_BY_GROUND}, {"water", BUDGET_BY_WATER},
        {"no idea", -1}, {"", -1}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        assert_int_equal(why_guessed(words[i].guess), words[i].way);
    m->tale.guess = "walls";
    assert_says(&METRIC, false, "guess by the walls it is 110 W");
    m->tale.guess = "steam";
    assert_says(&METRIC, false, "guess right");
    m->tale.guess = "";
    assert_says(&METRIC, false, "guess none of the ways was named");
}

static void json_holds_the_contract_and_adds_up(void **state)
{
    (void)state;
    char *text = NULL;
    size_t size = 0;
    struct trouble why = {0};
    FILE *out = open_memstream(&text, &size);
    assert_true(why_json(out, &m->tale, &why));
    fclose(out);
    json_t *object = json_loads(text, 0, NULL);
    json_t *budget = json_object_get(object, "budget_w");
    static const char *const line[] = {"decay", "vapour", "air", "walls", "top", "ground", "sun_and_sky",
                                       "rain_and_water", "added"};
    double sum = 0;
    for (size_t i = 0; i < sizeof line / sizeof *line; i++) {
        assert_true(json_is_number(json_object_get(budget, line[i])));
        sum += json_number_value(json_object_get(budget, line[i]));
    }
    assert_near(sum, json_number_value(json_object_get(budget, "stored")), 1e-6);
    assert_near(json_number_value(json_object_get(budget, "walls")), -110, 1e-6);
    assert_int_equal(json_integer_value(json_object_get(object, "day")), DAY + 1);
    json_t *core = json_object_get(json_object_get(object, "limits"), "core");
    assert_near(json_number_value(json_object_get(core, "oxygen")), 0.4, 1e-9);
    json_t *change = json_array_get(json_object_get(object, "changes"), 0);
    assert_string_equal(json_string_value(json_object_get(change, "change")), "water");
    assert_near(json_number_value(json_object_get(change, "ready_days")), -8, 1e-9);
    assert_near(json_number_value(json_object_get(change, "middle_c")), 5, 1e-9);
    assert_int_equal(json_array_size(json_object_get(object, "hours")), 24);
    json_decref(object);
    free(text);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(the_answer_names_the_way_that_takes_most),
        CASE(a_way_that_brings_heat_says_in),
        CASE(heat_is_told_as_people_at_rest),
        CASE(what_holds_back_is_told_by_place_with_its_range),
        CASE(a_low_pile_has_another_rim),
        CASE(a_clear_change_is_told_and_an_unclear_one_called_so),
        CASE(depths_are_told_in_the_keepers_units),
        CASE(how_a_pile_was_to_be_built_is_told_with_its_place),
        CASE(what_ails_it_is_said_of_that_day),
        CASE(the_long_form_has_every_line_of_the_budget),
        CASE(a_guess_is_answered_by_its_number),
        CASE(json_holds_the_contract_and_adds_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
