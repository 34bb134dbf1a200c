/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/visits.h - visits that take too long or fall on the wrong day, told. */
#ifndef TELL_VISITS_H
#define TELL_VISITS_H
#include "ask/visit.h"
#include "tell/phrase.h"
#include "tell/tale.h"

enum { VISITS_TEXT = 256 };

/* A margin line about the longest visit where it may well take more than its time; else nothing. */
void visits_line(FILE *out, const struct tale *tale);
/* One visit that doesn't fit the calendar. */
void visits_odd(char text[VISITS_TEXT], const struct visit_odd *odd,
                const struct scenario *scenario);
#endif
