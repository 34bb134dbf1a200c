/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/logsheet.h - the log sheet: its columns, and its plain form. tell/logpage prints it. */
#ifndef TELL_LOGSHEET_H
#define TELL_LOGSHEET_H
#include "ask/log.h"
#include "tell/phrase.h"
#include "tell/saying.h"

struct logsheet {
    struct due_pile pile;
    const struct log_row *row;
    int rows;
    int first, last; /* days from 0 */
};

/* the columns of a readings file, in its order */
enum { LOGSHEET_COLUMNS = 9 };
struct logsheet_column {
    const char *name;
    const char *unit[2]; /* metric, US; NULL = it has none */
    int width;           /* of the plain form; 0 = the rest of the line */
};
extern const struct logsheet_column logsheet_columns[LOGSHEET_COLUMNS];

/* what a squeezed handful does, drier first, in more words */
extern const char *const logsheet_squeezes[PLAN_SQUEEZES][2];

/* A readings file without readings: its first line. */
void logsheet_csv(FILE *out, const struct scenario *scenario);
/* The sheet in 80 columns, and below it the forecast for after guessing. */
void logsheet_text(FILE *out, const struct logsheet *sheet);
/* "turn outside in, cover": what is planned for a row, in the fewest words; a rule has a "?". */
struct saying logsheet_planned(const struct logsheet *sheet, const struct log_row *row);
/* "59 (47 to 66)" in the sheet's unit; "-" where it isn't known. */
struct phrase logsheet_temp(const struct scenario *scenario, struct span temp_K);
const char *logsheet_unit(const struct scenario *scenario, int column); /* "" = none */
const char *logsheet_weekday(date_count date);                          /* "Sat" */
#endif
