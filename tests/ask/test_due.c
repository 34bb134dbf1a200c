/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_due.c - ask/due: what is due on a day, for how many piles, with how much work. */
#include "ask/due.h"
#include "ask/piles.h"

#define PLANS                                                                                      \
    "plans:\n  dated:\n    - {day: 2025-11-01, turn: outside in, into: bay 2, water: 2 buckets}\n" \
    "    - {day: 2025-11-01, cover: straw 10 cm}\n"                                                \
    "    - {day: 2025-11-22, turn: mixed, into: bay 3}\n"                                          \
    "  rule:\n    - {look: Saturday, from: 2025-11-01, when: middle below 40 C,\n"                 \
    "       turn: mixed, into: next}\n"                                                            \
    "    - {look: Saturday, from: 2025-11-01, when: middle below 30 C, turn: outside in}\n"

enum { DATED, RULE };
enum { TURN_DAY = 14 }; /* 1 November */

static struct record_event turned(enum plan_way way, int into, double person_s)
{
    return (struct record_event){.deed = PLAN_TURN, .way = way, .into = into,
                                 .water_kg = person_s / 100, .person_s = person_s,
                                 .lifted_kg = person_s / 10};
}

static void what_has_a_date_is_due_for_all_with_the_middle_of_their_work(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    struct due due;
    for (int m = 0; m < PILES_MEMBERS; m++) {
        piles_do(p, m, TURN_DAY, turned(PLAN_OUTSIDE_IN, 1, 1000 + 100 * m));
        piles_do(p, m, TURN_DAY, (struct record_event){.deed = PLAN_COVER, .into = -1, .person_s = 60});
    }
    due_on(&due, &p->pile, TURN_DAY);
    assert_int_equal(due.tasks, 2);
    assert_int_equal(due.task[0].did, PILES_MEMBERS);
    assert_near(due.task[0].chance.mid, 1, 0);
    assert_near(due.task[0].person_s.mid, 1200, 0);
    assert_near(due.task[0].person_s.low, 1000, 1e-9); /* of five, the least and the most */
    assert_near(due.task[0].person_s.high, 1400, 1e-9);
    assert_int_equal(due.task[0].into, 1);
    assert_int_equal(due.task[1].event->deed, PLAN_COVER);
    assert_near(due.task[1].person_s.mid, 60, 0);
    assert_near(due.person_s.mid, 1260, 0);
    assert_near(due.water_kg.mid, 12, 0);
    assert_false(due.build);
    assert_int_equal(due.from, 0);
    assert_int_equal(due.next_day, 35); /* 22 November */
    assert_false(due.next_look);
    free(p);
}

/* Bays are 1.2 m wide, so nothing lies deeper than 60 cm; the second is made 30 cm wide. */
static void how_deep_a_pile_is_follows_its_height_and_the_bay_it_stands_in(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    struct due due;
    due_on(&due, &p->pile, TURN_DAY);
    assert_near(due.deep_m, 0.6, 1e-12);
    p->scenario.bay[1].width_m = 0.3;
    for (int m = 0; m < PILES_MEMBERS; m++) {
        p->day[m][TURN_DAY - 1].height_m = 0.10 + 0.01 * m;
        piles_do(p, m, TURN_DAY, turned(PLAN_OUTSIDE_IN, 1, 1000));
    }
    due_on(&due, &p->pile, TURN_DAY);
    assert_near(due.deep_m, 0.12, 1e-12);
    due_on(&due, &p->pile, TURN_DAY + 1);
    assert_near(due.deep_m, 0.15, 1e-12);
    due_on(&due, &p->pile, PILES_DAYS + 1);
    assert_true(isnan(due.deep_m));
    free(p);
}

static void the_temperature_of_a_day_is_that_of_all_piles_and_of_no_other_day(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    size_t middle = offsetof(struct record_day, middle_K);
    for (int m = 0; m < PILES_MEMBERS; m++)
        p->record[m].day[3].middle_K = 310 + m;
    assert_near(due_temp_K(&p->pile, 3, middle).mid, 310 + (PILES_MEMBERS - 1) / 2.0, 1e-9);
    assert_true(isnan(due_temp_K(&p->pile, -1, middle).mid));
    assert_true(isnan(due_temp_K(&p->pile, p->record[0].days, middle).mid));
    p->pile.members = 1;
    assert_near(due_temp_K(&p->pile, 3, middle).mid, 310, 0);
    p->pile.members = 0;
    assert_true(isnan(due_temp_K(&p->pile, 3, middle).mid));
    free(p);
}

