/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/gnuplot.h - gnuplot as a program that draws one script into one file.
 *
 * A script can start other programs (back quotes, names that begin with < or |), so nothing a
 * keeper wrote reaches it but as a single-quoted text, and it never names a file: the picture is
 * its standard output. No shell, no settings file of the user's, a small fixed environment.
 */
#ifndef TELL_GNUPLOT_H
#define TELL_GNUPLOT_H
#include "base/trouble.h"
#include <stdbool.h>
#include <stdio.h>

/* Whether a text can stand in a script: UTF-8 without control characters, so that it is one line
 * and can stand in an SVG as well. `what` says whose text it is ("the name of the scenario"). */
bool gnuplot_accept(const char *text, const char *what, struct trouble *why);
/* Writes an accepted text as a constant of the script, in single quotes. */
void gnuplot_quote(FILE *script, const char *text);

/* Draws the script into a new file, both named by their paths. Fails with TROUBLE_PROGRAM if
 * gnuplot is missing or stops with an error, TROUBLE_CREATE if the file exists or can't be made,
 * TROUBLE_DEVICE if the picture is cut short. */
bool gnuplot_draw(const char *script, const char *picture, struct trouble *why);
#endif
