/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/manual.h - the manual page, from the rows that --help prints. */
#ifndef TELL_MANUAL_H
#define TELL_MANUAL_H
#include <stdio.h>

/* midden.1 in mdoc(7). */
void manual_page(FILE *out);
#endif
