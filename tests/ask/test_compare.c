/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_compare.c - ask/compare: plans side by side, worked by hand on made-up members.
 *
 * Quantiles are those of definition 6 (Hyndman and Fan 1996), the interval of a share is Wilson's (1927),
 * both tested against outside figures in tests/many/test_band.c.
 */
#include "ask/compare.h"
#include "lib/near.h"
#include <stdlib.h>

enum { MEMBERS = 5 };

struct table {
    struct scenario scenario;
    struct outcome outcome[2][MEMBERS];
    struct contender contender[2];
    double room[MEMBERS];
};

/* need: beds on day 101 of a season of 150 days */
static struct table *table(const double a[MEMBERS], const double b[MEMBERS], double minutes_a,
                           double minutes_b)
{
    struct table *t = calloc(1, sizeof *t);
    assert_non_null(t);
    t->scenario.start = 700000;
    t->scenario.last_day = 149;
    t->scenario.need.is = true;
    t->scenario.need.what = 1;
    t->scenario.need.by = 700100;
    t->scenario.need.chance = 0.6;
    for (int i = 0; i < MEMBERS; i++) {
        t->outcome[0][i] = (struct outcome){.computed = true, .ready_day = {NAN, a[i], NAN},
                                            .person_s = 60 * minutes_a, .peak_K = 330};
        t->outcome[1][i] = (struct outcome){.computed = true, .ready_day = {NAN, b[i], NAN},
                                            .person_s = 60 * minutes_b, .peak_K = 330 + 3 * (i == 2)};
    }
    for (int c = 0; c < 2; c++)
        t->contender[c] = (struct contender){.file = "test", .scenario = &t->scenario,
                                             .asked = &t->scenario, .plan = c,
                                             .members = MEMBERS, .outcome = t->outcome[c]};
    return t;
}

static const double SOON[] = {80, 90, 100, 101, 102}, LATE[] = {90, 95, 130, 101, NAN};

static void a_standing_counts_those_ready_on_the_day_itself(void **state)
{
    (void)state;
    struct table *t = table(SOON, LATE, 45, 0);
    struct standing a = compare_standing(&t->contender[0], t->room);
    struct standing b = compare_standing(&t->contender[1], t->room);
    assert_near(a.chance.mid, 4 / 5.0, 1e-12); /* 101 is in time, 102 isn't */
    assert_near(b.chance.mid, 3 / 5.0, 1e-12);
    assert_near(a.ready_day.mid, 100, 1e-12);
    assert_near(b.ready_day.mid, 101, 1e-12);
    assert_true(isnan(b.ready_day.high)); /* one in five is never ready */
    assert_near(a.person_s.mid, 2700, 1e-12);
    free(t);
}

static void differences_are_taken_member_by_member(void **state)
{
    (void)state;
    struct table *t = table(SOON, LATE, 45, 0);
    struct pair p = compare_pair(&t->contender[0], &t->contender[1], t->room);
    /* 10, 5, 30, 0, and never counts as day 151: 49; sorted 0 5 10 30 49 */
    assert_near(p.sooner_days.mid, 10, 1e-12);
    assert_near(p.sooner_days.low, 0, 1e-12); /* of five, the least and the most */
    assert_near(p.sooner_days.high, 49, 1e-12);
    assert_near(p.chance_sooner, 4 / 5.0, 1e-12);
    assert_near(p.extra_person_s.mid, 2700, 1e-12);
    assert_near(p.extra_chance, 1 / 5.0, 1e-12);
    struct pair q = compare_pair(&t->contender[1], &t->contender[0], t->room);
    assert_near(q.sooner_days.mid, -10, 1e-12);
    assert_near(q.chance_sooner, 0, 1e-12);
    assert_near(q.chance_hotter, 1 / 5.0, 1e-12);
    free(t);
}

static void the_least_work_that_does_it_is_taken(void **state)
{
    (void)state;
    struct table *t = table(SOON, LATE, 45, 0);
    struct standing s[2];
    for (int i = 0; i < 2; i++)
        s[i] = compare_standing(&t->contender[i], t->room);
    assert_int_equal(compare_choice(s, t->contender, 2, t->room), 1); /* 6 in 10 is enough, for nothing */
    t->scenario.need.chance = 0.7;
    assert_int_equal(compare_choice(s, t->contender, 2, t->room), 0);
    t->scenario.need.chance = 0.9; /* neither: the likelier */
    assert_int_equal(compare_choice(s, t->contender, 2, t->room), 0);
    int order[2];
    compare_order(order, s, 2);
    assert_int_equal(order[0], 1);
    free(t);
}

