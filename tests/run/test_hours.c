/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_hours.c - the hours of a day add up to the day, and asking for them changes nothing.
 *
 * Both need no source: a flux shared over hours by shares that sum to one keeps its sum, but for the
 * rounding of some thousand double numbers [derived], here 1e-11 of what flowed; means of 24 hours
 * weighed by their length are the mean of the day [derived].
 */
#include "many/crew.h"
#include "run/hours.h"
#include "run/season_of.h"

#define GARDEN "midden: 1\nstart: 2025-10-04\nneed: by 2025-10-20\n" \
    "place: {latitude: 48 N, elevation: 400 m}\nsky: cold winters\n" \
    "bins:\n  a: {size: 1.1 x 1.1 x 1.1 m}\n  b: {like: a, now: empty}\n" \
    "build:\n  - repeat: 4\n    layers:\n      - straw: 4 buckets loose\n" \
    "        horse manure: 4 buckets\n        grass clippings: 3 buckets\n        water: 1 bucket\n" \
    "plans:\n  turn:\n    - {day: 2025-10-09, turn: mixed, into: b, water: 2 buckets}\n"
enum { TURN_DAY = 6 };

static struct season_of *with_hours(int day)
{
    struct season_of *s = season_of_begin(GARDEN, NULL);
    if (!climate_curve(&s->sky, &s->scenario, 0, &s->why))
        fail_msg("%s", s->why.text);
    s->setup.hours_day = day;
    season_of_run(s);
    return s;
}

static void assert_adds_up(const struct record *r, int day, double whole_s)
{
    const struct record_day *row = &r->day[day - 1];
    double seen = 0, middle = 0, air = 0;
    for (int k = 0; k < FLUXES; k++) {
        double sum = 0, size = fabs(row->flux[k]);
        for (int h = 0; h < RECORD_HOURS; h++) {
            sum += r->hour[h].flux[k];
            size = fmax(size, fabs(r->hour[h].flux[k]));
        }
        assert_near(sum, row->flux[k], 1e-11 * size);
    }
    for (int h = 0; h < RECORD_HOURS; h++) {
        const struct record_hour *hour = &r->hour[h];
        seen += hour->seen_s;
        middle += hour->seen_s > 0 ? hour->seen_s * hour->middle_K : 0;
        air += hour->seen_s > 0 ? hour->seen_s * hour->air_K : 0;
    }
    assert_near(seen, whole_s, 1e-6);
    assert_near(middle / seen, row->middle_K, 1e-8);
    assert_near(air / seen, row->air_K, 1e-8);
}

static void the_hours_of_a_day_add_up_to_the_day(void **state)
{
    (void)state;
    static const int day[] = {2, TURN_DAY, 12};
    for (size_t i = 0; i < sizeof day / sizeof *day; i++) {
        struct season_of *s = with_hours(day[i]);
        assert_non_null(s->record.hour);
        for (int h = 0; h < RECORD_HOURS; h++)
            assert_near(s->record.hour[h].seen_s, 3600, 1e-6);
        assert_adds_up(&s->record, day[i], 86400);
        season_of_free(s);
    }
}

/* gardeners work at ten: before it nothing stands */
static void the_first_day_begins_when_the_pile_is_built(void **state)
{
    (void)state;
    struct season_of *s = with_hours(1);
    for (int h = 0; h < 10; h++) {
        assert_near(s->record.hour[h].seen_s, 0, 0);
        assert_true(isnan(s->record.hour[h].middle_K));
        assert_near(s->record.hour[h].flux[FLUX_added_heat], 0, 0);
    }
    assert_true(s->record.hour[10].flux[FLUX_added_heat] != 0);
    assert_adds_up(&s->record, 1, 14 * 3600);
    season_of_free(s);
}

static void what_a_turn_brings_falls_into_the_hour_that_begins_with_it(void **state)
{
    (void)state;
    struct season_of *s = with_hours(TURN_DAY);
    for (int h = 0; h < RECORD_HOURS; h++)
        assert_int_equal(s->record.hour[h].flux[FLUX_poured_water] != 0, h == 10);
    assert_true(s->record.hour[9].middle_K > s->record.hour[11].middle_K + 1); /* it cools when laid open */
    season_of_free(s);
}

static void asking_for_hours_changes_no_byte_of_the_rest(void **state)
{
    (void)state;
    struct season_of *with = with_hours(TURN_DAY), *without = with_hours(0);
    assert_null(without->record.hour);
    assert_int_equal(with->record.days, without->record.days);
    assert_memory_equal(with->record.day, without->record.day,
                        (size_t)with->record.days * sizeof *with->record.day);
    assert_memory_equal(with->record.flux_total, without->record.flux_total,
                        sizeof with->record.flux_total);
    season_of_free(with);
    season_of_free(without);
}

/* side by side each member has its own time and its own steps */
static void hours_are_the_same_alone_and_side_by_side(void **state)
{
    (void)state;
    enum { FOUR = 4 };
    struct season_of *s = season_of_begin(GARDEN, NULL);
    bool fixed[PARAM_ROWS] = {false};
    struct crew crew = {.scenario = &s->scenario, .param = &s->param, .fixed = fixed, .draw = 1,
                        .first = 1, .last = FOUR, .threads = 1, .hours_day = TURN_DAY};
    struct crew_done done;
    assert_true(crew_run(&done, &crew, &s->why));
    for (int m = 0; m < FOUR; m++) {
        struct record alone;
        assert_true(crew_member(&alone, &crew, m + 1, &s->why));
        assert_memory_equal(alone.hour, done.record[m].hour, RECORD_HOURS * sizeof *alone.hour);
        assert_adds_up(&alone, TURN_DAY, 86400);
        record_free(&alone);
    }
    crew_free(&done);
    season_of_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_hours_of_a_day_add_up_to_the_day),
        cmocka_unit_test(the_first_day_begins_when_the_pile_is_built),
        cmocka_unit_test(what_a_turn_brings_falls_into_the_hour_that_begins_with_it),
        cmocka_unit_test(asking_for_hours_changes_no_byte_of_the_rest),
        cmocka_unit_test(hours_are_the_same_alone_and_side_by_side),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
