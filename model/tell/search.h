/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/search.h - what a search found: in words, as JSON, and as lines of a scenario. */
#ifndef TELL_SEARCH_H
#define TELL_SEARCH_H
#include "ask/search.h"
#include "tell/phrase.h"

void search_text(FILE *out, const struct search *search, const char *written, bool in_full);
bool search_json(FILE *out, const struct search *search, struct trouble *why);
/* The events of a candidate as items of a YAML list, each line indented so far; "[]" for none. */
void search_yaml(FILE *out, const struct search *search, const struct candidate *candidate, int indent);
#endif
