/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/lay.h - from what a keeper lays down to amounts a cell can hold. */
#ifndef RUN_LAY_H
#define RUN_LAY_H
#include "pile/move.h"
#include "run/possible.h"

/* An ingredient in one size: chopped and whole stalks decay at different rates. */
struct lay_kind {
    int stuff;              /* row of scenario.stuff */
    double piece_m;
};

struct lay {
    const struct scenario *scenario;
    const struct possible *possible;    /* [LANES] */
    int kinds;
    struct lay_kind kind[PILE_MOST_STUFFS];
};

/* Finds the kinds that the recipe and a plan need. */
void lay_kinds(struct lay *lay, const struct scenario *scenario, const struct plan *plan,
               const struct possible *possible);
/* Rates and composition of each kind, for the pile. */
void lay_stuffs(const struct lay *lay, struct pile *pile);
/* A layer's ingredients, and the water poured with it, as one batch at a temperature. */
void lay_batch(const struct lay *lay, const struct pile *pile, const struct plan_layer *layer,
               lane over_K, struct move_batch *batch);
/* Water poured, of what a keeper says was poured, kg. */
lane lay_poured(const struct lay *lay, const struct span *water_kg);
/* Amounts that a pile found standing has already lost: `days` of slow decay before the season. */
void lay_age(const struct lay *lay, const struct pile *pile, struct move_batch *batch, double days);
/* Of a kind's dry mass when laid: what can decay from its pools. */
double lay_decayable_share(const struct lay *lay, int kind, int member);
/* Carbon in its pools per dry mass laid. */
void lay_pools(const struct lay *lay, int kind, int member, double carbon[POOLS]);
/* Of a layer as its keeper says it: the middle of what it may be. */
double lay_volume_m3(const struct plan_layer *layer);
#endif
