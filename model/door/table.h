/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/table.h - tables in CSV whose first line names each column and its unit.
 *
 * Fields are split by libcsv as RFC 4180 has it, one line at a time, so that every message can name
 * its line; a quoted field may not run on to the next. Lengths are bounded. Lines that begin with
 * # are notes; blank ones and those of commas alone are passed over.
 */
#ifndef DOOR_TABLE_H
#define DOOR_TABLE_H
#include "base/date.h"
#include "base/trouble.h"
#include <csv.h>
#include <stdbool.h>
#include <stdio.h>

enum { TABLE_LINE = 4096, TABLE_COLUMNS = 32, TABLE_LINES = 80000 };
enum table_kind {
    TABLE_DATE, TABLE_TEXT, TABLE_HOUR, /* these have no unit */
    TABLE_TEMP, TABLE_RAIN, TABLE_LENGTH, TABLE_WIND, TABLE_SUN, TABLE_PRESSURE, TABLE_SHARE,
    TABLE_KINDS
};

struct table_column {
    const char *name, *also;    /* "# cm in" has a number in place of # */
    enum table_kind kind;
    int tells;                  /* two columns that tell the same are refused, unless numbered */
    double least, most;         /* SI */
    const char *range;          /* how a person says it */
};

/* what kind of table is expected */
struct table_form {
    const struct table_column *column;
    int columns;
    int needed;                 /* columns that tell 0 to needed - 1 must be there: */
    const char *need;           /* "date, low and high are" */
    const char *all;            /* "date, low, high or rain are" */
    const char *example;        /* a first line */
};

struct table {
    const char *path;
    int line;
    struct trouble *why;
    const struct table_form *form;
    int fields, records;        /* of the line just read */
    char *field[TABLE_COLUMNS];
    char text[TABLE_LINE + 2 * TABLE_COLUMNS];
    size_t used;
    int headings;               /* 0 until the first line with something in it */
    struct table_heading {
        int column;             /* row of the form */
        double number;          /* that stood for # */
        double before, factor;  /* SI = (value + before) factor */
    } heading[TABLE_COLUMNS];
    FILE *file;
    struct csv_parser parser;
};

/* Fails with a message that begins FILE:LINE:COLUMN, where the column is counted in fields from 1. */
#define TABLE_FAULT(table, column, format, ...)                                       \
    trouble_set((table)->why, TROUBLE_INPUT, "%s:%d:%d: " format, (table)->path,      \
                (table)->line, (column), __VA_ARGS__)

/* Opens a file; TROUBLE_ABSENT if it isn't there. table_close if it succeeded. */
bool table_open(struct table *table, const char *path, const struct table_form *form,
                struct trouble *why);
/* Reads the next line of data into `field`. False at the end of the file or on trouble, which
 * why->kind tells apart. */
bool table_next(struct table *table);
void table_close(struct table *table);

const struct table_column *table_column(const struct table *table, int at);
bool table_empty(const struct table *table, int at);
/* A field as a day such as 2025-10-18. */
bool table_date(struct table *table, int at, date_count *date);
/* A field as a number of its column's unit, in SI and within its column's bounds. */
bool table_number(struct table *table, int at, double *value);
#endif
