/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/search.h - what a search found: in words, as JSON, and as lines of a scenario. */
#ifndef TELL_SEARCH_H
#define TELL_SEARCH_H
#include "ask/search.h"
#include "tell/phrase.h"

void search_text(FILE *out, const struct search *search, const char *written, bool in_full);
bool search_json(FILE *out, const struct search *search, struct trouble *why);
enum { SEARCH_IN_LINE = -1 };
/* The events of a candidate as a YAML list after its key: an item a line, indented so far, without
 * the last line end; or all in one line. */
void search_yaml(FILE *out, const struct search *search, const struct candidate *candidate, int indent);
#endif
