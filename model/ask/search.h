/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search.h - the least work that is ready by the day of need with the asked chance.
 *
 * A plan is judged by seasons of possible piles, and seasons are dear. So every candidate is tried
 * on the same few members first; the worse half goes, the better half meets twice as many, until few
 * are left (sequential halving; Karnin, Koren and Somekh 2013, Proc. ICML 28, 1238-1246, memory). One
 * turn is added at a time to the best plans of a turn less, then single things are changed as long
 * as that helps. Turning at fixed intervals is always among the candidates.
 *
 * Candidates are tried on a coarser mesh, four times as fast and near enough to rank by; what is chosen
 * is confirmed on the mesh of a forecast, by members it was not chosen by; where none holds with them, the
 * search goes on with more turns. Chances that chose a plan flatter it: the one told comes from members that
 * no part of the search has used.
 */
#ifndef ASK_SEARCH_H
#define ASK_SEARCH_H
#include "ask/search_found.h"

/* Takes a copy of the scenario, which needs a `need`; days before `first_day` (0 = start) are past.
 * The crew and what else is set by the caller stay. search_free in any case. */
bool search_open(struct search *search, const struct scenario *scenario, int first_day,
                 struct trouble *why);
/* Searches. When crew.stop is set it ends with what there is, not finished. Fails as crew_run does, but
 * for plans that can't be done. */
bool search_run(struct search *search, struct trouble *why);
void search_free(struct search *search);
#endif
