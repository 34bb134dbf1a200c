/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/date.h - calendar days (Gregorian calendar, 1900 to 2200) as a count. */
#ifndef BASE_DATE_H
#define BASE_DATE_H
#include <stdbool.h>

/* Days since 1970-01-01 (which is 0, a Thursday). */
typedef long date_count;

struct date {
    int year, month, day;
};

enum { DATE_TEXT = 11 }; /* "YYYY-MM-DD" and its end */

bool date_valid(struct date date);             /* a real calendar day from 1900 to 2200 */
date_count date_number(struct date date);      /* the day's count; the date must be valid */
struct date date_of(date_count number);        /* the other way */
int date_day_of_year(date_count number);       /* 1 on 1 January */
int date_weekday(date_count number);           /* 0 Monday to 6 Sunday */
void date_write(date_count number, char text[DATE_TEXT]); /* ISO 8601 */
#endif
