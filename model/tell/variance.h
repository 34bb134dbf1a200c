/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/variance.h - which unknown carries the variance of an answer, as a table or JSON. */
#ifndef TELL_VARIANCE_H
#define TELL_VARIANCE_H
#include "many/sense.h"
#include <stdio.h>

void variance_text(FILE *out, const struct sense *sense, const char *scenario, const char *plan);
bool variance_json(FILE *out, const struct sense *sense, const char *scenario, const char *plan,
                   struct trouble *why);
#endif
