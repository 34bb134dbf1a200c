/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_outing.c - tell/outing: what is said of a day's work, for every deed and every way. */
#include "tell/outing.h"
#include "ask/piles.h"
#include "tell/season_made.h"
#include "tell/steps.h"

static const struct phrase_style UTF8 = {true, 0, 0.012};
static const struct phrase_style US = {false, 1, 0.012};

enum { DAY = 14 }; /* 1 November */

static char *told(struct piles *p, int day, enum outing_day how, const struct phrase_style *style)
{
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    struct outing_stop stop = {.pile = p->pile, .file = "a.yaml", .plan_named = true};
    due_on(&stop.due, &stop.pile, day);
    struct outing visit = {.stop = &stop, .stops = 1, .date = p->scenario.start + day};
    outing_join(&visit);
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    assert_true(outing_text(out, &visit, how, style, &why));
    assert_int_equal(fclose(out), 0);
    return text;
}

/* One plan of one visit, done by all members; `event` is what their records say. */
static struct piles *visited(const char *visit, struct record_event event)
{
    char text[2048];
    snprintf(text, sizeof text, PILES_HEAD PILES_BUILD "plans:\n  one:\n    - {day: 2025-11-01, %s}\n",
             visit);
    struct piles *p = piles_new(text, 0);
    for (int m = 0; m < PILES_MEMBERS; m++)
        piles_do(p, m, DAY, event);
    return p;
}

/* Do these words stand there, wherever the lines were broken? */
static bool holds(const char *text, const char *words)
{
    char *flat = strdup(text), *to = flat;
    for (const char *at = text; *at; at++)
        if (!(*at == ' ' || *at == '\n') || (to > flat && to[-1] != ' '))
            *to++ = *at == '\n' ? ' ' : *at;
    *to = '\0';
    bool found = strstr(flat, words) != NULL;
    free(flat);
    return found;
}

static void assert_holds(const char *text, const char *words)
{
    if (!holds(text, words))
        fail_msg("'%s' is not in:\n%s", words, text);
}

static void a_turn_is_told_with_bays_hands_minutes_water_and_the_next_date(void **state)
{
    (void)state;
    struct piles *p = visited("turn: outside in, into: bay 2, water: 2 buckets",
                              (struct record_event){.deed = PLAN_TURN, .way = PLAN_OUTSIDE_IN,
                                                    .into = 1, .water_kg = 19.2, .person_s = 2700});
    char *text = told(p, DAY, OUTING_NAMED, &UTF8);
    assert_holds(text, "On 1 Nov turn bay 1 into bay 2, outside in: 2 to 4 people, 15 (11-23) min each, "
                       "45 min in all, 2 buckets of water.");
    assert_holds(text, "skin (outer 20 cm) aside");
    assert_holds(text, "probe: the middle should read 29 °C (27 to 31)"); /* of 26.5 to 30.5 */
    assert_holds(text, "3 Nov 30 °C");
    assert_holds(text, "10 °C warmer than before: food was left");
    assert_holds(text, "no work is left");
    free(text);
    free(p);
}

static void water_until_it_drips_is_brought_for_the_driest_of_the_piles(void **state)
{
    (void)state;
    struct piles *p = visited("turn: mixed, into: bay 2, water: until it drips",
                              (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = 1});
    for (int m = 3; m < PILES_MEMBERS; m++)
        p->event[m][0].water_kg = 48; /* the other three are wet enough */
    char *text = told(p, DAY, OUTING_NAMED, &UTF8);
    assert_holds(text, "up to 5 buckets of water.");
    free(text);
    free(p);
}

static void a_thermometer_that_is_off_shows_so_much_more(void **state)
{
    (void)state;
    struct piles *p = visited("turn: mixed, into: bay 2",
                              (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = 1});
    p->scenario.thermometer = (struct plan_thermometer){true, PLAN_DIAL, true, 4};
    char *text = told(p, DAY, OUTING_NAMED, &UTF8);
    assert_holds(text, "should read 29 °C (27 to 31), 4 °C more on your thermometer");
    free(text);
    text = told(p, 6, OUTING_NAMED, &US);
    assert_holds(text, "7 degF more on your thermometer");
    free(text);
    p->scenario.thermometer.ice_K = 0;
    text = told(p, DAY, OUTING_NAMED, &UTF8);
    assert_false(holds(text, "your thermometer"));
    free(text);
    free(p);
}

