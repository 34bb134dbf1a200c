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
    const int width = band_width(band);
    pivot[0] = 1.0 / pivot[0]; /* pivot[i] is row k + i of column k */
    for (int i = 1; i <= last; i++)
        pivot[i] *= pivot[0];
    for (int j = 1; j <= last; j++) {
        lane *column = pivot + j * width - j; /* row k + i of column k + j */
        take(column + 1, pivot + 1, column[0], last);
    }
}

/* Four pivots at once for wide bands, where taking one at a time would carry the whole window through
 * the cache for each: every number has the same subtracted from it in the same order. Where a pivot
 * doesn't reach there are zeros. Of single numbers four are done together, so that rows come in
 * fours as well. */
enum { AT_ONCE = 4, ROWS_AT_ONCE = LANES == 1 ? 4 : 1 };

struct four {
    const lane *x[AT_ONCE]; /* what is taken away */
    lane t[AT_ONCE], u[AT_ONCE]; /* so many times, from one column and from the next */
};

static inline int in_rows(int count) { return (count + ROWS_AT_ONCE - 1) / ROWS_AT_ONCE; }

static inline void take_four(lane *restrict y, const struct four *by, int rows)
{
    const lane *restrict x0 = by->x[0], *restrict x1 = by->x[1];
    const lane *restrict x2 = by->x[2], *restrict x3 = by->x[3];
    const lane t0 = by->t[0], t1 = by->t[1], t2 = by->t[2], t3 = by->t[3];
    for (int i = 0; i < ROWS_AT_ONCE * rows; i++) {
        lane rest = y[i];
        rest -= t0 * x0[i];
        rest -= t1 * x1[i];
        rest -= t2 * x2[i];
        rest -= t3 * x3[i];
        y[i] = rest;
    }
}

/* the same for two columns, which share what is taken */
static inline void take_twice(lane *restrict y, lane *restrict z, const struct four *by, int rows)
{
    const lane *restrict x0 = by->x[0], *restrict x1 = by->x[1];
    const lane *restrict x2 = by->x[2], *restrict x3 = by->x[3];
    const lane t0 = by->t[0], t1 = by->t[1], t2 = by->t[2], t3 = by->t[3];
    const lane u0 = by->u[0], u1 = by->u[1], u2 = by->u[2], u3 = by->u[3];
    for (int i = 0; i < ROWS_AT_ONCE * rows; i++) {
        lane a = x0[i], b = x1[i], c = x2[i], d = x3[i], rest = y[i], other = z[i];
        rest -= t0 * a;
        other -= u0 * a;
        rest -= t1 * b;
        other -= u1 * b;
        rest -= t2 * c;
        other -= u2 * c;
        rest -= t3 * d;
        other -= u3 * d;
        y[i] = rest;
        z[i] = other;
    }
}

/* Rows of the four pivots themselves in a column: `first` is that of the first pivot. */
static inline void take_head(lane *first, const lane *pivot, int width, lane *t)
{
    for (int p = 0; p < AT_ONCE; p++) {
        for (int q = 0; q < p; q++)
            first[p] -= t[q] * pivot[q * width + p - q];
        t[p] = first[p];
    }
}

static void factor_four(lane *pivot, int band)
{
    const int width = band_width(band), down = width - 1, rows = in_rows(band);
    struct four by;
    for (int p = 0; p < AT_ONCE; p++) {
        lane *own = pivot + p * width;
        own[0] = 1.0 / own[0];
        for (int i = 1; i <= band; i++)
            own[i] *= own[0];
        for (int j = 1; p + j < AT_ONCE; j++)
            take(own + j * down + 1, own + 1, own[j * down], band);
        by.x[p] = own + AT_ONCE - p;
    }
    lane *column = pivot + AT_ONCE * down;
    int c = 0;
    for (; c + 1 < band; c += 2, column += 2 * down) {
        take_head(column, pivot, width, by.t);
        take_head(column + down, pivot, width, by.u);
        take_twice(column + AT_ONCE, column + down + AT_ONCE, &by, rows);
    }
    if (c < band) {
        take_head(column, pivot, width, by.t);
        take_four(column + AT_ONCE, &by, rows);
    }
}

