/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_deeds.c - door/deeds, door/timing and door/covers: the plans of a scenario. */
#include "door/reading.h"
#include "know/bound.h"

/* the first plan of a scenario with two bins; 2025-10-18 was a Saturday */
static const struct plan *plan(const char *events)
{
    char text[2048];
    snprintf(text, sizeof text,
             READING_HEAD READING_PILE
             "bins:\n  bay 1: {size: 1.2 x 1.1 x 1 m}\n  bay 2: {like: bay 1, now: empty}\n"
             "need: by 2026-04-18\nplans:\n  mine:\n%s\n",
             events);
    return &reading_good(text)->plan[0];
}

static void a_turn_has_a_day_a_way_a_bin_and_water(void **state)
{
    (void)state;
    const struct plan *p = plan("    - {day: 2025-11-15, turn: outside in, into: bay 2, water: 5"
                                " buckets, pick out: sticks, keep for the top: 8 cm}");
    const struct plan_event *e = &p->event[0];
    assert_int_equal(p->events, 1);
    assert_int_equal(e->deed, PLAN_TURN);
    assert_int_equal(e->when, PLAN_ON_DAY);
    assert_int_equal(e->day, 28);
    assert_int_equal(e->until, 28);
    assert_int_equal(e->way, PLAN_OUTSIDE_IN);
    assert_int_equal(e->into, 1);
    assert_near(e->water_kg.mid, 48.0, 1e-9);
    assert_near(e->keep_top_m, 0.08, 1e-12);
    assert_true(e->pick_sticks);
    assert_int_equal(e->rule_squeeze, -1);
    assert_int_equal(e->cover, -1);
}

static void every_way_of_turning_has_its_words(void **state)
{
    (void)state;
    static const char *const ways[] = {"layer by layer", "mixed", "outside in", "out and back"};
    for (int i = 0; i < 4; i++) {
        char text[128];
        snprintf(text, sizeof text, "    - {day: 2025-11-15, turn: %s}", ways[i]);
        assert_int_equal(plan(text)->event[0].way, i);
        assert_int_equal(READ.plan[0].event[0].into, PLAN_SAME_BAY);
    }
}

static void a_rhythm_begins_on_its_weekday_and_ends_with_the_season(void **state)
{
    (void)state;
    const struct plan_event *e =
        plan("    - {every: Saturday, from: 2025-11-02, water: 1 bucket}")->event;
    assert_int_equal(e->when, PLAN_EVERY);
    assert_int_equal(e->deed, PLAN_WATER);
    assert_int_equal(e->day, 21); /* Saturday 8 November */
    assert_int_equal(e->every_days, 7);
    assert_int_equal(e->until, READ.last_day);
    e = plan("    - {every: Saturday, water: 1 bucket}")->event;
    assert_int_equal(e->day, 7); /* not on the day of building */
    e = plan("    - {every: 10 days, from: 2025-10-20, until: 2026-01-01, water: 1 bucket}")->event;
    assert_int_equal(e->day, 2);
    assert_int_equal(e->every_days, 10);
    assert_int_equal(e->until, 75);
    assert_int_equal(plan("    - {every: 2 weeks, water: 1 bucket}")->event->every_days, 14);
    assert_int_equal(plan("    - {every: day, water: 1 bucket}")->event->every_days, 1);
}

static void a_rule_reads_what_a_person_would(void **state)
{
    (void)state;
    const struct plan_event *e =
        plan("    - {look: Sunday, from: 2025-11-01, when: hand deep above 140 F, unless: air below"
             " -5 C, at most: every 2 weeks, turn: layer by layer, into: next, water: until it "
             "drips}")
            ->event;
    assert_int_equal(e->when, PLAN_RULE);
    assert_int_equal(e->day, 15);
    assert_true(e->rule_hotter);
    assert_int_equal(e->rule_place, PLAN_HAND_DEEP);
    assert_near(e->rule_K, 333.15, 1e-9);
    assert_near(e->unless_air_below_K, 268.15, 1e-9);
    assert_int_equal(e->at_most_days, 14);
    assert_int_equal(e->into, PLAN_NEXT_BAY);
    assert_true(e->until_it_drips);
    e = plan("    - {look: day, when: squeeze crumbles and middle below 45 C, water: 2 buckets}")
            ->event;
    assert_int_equal(e->rule_squeeze, PLAN_CRUMBLES);
    assert_false(e->rule_hotter);
    assert_near(e->rule_K, 318.15, 1e-9);
    e = plan("    - {every: Saturday, unless: air below 0 C, water: 2 buckets}")->event;
    assert_int_equal(e->when, PLAN_RULE);
    assert_near(e->rule_K, 0.0, 0.0);
    assert_near(e->unless_air_below_K, 273.15, 1e-9);
}

/* "turn when the middle falls below 45 C, at most weekly, never in hard frost, Saturdays only" and
 * "water when it fails the squeeze test" */
