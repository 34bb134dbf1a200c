/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_space.c - ask/space: which plans a search may choose from.
 *
 * Dates are counted by hand in the calendar of 2026 (1 March is a Sunday) [derived].
 */
#include "ask/space.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

#define TOP "midden: 1\nstart: 2026-02-01\nplace: {latitude: 50 N, elevation: 100 m}\n" \
    "sky: mild and wet\nbuild:\n  - mixed leaves: 8 bags\n    grass clippings: 30 buckets\n"
#define ONE "bin: 1 x 1 x 1 m\n"
#define THREE "bins:\n  here: {size: 1 x 1 x 1 m}\n  next: {like: here, now: empty}\n" \
    "  last: {like: here, now: full until 2026-03-20}\n"
#define NEED "need: by 2026-04-04\n"
#define PEOPLE "people: {days: Saturday, away: 2026-03-14}\n"

static struct space *space(const char *text, int first)
{
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct trouble why = {0};
    struct space *made = calloc(1, sizeof *made);
    assert_non_null(made);
    if (!scenario_read_text(scenario, text, strlen(text), "test", &why))
        fail_msg("%s", why.text);
    space_of(made, scenario, first);
    return made;
}

static void drop(struct space *space)
{
    free((void *)(uintptr_t)space->scenario);
    free(space);
}

static void the_days_are_those_people_have_before_the_need(void **state)
{
    (void)state;
    struct space *s = space(TOP ONE NEED PEOPLE, 27); /* from 28 February on */
    /* Saturdays from 28 February: 7, 21, 28 March; away on the 14th, and 4 April is the need itself */
    const int want[] = {27, 34, 48, 55};
    assert_int_equal(s->days, 4);
    for (int i = 0; i < 4; i++)
        assert_int_equal(s->day[i], want[i]);
    assert_int_equal(s->coarse, 1);
    drop(s);
}

/* 21 February 2026 is a Saturday, day 20 when the start date is day 0. */
static void the_first_day_is_one_of_them_and_the_day_before_is_not(void **state)
{
    (void)state;
    struct space *from = space(TOP ONE NEED PEOPLE, 20), *after = space(TOP ONE NEED PEOPLE, 21);
    assert_int_equal(from->day[0], 20);
    assert_int_equal(after->day[0], 27);
    drop(from);
    drop(after);
}

static void many_days_are_looked_at_coarsely_first(void **state)
{
    (void)state;
    struct space *s = space(TOP ONE NEED "people: {days: any day}\n", 1);
    assert_int_equal(s->days, 61); /* 2 February to 3 April */
    assert_int_equal(s->coarse, 6); /* no more than a dozen at first */
    drop(s);
}

static void where_there_are_too_many_days_the_late_ones_are_kept_too(void **state)
{
    (void)state;
    struct space *s = space(TOP ONE "need: by 2026-12-01\npeople: {days: [Monday, Tuesday, Wednesday, "
                            "Thursday, Friday, Saturday, Sunday]}\n", 1);
    /* 302 days from 2 February to 30 November, so every fifth: 61 */
    assert_int_equal(s->days, 61);
    assert_int_equal(s->day[0], 1);
    assert_int_equal(s->day[60], 301);
    drop(s);
}

static void a_single_bin_is_emptied_and_filled_again(void **state)
{
    (void)state;
    struct space *s = space(TOP ONE NEED PEOPLE, 1);
    struct candidate none = {0}, one;
    assert_false(s->moves_on);
    assert_true(space_add(&one, s, &none, 0, s->way[0]));
    assert_int_equal(one.turn[0].into, PLAN_SAME_BAY);
    assert_int_equal(one.turn[0].way, PLAN_OUT_AND_BACK);
    drop(s);
}

static void turns_stay_in_the_order_of_their_days(void **state)
{
    (void)state;
    struct space *s = space(TOP THREE NEED PEOPLE, 1);
    struct candidate a = {0}, b;
    assert_true(space_add(&b, s, &a, 2, PLAN_MIXED));
    assert_true(space_add(&a, s, &b, 0, PLAN_OUTSIDE_IN));
    assert_true(space_add(&b, s, &a, 1, PLAN_MIXED));
    assert_false(space_add(&a, s, &b, 1, PLAN_MIXED)); /* that day is taken */
    for (int i = 0; i < 3; i++)
        assert_int_equal(b.turn[i].day, i);
    assert_int_equal(b.turn[0].way, PLAN_OUTSIDE_IN);
    assert_int_equal(b.turn[0].into, PLAN_NEXT_BAY);
    drop(s);
}

static void a_move_changes_one_thing_and_keeps_the_order(void **state)
{
    (void)state;
    struct space *s = space(TOP THREE NEED PEOPLE, 1);
    struct candidate a = {0}, b, *move = calloc(SPACE_MOVES, sizeof *move);
    space_add(&b, s, &a, 1, PLAN_MIXED);
    space_add(&a, s, &b, 2, PLAN_OUTSIDE_IN);
    int moves = space_moves(move, s, &a);
    assert_true(moves > 8 && moves < SPACE_MOVES);
    for (int i = 0; i < moves; i++) {
        assert_false(space_same(&move[i], &a));
        for (int k = 1; k < move[i].turns; k++)
            assert_true(move[i].turn[k - 1].day < move[i].turn[k].day);
        for (int k = 0; k < i; k++)
            assert_false(space_same(&move[i], &move[k]));
    }
    free(move);
    drop(s);
}

static void a_cover_is_at_hand_only_where_a_plan_lays_one(void **state)
{
    (void)state;
    struct space *s = space(TOP ONE NEED PEOPLE, 1);
    assert_int_equal(s->cover, -1);
    drop(s);
    s = space(TOP ONE NEED PEOPLE "plans:\n  a:\n    - {day: 2026-02-07, cover: straw 10 cm}\n", 1);
    assert_true(s->cover >= 0);
    assert_near(s->cover_m, 0.1, 1e-12);
    struct candidate covered = {.covered = true}, turned;
    struct plan *plan = calloc(1, sizeof *plan);
    space_add(&turned, s, &covered, 1, PLAN_MIXED);
    space_plan(plan, s, &turned);
    /* a turn takes the cover off, so it is laid twice */
    assert_int_equal(plan->events, 3);
    assert_int_equal(plan->event[0].deed, PLAN_COVER);
    assert_int_equal(plan->event[1].deed, PLAN_TURN);
    assert_int_equal(plan->event[2].deed, PLAN_COVER);
    assert_int_equal(plan->event[2].day, plan->event[1].day);
    free(plan);
    drop(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_days_are_those_people_have_before_the_need),
        cmocka_unit_test(the_first_day_is_one_of_them_and_the_day_before_is_not),
        cmocka_unit_test(many_days_are_looked_at_coarsely_first),
        cmocka_unit_test(where_there_are_too_many_days_the_late_ones_are_kept_too),
        cmocka_unit_test(a_single_bin_is_emptied_and_filled_again),
        cmocka_unit_test(turns_stay_in_the_order_of_their_days),
        cmocka_unit_test(a_move_changes_one_thing_and_keeps_the_order),
        cmocka_unit_test(a_cover_is_at_hand_only_where_a_plan_lays_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