static void factor_wide(lane *a, int n, int band)
{
    int k = 0;
    for (; k + AT_ONCE <= n - band; k += AT_ONCE)
        factor_four(a + band_at(band, k, k), band);
    for (; k < n; k++)
        factor_column(a + band_at(band, k, k), band, least(band, n - 1 - k));
}

/* The same from the other end: row k - i of column k stands at pivot[-i]. */
static inline void factor_upward(lane *pivot, int band)
{
    const int width = band_width(band);
    pivot[0] = 1.0 / pivot[0];
    for (int i = 1; i <= band; i++)
        pivot[-i] *= pivot[0];
    for (int j = 1; j <= band; j++) {
        lane *column = pivot - j * width + j; /* row k of column k - j */
        take(column - band, pivot - band, column[0], band);
    }
}

/* Narrow systems are eliminated from both ends toward a middle as wide as the band, so that they don't
 * meet: each pivot waits for the one before, and two queues wait half as long. So many at an end: */
static inline int at_each_end(int n, int band)
{
    return band > 0 && n >= 3 * band ? (n - band) / 2 : 0;
}

static inline void factor(lane *a, int n, int band)
{
    const int width = band_width(band), ends = at_each_end(n, band), to = n - ends;
    a += band_origin(band); /* the diagonal of the first column */
    for (int k = 0; k < ends; k++) {
        factor_column(a + k * width, band, band);
        factor_upward(a + (n - 1 - k) * width, band);
    }
    for (int k = ends; k < to; k++)
        factor_column(a + k * width, band, least(band, to - 1 - k));
}

/* The middle, of which both ends have told it: downward, then upward and out to both of them. */
static inline void solve_middle(const lane *a, int from, int to, int n, int band, lane *x)
{
    const int width = band_width(band);
    for (int k = from; k < to; k++)
        take(x + k + 1, a + k * width + 1, x[k], least(band, to - 1 - k));
    for (int k = to - 1; k >= from; k--) {
        int up = least(band, k), below = least(band, n - 1 - k) - (to - 1 - k);
        x[k] *= a[k * width];
        take(x + k - up, a + k * width - up, x[k], up);
        take(x + to, a + k * width + to - k, x[k], below);
    }
}

/* From the top alone, as wide and very small ones are. */
static void solve_down(const lane *a, int n, int band, lane *x)
{
    solve_middle(a + band_origin(band), 0, n, n, band, x);
}

/* From both ends inward. The rows that are being told, after those that are known, stand in `down`
 * and `up`, which are registers since the compiler knows the band. What the upper end tells the middle
 * is added to it when both have come. `width` is that of the matrix, kept whole or by half; the upper end's
 * multipliers stand `apart` from one another. */
LANE_INLINE void solve_inward(const lane *a, int width, int apart, int ends, int n, int band, lane *x)
{
    lane down[BAND_WIDE], up[BAND_WIDE];
    for (int i = 0; i < band; i++) {
        down[i] = x[i];
        up[i] = x[n - 1 - i];
    }
    for (int k = 0; k < ends; k++) {
        int m = n - 1 - k;
        const lane *column = a + k * width, *other = a + m * width;
        lane first = x[k] = down[0], last = x[m] = up[0];
        for (int i = 1; i < band; i++) {
            down[i - 1] = down[i] - column[i] * first;
            up[i - 1] = up[i] - other[i * apart] * last;
        }
        lane next = k < ends - band ? x[m - band] : lane_of(0);
        down[band - 1] = x[k + band] - column[band] * first;
        up[band - 1] = next - other[band * apart] * last;
    }
    for (int i = 0; i < band; i++)
        x[ends + i] = down[i];
    for (int i = 0; i < band; i++)
        x[n - 1 - ends - i] += up[i];
}

