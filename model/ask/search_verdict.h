/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search_verdict.h - which of the plans tried is told, and what of it: judged by possible piles that no
 * part of the search has met, on the mesh of a forecast.
 */
#ifndef ASK_SEARCH_VERDICT_H
#define ASK_SEARCH_VERDICT_H
#include "ask/search_found.h"

/* Does one of the plans with least work of those that do it hold with fresh members? Then found and best are
 * set; those that don't are refuted. */
bool search_verdict_holds(struct search *search, struct trouble *why);
/* What is told of the best, or of the nearest if none was found, by members fresher still. */
bool search_verdict_fresh(struct search *search, struct trouble *why);
/* The same by the members of the search, as far as it came: for one that was cut short, or may not meet
 * others. */
void search_verdict_known(struct search *search);
/* More work must buy more chance, or it isn't on the curve. */
void search_verdict_front(struct search *search);
#endif
