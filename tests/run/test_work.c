/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_work.c - run/hands: what a deed takes of people's time.
 *
 * A cubic metre of 400 kg turned bin to bin: 115 to 160 forkfuls of 2.5 to 3.5 kg, six a minute,
 * with ten minutes to open and set up, five to note and a fifth of rest, 40 to 50 person-minutes; 25
 * to 90 are met. Ways of turning take 1.0, 1.2, 1.4 and 1.8 of it, loosening 0.2, a frozen crust 1.5 to 2,
 * matted slabs 1.3. All common practice without a source [trade]; what follows from it [derived].
 */
#include "ask/visit.h"
#include "many/crew.h"
#include "run/season_of.h"

#define PLACE "midden: 1\nstart: 2025-09-20\n" \
    "place: {latitude: 50 N, elevation: 100 m, sun: shade, wind: sheltered}\n" \
    "sky: mild and wet\nbins:\n  one: {size: 1.1 x 1.1 x 1.2 m, walls: pallets, lid: none}\n" \
    "  two: {like: one, now: empty}\n"
/* 400 kg in a cubic metre */
#define METRE PLACE "need: by 2025-09-22\n" \
    "ingredients: {our mix: {like: horse manure, bulk: 400 kg/m3}}\nbuild:\n  - our mix: 400 kg\n" \
    "people: {helpers: 2, visit: 20 min}\n"
#define TURN(way) "plans:\n  do it:\n    - {day: 2025-09-20, turn: " way ", into: two}\n"

static const double OPEN_S = 900; /* ten minutes and five */

static struct season_of *season(const char *text)
{
    struct season_of *s = season_of_begin(text, "do it");
    season_of_still(s, 10, 0, 99, 10);
    season_of_run(s);
    return s;
}

static struct record_event deed(const char *text)
{
    struct season_of *s = season(text);
    assert_int_equal(s->record.events, 1);
    struct record_event event = s->record.event[0];
    season_of_free(s);
    return event;
}

static void a_cubic_metre_takes_two_people_twenty_minutes_and_some(void **state)
{
    (void)state;
    struct season_of *s = season(METRE TURN("layer by layer"));
    const struct record_event *e = s->record.event;
    assert_near(e->lifted_kg, 400, 4); /* as laid, an hour or so before */
    assert_true(e->person_s >= 40 * 60 && e->person_s <= 50 * 60);
    struct visit_long longest = visit_longest(&s->record, &s->scenario.people);
    assert_near(longest.clock_s, e->person_s / 2, 1e-9); /* half of it by the clock */
    season_of_free(s);
}

static void possible_keepers_take_25_to_90_minutes(void **state)
{
    (void)state;
    enum { MEMBERS = 64 };
    struct season_of *s = season_of_begin(METRE TURN("layer by layer"), "do it");
    bool fixed_by_hand[PARAM_ROWS] = {false};
    struct crew crew = {.scenario = &s->scenario, .param = &s->param, .fixed = fixed_by_hand,
                        .draw = 1, .first = 1, .last = MEMBERS, .threads = 2};
    struct crew_done done;
    assert_true(crew_run(&done, &crew, &s->why));
    assert_int_equal(done.failures, 0);
    double least = INFINITY, most = 0, room[MEMBERS];
    for (int i = 0; i < MEMBERS; i++) {
        least = fmin(least, done.record[i].person_s / 60);
        most = fmax(most, done.record[i].person_s / 60);
    }
    assert_true(least >= 25 && most <= 90);
    assert_true(least < 30 && most > 70); /* one in sixty-four is far out on either side */
    struct visit_too_long longest = visit_too_long(done.record, MEMBERS, &s->scenario.people, room);
    assert_true(longest.clock_s.mid >= 20 * 60 && longest.clock_s.mid <= 25 * 60);
    assert_near(longest.over_s, longest.clock_s.mid - 20 * 60, 1e-9); /* a visit has twenty */
    assert_true(longest.over > MEMBERS / 2 && longest.over < MEMBERS);
    assert_int_equal(longest.usual.deed, PLAN_TURN);
    crew_free(&done);
    season_of_free(s);
}

