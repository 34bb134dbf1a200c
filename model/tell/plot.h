/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plot.h - a season as pictures, drawn by gnuplot. */
#ifndef TELL_PLOT_H
#define TELL_PLOT_H
#include "base/trouble.h"
#include "run/plan.h"
#include "run/record.h"
#include <stdbool.h>

/* Draws temperature, sections (if the season kept any), heat, mass and water into a folder, as
 * tell/picture does. Of many possible piles `middle_K` has the range of the middle for each day, or it
 * is NULL. Fails with TROUBLE_INPUT if a name can't be drawn, TROUBLE_NO if there is no day to draw. */
bool plot_season(const char *dir, bool force, const struct record *record,
                 const struct scenario *scenario, const char *plan_name, const struct span *middle_K,
                 struct trouble *why);
bool plot_may(const char *dir, bool force, struct trouble *why); /* are the names free, before the season? */
#endif