static void what_keepers_agree_on_can_be_written(void **state)
{
    (void)state;
    const struct plan_event *e =
        plan("    - {look: Saturday, when: middle falls below 45 C, at most: weekly,\n"
             "       unless: hard frost, turn: outside in}")
            ->event;
    assert_true(e->rule_passes);
    assert_false(e->rule_hotter);
    assert_near(e->rule_K, 318.15, 1e-9);
    assert_int_equal(e->at_most_days, 7);
    assert_true(e->unless_frozen);
    assert_near(e->unless_air_below_K, 268.15, 1e-9);
    e = plan("    - {look: Saturday, when: squeeze fails, water: 2 buckets}")->event;
    assert_int_equal(e->rule_squeeze, PLAN_CRUMBLES);
    assert_int_equal(e->squeeze_place, PLAN_DEEP_30CM);
    assert_false(e->unless_frozen || e->rule_passes);
    e = plan("    - {look: day, when: squeeze dusty hand deep and 30 cm in rises above 60 C, water: 1 L}")
            ->event;
    assert_int_equal(e->rule_squeeze, PLAN_DUSTY);
    assert_int_equal(e->squeeze_place, PLAN_HAND_DEEP);
    assert_true(e->rule_passes && e->rule_hotter);
    assert_int_equal(e->rule_place, PLAN_DEEP_30CM);
}

static void one_visit_may_hold_several_deeds(void **state)
{
    (void)state;
    const struct plan *p = plan("    - day: 2025-11-15\n"
                                "      cover: straw 10 cm\n"
                                "      add: {kitchen scraps: 1 bucket}\n"
                                "      bury: 20 cm\n"
                                "      turn: mixed\n"
                                "      water: 1 bucket\n"
                                "      uncover: all\n"
                                "      loosen: all over");
    static const enum plan_deed want[] = {PLAN_UNCOVER, PLAN_TURN, PLAN_LOOSEN, PLAN_ADD,
                                          PLAN_COVER};
    assert_int_equal(p->events, 5);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(p->event[i].deed, want[i]);
        assert_int_equal(p->event[i].day, 28);
        assert_near(p->event[i].water_kg.mid, i == 1 ? 9.6 : 0.0, 1e-12);
        assert_near(p->event[i].bury_m, i == 3 ? 0.2 : 0.0, 1e-12);
        assert_int_equal(p->event[i].add.portions, i == 3);
    }
    assert_int_equal(p->event[4].cover, bound_find("straw", BOUND_COVER));
    assert_near(p->event[4].cover_m, 0.1, 1e-12);
    assert_int_equal(p->event[0].cover, -1);
}

/* an ingredient of 10 cm over 1.2 x 1.1 m is 132 L */
static void any_ingredient_can_be_a_cover(void **state)
{
    (void)state;
    const struct plan_event *e = plan("    - {day: 2025-11-15, blanket: bracken 10 cm}")->event;
    assert_int_equal(e->deed, PLAN_COVER);
    assert_int_equal(e->cover, -1);
    assert_near(e->cover_m, 0.1, 1e-12);
    assert_int_equal(e->add.portions, 1);
    assert_near(e->add.portion[0].volume_m3.mid, 0.132, 1e-12);
}

static void a_tarp_needs_no_thickness_and_says_so(void **state)
{
    (void)state;
    assert_near(plan("    - {day: 2025-11-15, cover: tarp}")->event->cover_m, 0.0005, 1e-12);
    bool told = false;
    for (int i = 0; i < READ.assumed; i++)
        told = told || !strcmp(READ.assumption[i], "tarp: 0.5 mm thick");
    assert_true(told);
}

static void no_plans_are_two_plans(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(READING_BASE);
    assert_int_equal(s->plans, 2);
    assert_string_equal(s->plan[0].name, "leave it");
    assert_int_equal(s->plan[0].events, 0);
    assert_string_equal(s->plan[1].name, "one turn");
    assert_int_equal(s->plan[1].event[0].day, 27); /* day 28 when the first is day 1 */
    assert_int_equal(s->plan[1].event[0].way, PLAN_MIXED);
    assert_int_equal(s->last_day, 120);
}

static void plans_of_the_file_stand_alone(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(READING_BASE "plans:\n  nothing: []\n");
    assert_int_equal(s->plans, 1);
    assert_int_equal(s->plan[0].events, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_turn_has_a_day_a_way_a_bin_and_water),
        cmocka_unit_test(every_way_of_turning_has_its_words),
        cmocka_unit_test(a_rhythm_begins_on_its_weekday_and_ends_with_the_season),
        cmocka_unit_test(a_rule_reads_what_a_person_would),
        cmocka_unit_test(what_keepers_agree_on_can_be_written),
        cmocka_unit_test(one_visit_may_hold_several_deeds),
        cmocka_unit_test(any_ingredient_can_be_a_cover),
        cmocka_unit_test(a_tarp_needs_no_thickness_and_says_so),
        cmocka_unit_test(no_plans_are_two_plans),
        cmocka_unit_test(plans_of_the_file_stand_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
