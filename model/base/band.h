/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/band.h - banded linear systems, every member's at once, without pivoting.
 *
 * Matrices of the pile are diagonally dominant or nearly so (each is a mass or heat balance), so
 * elimination needs no exchange of rows, and all members follow the same path. Stored by columns,
 * since then every inner loop runs along memory without summing: row i, column j with
 * |i - j| <= band stands at [j * width + i - j + origin]. All else must be zero.
 */
#ifndef BASE_BAND_H
#define BASE_BAND_H
#include "base/lane.h"

/* From here bands count as wide: columns are set apart by zeros, so that four pivots at once can reach
 * over their ends, and the same row stands equally aligned in all of them. */
enum { BAND_WIDE = 10 };

static inline int band_quads(int count) { return (count + 3) / 4 * 4; }
/* Numbers to a column, and where in it the diagonal stands. */
static inline int band_origin(int band)
{
    return band < BAND_WIDE ? band : band_quads(band + 3);
}
static inline int band_width(int band)
{
    return band < BAND_WIDE ? 2 * band + 1 : band_origin(band) + band_quads(band) + 5;
}
static inline int band_at(int band, int row, int col)
{
    return col * band_width(band) + row - col + band_origin(band);
}

/* Factors A = L U in place; the diagonal holds the inverse pivots afterwards. */
void band_factor(lane *a, int n, int band);
/* Solves A x = b in place with the factors. */
void band_solve(const lane *a, int n, int band, lane *x);

/* The same for symmetric positive definite matrices, of which only the lower half is kept: row i,
 * column j with j <= i <= j + band at [j * width + i - j + origin]. */
static inline int band_half_width(int band)
{
    return band < BAND_WIDE ? band + 1 : 4 + band_quads(band + 6) + 1;
}
static inline int band_half_origin(int band) { return band < BAND_WIDE ? 0 : 4; }
static inline int band_half_at(int band, int row, int col)
{
    return col * band_half_width(band) + row - col + band_half_origin(band);
}
void band_half_factor(lane *a, int n, int band);
void band_half_solve(const lane *a, int n, int band, lane *x);
#endif
