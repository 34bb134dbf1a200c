/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_cause.c - ask/cause: each cause from a pile that has it and nothing else, and tests that tell
 * causes apart. What ails which pile is common practice, no source; the records are made up.
 */
#include "ask/cause.h"
#include "lib/near.h"
#include <string.h>

enum { DAYS = 6 };

/* a moist, aired, fed pile at 30 C, that would still heat in the flask */
static struct record_day cool_day(void)
{
    struct record_day day = {.middle_K = 303, .air_K = 288, .core_water_share = 0.55,
                             .water_share = 0.55, .dry_kg = 100, .test_breath_per_s = 12 / 86400e3,
                             .flask_rise_K = 35, .sticks_share = 0.4};
    for (int p = 0; p < RECORD_PLACES; p++)
        for (int n = 0; n < RECORD_LIMITS; n++)
            day.limit[p][n] = n == RECORD_TEMPERATURE ? 0.3 : 0.9;
    day.flux[FLUX_wall_heat] = -6e6;
    day.flux[FLUX_air_heat] = -3e6;
    return day;
}

static enum cause cause_with(struct record_day day)
{
    struct scenario scenario;
    struct record_day days[DAYS];
    struct record record = {.days = DAYS, .day = days};
    memset(&scenario, 0, sizeof scenario);
    for (int d = 0; d < DAYS; d++)
        days[d] = day;
    return cause_of(&record, &scenario, DAYS);
}

static void limit_all(struct record_day *day, enum record_limit limit, double to)
{
    for (int p = 0; p < RECORD_PLACES; p++)
        day->limit[p][limit] = to;
}

static void a_hot_pile_has_no_cause(void **state)
{
    (void)state;
    struct record_day day = cool_day();
    day.middle_K = 330;
    limit_all(&day, RECORD_WATER, 0.2);
    assert_int_equal(cause_with(day), CAUSE_NONE);
}

static void what_holds_decay_most_is_the_cause(void **state)
{
    (void)state;
    struct record_day day = cool_day();
    limit_all(&day, RECORD_WATER, 0.3);
    limit_all(&day, RECORD_NITROGEN, 0.4);
    assert_int_equal(cause_with(day), CAUSE_DRY);
    limit_all(&day, RECORD_NITROGEN, 0.2);
    assert_int_equal(cause_with(day), CAUSE_WOODY);
    limit_all(&day, RECORD_OXYGEN, 0.1);
    assert_int_equal(cause_with(day), CAUSE_PACKED);
    day.core_water_share = 0.7;
    assert_int_equal(cause_with(day), CAUSE_WET);
}

static void a_dry_rim_is_no_cause(void **state)
{
    (void)state;
    struct record_day day = cool_day();
    day.limit[RECORD_RIM][RECORD_WATER] = 0.05;
    assert_int_equal(cause_with(day), CAUSE_SMALL);
}

static void heat_that_is_made_and_lost_is_the_weathers_the_draughts_or_the_sizes(void **state)
{
    (void)state;
    struct record_day day = cool_day();
    assert_int_equal(cause_with(day), CAUSE_SMALL);
    day.flux[FLUX_air_heat] = -20e6;
    assert_int_equal(cause_with(day), CAUSE_LOOSE);
    day.air_K = 270;
    assert_int_equal(cause_with(day), CAUSE_COLD);
    day.middle_K = 273.2;
    assert_int_equal(cause_with(day), CAUSE_FROZEN);
}

static void a_pile_that_would_not_heat_again_is_finished_or_wood(void **state)
{
    (void)state;
    struct record_day day = cool_day();
    day.test_breath_per_s = 2 / 86400e3;
    day.flask_rise_K = 5;
    assert_int_equal(cause_with(day), CAUSE_FINISHED);
    day.sticks_share = 0.8;
    assert_int_equal(cause_with(day), CAUSE_WOODY);
}

