/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/band.c - see base/band.h. */
#include "base/band.h"

static int least(int a, int b) { return a < b ? a : b; }

/* y = y - t x over a few numbers that don't overlap */
static inline void take(lane *restrict y, const lane *restrict x, lane t, int count)
{
    for (int i = 0; i < count; i++)
        y[i] -= t * x[i];
}

/* `last` is the band but for the last rows: written so that the compiler, which knows the band of
 * the usual meshes, unrolls the inner loops. */
static inline void factor_column(lane *pivot, int band, int last)
{
    const int width = 2 * band + 1;
    pivot[0] = 1.0 / pivot[0]; /* pivot[i] is row k + i of column k */
    for (int i = 1; i <= last; i++)
        pivot[i] *= pivot[0];
    for (int j = 1; j <= last; j++) {
        lane *column = pivot + j * width - j; /* row k + i of column k + j */
        take(column + 1, pivot + 1, column[0], last);
    }
}

static inline void factor(lane *a, int n, int band)
{
    const int width = 2 * band + 1;
    for (int k = 0; k < n - band; k++)
        factor_column(a + k * width + band, band, band);
    for (int k = n > band ? n - band : 0; k < n; k++)
        factor_column(a + k * width + band, band, n - 1 - k);
}

static inline void solve(const lane *a, int n, int band, lane *x)
{
    const int width = 2 * band + 1;
    int whole = n > band ? n - band : 0;
    for (int k = 0; k < whole; k++)
        take(x + k + 1, a + k * width + band + 1, x[k], band);
    for (int k = whole; k < n; k++)
        take(x + k + 1, a + k * width + band + 1, x[k], n - 1 - k);
    for (int k = n - 1; k >= band; k--) {
        x[k] *= a[k * width + band];
        take(x + k - band, a + k * width, x[k], band);
    }
    for (int k = least(band, n) - 1; k >= 0; k--) {
        x[k] *= a[k * width + band];
        take(x, a + k * width + band - k, x[k], k);
    }
}

void band_factor(lane *a, int n, int band)
{
    switch (band) {
    case 6: factor(a, n, 6); break;
    case 7: factor(a, n, 7); break;
    case 8: factor(a, n, 8); break;
    case 9: factor(a, n, 9); break;
    default: factor(a, n, band);
    }
}

void band_solve(const lane *a, int n, int band, lane *x)
{
    switch (band) {
    case 6: solve(a, n, 6, x); break;
    case 7: solve(a, n, 7, x); break;
    case 8: solve(a, n, 8, x); break;
    case 9: solve(a, n, 9, x); break;
    default: solve(a, n, band, x);
    }
}

void band_subtract(const lane *a, int n, int band, const lane *x, lane *y)
{
    const int width = 2 * band + 1;
    for (int k = 0; k < n; k++) {
        int first = least(band, k), last = least(band, n - 1 - k);
        take(y + k - first, a + k * width + band - first, x[k], first + 1 + last);
    }
}

/* L D L^T: the diagonal holds the inverse of D. */
static inline void half_column(lane *pivot, int band, int last)
{
    const int width = band + 1;
    lane inverse = pivot[0] = 1.0 / pivot[0];
    for (int j = 1; j <= last; j++) /* column k + j from its diagonal down; pivot still times D */
        take(pivot + j * width, pivot + j, pivot[j] * inverse, last - j + 1);
    for (int i = 1; i <= last; i++)
        pivot[i] *= inverse;
}

static inline void half_factor(lane *a, int n, int band)
{
    for (int k = 0; k < n - band; k++)
        half_column(a + k * (band + 1), band, band);
    for (int k = n > band ? n - band : 0; k < n; k++)
        half_column(a + k * (band + 1), band, n - 1 - k);
}

void band_half_factor(lane *a, int n, int band)
{
    switch (band) {
    case 6: half_factor(a, n, 6); break;
    case 7: half_factor(a, n, 7); break;
    case 8: half_factor(a, n, 8); break;
    case 9: half_factor(a, n, 9); break;
    default: half_factor(a, n, band);
    }
}

/* Backward, what is known of x goes to all rows that want it rather than each row summing what it
 * wants: the same numbers in the same order for every row, but rows don't wait for one another's
 * sums. */
static inline void half_solve(const lane *a, int n, int band, lane *x)
{
    const int width = band + 1;
    int whole = n > band ? n - band : 0;
    for (int k = 0; k < whole; k++)
        take(x + k + 1, a + k * width + 1, x[k], band);
    for (int k = whole; k < n; k++)
        take(x + k + 1, a + k * width + 1, x[k], n - 1 - k);
    for (int k = 0; k < n; k++)
        x[k] *= a[k * width];
    for (int k = n - 1; k >= band; k--)
        for (int i = 1; i <= band; i++)
            x[k - i] -= a[(k - i) * width + i] * x[k];
    for (int k = least(band, n) - 1; k >= 0; k--)
        for (int i = 1; i <= k; i++)
            x[k - i] -= a[(k - i) * width + i] * x[k];
}

void band_half_solve(const lane *a, int n, int band, lane *x)
{
    switch (band) {
    case 6: half_solve(a, n, 6, x); break;
    case 7: half_solve(a, n, 7, x); break;
    case 8: half_solve(a, n, 8, x); break;
    case 9: half_solve(a, n, 9, x); break;
    default: half_solve(a, n, band, x);
    }
}
