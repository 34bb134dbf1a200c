/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/recipe_json.h - what a mix adds up to, and what would put it right, as JSON. */
#ifndef TELL_RECIPE_JSON_H
#define TELL_RECIPE_JSON_H
#include "tell/recipe.h"

/* Fails only for want of memory. */
bool recipe_json(FILE *out, const struct recipe_tale *tale, struct trouble *why);
#endif
