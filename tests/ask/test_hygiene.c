/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_hygiene.c - rules with their turns, weeks and C:N; and how long manure waits.
 *
 * Records are made up; what a rule asks for is written here from its publication.
 */
#include "ask/hygiene.h"
#include "lib/near.h"
#include <stdio.h>

enum { DAYS = 60, EVENTS = 8 };

struct season {
    struct record record;
    struct record_day day[DAYS];
    struct record_event event[EVENTS];
};

/* All of it has had every dose from day 10 on; C:N 30 throughout. */
static void make(struct season *s)
{
    *s = (struct season){.record = {.days = DAYS, .turns = 0}};
    s->record.day = s->day;
    s->record.event = s->event;
    for (int i = 0; i < DAYS; i++) {
        s->day[i].carbon_kg = 30;
        s->day[i].nitrogen_kg = 1;
        s->day[i].middle_K = 273.15 + (i < 20 ? 58 : 30);
        s->day[i].coldest_tenth_K = 273.15 + 25;
        for (int k = 0; k < RULES; k++)
            s->day[i].met_share[k] = i >= 9 ? 1 : 0.3;
    }
}

static void turn(struct season *s, int day, double middle_C)
{
    s->event[s->record.events++] = (struct record_event){.day = day, .deed = PLAN_TURN,
                                                         .middle_K = middle_C + 273.15};
}

static double share(const struct season *s, int rule) { return hygiene_share(&s->record, rule, 0); }
static double first(const struct season *s, int rule) { return hygiene_first(&s->record, rule, 0); }
static double needed(const struct season *s, int rule)
{
    return hygiene_turns_needed(&s->record, rule, 0);
}

/* [seen] 40 CFR 503 appendix B, B1: windrow, fifteen days, five turns in the hot period */
static void five_turns_must_be_hot_ones(void **state)
{
    (void)state;
    struct season s;
    make(&s);
    assert_near(share(&s, RULES_THREE_DAYS_55), 1, 0);
    assert_near(first(&s, RULES_THREE_DAYS_55), 10, 0);
    assert_near(share(&s, RULES_FIFTEEN_DAYS_55), 0, 0);
    assert_near(needed(&s, RULES_FIFTEEN_DAYS_55), 5, 0);
    for (int i = 0; i < 4; i++)
        turn(&s, 4 + 4 * i, 57);
    turn(&s, 20, 54);   /* too cool to count */
    assert_near(needed(&s, RULES_FIFTEEN_DAYS_55), 1, 0);
    assert_near(share(&s, RULES_FIFTEEN_DAYS_55), 0, 0);
    turn(&s, 24, 56);
    assert_near(needed(&s, RULES_FIFTEEN_DAYS_55), 0, 0);
    assert_near(share(&s, RULES_FIFTEEN_DAYS_55), 1, 0);
    assert_near(first(&s, RULES_FIFTEEN_DAYS_55), 24, 0);
}

/* [seen] order of 22 April 2008, annex I: at least three turns, three days apart; three weeks */
static void the_french_turns_lie_three_days_apart_and_may_be_cool(void **state)
{
    (void)state;
    struct season s;
    make(&s);
    turn(&s, 5, 20);
    turn(&s, 7, 20);    /* too soon */
    turn(&s, 8, 20);
    assert_near(needed(&s, RULES_SUM_72_HOURS), 1, 0);
    turn(&s, 11, 20);
    assert_near(needed(&s, RULES_SUM_72_HOURS), 0, 0);
    assert_near(first(&s, RULES_SUM_72_HOURS), 22, 0); /* 21 days after the first */
    assert_near(hygiene_met(&s.record, RULES_SUM_72_HOURS, 20), 0, 0);
}

/* [seen] 7 CFR 205.203(c)(2)(i): an initial C:N between 25:1 and 40:1 */
static void the_organic_rule_wants_its_c_to_n_at_the_start(void **state)
{
    (void)state;
    static const struct { double c_to_n, met; } row[] = {{24.9, 0}, {25.1, 1}, {39.9, 1}, {40.1, 0}};
    for (int i = 0; i < 4; i++) {
        struct season s;
        make(&s);
        s.day[0].carbon_kg = row[i].c_to_n;
        assert_near(share(&s, RULES_THREE_DAYS_55_ORGANIC), row[i].met, 0);
        assert_near(share(&s, RULES_THREE_DAYS_55), 1, 0);
    }
}

static void half_the_mass_decides_the_day_and_never_is_infinite(void **state)
{
    (void)state;
    struct season s;
    make(&s);
    for (int i = 0; i < DAYS; i++)
        s.day[i].met_share[RULES_THREE_DAYS_60] = i < 30 ? 0.49 : 0.51;
    assert_near(first(&s, RULES_THREE_DAYS_60), 31, 0);
    for (int i = 0; i < DAYS; i++)
        s.day[i].met_share[RULES_THREE_DAYS_60] = 0.49;
    assert_true(isinf(first(&s, RULES_THREE_DAYS_60)));
}

static void days_and_runs_are_counted_by_place(void **state)
{
    (void)state;
    struct season s;
    make(&s);
    s.day[7].middle_K = 300;
    assert_near(hygiene_days(&s.record, HYGIENE_MIDDLE, 55), 19, 0);
    assert_near(hygiene_run(&s.record, HYGIENE_MIDDLE, 55), 12, 0);
    assert_near(hygiene_days(&s.record, HYGIENE_MIDDLE, 60), 0, 0);
    assert_near(hygiene_days(&s.record, HYGIENE_COLDEST, 45), 0, 0);
}

