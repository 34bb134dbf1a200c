/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_held.c - what holds back most comes first, at the places a pile has.
 *
 * What the limits themselves say is tested where they are made (tests/run/test_survey.c); here only
 * their order is [derived].
 */
#include "ask/held.h"
#include "lib/near.h"
#include <math.h>

static struct record_day day[3];
static struct record record[3];

static void fill(double middle_K)
{
    static const double limit[3][RECORD_LIMITS] = {
        {0.9, 0.2, 0.5, 0.8, 0.7}, {0.8, 0.3, 0.1, 0.9, 0.6}, {0.7, 0.25, 0.6, 1.0, 0.65}};
    for (int m = 0; m < 3; m++) {
        record[m] = (struct record){.days = 1, .day = &day[m]};
        day[m] = (struct record_day){.middle_K = middle_K, .deep_30cm_K = 320, .hand_deep_K = 300};
        for (int k = 0; k < RECORD_LIMITS; k++) {
            day[m].limit[RECORD_CORE][k] = limit[m][k];
            day[m].limit[RECORD_SHOULDER][k] = NAN;
            day[m].limit[RECORD_RIM][k] = k == RECORD_TEMPERATURE ? 0.05 : 1;
        }
    }
}

static void of_one_pile_the_least_factor_comes_first(void **state)
{
    (void)state;
    struct held rank[RECORD_LIMITS];
    fill(320);
    assert_int_equal(held_rank(rank, &record[0], 0, RECORD_CORE), RECORD_LIMITS);
    static const enum record_limit order[] = {RECORD_WATER, RECORD_OXYGEN, RECORD_FOOD, RECORD_NITROGEN,
                                              RECORD_TEMPERATURE};
    for (int k = 0; k < RECORD_LIMITS; k++)
        assert_int_equal(rank[k].what, order[k]);
    assert_near(rank[0].factor, 0.2, 0);
    held_rank(rank, &record[1], 0, RECORD_CORE);
    assert_int_equal(rank[0].what, RECORD_OXYGEN);
}

static void many_are_ranked_by_medians(void **state)
{
    (void)state;
    struct held rank[RECORD_LIMITS];
    double room[3];
    fill(320);
    held_rank_of(rank, record, 3, 0, RECORD_CORE, room);
    assert_int_equal(rank[0].what, RECORD_WATER); /* 0.25 against 0.5 */
    assert_near(rank[0].factor, 0.25, 0);
    assert_near(held_range(record, 3, 0, RECORD_CORE, RECORD_OXYGEN, room).mid, 0.5, 0);
}

static void a_place_that_a_pile_lacks_has_no_ranks(void **state)
{
    (void)state;
    struct held rank[RECORD_LIMITS];
    double room[3];
    fill(320);
    assert_int_equal(held_rank(rank, &record[0], 0, RECORD_SHOULDER), 0);
    assert_true(isnan(held_range(record, 3, 0, RECORD_SHOULDER, RECORD_FOOD, room).mid));
}

/* 58 C is the best of the heat-loving bacteria [Suler and Finstein 1977, seen: 56 to 60 C] */
static void warmth_holds_back_from_either_side(void **state)
{
    (void)state;
    struct held rank[RECORD_LIMITS];
    fill(273.15 + 68);
    held_rank(rank, &record[0], 0, RECORD_CORE);
    assert_true(rank[RECORD_LIMITS - 1].too_hot);
    held_rank(rank, &record[0], 0, RECORD_RIM);
    assert_int_equal(rank[0].what, RECORD_TEMPERATURE);
    assert_false(rank[0].too_hot);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_one_pile_the_least_factor_comes_first),
        cmocka_unit_test(many_are_ranked_by_medians),
        cmocka_unit_test(a_place_that_a_pile_lacks_has_no_ranks),
        cmocka_unit_test(warmth_holds_back_from_either_side),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
