/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_outing.c - ask/outing: several piles on one day. */
#include "ask/piles.h"
#include "ask/outing.h"

#define INTO(bay) "plans:\n  one:\n    - {day: 2025-11-01, turn: mixed, into: " bay "}\n"
enum { DAY = 14 };

static struct outing_stop stop_of(struct piles *p, double person_s, int into)
{
    struct outing_stop stop = {.pile = p->pile, .file = "a.yaml"};
    for (int m = 0; m < PILES_MEMBERS; m++)
        piles_do(p, m, DAY, (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = into,
                                                  .person_s = person_s, .water_kg = 10});
    due_on(&stop.due, &stop.pile, DAY);
    return stop;
}

static void work_is_added_and_the_heaviest_comes_first(void **state)
{
    (void)state;
    struct piles *a = piles_new(PILES_HEAD PILES_BUILD INTO("bay 2"), 0);
    struct piles *b = piles_new(PILES_HEAD PILES_BUILD INTO("bay 3"), 0);
    struct outing_stop stop[] = {stop_of(a, 1200, 1), stop_of(b, 3600, 2)};
    struct outing visit = {.stop = stop, .stops = 2, .date = a->scenario.start + DAY};
    outing_join(&visit);
    assert_ptr_equal(stop[0].pile.scenario, &b->scenario);
    assert_near(visit.person_s.mid, 4800, 1e-9);
    assert_near(visit.clock_s.mid, 1600, 1e-9); /* three of 2 to 4 */
    assert_near(visit.water_kg.mid, 20, 1e-9);
    assert_near(visit.visit_s, 5400, 0);
    assert_int_equal(visit.clashes, 0);
    assert_false(visit.away);
    free(a);
    free(b);
}

static void two_piles_into_a_bay_of_one_name_clash(void **state)
{
    (void)state;
    struct piles *a = piles_new(PILES_HEAD PILES_BUILD INTO("bay 2"), 0);
    struct piles *b = piles_new(PILES_HEAD PILES_BUILD INTO("bay 2"), 0);
    struct outing_stop stop[] = {stop_of(a, 1200, 1), stop_of(b, 1200, 1)};
    struct outing visit = {.stop = stop, .stops = 2};
    outing_join(&visit);
    assert_int_equal(visit.clashes, 1);
    assert_string_equal(visit.stop[0].pile.scenario->bay[visit.clash[0].bay].name, "bay 2");
    a->scenario.bays = 1; /* a place without a name of its own is that pile's */
    strcpy(a->scenario.bay[0].name, "bin");
    outing_join(&visit);
    assert_int_equal(visit.clashes, 0);
    free(a);
    free(b);
}

static void the_same_people_come_to_all(void **state)
{
    (void)state;
    struct piles *a = piles_new(PILES_HEAD PILES_BUILD INTO("bay 2"), 0);
    struct piles *b = piles_new(PILES_HEAD PILES_BUILD INTO("bay 3"), 0);
    b->scenario.people.helpers = (struct span){1, 1.5, 2};
    b->scenario.people.visit_s = 3600;
    b->scenario.people.weekdays = 1; /* Mondays: nobody comes on this Saturday */
    struct outing_stop stop[] = {stop_of(a, 1200, 1), stop_of(b, 1200, 2)};
    struct outing visit = {.stop = stop, .stops = 2};
    outing_join(&visit);
    assert_near(visit.helpers.low, 1, 0);
    assert_near(visit.helpers.high, 4, 0);
    assert_near(visit.visit_s, 3600, 0);
    assert_true(visit.away);
    free(a);
    free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(work_is_added_and_the_heaviest_comes_first),
        cmocka_unit_test(two_piles_into_a_bay_of_one_name_clash),
        cmocka_unit_test(the_same_people_come_to_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
