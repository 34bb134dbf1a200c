/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_band.c - many/band: medians and ranges of what many members say.
 *
 * Outside the project stand GSL's quantiles, its normal and binomial distributions, and intervals
 * printed by Newcombe (1998), Statistics in Medicine 17, 857-872, method 3 [memory]. Those are for
 * 95 %, and band_chance is for 80 %: a solver written here from Wilson's own equation must give
 * Newcombe's numbers at 95 % before it judges band_chance at 80 %.
 */
#include "many/band.h"
#include "base/draw.h"
#include "lib/near.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_statistics_double.h>

enum { MOST = 300 };

static void says(const double *values, int count, double low, double mid, double high)
{
    double copy[MOST];
    memcpy(copy, values, (size_t)count * sizeof *copy);
    struct span got = band_of(copy, count);
    assert_near(got.low, low, 1e-12);
    assert_near(got.mid, mid, 1e-12);
    assert_near(got.high, high, 1e-12);
}

/* Definition 6 of Hyndman and Fan (1996): the k-th of n values in order is the k/(n+1) point. */
static void bands_worked_by_hand(void **state)
{
    (void)state;
    says((double[]){7}, 1, 7, 7, 7);
    says((double[]){4, 2}, 2, 2, 3, 4);
    says((double[]){40, 10, 30, 20}, 4, 10, 25, 40);
    says((double[]){5, 1, 4, 2, 3}, 5, 1, 3, 5);
    says((double[]){9, 8, 7, 6, 5, 4, 3, 2, 1}, 9, 1, 5, 9);
    says((double[]){10, 9, 8, 7, 6, 5, 4, 3, 2, 1}, 10, 1.1, 5.5, 9.9);
    says((double[]){-3, -3, -3, -3}, 4, -3, -3, -3);
}

static void bands_are_those_of_another_library(void **state)
{
    (void)state;
    double value[MOST];
    for (int count = 1; count <= MOST; count++) {
        for (int i = 0; i < count; i++)
            value[i] = 1000 * draw_normal(7, (uint32_t)count, (uint32_t)i, 0);
        struct span got = band_of(value, count);
        size_t n = (size_t)count;
        /* that library takes the k-th for the (k-1)/(n-1) point */
        double low = count < 9 ? 0 : (0.1 * (count + 1) - 1) / (count - 1);
        assert_near(got.low, gsl_stats_quantile_from_sorted_data(value, 1, n, low), 1e-9);
        assert_near(got.mid, gsl_stats_median_from_sorted_data(value, 1, n), 1e-9);
        assert_near(got.high, gsl_stats_quantile_from_sorted_data(value, 1, n, 1 - low), 1e-9);
    }
}

/* What a range promises: eight in ten of others lie in it, however many it was made of. */
static void another_draw_lies_in_the_range_eight_times_in_ten(void **state)
{
    (void)state;
    static const int counts[] = {9, 16, 32, 60, 200};
    enum { TRIES = 20000 };
    for (int k = 0; k < 5; k++) {
        int held = 0;
        for (int t = 0; t < TRIES; t++) {
            double value[MOST], other = draw_uniform(8, (uint32_t)k, (uint32_t)t, MOST);
            for (int i = 0; i < counts[k]; i++)
                value[i] = draw_uniform(8, (uint32_t)k, (uint32_t)t, (uint32_t)i);
            struct span range = band_of(value, counts[k]);
            held += other >= range.low && other <= range.high;
        }
        assert_near(held / (double)TRIES, 0.8, 4 * sqrt(0.8 * 0.2 / TRIES)); /* four standard errors */
    }
}

static void values_are_left_in_order(void **state)
{
    (void)state;
    double value[] = {3, NAN, -1, 8, NAN, -1, 0}, want[] = {-1, -1, 0, 3, 8};
    band_of(value, 7);
    for (int i = 0; i < 5; i++)
        assert_near(value[i], want[i], 0);
    assert_true(isnan(value[5]) && isnan(value[6]));
}

/* Of nineteen the ends are the second and the eighteenth in order, of ten they lie between two. */
static void never_lies_after_every_number(void **state)
{
    (void)state;
    double one[] = {NAN, 10, 1, 9, 2, 8, 3, 7, 4, 6, 5, 18, 11, 17, 12, 16, 13, 15, 14};
    struct span got = band_of(one, 19);
    assert_near(got.low, 2, 0);
    assert_near(got.mid, 10, 0);
    assert_near(got.high, 18, 0);
    double two[] = {NAN, 10, 1, 9, 2, 8, 3, 7, 4, 6, 5, NAN, 11, 17, 12, 16, 13, 15, 14};
    got = band_of(two, 19);
    assert_near(got.mid, 10, 0);
    assert_true(isnan(got.high));
    double between[] = {1, 2, 3, 4, NAN, 5, 6, 7, 8, 9};
    got = band_of(between, 10);
    assert_near(got.low, 1.1, 1e-12);
    assert_true(isnan(got.high));
    double most[] = {NAN, 1, NAN, 2, NAN, 3, NAN, 4, NAN, 5, NAN};
    got = band_of(most, 11);
    assert_near(got.low, 1.2, 1e-12);
    assert_true(isnan(got.mid) && isnan(got.high));
}

