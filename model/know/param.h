/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/param.h - the one table of numbers a season depends on (know/param.def).
 *
 * A row makes the member of struct param, its default, the check of --set, the help, the docs and
 * the draw of an ensemble. Units are those of the row.
 */
#ifndef KNOW_PARAM_H
#define KNOW_PARAM_H
#include "base/trouble.h"
#include <stddef.h>

struct param {
#define PARAM(name, unit, usual, least, most, spread, mark, source, meaning) double name;
#include "know/param.def"
#undef PARAM
};

enum {
#define PARAM(name, unit, usual, least, most, spread, mark, source, meaning) PARAM_ROW_##name,
#include "know/param.def"
#undef PARAM
    PARAM_ROWS
};

/* how an ensemble is to draw it: half of its draws between least and usual, half between usual and
 * most, evenly in the value or in its logarithm; those that were fitted no further from usual than `within` */
enum param_spread { PARAM_EXACT, PARAM_EVEN, PARAM_LOGEVEN };

struct param_row {
    const char *name, *unit;
    double usual, least, most;
    double within;          /* 0, or the factor of its usual beyond which no draw goes */
    enum param_spread spread;
    const char *mark;       /* seen, memory, trade, derived */
    const char *source, *meaning;
    size_t offset;          /* in struct param */
};

extern const struct param_row param_rows[];
extern const int param_count;

struct param param_usual(void);                     /* every row at its usual value */
const struct param_row *param_find(const char *name); /* words joined by _ or spaces; NULL if none */
const char *param_nearest(const char *name);        /* NULL when none is near */
/* Sets a row by name; refuses unknown names and values outside least to most. */
bool param_set(struct param *param, const char *name, double value, struct trouble *why);
double param_get(const struct param *param, const struct param_row *row);
void param_put(struct param *param, const struct param_row *row, double value);

/* A coarser mesh and tolerance, about four times as fast: near enough to rank plans or constants by. */
struct param_value { const char *name; double value; };
enum { PARAM_COARSER = 5 };
extern const struct param_value param_coarser[PARAM_COARSER];
#endif
