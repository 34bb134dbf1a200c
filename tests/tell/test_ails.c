/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_ails.c - tell/ails: causes in words, with the chances that their numbers bear. [derived] */
#include "tell/ails.h"
#include "lib/near.h"
#include <string.h>

static const struct cause_odds CLEAR[] = {{CAUSE_DRY, 15, 20}, {CAUSE_SMALL, 5, 20}};
static const struct cause_odds UNCLEAR[] = {
    {CAUSE_COLD, 7, 20}, {CAUSE_WOODY, 6, 20}, {CAUSE_NONE, 4, 20}, {CAUSE_WET, 3, 20}};
static const struct cause_odds MOSTLY_WELL[] = {{CAUSE_NONE, 46, 60}, {CAUSE_DRY, 12, 60}, {CAUSE_WET, 2, 60}};
static const struct cause_odds ALMOST[] = {{CAUSE_NONE, 59, 60}, {CAUSE_DRY, 1, 60}};
static const struct cause_odds WELL[] = {{CAUSE_NONE, 20, 20}};

static void causes_are_told_with_their_chances_three_at_most(void **state)
{
    (void)state;
    assert_non_null(strstr(ails_said(CLEAR, 2).text, "too dry to work 8 (6-9) in 10; too small"));
    assert_non_null(strstr(ails_said(UNCLEAR, 4).text, "cold outside 4 (2-5) in 10"));
    assert_null(strstr(ails_said(UNCLEAR, 4).text, "too wet"));
}

static void half_of_the_piles_make_a_cause_clear(void **state)
{
    (void)state;
    assert_true(ails_clear(CLEAR, 2) && ails_likely(CLEAR, 2));
    assert_true(!ails_clear(UNCLEAR, 4) && ails_likely(UNCLEAR, 4));
    assert_true(!ails_likely(WELL, 1) && !ails_clear(WELL, 1));
    assert_false(ails_likely(NULL, 0));
}

static void the_test_names_what_each_cause_would_show(void **state)
{
    (void)state;
    assert_string_equal(ails_test(CLEAR, 2, false).text, "squeeze a handful from 30 cm in: it crumbles = too dry; a "
                                                  "ball that holds = too small");
    assert_string_equal(ails_test(WELL, 1, false).text, "");
    assert_string_equal(ails_test(MOSTLY_WELL, 3, false).text, "squeeze a handful from 30 cm in: a ball that holds = all is "
                                                        "well; it crumbles = too dry");
}

static void what_ails_fewer_than_one_pile_in_ten_is_not_told(void **state)
{
    (void)state;
    assert_string_equal(ails_said(MOSTLY_WELL, 3).text, "working as it should 8 (7-8) in 10; too dry to work 2 (1-3) in 10");
    assert_string_equal(ails_said(ALMOST, 2).text, "working as it should more than 9 in 10");
    assert_string_equal(ails_test(ALMOST, 2, false).text, "");
    assert_true(json_is_null(ails_test_object(ALMOST, 2, false)));
}

static void json_has_every_cause_and_a_test_or_null(void **state)
{
    (void)state;
    json_t *list = ails_causes(UNCLEAR, 4), *test = ails_test_object(UNCLEAR, 4, false),
           *none = ails_test_object(WELL, 1, false);
    double sum = 0;
    assert_int_equal(json_array_size(list), 4);
    for (size_t i = 0; i < 4; i++)
        sum += json_real_value(json_object_get(json_array_get(list, i), "chance"));
    assert_near(sum, 1, 1e-12);
    assert_non_null(json_object_get(test, "what"));
    assert_true(json_is_null(none));
    json_decref(list);
    json_decref(test);
    json_decref(none);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(causes_are_told_with_their_chances_three_at_most),
        cmocka_unit_test(half_of_the_piles_make_a_cause_clear),
        cmocka_unit_test(the_test_names_what_each_cause_would_show),
        cmocka_unit_test(what_ails_fewer_than_one_pile_in_ten_is_not_told),
        cmocka_unit_test(json_has_every_cause_and_a_test_or_null),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