static void endless_values_have_bands_too(void **state)
{
    (void)state;
    double value[] = {INFINITY, 1, INFINITY, 2, INFINITY, 3, 4, 5, 6, 7, INFINITY, INFINITY};
    struct span got = band_of(value, 12);
    assert_near(got.low, 1.3, 1e-12);
    assert_near(got.mid, 6.5, 1e-12);
    assert_true(isinf(got.high) && got.high > 0);
}

static void nothing_has_no_band(void **state)
{
    (void)state;
    double none;
    struct span got = band_of(&none, 0);
    assert_true(isnan(got.low) && isnan(got.mid) && isnan(got.high));
    got = band_chance(0, 0);
    assert_true(isnan(got.low) && isnan(got.mid) && isnan(got.high));
}

/* ---- chances ---- */

/* Wilson's equation: the ends are the chances p whose distance from what was seen is z standard
 * deviations of p's own, (p - seen/n)^2 = z^2 p (1 - p) / n, here by bisection. */
static double wilson_end(int seen, int n, double z, bool upper)
{
    double share = (double)seen / n, near = share, far = upper ? 1 : 0;
    for (int turn = 0; turn < 200; turn++) {
        double p = (near + far) / 2;
        if ((p - share) * (p - share) < z * z * p * (1 - p) / n)
            near = p;
        else
            far = p;
    }
    return (near + far) / 2;
}

static void newcombe(int seen, int n, double low, double high)
{
    double z = gsl_cdf_ugaussian_Pinv(0.975);
    assert_near(wilson_end(seen, n, z, false), low, 0.00005);
    assert_near(wilson_end(seen, n, z, true), high, 0.00005);
}

static void the_judge_of_chances_finds_printed_intervals(void **state)
{
    (void)state;
    newcombe(81, 263, 0.2553, 0.3662);  /* Newcombe 1998, table I, method 3 [memory] */
    newcombe(15, 148, 0.0624, 0.1605);  /* the same [memory] */
    newcombe(0, 20, 0.0000, 0.1611);    /* the same [memory] */
    newcombe(1, 29, 0.0061, 0.1718);    /* the same [memory] */
}

static void chances_are_wilson_intervals_of_80_per_cent(void **state)
{
    (void)state;
    static const int members[] = {1, 2, 7, 64, 1000};
    double z = gsl_cdf_ugaussian_Pinv(0.9);
    for (int k = 0; k < 5; k++)
        for (int seen = 0, n = members[k]; seen <= n; seen++) {
            struct span got = band_chance(seen, n);
            assert_near(got.low, wilson_end(seen, n, z, false), 1e-12);
            assert_near(got.mid, (double)seen / n, 0);
            assert_near(got.high, wilson_end(seen, n, z, true), 1e-12);
        }
}

static void chances_stay_within_0_and_1(void **state)
{
    (void)state;
    for (int n = 1; n <= 200; n++) {
        struct span none = band_chance(0, n), all = band_chance(n, n);
        assert_true(none.low >= 0 && none.low < 1e-15 && none.high > 0 && none.high < 1);
        assert_true(all.high <= 1 && all.high > 1 - 1e-15 && all.low < 1 && all.low > 0);
        assert_near(none.high, 1 - all.low, 1e-15); /* seen and not seen mirror each other */
    }
}

/* Held against the binomial distribution: over all true chances, the intervals of 64 members hold
 * the truth in eight of ten cases, but for the graininess of counts, which is of the order of 1/64;
 * Wilson's intervals are near the nominal on average (Agresti and Coull 1998) [memory]. */
static void eight_in_ten_intervals_hold_the_truth(void **state)
{
    (void)state;
    enum { MEMBERS = 64, TRUTHS = 999 };
    double held = 0;
    for (int t = 1; t <= TRUTHS; t++) {
        double truth = t / (TRUTHS + 1.0);
        for (int seen = 0; seen <= MEMBERS; seen++) {
            struct span ends = band_chance(seen, MEMBERS);
            if (ends.low <= truth && truth <= ends.high)
                held += gsl_ran_binomial_pdf((unsigned)seen, truth, MEMBERS) / TRUTHS;
        }
    }
    assert_near(held, 0.8, 1.0 / MEMBERS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bands_worked_by_hand),
        cmocka_unit_test(bands_are_those_of_another_library),
        cmocka_unit_test(another_draw_lies_in_the_range_eight_times_in_ten),
        cmocka_unit_test(values_are_left_in_order),
        cmocka_unit_test(never_lies_after_every_number),
        cmocka_unit_test(endless_values_have_bands_too),
        cmocka_unit_test(nothing_has_no_band),
        cmocka_unit_test(the_judge_of_chances_finds_printed_intervals),
        cmocka_unit_test(chances_are_wilson_intervals_of_80_per_cent),
        cmocka_unit_test(chances_stay_within_0_and_1),
        cmocka_unit_test(eight_in_ten_intervals_hold_the_truth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
