/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/know/test_param.c - know/param: is the table whole, and does setting refuse what it must? */
#include "know/param.h"
#include "lib/near.h"
#include <stdbool.h>
#include <stdio.h>

static void every_usual_value_lies_within_its_range(void **state)
{
    (void)state;
    assert_true(param_count > 0);
    for (int i = 0; i < param_count; i++) {
        const struct param_row *row = &param_rows[i];
        if (!(row->least <= row->usual && row->usual <= row->most))
            fail_msg("%s: %g is not within %g to %g", row->name, row->usual, row->least, row->most);
    }
}

static void every_row_has_unit_source_and_a_mark_of_the_four(void **state)
{
    (void)state;
    for (int i = 0; i < param_count; i++) {
        const struct param_row *row = &param_rows[i];
        bool marked = strcmp(row->mark, "seen") == 0 || strcmp(row->mark, "memory") == 0 ||
                      strcmp(row->mark, "trade") == 0 || strcmp(row->mark, "derived") == 0;
        if (!marked || !*row->unit || !*row->source || !*row->meaning)
            fail_msg("%s lacks its unit, source, meaning or mark", row->name);
    }
}

static void names_are_unique_and_found_however_they_are_joined(void **state)
{
    (void)state;
    for (int i = 0; i < param_count; i++) {
        char name[128];
        assert_ptr_equal(param_find(param_rows[i].name), &param_rows[i]);
        snprintf(name, sizeof name, "%s", param_rows[i].name);
        for (char *at = name; *at; at++)
            if (*at == '_')
                *at = ' ';
        assert_ptr_equal(param_find(name), &param_rows[i]);
    }
    assert_null(param_find(""));
    assert_null(param_find("no such thing"));
}

static void a_slip_of_the_pen_finds_the_nearest_name(void **state)
{
    (void)state;
    assert_string_equal(param_nearest("tolerence K"), "tolerance_K");
    assert_null(param_nearest("qqqqqqqqqqqq"));
}

static void setting_changes_one_value_and_no_other(void **state)
{
    (void)state;
    struct trouble why = {0};
    struct param usual = param_usual(), param = usual;
    const struct param_row *changed = &param_rows[param_count / 2];
    assert_true(param_set(&param, changed->name, changed->least, &why));
    for (int i = 0; i < param_count; i++)
        assert_near(param_get(&param, &param_rows[i]),
                    &param_rows[i] == changed ? changed->least : param_rows[i].usual, 0.0);
}

static void values_outside_the_range_are_refused_and_nothing_is_set(void **state)
{
    (void)state;
    const struct param_row *row = &param_rows[0];
    const double bad[] = {row->most + 1.0, row->least - 1.0, NAN, INFINITY, -INFINITY};
    for (int i = 0; i < 5; i++) {
        struct trouble why = {0};
        struct param param = param_usual();
        assert_false(param_set(&param, row->name, bad[i], &why));
        assert_int_equal(why.kind, TROUBLE_USAGE);
        assert_non_null(strstr(why.text, row->name));
        assert_near(param_get(&param, row), row->usual, 0.0);
    }
}

static void an_unknown_name_is_refused_with_the_nearest(void **state)
{
    (void)state;
    struct trouble why = {0};
    struct param param = param_usual();
    assert_false(param_set(&param, "tolerence", 0.1, &why));
    assert_int_equal(why.kind, TROUBLE_USAGE);
    assert_non_null(strstr(why.text, "tolerance_K"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_usual_value_lies_within_its_range),
        cmocka_unit_test(every_row_has_unit_source_and_a_mark_of_the_four),
        cmocka_unit_test(names_are_unique_and_found_however_they_are_joined),
        cmocka_unit_test(a_slip_of_the_pen_finds_the_nearest_name),
        cmocka_unit_test(setting_changes_one_value_and_no_other),
        cmocka_unit_test(values_outside_the_range_are_refused_and_nothing_is_set),
        cmocka_unit_test(an_unknown_name_is_refused_with_the_nearest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
