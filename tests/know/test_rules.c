/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/know/test_rules.c - know/rules: rows that fit their doses, and figures as published. */
#include "know/rules.h"
#include "lib/near.h"
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static void stages_follow_each_other_without_gap(void **state)
{
    (void)state;
    int next = 0;
    for (int k = 0; k < RULES_DOSES; k++) {
        assert_int_equal(rules_doses[k].first, next);
        assert_true(rules_doses[k].stages >= 1);
        next += rules_doses[k].stages;
    }
    assert_int_equal(next, RULES_STAGES);
}

static void every_row_says_who_what_and_how_it_is_read(void **state)
{
    (void)state;
    static const char *const marks[] = {"seen", "memory", "trade", "derived"};
    for (int i = 0; i < RULES; i++) {
        const struct rules_row *row = &rules_rows[i];
        assert_true(row->stage >= 1 && row->stage <= rules_doses[row->dose].stages);
        assert_true(row->name[0] && row->where[0] && row->source[0] && row->reading[0]);
        bool known = false;
        for (int m = 0; m < 4; m++)
            known |= strcmp(row->mark, marks[m]) == 0;
        assert_true(known);
        for (int j = 0; j < i; j++) /* the same rule stands once */
            assert_string_not_equal(row->name, rules_rows[j].name);
        for (const char *c = row->name; *c; c++)
            assert_true((unsigned char)*c < 0x80);
        /* credit only to what is moist: at least as the text asks, and 40 % where it names none */
        assert_true(rules_doses[row->dose].water_share >= row->water_share);
        assert_true(rules_doses[row->dose].water_share >= 0.40);
    }
}

/* Temperature and hours that meet each rule: 40 CFR 503 app. B and 257 app. II [seen], 7 CFR 205.203(c)(2)
 * [seen], BioAbfV annex 2 [seen], Regulation (EU) 2019/1009 annex II [memory], order of 22 April 2008
 * [seen], BSI PAS 100 [memory], University of Nebraska-Lincoln [seen]. */
static void temperatures_and_hours_are_those_published(void **state)
{
    (void)state;
    static const struct { int rule; double over_C, hours; int turns; } row[] = {
        {RULES_THREE_DAYS_55, 55, 72, 0}, {RULES_THREE_DAYS_55_ORGANIC, 55, 72, 0},
        {RULES_FIFTEEN_DAYS_55, 55, 360, 5}, {RULES_FIFTEEN_DAYS_55_ORGANIC, 55, 360, 5},
        {RULES_TWO_WEEKS_55, 55, 336, 0}, {RULES_SIX_DAYS_60, 60, 144, 0},
        {RULES_THREE_DAYS_65, 65, 72, 0}, {RULES_SEVEN_DAYS_60, 60, 168, 0},
        {RULES_FIVE_DAYS_65, 65, 120, 0}, {RULES_THREE_DAYS_70, 70, 72, 0},
        {RULES_SUM_72_HOURS, 55, 72, 3}, {RULES_SEVEN_DAYS_65, 65, 168, 2},
        {RULES_THREE_DAYS_60, 60, 72, 0}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        const struct rules_row *rule = &rules_rows[row[i].rule];
        const struct rules_dose *dose = &rules_doses[rule->dose];
        assert_near(dose->over_C, row[i].over_C, 0);
        assert_near(dose->stage_h * rule->stage, row[i].hours, 0);
        assert_int_equal(rule->turns, row[i].turns);
    }
    assert_near(rules_rows[RULES_SEVEN_DAYS_65].water_share, 0.50, 0);
    assert_near(rules_rows[RULES_TWO_WEEKS_55].water_share, 0.40, 0);
    assert_near(rules_doses[rules_rows[RULES_FIVE_DAYS_40].dose].over_C, 40, 0);
    assert_int_equal(rules_rows[RULES_SUM_72_HOURS].turns_apart_days, 3);
    assert_int_equal(rules_rows[RULES_SUM_72_HOURS].days, 21);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stages_follow_each_other_without_gap),
        cmocka_unit_test(every_row_says_who_what_and_how_it_is_read),
        cmocka_unit_test(temperatures_and_hours_are_those_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
