/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_json.h - a lesson as JSON. */
#ifndef TELL_LESSON_JSON_H
#define TELL_LESSON_JSON_H
#include "tell/lesson_shows.h"
#include <stdio.h>

bool lesson_json(FILE *out, const struct lesson_tale *tale, struct trouble *why);
#endif
