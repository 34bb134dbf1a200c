/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/json.h - a season as JSON, and the hand by which every JSON answer is written.
 *
 * Numbers are finite or null. Keys may be added by later versions; none changes its meaning.
 */
#ifndef TELL_JSON_H
#define TELL_JSON_H
#include "tell/tale.h"
#include <jansson.h>
#include <stdio.h>

/* Writes the run object; fails only for want of memory. */
bool json_season(FILE *out, const struct tale *tale, struct trouble *why);
json_t *json_season_object(const struct tale *tale, bool with_days);

/* Sets a key; a value that could not be made, or is not finite, becomes null. */
void json_put(json_t *object, const char *key, json_t *value);
void json_put_number(json_t *object, const char *key, double value);
void json_put_text(json_t *object, const char *key, const char *text);
/* The middle under the key, the ends under key_low and key_high, times a factor. */
void json_put_span(json_t *object, const char *key, struct span span, double factor);
json_t *json_assumed(const struct scenario *scenario); /* the values a scenario left to us */
/* Writes an object with ten digits and a final newline, and gives it back to jansson. */
bool json_write(FILE *out, json_t *object, struct trouble *why);
#endif