static void odds_are_counted_and_the_commonest_stands_first(void **state)
{
    (void)state;
    struct scenario scenario;
    struct record_day day[5];
    struct record record[5];
    struct cause_odds odds[CAUSES];
    memset(&scenario, 0, sizeof scenario);
    for (int i = 0; i < 5; i++) {
        day[i] = cool_day();
        record[i] = (struct record){.days = 1, .day = &day[i]};
    }
    for (int i = 0; i < 3; i++)
        limit_all(&day[i], RECORD_WATER, 0.1);
    day[3].middle_K = 335;
    assert_int_equal(cause_odds(odds, record, 5, &scenario, 1), 3);
    assert_int_equal(odds[0].cause, CAUSE_DRY);
    assert_int_equal(odds[0].piles, 3);
    assert_int_equal(odds[0].of, 5);
    assert_int_equal(odds[1].piles + odds[2].piles, 2);
}

static void any_two_causes_are_told_apart_by_a_test(void **state)
{
    (void)state;
    for (int a = 0; a < CAUSES; a++)
        for (int b = 0; b < CAUSES; b++) {
            struct cause_test test = cause_test((enum cause)a, (enum cause)b, false);
            struct cause_test next = cause_test((enum cause)a, (enum cause)b, true);
            if (next.what)
                assert_null(strstr(next.what, "squeeze"));
            if (a == b) {
                assert_null(test.what);
                continue;
            }
            if (!test.what && (a == CAUSE_SMALL || a == CAUSE_COLD || b == CAUSE_SMALL || b == CAUSE_COLD))
                continue;
            if (!test.what)
                fail_msg("%s and %s", cause_word[a], cause_word[b]);
            assert_string_not_equal(test.shows, test.else_shows);
        }
    assert_non_null(strstr(cause_test(CAUSE_DRY, CAUSE_LOOSE, false).what, "squeeze"));
    assert_non_null(strstr(cause_test(CAUSE_DRY, CAUSE_LOOSE, true).what, "fork"));
    assert_non_null(strstr(cause_test(CAUSE_WOODY, CAUSE_COLD, false).what, "grass"));
}

static void a_squeeze_counts_as_done_for_a_week(void **state)
{
    (void)state;
    static struct scenario scenario;
    scenario.readings = 2;
    scenario.reading[0] = (struct plan_reading){.day = 10.5, .what = PLAN_READ_SQUEEZE};
    scenario.reading[1] = (struct plan_reading){.day = 40.5, .what = PLAN_READ_MIDDLE};
    assert_false(cause_squeezed(&scenario, 10)); /* day 11 is the one it was made on */
    assert_true(cause_squeezed(&scenario, 11));
    assert_true(cause_squeezed(&scenario, 17));
    assert_false(cause_squeezed(&scenario, 18));
    assert_false(cause_squeezed(&scenario, 41));
}

/* 100 kg dry at 40 % water hold 66.7 kg; at 55 % they would hold 122.2 [derived: share/(1 - share)]. */
static void water_wanted_is_a_sum_by_hand(void **state)
{
    (void)state;
    struct record_day day = cool_day();
    struct record record = {.days = 1, .day = &day};
    day.core_water_share = 0.40;
    assert_near(cause_water_l(&record, 1), 100 * (55.0 / 45 - 40.0 / 60), 1e-9);
    day.core_water_share = 0.60;
    assert_near(cause_water_l(&record, 1), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_hot_pile_has_no_cause),
        cmocka_unit_test(what_holds_decay_most_is_the_cause),
        cmocka_unit_test(a_dry_rim_is_no_cause),
        cmocka_unit_test(heat_that_is_made_and_lost_is_the_weathers_the_draughts_or_the_sizes),
        cmocka_unit_test(a_pile_that_would_not_heat_again_is_finished_or_wood),
        cmocka_unit_test(odds_are_counted_and_the_commonest_stands_first),
        cmocka_unit_test(any_two_causes_are_told_apart_by_a_test),
        cmocka_unit_test(a_squeeze_counts_as_done_for_a_week),
        cmocka_unit_test(water_wanted_is_a_sum_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
