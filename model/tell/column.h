/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/column.h - the numbers of a day, once, for CSV and JSON alike.
 *
 * A row is a name that ends in its unit, and a member of struct record_day. The fluxes of the day
 * follow them in CSV, named by pile/flux.def.
 */
#ifndef TELL_COLUMN_H
#define TELL_COLUMN_H
#include "run/record.h"
#include <stdbool.h>
#include <stddef.h>

struct column {
    const char *name;   /* as in CSV and JSON */
    size_t offset;      /* of a double in struct record_day */
    bool kelvin;        /* kept in K, told in C */
    bool promised;      /* among the keys of a day in JSON; the others stand in CSV only */
};

extern const struct column column_rows[];
extern const int column_count;
double column_value(const struct column *column, const struct record_day *day);
/* The same of a row of a record, in the form tell/range takes. */
double column_of_day(const struct record *record, int row, int column);
/* A flux of a day or a season in the unit of its name. */
double column_flux(const double *flux, enum flux which);
#endif
