/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/scenario.h - a scenario file to a struct scenario. */
#ifndef DOOR_SCENARIO_H
#define DOOR_SCENARIO_H
#include "base/trouble.h"
#include "run/plan.h"
#include <stdbool.h>
#include <stddef.h>

/* Reads a scenario from a file, "-" for standard input. The caller holds the struct, which is large
 * (about a megabyte). Every mistake is a line `FILE:LINE:COLUMN: what; expected ...` of `why`, up
 * to twenty, TROUBLE_INPUT; a missing file is TROUBLE_ABSENT. */
bool scenario_read(struct scenario *scenario, const char *path, struct trouble *why);
/* The same from memory; `shown_name` stands in messages, and relative names of weather files begin
 * in its folder. */
bool scenario_read_text(struct scenario *scenario, const char *text, size_t length,
                        const char *shown_name, struct trouble *why);
/* The reader ends a season on the day of need. So that "ready three weeks later" can be said, a
 * command that asks when it is ready lets the season go on, as far as made-up weather and the
 * calendar do; nothing is done to the pile in that time. */
void scenario_look_on(struct scenario *scenario);
/* The last day of a season that was let go on, from 0 = the start date. */
int scenario_last_looked(const struct scenario *scenario);
#endif
