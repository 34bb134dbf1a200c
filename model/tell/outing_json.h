/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/outing_json.h - what to do on a day, as JSON. */
#ifndef TELL_OUTING_JSON_H
#define TELL_OUTING_JSON_H
#include "ask/outing.h"
#include "base/trouble.h"
#include <stdio.h>

/* Writes `{ "date", "piles": [ { "tasks": [...] } ], ... }`; fails only for want of memory. */
bool outing_json(FILE *out, const struct outing *visit, struct trouble *why);
#endif