static void ways_of_turning_differ_by_what_the_trade_says(void **state)
{
    (void)state;
    double plain_s = deed(METRE TURN("layer by layer")).person_s - OPEN_S;
    assert_near((deed(METRE TURN("mixed")).person_s - OPEN_S) / plain_s, 1.2, 1e-9);
    assert_near((deed(METRE TURN("outside in")).person_s - OPEN_S) / plain_s, 1.4, 1e-9);
    struct record_event back = deed(METRE TURN("out and back"));
    assert_near((back.person_s - OPEN_S) / plain_s, 1.8, 1e-9);
    assert_near(back.lifted_kg, 2 * deed(METRE TURN("mixed")).lifted_kg, 1e-6); /* handled twice */
    double loosen_s =
        deed(METRE "plans:\n  do it: [{day: 2025-09-20, loosen: all over}]\n").person_s;
    assert_near(loosen_s / plain_s, 0.2, 1e-9);
    /* half as much again as its share of the depth: a cubic metre on a square metre, settled to 0.6 to 1 m */
    double bury_s = deed(METRE "plans:\n  do it: [{day: 2025-09-20, add: {kitchen scraps: 1 kg},\n"
                         "    bury: 20 cm}]\n").person_s;
    assert_true(bury_s > 1.5 * 0.2 / 1.0 * plain_s && bury_s < 1.5 * 0.2 / 0.6 * plain_s);
}

static void water_is_carried_besides(void **state)
{
    (void)state; /* four seconds a litre to fetch and pour [trade] */
    double dry_s = deed(METRE TURN("layer by layer")).person_s;
    struct record_event wet = deed(METRE "plans:\n  do it:\n    - {day: 2025-09-20,\n"
                                   "       turn: layer by layer, into: two, water: 30 L}\n");
    assert_near(wet.person_s - dry_s, 30 * 4, 1e-6);
}

#define LATER(turned) PLACE "need: by 2025-11-08\nbuild:\n  - sawdust: 900 L soaked\n" \
    "plans:\n  do it:\n    - {day: " turned ", turn: layer by layer, into: two}\n"

static double seconds_a_kg(const char *text, double air_C, double later_C)
{
    struct season_of *s = season_of_begin(text, "do it");
    season_of_still(s, air_C, 0, 5, later_C);
    season_of_run(s);
    double rate = (s->record.event[0].person_s - OPEN_S) / s->record.event[0].lifted_kg;
    season_of_free(s);
    return rate;
}

static void a_frozen_crust_takes_half_as_long_again_or_twice(void **state)
{
    (void)state;
    double mild = seconds_a_kg(LATER("2025-10-25"), 5, 5);
    double ice = seconds_a_kg(LATER("2025-10-25"), 5, -10);
    assert_true(ice / mild >= 1.5 && ice / mild <= 2.0);
}

static void what_lies_matted_takes_longer_and_at_most_a_third(void **state)
{
    (void)state; /* straw is mostly air; compost trodden in has little left */
    double loose = seconds_a_kg(PLACE "need: by 2025-10-25\nbuild: [{wheat straw: 900 L}]\nplans:\n"
                                "  do it: [{day: 2025-09-25, turn: layer by layer}]\n", 5, 5);
    double matted = seconds_a_kg(PLACE "need: by 2025-10-25\n"
                                 "build: [{finished compost: 900 L pressed}]\nplans:\n"
                                 "  do it: [{day: 2025-10-20, turn: layer by layer}]\n", 5, 5);
    assert_near(loose, 1 / 0.25, 1e-9); /* a kilogram in four seconds, rests and all */
    assert_true(matted > loose && matted <= 1.3 * loose + 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cubic_metre_takes_two_people_twenty_minutes_and_some),
        cmocka_unit_test(possible_keepers_take_25_to_90_minutes),
        cmocka_unit_test(ways_of_turning_differ_by_what_the_trade_says),
        cmocka_unit_test(water_is_carried_besides),
        cmocka_unit_test(a_frozen_crust_takes_half_as_long_again_or_twice),
        cmocka_unit_test(what_lies_matted_takes_longer_and_at_most_a_third),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
