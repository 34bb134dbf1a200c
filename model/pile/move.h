/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/move.h - material moved by hand: every way of it is a linear map on amounts.
 *
 * Cells of the old pile are taken in some order and fill cells of the new one in some order, by
 * loose volume; a cell that straddles two is split. What is moved is amounts, so nothing is lost
 * and mixing is adding. Clocks must be folded (zero) before anything is moved.
 */
#ifndef PILE_MOVE_H
#define PILE_MOVE_H
#include "pile/pile.h"

/* one batch of material outside any cell: as many amounts as the pile has (pile_amount) */
enum { MOVE_MOST_AMOUNTS = 40 + PILE_MOST_STUFFS * (POOLS + 1) + RULES_STAGES };
struct move_batch {
    lane amount[MOVE_MOST_AMOUNTS];
};

enum move_way { MOVE_UPSIDE_DOWN, MOVE_OUTSIDE_IN, MOVE_SAME_ORDER };

/* Fills `to` (with its own mesh) from all of `from`: a share of it is mixed throughout, the rest
 * keeps the order of the way. `to` must not share arrays with `from`. */
void move_turn(struct pile *to, const struct pile *from, enum move_way way, lane mixed);
/* Lays a batch over the pile, or under what lies within `bury_m` of its top: column by column, so
 * that core and rim stay what they are; rows keep their designed shares of the volume. `spare` is
 * room for the new arrangement; the two change places. */
void move_add(struct pile *pile, struct pile *spare, const struct move_batch *batch, double bury_m);
/* Takes out the bottom rows, about `thick_m` of them but not all, into a batch. */
void move_take_bottom(struct pile *pile, struct move_batch *batch, double thick_m);
/* Which amount of a batch holds a state or stock, or a pool or laid mass of an ingredient. */
int move_of_state(enum state state);
int move_of_stock(enum stock stock);
int move_of_pool(int stuff, enum pool pool);
int move_of_laid(const struct pile *pile, int stuff);
int move_of_dose(const struct pile *pile, int stage);
/* The share of the pile's volume that a cell is designed to hold. */
double move_share(const struct mesh *mesh, int cell);
/* Exchanges two piles' contents and meshes. */
void move_swap(struct pile *a, struct pile *b);
#endif
