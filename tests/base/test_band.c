/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_band.c - banded solutions against GSL's dense ones. */
#include "base/band.h"
#include "lib/near.h"
#include <gsl/gsl_linalg.h>

enum { MOST = 60, WIDEST = 24 };

static double chance(uint64_t *seed)
{
    *seed = *seed * 48271 % 2147483647;
    return (double)*seed / 2147483647.0;
}

static int apart(int i, int j) { return i < j ? j - i : i - j; }

/* A balance: columns weakly dominant, as of masses that only change places and leak a little. */
static void fill(gsl_matrix *dense, int n, int band, bool symmetric, uint64_t *seed)
{
    gsl_matrix_set_zero(dense);
    for (int i = 0; i < n; i++)
        for (int j = 0; j < i; j++)
            if (apart(i, j) <= band) {
                double up = chance(seed), down = symmetric ? up : chance(seed);
                gsl_matrix_set(dense, (size_t)i, (size_t)j, -down);
                gsl_matrix_set(dense, (size_t)j, (size_t)i, -up);
            }
    for (int j = 0; j < n; j++) {
        double sum = 0.01 + 0.1 * chance(seed);
        for (int i = 0; i < n; i++)
            sum -= i == j ? 0 : gsl_matrix_get(dense, (size_t)i, (size_t)j);
        gsl_matrix_set(dense, (size_t)j, (size_t)j, sum);
    }
}

/* Solves by GSL: LU with exchange of rows. */
static void solve_dense(const gsl_matrix *dense, int n, const double *right, double *answer)
{
    gsl_matrix *copy = gsl_matrix_alloc((size_t)n, (size_t)n);
    gsl_permutation *order = gsl_permutation_alloc((size_t)n);
    int sign;
    gsl_matrix_memcpy(copy, dense);
    gsl_linalg_LU_decomp(copy, order, &sign);
    gsl_vector_const_view b = gsl_vector_const_view_array(right, (size_t)n);
    gsl_vector_view x = gsl_vector_view_array(answer, (size_t)n);
    gsl_linalg_LU_solve(copy, order, &b.vector, &x.vector);
    gsl_permutation_free(order);
    gsl_matrix_free(copy);
}

static void pack(const gsl_matrix *dense, int n, int band, bool half, lane *a)
{
    for (int j = 0; j < n; j++)
        for (int i = half ? j : 0; i < n; i++)
            if (apart(i, j) <= band)
                a[half ? band_half_at(band, i, j) : band_at(band, i, j)] =
                    lane_of(gsl_matrix_get(dense, (size_t)i, (size_t)j));
}

struct system {
    gsl_matrix *dense;
    double right[MOST], want[MOST];
    lane a[MOST * (2 * WIDEST + 16)], x[MOST];
};

static void make(struct system *s, int n, int band, bool symmetric, uint64_t *seed)
{
    memset(s, 0, sizeof *s);
    s->dense = gsl_matrix_alloc((size_t)n, (size_t)n);
    fill(s->dense, n, band, symmetric, seed);
    for (int i = 0; i < n; i++) {
        s->right[i] = chance(seed) - 0.5;
        s->x[i] = lane_of(s->right[i]);
    }
    solve_dense(s->dense, n, s->right, s->want);
    pack(s->dense, n, band, symmetric, s->a);
}

static void compare(struct system *s, int n)
{
    double most = 0;
    for (int i = 0; i < n; i++)
        most = fmax(most, fabs(s->want[i]));
    for (int i = 0; i < n; i++)
        for (int m = 0; m < LANES; m++)
            assert_near(lane_get(s->x[i], m), s->want[i], 1e-11 * most);
    gsl_matrix_free(s->dense);
}

/* Every band that is written out and others, systems larger and smaller than the band. */
static void banded_solution_is_gsls_dense_one(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int band = 0; band <= WIDEST; band++) /* 0: nothing but a diagonal */
        for (int n = 1; n <= MOST; n += n < 15 ? 1 : 15) {
            struct system s;
            make(&s, n, band, false, &seed);
            band_factor(s.a, n, band);
            band_solve(s.a, n, band, s.x);
            compare(&s, n);
        }
}

static void symmetric_solution_is_gsls_dense_one(void **state)
{
    (void)state;
    uint64_t seed = 6;
    for (int band = 0; band <= WIDEST; band++) /* 0: nothing but a diagonal */
        for (int n = 1; n <= MOST; n += n < 15 ? 1 : 15) {
            struct system s;
            make(&s, n, band, true, &seed);
            band_half_factor(s.a, n, band);
            band_half_solve(s.a, n, band, s.x);
            compare(&s, n);
        }
}

/* Factors serve again and again. */
static void factors_serve_for_other_right_hand_sides(void **state)
{
    (void)state;
    uint64_t seed = 8;
    struct system s;
    make(&s, MOST, 9, false, &seed);
    band_factor(s.a, MOST, 9);
    band_solve(s.a, MOST, 9, s.x);
    for (int i = 0; i < MOST; i++)
        s.x[i] = lane_of(2 * s.right[i]);
    band_solve(s.a, MOST, 9, s.x);
    for (int i = 0; i < MOST; i++)
        s.want[i] *= 2;
    compare(&s, MOST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(banded_solution_is_gsls_dense_one),
        cmocka_unit_test(symmetric_solution_is_gsls_dense_one),
        cmocka_unit_test(factors_serve_for_other_right_hand_sides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
