/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/fetch.h - what is carried to a pile, as its keeper counts it: buckets, barrows, bags. */
#ifndef TELL_FETCH_H
#define TELL_FETCH_H
#include "ask/due.h"
#include "tell/phrase.h"
#include "tell/saying.h"

#define FETCH_LOOSE_M 0.02 /* a cover that is thinner is a sheet */

/* "2 3/4 buckets", "6 half buckets": in vessels that those who work may lift. */
struct phrase fetch_load(const struct scenario *scenario, double water_l);
/* Adds "straw 8 buckets, water 2 buckets"; with `bare`, buckets are understood and not said. */
void fetch_layer(struct saying *said, const struct scenario *scenario,
                 const struct phrase_style *style, const struct plan_layer *layer, bool bare);
/* The layers from the bottom up, those that repeat once: "straw 8; 6 times (...)". */
struct saying fetch_build(const struct scenario *scenario, const struct phrase_style *style);
/* What to bring of each ingredient, for a pile that is built (no event), or for one deed on a bay.
 */
struct saying fetch_bring(const struct scenario *scenario, const struct phrase_style *style,
                          const struct plan_event *event, int bay);
#endif
