/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/range.h - one number asked of every possible pile: its median and range.
 *
 * A question takes a record and two numbers of its own (a day and a column, say). With one member
 * the answer is its own, without a range.
 */
#ifndef TELL_RANGE_H
#define TELL_RANGE_H
#include "tell/tale.h"

struct span range_of(const struct tale *tale, double (*ask)(const struct record *, int, int), int a,
                     int b);
/* How many members say yes. */
int range_count(const struct tale *tale, bool (*is)(const struct record *, int, int), int a, int b);
#endif
