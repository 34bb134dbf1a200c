/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/band.c - see base/band.h. */
#include "base/band.h"

static int least(int a, int b) { return a < b ? a : b; }

void band_factor(lane *a, int n, int band)
{
    const int width = 2 * band + 1;
    for (int k = 0; k < n; k++) {
        lane *pivot = a + k * width + band; /* pivot[j] is column k + j of row k */
        pivot[0] = 1.0 / pivot[0];
        int last = least(band, n - 1 - k);
        for (int i = 1; i <= last; i++) {
            lane *row = a + (k + i) * width + band - i; /* row[j] is column k + j */
            lane times = row[0] * pivot[0];
            row[0] = times;
            for (int j = 1; j <= last; j++)
                row[j] -= times * pivot[j];
        }
    }
}

void band_solve(const lane *a, int n, int band, lane *x)
{
    const int width = 2 * band + 1;
    for (int i = 1; i < n; i++) {
        const lane *row = a + i * width + band;
        lane sum = x[i];
        for (int j = least(band, i); j >= 1; j--)
            sum -= row[-j] * x[i - j];
        x[i] = sum;
    }
    for (int i = n - 1; i >= 0; i--) {
        const lane *row = a + i * width + band;
        lane sum = x[i];
        for (int j = least(band, n - 1 - i); j >= 1; j--)
            sum -= row[j] * x[i + j];
        x[i] = sum * row[0];
    }
}

/* L D L^T: column k of L below the diagonal is kept times its pivot until the row is used. */
void band_half_factor(lane *a, int n, int band)
{
    const int width = band + 1;
    for (int k = 0; k < n; k++) {
        lane inverse = 1.0 / a[k * width + band];
        a[k * width + band] = inverse;
        int last = least(band, n - 1 - k);
        lane column[256];
        for (int i = 1; i <= last; i++)
            column[i] = a[(k + i) * width + band - i];
        for (int i = 1; i <= last; i++) {
            lane *row = a + (k + i) * width + band - i; /* row[j] is column k + j */
            lane times = column[i] * inverse;
            for (int j = 1; j <= i; j++)
                row[j] -= times * column[j];
            row[0] = times;
        }
    }
}

void band_half_solve(const lane *a, int n, int band, lane *x)
{
    const int width = band + 1;
    for (int i = 1; i < n; i++) {
        const lane *row = a + i * width + band;
        lane sum = x[i];
        for (int j = least(band, i); j >= 1; j--)
            sum -= row[-j] * x[i - j];
        x[i] = sum;
    }
    for (int i = n - 1; i >= 0; i--) {
        lane sum = x[i] * a[i * width + band];
        for (int j = least(band, n - 1 - i); j >= 1; j--)
            sum -= a[(i + j) * width + band - j] * x[i + j];
        x[i] = sum;
    }
}