static void every_way_of_turning_has_its_own_steps_here_and_across(void **state)
{
    (void)state;
    char seen[8][400];
    int count = 0;
    for (int way = PLAN_LAYER_BY_LAYER; way <= PLAN_OUT_AND_BACK; way++) {
        struct plan_event event = {.deed = PLAN_TURN, .way = (enum plan_way)way};
        for (int stays = 0; stays < 2; stays++) {
            struct saying how = steps_how(&UTF8, &event, stays, NAN);
            assert_true(strlen(how.text) > 30);
            snprintf(seen[count++], sizeof seen[0], "%.390s", how.text);
        }
    }
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i / 2 * 2; k++) /* ways differ from each other */
            assert_string_not_equal(seen[i], seen[k]);
    /* layer by layer reverses the order, which its name hides */
    assert_non_null(strstr(seen[0], "the order turns over"));
}

static void whatever_is_done_fits_twelve_lines_of_eighty_columns(void **state)
{
    (void)state;
    static const struct { const char *visit; struct record_event event; } visits[] = {
        {"turn: layer by layer, into: bay 2, keep for the top: 8 cm, water: until it drips",
         {.deed = PLAN_TURN, .way = PLAN_LAYER_BY_LAYER, .into = 1, .water_kg = 60, .person_s = 3000}},
        {"turn: mixed", {.deed = PLAN_TURN, .way = PLAN_MIXED, .into = -1, .person_s = 3000}},
        {"turn: outside in", {.deed = PLAN_TURN, .way = PLAN_OUTSIDE_IN, .into = -1, .person_s = 9000}},
        {"turn: out and back, pick out: sticks",
         {.deed = PLAN_TURN, .way = PLAN_OUT_AND_BACK, .into = -1, .person_s = 3000}},
        {"loosen: all over", {.deed = PLAN_LOOSEN, .into = -1, .person_s = 600}},
        {"water: 3 buckets", {.deed = PLAN_WATER, .into = -1, .water_kg = 28.8, .person_s = 120}},
        {"add: {kitchen scraps: 1 bucket, straw: 1 bucket}, bury: 20 cm",
         {.deed = PLAN_ADD, .into = -1, .person_s = 120}},
        {"cover: straw 10 cm", {.deed = PLAN_COVER, .into = -1, .person_s = 120}},
        {"cover: tarp", {.deed = PLAN_COVER, .into = -1, .person_s = 120}},
        {"uncover: all", {.deed = PLAN_UNCOVER, .into = -1, .person_s = 120}},
    };
    const struct phrase_style both = {true, 2, 0.012}, usual = {true, PLAN_SHOW_USUAL, 0.012};
    const struct phrase_style *styles[] = {&UTF8, &US, &both, &usual};
    for (size_t i = 0; i < sizeof visits / sizeof *visits; i++)
        for (int s = 0; s < 4; s++)
            for (int cold = 0; cold < 2; cold++) {
                struct piles *p = visited(visits[i].visit, visits[i].event);
                p->scenario.show = styles[s]->show;
                for (int m = 0; m < PILES_MEMBERS && cold; m++)
                    for (int d = 0; d < PILES_DAYS; d++) {
                        p->day[m][d].air_K = 265;
                        p->day[m][d].middle_K = 272 + m;
                    }
                char *text = told(p, DAY, OUTING_NAMED, styles[s]);
                if (made_lines(text) > 12 || made_widest(text) > 80)
                    fail_msg("%s:\n%s", visits[i].visit, text);
                assert_int_equal(strncmp(text, "On 1 Nov ", 9), 0);
                assert_null(strstr(text, "safe"));
                if (cold)
                    assert_holds(text, "go home");
                else
                    assert_false(holds(text, "go home"));
                free(text);
                free(p);
            }
}

static void a_day_without_work_names_the_next_and_a_reading_meanwhile(void **state)
{
    (void)state;
    struct piles *p = visited("turn: mixed, into: bay 2",
                              (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = 1});
    char *text = told(p, 6, OUTING_LAST_READING, &UTF8);
    assert_holds(text, "Nothing to do on 24 October 2025; next work on 1 Nov: turn into bay 2, mixed.");
    assert_holds(text, "read the middle: 25 Oct 26 °C (24 to 28). Below 24 °C: squeeze");
    assert_holds(text, "no --day, so the day of the last reading");
    free(text);
    text = told(p, DAY + 10, OUTING_NAMED, &UTF8);
    assert_holds(text, "; no work is left in this plan.");
    free(text);
    free(p);
}

