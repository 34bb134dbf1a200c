/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/digits.h - numbers and dates as they stand in a text, free of locale. */
#ifndef DOOR_DIGITS_H
#define DOOR_DIGITS_H
#include "base/date.h"
#include <stdbool.h>
#include <stddef.h>

enum { DIGITS_EXACT = 15 }; /* more digits than this are not read */

/* Bytes of the number a text begins with, 0 when there is none. *significant counts its digits;
 * with more than DIGITS_EXACT of them the value isn't set. */
size_t digits_number(const char *text, double *value, int *significant);
/* What is likely meant by a number that isn't one of ours, `taken` bytes of it read; NULL if
 * nothing comes to mind. */
const char *digits_hint(const char *text, size_t taken);
/* A word shaped like 2025-10-18; whether the calendar has that day is another question. */
bool digits_date(const char *text, struct date *date);
#endif