static void a_rule_is_due_for_the_share_of_piles_that_obey_it(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, RULE);
    struct due due;
    piles_do(p, 1, TURN_DAY, turned(PLAN_MIXED, 1, 2000));
    piles_do(p, 3, TURN_DAY, turned(PLAN_MIXED, 1, 4000));
    piles_do(p, 4, TURN_DAY, turned(PLAN_OUTSIDE_IN, -1, 900));
    due_on(&due, &p->pile, TURN_DAY);
    assert_int_equal(due.tasks, 2);
    assert_int_equal(due.task[0].did, 2);
    assert_near(due.task[0].chance.mid, 0.4, 1e-12);
    assert_true(due.task[0].chance.low < 0.4 && due.task[0].chance.high > 0.4);
    assert_near(due.task[0].person_s.mid, 3000, 1e-9); /* of those that do it */
    assert_int_equal(due.task[1].did, 1); /* the second rule isn't taken for the first */
    assert_near(due.task[1].person_s.mid, 900, 0);
    assert_true(due.next_look);
    assert_int_equal(due.next_day, TURN_DAY + 14); /* a week on they are away */
    free(p);
}

static void where_nobody_obeys_a_rule_the_plan_alone_tells_of_the_bay(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, RULE);
    struct due due;
    due_on(&due, &p->pile, TURN_DAY);
    assert_int_equal(due.task[0].did, 0);
    assert_int_equal(due.task[0].into, PLAN_NEXT_BAY);
    assert_int_equal(due.task[1].into, 0); /* turned where it is */
    assert_near(due.task[0].person_s.high, 0, 0);
    free(p);
}

static void the_pile_stands_where_its_last_turn_left_it(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    struct due due;
    for (int m = 0; m < PILES_MEMBERS; m++)
        piles_do(p, m, TURN_DAY, turned(PLAN_OUTSIDE_IN, 1, 1000));
    due_on(&due, &p->pile, TURN_DAY);
    assert_int_equal(due.from, 0); /* that morning */
    due_on(&due, &p->pile, TURN_DAY + 1);
    assert_int_equal(due.from, 1);
    assert_false(due_any(&due));
    free(p);
}

static void building_is_due_on_the_first_day_with_work_water_and_weight(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    struct due due;
    due_on(&due, &p->pile, 0);
    assert_true(due.build);
    assert_true(due_any(&due));
    assert_int_equal(due.tasks, 0);
    /* four buckets of 12 L, carried at four fifths [trade] */
    assert_near(due.water_kg.mid, 4 * 0.8 * 12, 1e-9);
    /* 8 bags of 110 L and 28 buckets of 12 L are 1.216 m3. A cubic metre forked over takes one person
     * 45 minutes, 25 to 90 (common practice, no source); 36 vessels and a start are to be fetched, so
     * the whole lies above the middle of that and below twice its top. */
    assert_true(due.person_s.mid > 1.216 * 45 * 60 && due.person_s.mid < 2 * 1.216 * 90 * 60);
    assert_true(due.person_s.low < due.person_s.mid && due.person_s.mid < due.person_s.high);
    assert_true(due.lifted_kg.mid > due.water_kg.mid);
    struct span lifted = {0, 0, 0}; /* all that is laid and poured, summed here */
    for (int i = 0; i < p->scenario.layers; i++) {
        const struct plan_layer *layer = &p->scenario.layer[i];
        lifted.low += layer->water_kg.low, lifted.mid += layer->water_kg.mid, lifted.high += layer->water_kg.high;
        for (int k = 0; k < layer->portions; k++) {
            const struct span *wet_kg = &layer->portion[k].wet_kg;
            lifted.low += wet_kg->low, lifted.mid += wet_kg->mid, lifted.high += wet_kg->high;
        }
    }
    assert_near(due.lifted_kg.low, lifted.low, 1e-9);
    assert_near(due.lifted_kg.mid, lifted.mid, 1e-9);
    assert_near(due.lifted_kg.high, lifted.high, 1e-9);
    assert_true(isnan(due.middle_K.mid)); /* no day before */
    free(p);
}

static void a_pile_that_was_found_is_not_built(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD "found:\n  height: 60 to 70 cm\n  of: {horse manure: 3 parts, "
                                           "straw: 2 parts}\n" PLANS, DATED);
    struct due due;
    due_on(&due, &p->pile, 0);
    assert_false(due.build);
    assert_false(due_any(&due));
    assert_int_equal(due.next_day, TURN_DAY);
    free(p);
}