static void what_was_never_laid_has_no_share(void **state)
{
    (void)state;
    struct season s;
    make(&s);
    assert_true(isnan(hygiene_seeds(&s.record, 0, 0)));
    assert_true(isnan(hygiene_germs(&s.record, 1, 0)));
    s.record.germs_laid[1] = 40;
    s.record.germs_alive[1] = 10;
    assert_near(hygiene_germs(&s.record, 1, 0), 0.25, 0);
}

/* ---- manure ---- */

static void garden(struct scenario *scenario, const char *crop, struct date harvest)
{
    *scenario = (struct scenario){.stuffs = 2, .layers = 1, .plans = 1};
    scenario->start = date_number((struct date){2026, 3, 1});
    scenario->stuff[0] = *stuff_find("horse manure");
    scenario->stuff[1] = *stuff_find("wheat straw");
    scenario->layer[0].portions = 2;
    scenario->layer[0].portion[1].stuff = 1;
    scenario->need.is = true;
    scenario->need.harvests = 1;
    snprintf(scenario->need.harvest[0].crop, PLAN_NAME, "%s", crop);
    scenario->need.harvest[0].day = date_number(harvest);
}

/* [seen] 7 CFR 205.203(c)(1): 120 days before harvest where the edible part touches soil, else 90.
 * Manure on 1 March, lettuce on 10 June: 101 days are too few; from 29 June on. */
static void lettuce_waits_120_days_for_raw_manure(void **state)
{
    (void)state;
    struct scenario scenario;
    struct hygiene_wait wait[PLAN_HARVESTS];
    char text[DATE_TEXT];
    garden(&scenario, "lettuce", (struct date){2026, 6, 10});
    assert_int_equal(hygiene_waits(&scenario, 0, wait), 1);
    assert_int_equal(wait[0].days, 101);
    assert_int_equal(wait[0].wanted, 120);
    assert_false(wait[0].enough);
    date_write(wait[0].earliest, text);
    assert_string_equal(text, "2026-06-29");
    scenario.need.harvest[0].day = wait[0].earliest;
    hygiene_waits(&scenario, 0, wait);
    assert_true(wait[0].enough);
    garden(&scenario, "sweet corn", (struct date){2026, 6, 10});
    hygiene_waits(&scenario, 0, wait);
    assert_int_equal(wait[0].wanted, 90);
    assert_true(wait[0].enough);
    garden(&scenario, "corn salad", (struct date){2026, 6, 10}); /* a leaf, not a cob */
    hygiene_waits(&scenario, 0, wait);
    assert_int_equal(wait[0].wanted, 120);
}

static void what_comes_later_begins_the_count_anew(void **state)
{
    (void)state;
    struct scenario scenario;
    struct hygiene_wait wait[PLAN_HARVESTS];
    garden(&scenario, "lettuce", (struct date){2026, 6, 10});
    scenario.start_span_days = 5;
    assert_int_equal(hygiene_waits(&scenario, 0, wait), 1);
    assert_int_equal(wait[0].days, 96); /* the last layer may have held it */
    struct plan_event *event = &scenario.plan[0].event[0];
    scenario.plan[0].events = 1;
    *event = (struct plan_event){.deed = PLAN_ADD, .when = PLAN_EVERY, .day = 7, .until = 30,
                                 .every_days = 7};
    event->add.portions = 1;
    hygiene_waits(&scenario, 0, wait);
    assert_int_equal(wait[0].days, 101 - 28);
    scenario.people.aways = 1;          /* nobody brings any on the last of these days */
    scenario.people.away[0] = scenario.start + 28;
    hygiene_waits(&scenario, 0, wait);
    assert_int_equal(wait[0].days, 101 - 21);
    event->add.portion[0].stuff = 1;    /* straw brings none */
    hygiene_waits(&scenario, 0, wait);
    assert_int_equal(wait[0].days, 96);
}

/* [seen] 7 CFR 205.203(c)(3): nothing is asked of plant material */
static void plants_alone_wait_for_nothing(void **state)
{
    (void)state;
    struct scenario scenario;
    struct hygiene_wait wait[PLAN_HARVESTS];
    garden(&scenario, "lettuce", (struct date){2026, 6, 10});
    assert_true(hygiene_dung(&scenario, 0));
    scenario.stuff[0] = *stuff_find("grass clippings");
    assert_false(hygiene_dung(&scenario, 0));
    assert_int_equal(hygiene_waits(&scenario, 0, wait), 0);
}

static void droppings_are_known_by_their_row_and_green_manure_is_none(void **state)
{
    (void)state;
    static const char *const dung[] = {"cow manure", "chicken litter", "used straw bedding", "rabbit manure"};
    static const char *const none[] = {"green manure", "coffee grounds", "wood chips", "finished compost"};
    for (int i = 0; i < 4; i++) {
        assert_true(stuff_find(dung[i])->dung);
        assert_false(stuff_find(none[i])->dung);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_turns_must_be_hot_ones),
        cmocka_unit_test(the_french_turns_lie_three_days_apart_and_may_be_cool),
        cmocka_unit_test(the_organic_rule_wants_its_c_to_n_at_the_start),
        cmocka_unit_test(half_the_mass_decides_the_day_and_never_is_infinite),
        cmocka_unit_test(days_and_runs_are_counted_by_place),
        cmocka_unit_test(what_was_never_laid_has_no_share),
        cmocka_unit_test(lettuce_waits_120_days_for_raw_manure),
        cmocka_unit_test(what_comes_later_begins_the_count_anew),
        cmocka_unit_test(plants_alone_wait_for_nothing),
        cmocka_unit_test(droppings_are_known_by_their_row_and_green_manure_is_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
