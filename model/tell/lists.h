/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lists.h - the tables a scenario draws on, as text for people and as JSON for programs. */
#ifndef TELL_LISTS_H
#define TELL_LISTS_H
#include "base/trouble.h"
#include <stdbool.h>
#include <stdio.h>

/* Writes the table of that name (cells_names in tell/cells.h). Text has a line or two a row; longer
 * adds everything known of it, with marks and sources. JSON always has everything. Fails with
 * TROUBLE_USAGE for an unknown table (nothing is written), TROUBLE_MEMORY, or TROUBLE_DEVICE when
 * out can't be written. */
bool lists_write(FILE *out, const char *table, bool json, bool longer, struct trouble *why);
#endif