/* One in five likelier and ten days sooner are worth work; as likely and two days sooner only where they take none
 * more; less likely is never the nearer. */
static void where_none_does_it_the_nearest_is_worth_its_work(void **state)
{
    (void)state;
    const double little[] = {88, 93, 128, 101, 140}, fewer[] = {70, 110, 110, 110, NAN};
    struct standing s[2];
    const struct { const double *a; double minutes; int nearest; } cases[] = {
        {SOON, 45, 0}, {little, 45, 1}, {little, 0, 0}, {fewer, 45, 1}, {fewer, 0, 1}};
    for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
        struct table *t = table(cases[k].a, LATE, cases[k].minutes, 0);
        t->scenario.need.chance = 0.9;
        for (int i = 0; i < 2; i++)
            s[i] = compare_standing(&t->contender[i], t->room);
        if (compare_choice(s, t->contender, 2, t->room) != cases[k].nearest)
            fail_msg("case %zu", k);
        free(t);
    }
}

/* Of 5 and of 6 tosses all alike: 2/32 and 2/64. Of 16, at most 3 the other way: 2 (1 + 16 + 120 + 560)/65536 =
 * 0.021; 4: 0.077. [derived] */
static void which_is_ready_first_is_clear_where_chance_would_hardly_have_it_so(void **state)
{
    (void)state;
    static const struct { int sooner, later; bool clear; } cases[] = {
        {0, 0, false}, {5, 0, false}, {6, 0, true}, {0, 6, true}, {13, 3, true}, {12, 4, false}, {4, 12, false},
        {8, 8, false}, {40, 24, false}, {42, 22, true}, {1000, 1000, false}, {1100, 900, true}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct pair pair = {.sooner = cases[i].sooner, .later = cases[i].later};
        if (compare_clear(&pair) != cases[i].clear)
            fail_msg("%d and %d", cases[i].sooner, cases[i].later);
    }
    struct table *t = table(SOON, LATE, 45, 0);
    struct pair pair = compare_pair(&t->contender[0], &t->contender[1], t->room);
    assert_int_equal(pair.sooner, 4);
    assert_int_equal(pair.later, 0);
    assert_int_equal(pair.piles, 5);
    free(t);
}

static void work_that_buys_next_to_nothing_is_idle(void **state)
{
    (void)state;
    const double same[] = {89, 94, 128, 100, NAN};
    struct table *t = table(same, LATE, 90, 0);
    struct pair p = compare_pair(&t->contender[0], &t->contender[1], t->room);
    assert_true(compare_idle(&p)); /* a day or two for an hour and a half */
    p = compare_pair(&t->contender[1], &t->contender[0], t->room);
    assert_false(compare_idle(&p)); /* less work is never idle */
    free(t);
    t = table(SOON, LATE, 90, 0);
    p = compare_pair(&t->contender[0], &t->contender[1], t->room);
    assert_false(compare_idle(&p)); /* ten days sooner */
    free(t);
}

static void seasons_that_start_on_different_days_compare_by_date(void **state)
{
    (void)state;
    struct table *t = table(SOON, SOON, 0, 0);
    struct scenario later = t->scenario;
    later.start += 7;
    t->contender[1].scenario = &later;
    struct pair p = compare_pair(&t->contender[0], &t->contender[1], t->room);
    assert_near(p.sooner_days.mid, 7, 1e-12);
    free(t);
}

static void a_member_that_could_not_be_run_counts_for_neither(void **state)
{
    (void)state;
    struct table *t = table(SOON, LATE, 45, 0);
    t->outcome[1][4].computed = false; /* the one that is never ready */
    struct pair p = compare_pair(&t->contender[0], &t->contender[1], t->room);
    assert_near(p.chance_sooner, 3 / 4.0, 1e-12);
    assert_near(compare_standing(&t->contender[1], t->room).chance.mid, 3 / 4.0, 1e-12);
    free(t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_standing_counts_those_ready_on_the_day_itself),
        cmocka_unit_test(differences_are_taken_member_by_member),
        cmocka_unit_test(the_least_work_that_does_it_is_taken),
        cmocka_unit_test(where_none_does_it_the_nearest_is_worth_its_work),
        cmocka_unit_test(which_is_ready_first_is_clear_where_chance_would_hardly_have_it_so),
        cmocka_unit_test(work_that_buys_next_to_nothing_is_idle),
        cmocka_unit_test(seasons_that_start_on_different_days_compare_by_date),
        cmocka_unit_test(a_member_that_could_not_be_run_counts_for_neither),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
