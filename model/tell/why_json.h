/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/why_json.h - a pile on a day as JSON: heat budget, limits, changes. */
#ifndef TELL_WHY_JSON_H
#define TELL_WHY_JSON_H
#include "base/trouble.h"
#include "tell/why.h"

bool why_json(FILE *out, const struct why_tale *tale, struct trouble *why);
#endif
