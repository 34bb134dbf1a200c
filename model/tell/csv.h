/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/csv.h - a season as CSV: one row a day. */
#ifndef TELL_CSV_H
#define TELL_CSV_H
#include "tell/tale.h"
#include <stdio.h>

/* Writes header and rows; a number that is not known is an empty field. */
void csv_season(FILE *out, const struct tale *tale);
#endif
