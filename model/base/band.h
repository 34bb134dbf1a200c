/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/band.h - banded linear systems, every member's at once, without pivoting.
 *
 * Matrices of the pile are diagonally dominant or nearly so (each is a mass or heat balance), so
 * elimination needs no exchange of rows, and all members follow the same path. Stored by columns,
 * since then every inner loop runs along memory without summing: row i, column j with
 * |i - j| <= band stands at [j * (2 band + 1) + i - j + band].
 */
#ifndef BASE_BAND_H
#define BASE_BAND_H
#include "base/lane.h"

static inline int band_at(int band, int row, int col)
{
    return col * (2 * band + 1) + row - col + band;
}

/* Factors A = L U in place; the diagonal holds the inverse pivots afterwards. */
void band_factor(lane *a, int n, int band);
/* Solves A x = b in place with the factors. */
void band_solve(const lane *a, int n, int band, lane *x);

/* The same for symmetric positive definite matrices, of which only the lower half is kept: row i,
 * column j with j <= i <= j + band at [j * (band + 1) + i - j]. */
static inline int band_half_at(int band, int row, int col)
{
    return col * (band + 1) + row - col;
}
void band_half_factor(lane *a, int n, int band);
void band_half_solve(const lane *a, int n, int band, lane *x);
#endif
