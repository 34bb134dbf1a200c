/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/date.c - calendar days (Gregorian calendar, 1900 to 2200) as a count.
 *
 * Own arithmetic rather than <time.h>, whose answers depend on the time zone of the machine. Leap
 * years as in ISO 8601: those divisible by 4, of the full centuries only those divisible by 400.
 * A count outside 1900 to 2200 has no date here: date_of answers 0000-00-00, which is not valid.
 */
#include "base/date.h"

enum { FIRST_YEAR = 1900, LAST_YEAR = 2200, EPOCH_YEAR = 1970 };

/* days of a common year before each month */
static const int DAYS_BEFORE[13] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

static bool leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* days of the year before a month, 1 to 13 */
static int days_before(int year, int month)
{
    return DAYS_BEFORE[month - 1] + (month > 2 && leap(year) ? 1 : 0);
}

/* leap days in the years 1 to `year` */
static int leap_days(int year)
{
    return year / 4 - year / 100 + year / 400;
}

/* the count of 1 January */
static date_count new_year(int year)
{
    return 365L * (year - EPOCH_YEAR) + leap_days(year - 1) - leap_days(EPOCH_YEAR - 1);
}

static bool in_calendar(date_count number)
{
    return number >= new_year(FIRST_YEAR) && number < new_year(LAST_YEAR + 1);
}

bool date_valid(struct date date)
{
    if (date.year < FIRST_YEAR || date.year > LAST_YEAR || date.month < 1 || date.month > 12)
        return false;
    int length = days_before(date.year, date.month + 1) - days_before(date.year, date.month);
    return date.day >= 1 && date.day <= length;
}

date_count date_number(struct date date)
{
    return new_year(date.year) + days_before(date.year, date.month) + date.day - 1;
}

struct date date_of(date_count number)
{
    struct date date = {0, 0, 0};
    if (!in_calendar(number))
        return date;
    /* dividing by the longest year never skips one; step on to the right one from there */
    date.year = FIRST_YEAR + (int)((number - new_year(FIRST_YEAR)) / 366);
    while (number >= new_year(date.year + 1))
        ++date.year;
    int in_year = (int)(number - new_year(date.year));
    date.month = 1;
    while (in_year >= days_before(date.year, date.month + 1))
        ++date.month;
    date.day = in_year - days_before(date.year, date.month) + 1;
    return date;
}

int date_day_of_year(date_count number)
{
    return in_calendar(number) ? (int)(number - new_year(date_of(number).year)) + 1 : 0;
}

int date_weekday(date_count number)
{
    int since_thursday = (int)(number % 7); /* day 0 was a Thursday; negative before it */
    return (since_thursday + 3 + 7) % 7;
}

static void write_digits(char *text, int digits, int value)
{
    for (int i = digits - 1; i >= 0; --i, value /= 10)
        text[i] = (char)('0' + value % 10);
}

void date_write(date_count number, char text[DATE_TEXT])
{
    struct date date = date_of(number);
    write_digits(text, 4, date.year);
    text[4] = '-';
    write_digits(text + 5, 2, date.month);
    text[7] = '-';
    write_digits(text + 8, 2, date.day);
    text[10] = '\0';
}