static void readings_come_two_and_five_days_after_the_pile_is_moved(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    struct due due;
    due_on(&due, &p->pile, TURN_DAY);
    assert_int_equal(due.read[0].day, TURN_DAY + 2);
    assert_int_equal(due.read[1].day, TURN_DAY + 5);
    /* member 2 of 0 to 4 is the middle one */
    assert_near(due.read[0].middle_K.mid, piles_middle_K(2, TURN_DAY + 2), 1e-9);
    assert_near(due.middle_K.mid, piles_middle_K(2, TURN_DAY - 1), 1e-9);
    due_on(&due, &p->pile, TURN_DAY + 3);
    assert_int_equal(due.read[0].day, TURN_DAY + 5);
    assert_int_equal(due.read[1].day, -1);
    due_on(&due, &p->pile, TURN_DAY + 6); /* then the next Saturday they come: 8 November is away */
    assert_int_equal(due.read[0].day, TURN_DAY + 14);
    due_on(&due, &p->pile, 34); /* the next visit is the work itself: its morning is the day before */
    assert_int_equal(due.read[0].day, 35);
    assert_near(due.read[0].middle_K.mid, piles_middle_K(2, 34), 1e-9);
    free(p);
}

static void a_season_is_needed_only_up_to_the_last_reading(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    p->scenario.last_day = PILES_DAYS - 1;
    assert_int_equal(due_horizon(&p->scenario, DATED, TURN_DAY), TURN_DAY + 5);
    assert_int_equal(due_horizon(&p->scenario, DATED, 20), 28);
    p->scenario.last_day = TURN_DAY + 3;
    assert_int_equal(due_horizon(&p->scenario, DATED, TURN_DAY), TURN_DAY + 2);
    assert_int_equal(due_horizon(&p->scenario, DATED, TURN_DAY + 3), TURN_DAY + 3);
    free(p);
}

/* A bucket of 12 L carried at four fifths holds 9.6 L and weighs 10.6 kg with itself [derived]. */
static void water_is_carried_in_vessels_that_may_be_lifted(void **state)
{
    (void)state;
    struct scenario scenario = {.bucket_m3 = 0.012, .people = {.heaviest_load_kg = 12}};
    struct due_load load = due_load(&scenario, 48);
    assert_int_equal(load.parts, 1);
    assert_int_equal(load.count, 5);
    assert_near(load.each_l, 9.6, 1e-12);
    scenario.people.heaviest_load_kg = 10; /* half a bucket: 4.8 L, 5.8 kg */
    load = due_load(&scenario, 48);
    assert_int_equal(load.parts, 2);
    assert_int_equal(load.count, 10);
    scenario.people.heaviest_load_kg = 4;
    assert_int_equal(due_load(&scenario, 48).parts, 4);
    assert_int_equal(due_load(&scenario, 48).count, 20);
    assert_int_equal(due_load(&scenario, 0).count, 0);
    assert_int_equal(due_load(&scenario, 0.1).count, 1);
}

/* five people round one bin are no faster than four [trade] */
static void few_hands_take_longest_and_only_so_many_find_room(void **state)
{
    (void)state;
    struct span clock = due_clock((struct span){1200, 2400, 3600}, (struct span){2, 3, 4});
    assert_near(clock.low, 300, 1e-9);
    assert_near(clock.mid, 800, 1e-9);
    assert_near(clock.high, 1800, 1e-9);
    assert_int_equal(due_hands(1.5), 2);
    assert_int_equal(due_hands(1), 1);
    assert_int_equal(due_hands(30), due_hands(4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_has_a_date_is_due_for_all_with_the_middle_of_their_work),
        cmocka_unit_test(how_deep_a_pile_is_follows_its_height_and_the_bay_it_stands_in),
        cmocka_unit_test(the_temperature_of_a_day_is_that_of_all_piles_and_of_no_other_day),
        cmocka_unit_test(a_rule_is_due_for_the_share_of_piles_that_obey_it),
        cmocka_unit_test(where_nobody_obeys_a_rule_the_plan_alone_tells_of_the_bay),
        cmocka_unit_test(the_pile_stands_where_its_last_turn_left_it),
        cmocka_unit_test(building_is_due_on_the_first_day_with_work_water_and_weight),
        cmocka_unit_test(a_pile_that_was_found_is_not_built),
        cmocka_unit_test(readings_come_two_and_five_days_after_the_pile_is_moved),
        cmocka_unit_test(a_season_is_needed_only_up_to_the_last_reading),
        cmocka_unit_test(water_is_carried_in_vessels_that_may_be_lifted),
        cmocka_unit_test(few_hands_take_longest_and_only_so_many_find_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
