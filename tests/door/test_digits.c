/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_digits.c - door/digits: numbers as people write them, and nothing else. */
#include "door/digits.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>

static void take(const char *text, double want, size_t bytes)
{
    double value = NAN;
    int significant;
    assert_int_equal(digits_number(text, &value, &significant), bytes);
    assert_near(value, want, 0.0);
}

static void numbers_are_read_to_their_end(void **state)
{
    (void)state;
    take("12", 12.0, 2);
    take("12 L", 12.0, 2);
    take("12L", 12.0, 2);
    take("0.5 bags", 0.5, 3);
    take("-5 C", -5.0, 2);
    take("007", 7.0, 3);
    take("1.50", 1.5, 4);
}

/* The C library in the C locale is the oracle: the same bits for every number of 15 digits. */
static void values_are_those_of_the_c_library(void **state)
{
    (void)state;
    static const char *const texts[] = {"0.1",
                                        "2.675",
                                        "47.2",
                                        "3.785411784",
                                        "0.45359237",
                                        "123456789012345",
                                        "0.000000000000001",
                                        "9.99999999999999",
                                        "1.005"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        take(texts[i], strtod(texts[i], NULL), strlen(texts[i]));
    for (int i = 0; i < 20000; i++) {
        char text[32];
        snprintf(text, sizeof text, "%d.%05d", i % 97, (i * 7919) % 100000);
        take(text, strtod(text, NULL), strlen(text));
    }
}

static void what_is_no_number_is_none(void **state)
{
    (void)state;
    static const char *const texts[] = {"", "inf", "nan", "-inf", ".5", "-", "+5", "x1", "eight"};
    double value = NAN;
    int significant;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_int_equal(digits_number(texts[i], &value, &significant), 0);
    assert_true(isnan(value));
}

static void too_many_digits_set_nothing(void **state)
{
    (void)state;
    double value = NAN;
    int significant;
    digits_number("0.1234567890123456", &value, &significant);
    assert_true(significant > DIGITS_EXACT);
    assert_true(isnan(value));
}

static void hint(const char *text, const char *words)
{
    double value;
    int significant;
    const char *got = digits_hint(text, digits_number(text, &value, &significant));
    if (!words ? got != NULL : !got || !strstr(got, words))
        fail_msg("%s: %s", text, got ? got : "nothing");
}

static void slips_are_named(void **state)
{
    (void)state;
    hint("12,5 L", "decimal point");
    hint("1,100 L", "decimal point");
    hint(".5 L", "before the point");
    hint("1/2 bag", "fraction");
    hint("1e3 L", "in full");
    hint("1E-3 L", "in full");
    hint("0x10 L", "decimal");
    hint("5-7 bags", "a to b");
    hint("1.2.3", "one point");
    hint("10x10 m", NULL);
    hint("5 eggs", NULL);
    hint("12.5 L", NULL);
}

static void dates_have_one_shape(void **state)
{
    (void)state;
    struct date date = {0};
    assert_true(digits_date("2025-10-18 to 2025-10-25", &date));
    assert_int_equal(date.year, 2025);
    assert_int_equal(date.month, 10);
    assert_int_equal(date.day, 18);
    static const char *const texts[] = {
        "2025-1-18",  "25-10-18",   "2025/10/18", "2025-10-18T10:00",
        "18.10.2025", "2025-10-1x", "",           "2025-10"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_false(digits_date(texts[i], &date));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read_to_their_end),
        cmocka_unit_test(values_are_those_of_the_c_library),
        cmocka_unit_test(what_is_no_number_is_none),
        cmocka_unit_test(too_many_digits_set_nothing),
        cmocka_unit_test(slips_are_named),
        cmocka_unit_test(dates_have_one_shape),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