/* And from the middle out to both ends. */
LANE_INLINE void solve_outward(const lane *a, int ends, int n, int band, lane *x)
{
    const int width = band_width(band);
    lane up[BAND_WIDE], down[BAND_WIDE];
    for (int i = 0; i < band; i++) {
        up[i] = x[ends - 1 - i];
        down[i] = x[n - ends + i];
    }
    int k = ends - 1;
    for (; k >= band; k--) {
        int m = n - 1 - k;
        const lane *column = a + k * width, *other = a + m * width;
        lane first = x[k] = up[0] * column[0], last = x[m] = down[0] * other[0];
        for (int i = 1; i < band; i++) {
            up[i - 1] = up[i] - column[-i] * first;
            down[i - 1] = down[i] - other[i] * last;
        }
        up[band - 1] = x[k - band] - column[-band] * first;
        down[band - 1] = x[m + band] - other[band] * last;
    }
    for (int left = band - 1; left >= 0; left--, k--) {
        int m = n - 1 - k;
        const lane *column = a + k * width, *other = a + m * width;
        lane first = x[k] = up[0] * column[0], last = x[m] = down[0] * other[0];
        for (int i = 1; i <= left; i++) {
            up[i - 1] = up[i] - column[-i] * first;
            down[i - 1] = down[i] - other[i] * last;
        }
    }
}

LANE_INLINE void solve(const lane *a, int n, int band, lane *x)
{
    int ends = at_each_end(n, band);
    if (ends == 0) {
        solve_down(a, n, band, x);
        return;
    }
    a += band_origin(band);
    solve_inward(a, band_width(band), -1, ends, n, band, x);
    solve_middle(a, ends, n - ends, n, band, x);
    solve_outward(a, ends, n, band, x);
}

void band_factor(lane *a, int n, int band)
{
    switch (band) {
    case 6: factor(a, n, 6); break;
    case 7: factor(a, n, 7); break;
    case 8: factor(a, n, 8); break;
    case 9: factor(a, n, 9); break;
    default: band < BAND_WIDE ? factor(a, n, band) : factor_wide(a, n, band);
    }
}

void band_solve(const lane *a, int n, int band, lane *x)
{
    switch (band) {
    case 6: solve(a, n, 6, x); break;
    case 7: solve(a, n, 7, x); break;
    case 8: solve(a, n, 8, x); break;
    case 9: solve(a, n, 9, x); break;
    default: band < BAND_WIDE ? solve(a, n, band, x) : solve_down(a, n, band, x);
    }
}

/* L D L^T: the diagonal holds the inverse of D. */
static inline void half_column(lane *pivot, int band, int last)
{
    const int width = band_half_width(band);
    lane inverse = pivot[0] = 1.0 / pivot[0];
    for (int j = 1; j <= last; j++) /* column k + j from its diagonal down; pivot still times D */
        take(pivot + j * width, pivot + j, pivot[j] * inverse, last - j + 1);
    for (int i = 1; i <= last; i++)
        pivot[i] *= inverse;
}

static void half_four(lane *pivot, int band)
{
    const int width = band_half_width(band);
    lane inverse[AT_ONCE];
    for (int p = 0; p < AT_ONCE; p++) {
        lane *own = pivot + p * width;
        inverse[p] = own[0] = 1.0 / own[0];
        for (int j = 1; p + j < AT_ONCE; j++)
            take(own + j * width, own + j, own[j] * inverse[p], band - j + 1);
    }
    lane *column = pivot + AT_ONCE * width;
    struct four by;
    for (int c = 0; c < band; c += 2, column += 2 * width) {
        int first = c / ROWS_AT_ONCE * ROWS_AT_ONCE; /* what stands above the diagonal is of no use */
        for (int p = 0; p < AT_ONCE; p++) {
            const lane *own = pivot + p * width + AT_ONCE - p;
            by.x[p] = own + first;
            by.t[p] = own[c] * inverse[p];
            by.u[p] = own[c + 1] * inverse[p];
        }
        if (c + 1 < band)
            take_twice(column + first - c, column + width + first - c - 1, &by, in_rows(band - first));
        else
            take_four(column + first - c, &by, in_rows(band - first));
    }
    for (int p = 0; p < AT_ONCE; p++)
        for (int i = 1; i <= band; i++)
            pivot[p * width + i] *= inverse[p];
}

static void half_factor_wide(lane *a, int n, int band)
{
    int k = 0;
    for (; k + AT_ONCE <= n - band; k += AT_ONCE)
        half_four(a + band_half_at(band, k, k), band);
    for (; k < n; k++)
        half_column(a + band_half_at(band, k, k), band, least(band, n - 1 - k));
}

