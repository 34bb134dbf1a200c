/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/ics.h - days of work and of reading as an iCalendar stream (RFC 5545), for any
 * calendar. */
#ifndef TELL_ICS_H
#define TELL_ICS_H
#include "ask/agenda.h"
#include "ask/due.h"
#include <stdio.h>

/* One pile's days: its seasons, run to their end, and the rows of ask/agenda. */
struct ics_pile {
    struct due_pile pile;
    struct agenda_row *row;
    int rows;
    int alike; /* piles before it of the same name and plan */
};

/* Writes it all. The same piles give the same bytes: no clock is asked, and a day's UID is made
 * from the names of scenario and plan, the kind of day and its number. */
void ics_write(FILE *out, const struct ics_pile *piles, int count, const char *version);
#endif
