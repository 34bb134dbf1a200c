/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_seen.c - run/seen: a reading's value is that of its place and moment. [derived] */
#include "run/fixed.h"
#include "run/season_of.h"

#define PILE                                                                                        \
    "midden: 1\nstart: 2025-09-20\nplace: {latitude: 50 N, elevation: 100 m}\nsky: mild and wet\n"   \
    "bins:\n  one: {size: 1.1 x 1.1 x 1.2 m}\n  two: {like: one, now: empty}\n"                     \
    "need: by 2025-10-04\nbuild:\n  - repeat: 6\n    layers:\n      - wheat straw: 60 L\n"          \
    "        horse manure: 55 L\n        grass clippings: 35 L\n        water: 2 L\n"               \
    "plans:\n  do it: [{day: 2025-09-26, turn: mixed, into: two}]\n  leave it: []\n"

static struct season_of *with_readings(const char *also)
{
    char text[4000];
    snprintf(text, sizeof text, "%sreadings: {also: [%s]}\n", PILE, also);
    return season_of(text, "do it");
}

/* The mean of 24 hourly moments is near the mean that the record keeps of the day. */
static void moments_of_a_day_have_its_mean(void **state)
{
    (void)state;
    char also[4000] = "";
    for (int h = 0; h < 24; h++)
        snprintf(also + strlen(also), sizeof also - strlen(also),
                 "%s{day: 2025-09-23, hour: %d, middle: 50 C, 30 cm in: 40 C, hand deep: 30 C}",
                 h ? ", " : "", h);
    struct season_of *s = with_readings(also);
    double mean[3] = {0, 0, 0};
    assert_int_equal(s->scenario.readings, 72);
    for (int i = 0; i < 72; i++)
        mean[i % 3] += s->record.seen[i] / 24;
    const struct record_day *day = &s->record.day[3];
    assert_near(mean[0], day->middle_K, 0.5); /* the hours begin at midnight and end at eleven */
    assert_near(mean[1], day->deep_30cm_K, 0.5);
    assert_near(mean[2], day->hand_deep_K, 0.5);
    season_of_free(s);
}

/* On the day of a turn ten o'clock is before the fork, eleven after it. */
static void ten_oclock_is_before_the_work_of_the_day(void **state)
{
    (void)state;
    struct season_of *s = with_readings("{day: 2025-09-26, middle: 50 C}, "
                                        "{day: 2025-09-26, hour: 11, middle: 50 C}");
    assert_near(s->record.seen[0], s->record.event[0].middle_K, 0.05);
    assert_true(fabs(s->record.seen[1] - s->record.seen[0]) > 3);
    season_of_free(s);
}

static void a_reading_of_the_building_day_is_taken_once_the_pile_stands(void **state)
{
    (void)state;
    struct season_of *s = with_readings("{day: 2025-09-20, hour: 8, middle: 20 C, height: 90 cm}");
    assert_true(s->record.seen[0] > 280 && s->record.seen[0] < 305);
    assert_true(s->record.seen[1] > 0.3 && s->record.seen[1] < 1.2);
    season_of_free(s);
}

/* Depth by depth from the side to the middle it gets warmer in a hot pile in cool air. */
static void deeper_is_warmer_in_a_hot_pile(void **state)
{
    (void)state;
    struct season_of *s = with_readings(
        "{day: 2025-09-24, middle: 60 C, inside: {5 cm: 30 C, 15 cm: 40 C, 25 cm: 50 C}, squeeze: holds}");
    assert_true(s->record.seen[1] < s->record.seen[2]);
    assert_true(s->record.seen[2] < s->record.seen[3]);
    assert_true(s->record.seen[3] < s->record.seen[0] + 1);
    assert_true(s->record.seen[4] > 0.3 && s->record.seen[4] < 0.8); /* share of water */
    season_of_free(s);
}

static void beyond_the_season_nothing_was_seen(void **state)
{
    (void)state;
    struct season_of *s = with_readings("{day: 2026-03-01, middle: 20 C}");
    assert_true(isnan(s->record.seen[0]));
    season_of_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments_of_a_day_have_its_mean),
        cmocka_unit_test(ten_oclock_is_before_the_work_of_the_day),
        cmocka_unit_test(a_reading_of_the_building_day_is_taken_once_the_pile_stands),
        cmocka_unit_test(deeper_is_warmer_in_a_hot_pile),
        cmocka_unit_test(beyond_the_season_nothing_was_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
