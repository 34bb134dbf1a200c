/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/cells.h - the tables a scenario draws on, each row as cells for text and JSON alike. */
#ifndef TELL_CELLS_H
#define TELL_CELLS_H
#include <stdbool.h>

enum { CELLS_MOST = 36, CELLS_REST = -1, CELLS_MONTHS = 12 };
enum cells_kind { CELLS_TEXT, CELLS_TRUTH, CELLS_NUMBER, CELLS_SPAN, CELLS_YEAR };

struct cell {
    enum cells_kind kind;
    const char *key;            /* in JSON */
    const char *head;           /* over its column; NULL: only in the longer text */
    int width;                  /* CELLS_REST: what is left of the line, then further lines */
    int decimals;               /* -1: six digits wherever the point stands */
    double scale;               /* from the number kept to the one in a column */
    const char *text;
    double value[CELLS_MONTHS]; /* low, mid, high of a span */
};

/* The cells with a head come first; a text of CELLS_REST is the last of them. */
struct cells {
    int count;
    struct cell cell[CELLS_MOST];
};

struct cells_table {
    const char *name;
    bool (*fill)(struct cells *row, int at);    /* adds the cells of a row; false past the last */
    bool all;                                   /* the text always shows everything */
};

extern const struct cells_table cells_tables[];
extern const char *const cells_names[];         /* "ingredients", "walls", ... */
extern const int cells_count;                   /* of tables */
#endif
