/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/log.h - files of readings: the log sheet as a table with commas between its columns. */
#ifndef DOOR_LOG_H
#define DOOR_LOG_H
#include "base/trouble.h"
#include "run/plan.h"

/* Adds what a log holds to a scenario's readings. The first line names columns and units:
 *
 *   date, hour, middle C, 30 cm in C, hand deep C, air C, squeeze, height cm, we did
 *
 * date must be there, any other may be left out, and `20 cm in C` is a depth of one's own. An empty
 * field wasn't read. Dates may be in any order, none before the start. Fails with TROUBLE_ABSENT where
 * there is no such file, TROUBLE_INPUT with FILE:LINE:COLUMN. */
bool log_read(struct scenario *scenario, const char *path, struct trouble *why);
#endif
