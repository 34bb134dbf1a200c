/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/log.h - the days of a log sheet: when the pile is worked at, looked at or read, and once a
 * week at least, with what is forecast for the places a thermometer reaches.
 */
#ifndef ASK_LOG_H
#define ASK_LOG_H
#include "ask/due.h"

struct log_row {
    int day; /* from 0 */
    bool build, work, look;
    struct span middle_K, deep_K,
        hand_K; /* means of that day; of a day of work, of the day before */
};

/* Room for the rows of so many days. */
int log_most(int days);
/* Rows of the days from `first` to `last`, as far as the records go; returns how many. */
int log_rows(struct log_row *row, const struct due_pile *pile, int first, int last);
#endif
