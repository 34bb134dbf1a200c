/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/chart.h - the parts of a picture's script that hold a season's figures, as far as all
 * pictures share them.
 *
 * A script is these figures, then plots/common.gp, then the picture's own plots/NAME.gp, which only
 * arrange them. Lengths are shares of the picture, which is CHART_WIDTH by CHART_HEIGHT points.
 */
#ifndef TELL_CHART_H
#define TELL_CHART_H
#include "run/plan.h"
#include "run/record.h"
#include "tell/place.h"
#include <stdio.h>

enum { CHART_WIDTH = 1400, CHART_HEIGHT = 900, CHART_DATE = 32 };

struct chart {
    FILE *script;
    const struct record *record;
    const struct scenario *scenario;
    const char *plan_name;
    const struct span *middle_K;    /* [days] range of the middle over many piles; NULL = one pile */
};

/* Title (the finding), where it is from, days and dates, colours. */
void chart_head(const struct chart *chart, const char *finding);
/* Tics of days, from 1 at the date of the start; each with its number or not. */
void chart_tics(FILE *script, date_count start, int days, bool numbered);
/* A text as a variable of the script. */
void chart_text(FILE *script, const char *name, const char *text);
/* A value as a script understands it: NaN for all that is not a number. */
void chart_value(FILE *script, double value);
/* "18 Oct": readers of either dialect take it for the same day. */
void chart_date(char text[CHART_DATE], date_count number);
/* Size of a name drawn in a panel of such a width and height. */
struct place_label chart_label(const char *text, double panel_width, double panel_height);
/* One row of a block of names: day, value, text, colour of the text. */
void chart_name(FILE *script, double day, double value, const char *text, unsigned colour);
/* Ends a block of names, which may be empty. */
void chart_names_end(FILE *script);
#endif
