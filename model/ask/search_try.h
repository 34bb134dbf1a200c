/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search_try.h - candidates tried on possible piles, and what became of each. */
#ifndef ASK_SEARCH_TRY_H
#define ASK_SEARCH_TRY_H
#include "ask/search_found.h"

/* A candidate tried on so many members, from the first; NULL with a trouble. */
struct search_trial *search_try(struct search *search, const struct candidate *candidate, int members,
                                struct trouble *why);
/* The candidate's row, a new one if it has none yet; NULL without memory. */
struct search_trial *search_try_find(struct search *search, const struct candidate *candidate);
/* Members first to last into outcome; a plan for which there is no bin is no trouble, but not possible. */
bool search_try_members(struct search *search, const struct candidate *candidate, int first, int last,
                    struct outcome *outcome, bool *possible, struct trouble *why);
/* The trial's score by its first so many members. */
double search_try_score(const struct search *search, const struct search_trial *trial, int members);
/* Is it in time with the chance asked for, as far as known? */
bool search_try_does_it(const struct search *search, const struct search_trial *trial);
#endif
