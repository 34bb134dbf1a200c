/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_date.c - base/date against published calendars and the C library's. */
#include "base/date.h"
#include "lib/near.h"
#include <time.h>

static struct date ymd(int year, int month, int day)
{
    return (struct date){year, month, day};
}

/* [memory] POSIX "Seconds Since the Epoch": day 0 is 1970-01-01; time 1000000000 s fell on
 * 2001-09-09, which is day 11574. */
static void counts_start_at_the_posix_epoch(void **state)
{
    (void)state;
    assert_int_equal(date_number(ymd(1970, 1, 1)), 0);
    assert_int_equal(date_number(ymd(2001, 9, 9)), 1000000000 / 86400);
    assert_int_equal(date_number(ymd(1969, 12, 31)), -1);
}

/* [memory] Modified Julian Day (IAU): 15020 is 1900-01-01 (Julian Date 2415020 is the noon before)
 * and 51544 is 2000-01-01. */
static void a_century_is_as_long_as_in_modified_julian_days(void **state)
{
    (void)state;
    assert_int_equal(date_number(ymd(2000, 1, 1)) - date_number(ymd(1900, 1, 1)), 51544 - 15020);
}

/* [memory] ISO 8601, Gregorian rule: 2000 is a leap year; 1900, 2100 and 2200 are not. */
static void full_centuries_are_leap_only_when_divisible_by_400(void **state)
{
    (void)state;
    assert_true(date_valid(ymd(2000, 2, 29)));
    assert_false(date_valid(ymd(1900, 2, 29)));
    assert_false(date_valid(ymd(2100, 2, 29)));
    assert_false(date_valid(ymd(2200, 2, 29)));
    assert_true(date_valid(ymd(2024, 2, 29)));
    assert_false(date_valid(ymd(2025, 2, 29)));
}

static void days_that_are_none_are_refused(void **state)
{
    (void)state;
    assert_false(date_valid(ymd(2025, 4, 31)));
    assert_false(date_valid(ymd(2025, 0, 1)));
    assert_false(date_valid(ymd(2025, 13, 1)));
    assert_false(date_valid(ymd(2025, 1, 0)));
    assert_false(date_valid(ymd(2025, 1, -3)));
    assert_true(date_valid(ymd(2025, 12, 31)));
}

static void years_outside_1900_to_2200_are_refused(void **state)
{
    (void)state;
    assert_false(date_valid(ymd(1899, 12, 31)));
    assert_true(date_valid(ymd(1900, 1, 1)));
    assert_true(date_valid(ymd(2200, 12, 31)));
    assert_false(date_valid(ymd(2201, 1, 1)));
    assert_false(date_valid(ymd(2147483647, 1, 1)));
    assert_false(date_valid(date_of(date_number(ymd(1900, 1, 1)) - 1)));
    assert_false(date_valid(date_of(date_number(ymd(2200, 12, 31)) + 1)));
    assert_false(date_valid(date_of(9223372036854775807L)));
}

/* The C library's calendar (gmtime_r, UTC), day by day over all 301 years. */
static void every_day_agrees_with_the_c_library(void **state)
{
    (void)state;
    int wrong = 0;
    date_count last = date_number(ymd(2200, 12, 31));
    for (date_count number = date_number(ymd(1900, 1, 1)); number <= last; ++number) {
        time_t seconds = (time_t)number * 86400;
        struct tm there;
        assert_non_null(gmtime_r(&seconds, &there));
        struct date here = date_of(number);
        wrong += here.year != there.tm_year + 1900 || here.month != there.tm_mon + 1
                 || here.day != there.tm_mday || date_number(here) != number
                 || date_weekday(number) != (there.tm_wday + 6) % 7
                 || date_day_of_year(number) != there.tm_yday + 1 || !date_valid(here);
    }
    assert_int_equal(wrong, 0);
}

static void dates_are_written_as_iso_8601(void **state)
{
    (void)state;
    char text[DATE_TEXT];
    date_write(date_number(ymd(2026, 2, 8)), text);
    assert_string_equal(text, "2026-02-08");
    date_write(date_number(ymd(1900, 1, 1)), text);
    assert_string_equal(text, "1900-01-01");
}

static void a_count_without_a_date_is_written_as_zeros(void **state)
{
    (void)state;
    char text[DATE_TEXT];
    date_write(-9223372036854775807L, text);
    assert_string_equal(text, "0000-00-00");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_start_at_the_posix_epoch),
        cmocka_unit_test(a_century_is_as_long_as_in_modified_julian_days),
        cmocka_unit_test(full_centuries_are_leap_only_when_divisible_by_400),
        cmocka_unit_test(days_that_are_none_are_refused),
        cmocka_unit_test(years_outside_1900_to_2200_are_refused),
        cmocka_unit_test(every_day_agrees_with_the_c_library),
        cmocka_unit_test(dates_are_written_as_iso_8601),
        cmocka_unit_test(a_count_without_a_date_is_written_as_zeros),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