/* The same from the other end, whose multipliers stand in the columns before, each in its row. */
static inline void half_upward(lane *pivot, int band)
{
    const int width = band_half_width(band);
    lane inverse = pivot[0] = 1.0 / pivot[0], row[BAND_WIDE];
    for (int i = 1; i <= band; i++)
        row[band - i] = pivot[i - i * width];
    for (int i = 1; i <= band; i++) {
        lane *column = pivot - i * width, share = row[band - i] * inverse;
        take(column, row + band - i, share, i);
        column[i] = share;
    }
}

static inline void half_factor(lane *a, int n, int band)
{
    const int width = band_half_width(band), ends = at_each_end(n, band), to = n - ends;
    for (int k = 0; k < ends; k++) {
        half_column(a + k * width, band, band);
        half_upward(a + (n - 1 - k) * width, band);
    }
    for (int k = ends; k < to; k++)
        half_column(a + k * width, band, least(band, to - 1 - k));
}

void band_half_factor(lane *a, int n, int band)
{
    switch (band) {
    case 6: half_factor(a, n, 6); break;
    case 7: half_factor(a, n, 7); break;
    case 8: half_factor(a, n, 8); break;
    case 9: half_factor(a, n, 9); break;
    default: band < BAND_WIDE ? half_factor(a, n, band) : half_factor_wide(a, n, band);
    }
}

/* Backward, what is known of x goes to all rows that want it rather than each row summing what it
 * wants: the same numbers in the same order for every row, but rows don't wait for one another's
 * sums. */
static inline void half_middle(const lane *a, int from, int to, int n, int band, lane *x)
{
    const int width = band_half_width(band);
    for (int k = from; k < to; k++)
        take(x + k + 1, a + k * width + 1, x[k], least(band, to - 1 - k));
    for (int k = 0; k < n; k++)
        x[k] *= a[k * width];
    for (int k = to - 1; k >= from; k--) {
        for (int i = 1; i <= least(band, k); i++)
            x[k - i] -= a[(k - i) * width + i] * x[k];
        take(x + to, a + k * width + to - k, x[k], least(band, n - 1 - k) - (to - 1 - k));
    }
}

static void half_solve_down(const lane *a, int n, int band, lane *x)
{
    half_middle(a + band_half_origin(band), 0, n, n, band, x);
}

LANE_INLINE void half_outward(const lane *a, int ends, int n, int band, lane *x)
{
    const int width = band_half_width(band);
    lane up[BAND_WIDE], down[BAND_WIDE];
    for (int i = 0; i < band; i++) {
        up[i] = x[ends - 1 - i];
        down[i] = x[n - ends + i];
    }
    int k = ends - 1;
    for (; k >= band; k--) {
        int m = n - 1 - k;
        const lane *column = a + k * width, *other = a + m * width;
        lane first = x[k] = up[0], last = x[m] = down[0];
        for (int i = 1; i < band; i++) {
            up[i - 1] = up[i] - column[i - i * width] * first;
            down[i - 1] = down[i] - other[i] * last;
        }
        up[band - 1] = x[k - band] - column[band - band * width] * first;
        down[band - 1] = x[m + band] - other[band] * last;
    }
    for (int left = band - 1; left >= 0; left--, k--) {
        int m = n - 1 - k;
        const lane *column = a + k * width, *other = a + m * width;
        lane first = x[k] = up[0], last = x[m] = down[0];
        for (int i = 1; i <= left; i++) {
            up[i - 1] = up[i] - column[i - i * width] * first;
            down[i - 1] = down[i] - other[i] * last;
        }
    }
}

LANE_INLINE void half_solve(const lane *a, int n, int band, lane *x)
{
    int ends = at_each_end(n, band);
    if (ends == 0) {
        half_solve_down(a, n, band, x);
        return;
    }
    solve_inward(a, band_half_width(band), 1 - band_half_width(band), ends, n, band, x);
    half_middle(a, ends, n - ends, n, band, x);
    half_outward(a, ends, n, band, x);
}

void band_half_solve(const lane *a, int n, int band, lane *x)
{
    switch (band) {
    case 6: half_solve(a, n, 6, x); break;
    case 7: half_solve(a, n, 7, x); break;
    case 8: half_solve(a, n, 8, x); break;
    case 9: half_solve(a, n, 9, x); break;
    default: band < BAND_WIDE ? half_solve(a, n, band, x) : half_solve_down(a, n, band, x);
    }
}
