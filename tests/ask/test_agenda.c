/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_agenda.c - ask/agenda: which days of a plan are work, looks, readings.
 *
 * Weekdays are those of any almanac [derived]; two and five days after a turn is how long a reheat
 * takes to show and to pass its steep rise [trade].
 */
#include "ask/agenda.h"
#include "ask/piles.h"

#define PLANS                                                                                       \
    "plans:\n  dated:\n    - {day: 2025-11-01, turn: mixed, into: bay 2}\n"                         \
    "  rule:\n    - {look: Saturday, from: 2025-10-27, until: 2025-11-20, when: middle below 40 C,\n" \
    "       turn: mixed, into: next}\n"                                                             \
    "  pails:\n    - {every: 10 days, from: 2025-10-20, until: 2025-11-12,\n"                       \
    "       add: {kitchen scraps: 1 bucket}}\n"

enum { DATED, RULE, PAILS };

static void a_dated_event_falls_on_its_day_alone(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    for (int day = 0; day < PILES_DAYS; day++)
        assert_int_equal(agenda_works_on(&p->scenario, DATED, day), day == 14); /* 18 October and 14 days */
    assert_int_equal(agenda_next(&p->scenario, DATED, 0, 59), 14);
    assert_int_equal(agenda_next(&p->scenario, DATED, 14, 59), -1);
    assert_int_equal(agenda_next(&p->scenario, DATED, 0, 13), -1);
    free(p);
}

static void a_rhythm_ends_with_its_last_day(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, PAILS);
    p->scenario.people.days_said = false;
    p->scenario.people.aways = 0;
    for (int day = 0; day < PILES_DAYS; day++)
        assert_int_equal(agenda_works_on(&p->scenario, PAILS, day),
                         day == 2 || day == 12 || day == 22);
    free(p);
}

static void a_rule_is_looked_at_on_its_weekday_and_is_no_work(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, RULE);
    for (int day = 0; day < PILES_DAYS; day++) {
        /* Saturdays 1 and 15 November; on the 8th they are away */
        assert_int_equal(agenda_looks_on(&p->scenario, RULE, day), day == 14 || day == 28);
        assert_false(agenda_works_on(&p->scenario, RULE, day));
        assert_false(agenda_turns_on(&p->scenario, RULE, day, false));
        assert_int_equal(agenda_turns_on(&p->scenario, RULE, day, true), day == 14 || day == 28);
    }
    free(p);
}

static void a_visit_is_on_their_weekday_and_not_away(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    assert_int_equal(agenda_visit(&p->scenario, 1, 59), 7);
    assert_int_equal(agenda_visit(&p->scenario, 15, 59), 28); /* 8 November is left out */
    assert_int_equal(agenda_visit(&p->scenario, 15, 20), 20); /* none before */
    free(p);
}

static void a_season_has_building_work_and_readings_in_order(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    p->scenario.last_day = PILES_DAYS - 1;
    struct agenda_row *row = calloc((size_t)agenda_most(&p->scenario), sizeof *row);
    static const struct { int day; enum agenda_kind kind; int nth; } want[] = {
        {0, AGENDA_BUILD, 1}, {2, AGENDA_READ, 1},  {3, AGENDA_PEAK, 1}, {5, AGENDA_READ, 2},
        {14, AGENDA_WORK, 1}, {16, AGENDA_READ, 3}, {19, AGENDA_READ, 4}};
    int count = agenda_make(row, &p->scenario, DATED, 3);
    assert_int_equal(count, 7);
    for (int i = 0; i < count; i++) {
        assert_int_equal(row[i].day, want[i].day);
        assert_int_equal(row[i].kind, want[i].kind);
        assert_int_equal(row[i].nth, want[i].nth);
    }
    free(row);
    free(p);
}

static void the_hottest_day_takes_the_place_of_a_reading_whose_number_stays(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, DATED);
    p->scenario.last_day = PILES_DAYS - 1;
    struct agenda_row *row = calloc((size_t)agenda_most(&p->scenario), sizeof *row);
    int count = agenda_make(row, &p->scenario, DATED, 5);
    assert_int_equal(count, 6);
    assert_int_equal(row[2].kind, AGENDA_PEAK);
    assert_int_equal(row[2].day, 5);
    assert_int_equal(row[4].kind, AGENDA_READ);
    assert_int_equal(row[4].nth, 3); /* as before, so that a calendar knows it again */
    free(row);
    free(p);
}

static void a_season_never_has_more_rows_than_there_is_room_for(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD
                                "plans:\n  all:\n    - {every: day, turn: mixed, into: next}\n"
                                "    - {look: day, when: middle below 40 C, water: 1 bucket}\n", 0);
    p->scenario.last_day = PILES_DAYS - 1;
    p->scenario.people.days_said = false;
    int most = agenda_most(&p->scenario);
    struct agenda_row *row = calloc((size_t)most, sizeof *row);
    assert_true(agenda_make(row, &p->scenario, 0, 3) <= most);
    free(row);
    free(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dated_event_falls_on_its_day_alone),
        cmocka_unit_test(a_rhythm_ends_with_its_last_day),
        cmocka_unit_test(a_rule_is_looked_at_on_its_weekday_and_is_no_work),
        cmocka_unit_test(a_visit_is_on_their_weekday_and_not_away),
        cmocka_unit_test(a_season_has_building_work_and_readings_in_order),
        cmocka_unit_test(the_hottest_day_takes_the_place_of_a_reading_whose_number_stays),
        cmocka_unit_test(a_season_never_has_more_rows_than_there_is_room_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
