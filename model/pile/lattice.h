/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/lattice.h - linear systems on the cells of a mesh: where their numbers stand, and solving them.
 *
 * In narrow meshes all nodes are numbered row by row and the matrix is banded (base/band). In wide
 * ones every second cell, as on a chequerboard, is eliminated beforehand, by itself, since it touches
 * none of its own colour: cells of the other colour are left, half as many in the same band, and so
 * half the work and half the memory [derived; reduction of a five-point scheme, trade]. A balance stays a balance, so
 * no pivoting is needed there either.
 *
 * Whoever fills a matrix adds to the numbers that `diagonal`, `ab` and `ba` point out, having cleared
 * `size` of them.
 */
#ifndef PILE_LATTICE_H
#define PILE_LATTICE_H
#include "base/arena.h"
#include "base/lane.h"

enum { LATTICE_NEAR = 4, LATTICE_WIDE = 20 };

struct lattice_design {
    int soils;              /* nodes before the cells; none of them is eliminated */
    int rows, cols, band;   /* band of the numbering row by row, and of what is left */
    bool symmetric;
};

struct lattice {
    int nodes, edges, band;
    bool symmetric;
    int kept, reds;         /* nodes left, cells eliminated */
    int size;               /* numbers of a matrix, to be cleared */
    int *diagonal;          /* [nodes] */
    int *ab, *ba;           /* [edges] row a, column b; row b, column a (symmetric: the same) */
    int *kept_node, *red_node;      /* [kept], [reds] */
    int *place;             /* [nodes] which of those kept, or of those eliminated */
    int *red_edges;         /* [reds] so many neighbours, */
    int *near;              /* [reds][LATTICE_NEAR] and which of those kept they are */
};

/* The most numbers that a matrix of such a design takes, with those that solving needs beside it. */
size_t lattice_most(const struct lattice_design *design);
/* In the arena (see base/arena.h: counts only without a block). */
void lattice_take(struct lattice *lattice, const struct lattice_design *design, struct arena *arena);
/* Cells by row and column; then edges, one after another, of nodes that touch, a before b. */
void lattice_lay(struct lattice *lattice, const struct lattice_design *design, int cells,
                 const int *cell_row, const int *cell_col);
void lattice_edge(struct lattice *lattice, int a, int b);

void lattice_clear(const struct lattice *lattice, lane *matrix);
void lattice_factor(const struct lattice *lattice, lane *matrix);
/* Solves in place, x by nodes; leaves the factors as they are. */
void lattice_solve(const struct lattice *lattice, lane *matrix, lane *x);
#endif