static void a_rule_is_told_in_words_with_its_chance(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD
        "plans:\n  rule:\n    - {look: Saturday, when: middle below 45 C, unless: air below -5 C,\n"
        "       at most: every 21 days, turn: mixed, into: next, water: 2 buckets}\n", 0);
    for (int m = 0; m < 2; m++)
        piles_do(p, m, DAY, (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = 1,
                                                  .water_kg = 19.2, .person_s = 2400});
    char *text = told(p, DAY, OUTING_NAMED, &UTF8);
    assert_holds(text, "Look on 1 Nov: if the middle reads below 45 °C, unless the air is below "
                       "-5 °C, 21 days or more after the last time: turn bay 1 into bay 2, mixed");
    assert_holds(text, "(4 (2-7) in 10 possible piles)"); /* Wilson 1927: 2 of 5 with 80 % */
    assert_holds(text, "13 (10-20) min each, 40 min in all, 2 buckets of water");
    assert_holds(text, "next look on 15 Nov");
    free(text);
    free(p);
}

static void building_names_all_that_is_to_be_brought(void **state)
{
    (void)state;
    struct piles *p = visited("turn: mixed, into: bay 2", (struct record_event){.deed = PLAN_TURN});
    char *text = told(p, 0, OUTING_START, &UTF8);
    assert_int_equal(strncmp(text, "On 18 Oct build in bay 1: 2 to 4 people, ", 41), 0);
    assert_holds(text, "4 buckets of water");
    assert_holds(text, "buckets of fresh grass clippings 28; bags of mixed leaves 8; thermometer");
    assert_holds(text, "4 times (mixed leaves 2 bags, fresh grass clippings 7, water 1 bucket)");
    free(text);
    free(p);
}

/* With 2.8 buckets to a layer nobody would carry three: 11.2 in all. Of 6 kg at most, buckets go half full. */
static void what_is_brought_is_told_to_a_quarter(void **state)
{
    (void)state;
    static const char *const deed = "turn: mixed, into: bay 2";
    struct piles *p = visited(deed, (struct record_event){.deed = PLAN_TURN});
    for (int i = 0; i < p->scenario.layers; i++) {
        struct plan_layer *layer = &p->scenario.layer[i];
        layer->portion[1].volume_m3.mid = 2.8 * 0.012;
        layer->water_kg.mid = 0.7 * 9.6;
    }
    p->scenario.people.heaviest_load_kg = 6;
    char *text = told(p, 0, OUTING_START, &UTF8);
    assert_holds(text, "fresh grass clippings 11 1/4; bags");
    assert_holds(text, "4 times (mixed leaves 2 bags, fresh grass clippings 2 3/4, water 3/4 bucket)");
    assert_holds(text, ", 6 half buckets of water."); /* 26.9 of 4.8 L each */
    free(text);
    free(p);
}

static void what_does_not_fit_is_said(void **state)
{
    (void)state;
    struct piles *p = visited("turn: mixed, into: bay 2",
                              (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = 1,
                                                    .person_s = 5 * 3600});
    p->scenario.people.weekdays = 1; /* Mondays */
    char *text = told(p, DAY, OUTING_NAMED, &UTF8);
    assert_holds(text, "100 min is longer than your visit of 90 min");
    assert_holds(text, "nobody comes on 1 November 2025");
    free(text);
    free(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_turn_is_told_with_bays_hands_minutes_water_and_the_next_date),
        cmocka_unit_test(water_until_it_drips_is_brought_for_the_driest_of_the_piles),
        cmocka_unit_test(a_thermometer_that_is_off_shows_so_much_more),
        cmocka_unit_test(every_way_of_turning_has_its_own_steps_here_and_across),
        cmocka_unit_test(whatever_is_done_fits_twelve_lines_of_eighty_columns),
        cmocka_unit_test(a_day_without_work_names_the_next_and_a_reading_meanwhile),
        cmocka_unit_test(a_rule_is_told_in_words_with_its_chance),
        cmocka_unit_test(building_names_all_that_is_to_be_brought),
        cmocka_unit_test(what_is_brought_is_told_to_a_quarter),
        cmocka_unit_test(what_does_not_fit_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
