/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/sheet.h - weather files: a table of days with commas between its columns. */
#ifndef DOOR_SHEET_H
#define DOOR_SHEET_H
#include "base/trouble.h"
#include "sky/weather.h"
#include <stdbool.h>

/* Reads daily weather. The first line names each column and its unit, in any order:
 *
 *   date, low C, high C, rain mm, wind km/h, sun MJ/m2, vapour kPa
 *
 * date, low and high must be there. Also understood: wind at 10 m, dew point, humidity %, and other
 * units of each. Days follow each other without a gap. Lines that begin with # are notes. An empty
 * field of any other column is a value not known, NAN. Nothing is left to free on failure; messages
 * begin FILE:LINE:COLUMN, where the column is counted in fields. */
bool sheet_weather(struct weather *weather, const char *path, struct trouble *why);
#endif
