/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_draw.c - base/draw against known answers, the C library and GSL. */
#include "base/draw.h"
#include "lib/near.h"
#include <gsl/gsl_cdf.h>

static void words_are(const uint32_t counter[4], const uint32_t key[2], const uint32_t want[4])
{
    uint32_t words[4];
    draw_words(counter, key, words);
    for (int i = 0; i < 4; ++i)
        assert_int_equal(words[i], want[i]);
}

/* [memory] Known answers that accompany Salmon, Moraes, Dror and Shaw (2011): counter and key of
 * zeros, of ones, and of the digits of pi. A wrong constant or round changes every bit. */
static void known_answer_for_zeros(void **state)
{
    (void)state;
    words_are((uint32_t[]){0, 0, 0, 0}, (uint32_t[]){0, 0},
              (uint32_t[]){0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
}

static void known_answer_for_ones(void **state)
{
    (void)state;
    words_are((uint32_t[]){0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
              (uint32_t[]){0xffffffff, 0xffffffff},
              (uint32_t[]){0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
}

static void known_answer_for_the_digits_of_pi(void **state)
{
    (void)state;
    words_are((uint32_t[]){0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
              (uint32_t[]){0xa4093822, 0x299f31d0},
              (uint32_t[]){0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

/* [derived] from the first known answer: the first 53 bits of 0xe169c58d6627e8d5, the last set */
static void a_uniform_number_is_made_of_the_first_two_words(void **state)
{
    (void)state;
    double want = (double)(0xe169c58d6627e8d5u >> 11 | 1u) / 9007199254740992.0;
    assert_near(draw_uniform(0, 0, 0, 0), want, 0.0);
}

static void a_uniform_number_is_an_odd_multiple_of_the_smallest_step(void **state)
{
    (void)state;
    for (uint32_t i = 0; i < 64; ++i)
        assert_near(fmod(draw_uniform(11, i, 0, 0) * 0x1p53, 2.0), 1.0, 0.0);
}

static void each_of_the_five_keys_matters(void **state)
{
    (void)state;
    double first = draw_uniform(7, 1, 2, 3);
    assert_near(draw_uniform(7, 1, 2, 3), first, 0.0);
    assert_true(draw_uniform(8, 1, 2, 3) != first);
    assert_true(draw_uniform(7 + (UINT64_C(1) << 32), 1, 2, 3) != first);
    assert_true(draw_uniform(7, 2, 2, 3) != first);
    assert_true(draw_uniform(7, 1, 3, 3) != first);
    assert_true(draw_uniform(7, 1, 2, 4) != first);
}

/* Pearson's test over 256 equal boxes, 2^18 numbers, each of the three counters run through: chi
 * square of 255 degrees lies between its 0.01 % and 99.99 % points (GSL's gamma function). */
static void uniform_numbers_fill_the_interval_evenly(void **state)
{
    (void)state;
    enum { BOXES = 256, DRAWS = 1 << 18 };
    for (int which = 0; which < 3; ++which) {
        double count[BOXES] = {0}, chi_square = 0.0;
        for (uint32_t i = 0; i < DRAWS; ++i)
            count[(int)(BOXES * draw_uniform(20251018, which == 0 ? i : 5, which == 1 ? i : 6,
                                             which == 2 ? i : 7))] += 1.0;
        for (int i = 0; i < BOXES; ++i)
            chi_square += pow(count[i] - DRAWS / BOXES, 2.0) / (DRAWS / BOXES);
        assert_true(chi_square > gsl_cdf_chisq_Pinv(1e-4, BOXES - 1));
        assert_true(chi_square < gsl_cdf_chisq_Qinv(1e-4, BOXES - 1));
    }
}

static void neighbouring_counters_do_not_correlate(void **state)
{
    (void)state;
    enum { DRAWS = 1 << 16 };
    double sum = 0.0;
    for (uint32_t i = 0; i < DRAWS; ++i)
        sum += draw_normal(1, i, 0, 0) * draw_normal(1, i + 1, 0, 0);
    assert_near(sum / DRAWS, 0.0, 4.0 / sqrt(DRAWS)); /* 4 standard errors */
}

/* Standard errors of mean, variance, skewness and kurtosis of n numbers: sqrt of 1, 2, 6, 24 over n
 * [memory: any handbook of statistics]; four of each are allowed. */
static void normal_numbers_have_the_moments_of_the_normal_distribution(void **state)
{
    (void)state;
    enum { DRAWS = 1 << 17 };
    double moment[5] = {0};
    for (uint32_t i = 0; i < DRAWS; ++i) {
        double x = draw_normal(3, 9, i, 4);
        for (int k = 1; k <= 4; ++k)
            moment[k] += pow(x, k) / DRAWS;
    }
    assert_near(moment[1], 0.0, 4.0 * sqrt(1.0 / DRAWS));
    assert_near(moment[2], 1.0, 4.0 * sqrt(2.0 / DRAWS));
    assert_near(moment[3], 0.0, 4.0 * sqrt(15.0 / DRAWS)); /* raw third moment: variance 15 */
    assert_near(moment[4], 3.0, 4.0 * sqrt(96.0 / DRAWS)); /* raw fourth: 105 - 9 */
}

/* [memory] Tables of the normal distribution: 97.5 % at 1.959963985, 99.9 % at 3.090232306 */
static void quantiles_are_those_of_the_tables(void **state)
{
    (void)state;
    assert_near(draw_quantile(0.5), 0.0, 0.0);
    assert_near(draw_quantile(0.975), 1.959963985, 5e-10);
    assert_near(draw_quantile(0.999), 3.090232306, 5e-10);
}

/* erfc of the C library as an inverse: chance = erfc(-x / sqrt 2) / 2, out to 37 standard
 * deviations. Asked of x is 1e-15 of its size, so of the chance x^2 as much, since out there
 * d ln chance = -x dx; 2e-15 more for erfc itself. */
static void quantiles_undo_erfc_from_the_far_tail_to_the_middle(void **state)
{
    (void)state;
    for (int i = 1; i <= 1000; ++i) {
        double chance = pow(10.0, -0.3 * i) * 0.99;
        double x = draw_quantile(chance);
        assert_near(0.5 * erfc(-x * sqrt(0.5)) / chance, 1.0, 2e-15 + 1e-15 * x * x);
    }
}

/* GSL is a second program text of the same function; 5e-15 of the value is asked. */
static void quantiles_agree_with_gsl(void **state)
{
    (void)state;
    for (int i = 1; i < 4000; ++i) {
        double chance = i / 4000.0, want = gsl_cdf_ugaussian_Pinv(chance);
        assert_near(draw_quantile(chance), want, 5e-15 * (1.0 + fabs(want)));
    }
}

static void quantiles_rise_and_mirror_across_the_joins(void **state)
{
    (void)state;
    const double joins[] = {0.075, 0.925, 1.3887943864964021e-11}; /* 0.5 -+ 0.425; exp(-25) */
    for (int i = 0; i < 3; ++i) {
        double below = draw_quantile(joins[i] * (1.0 - 1e-9));
        double above = draw_quantile(joins[i] * (1.0 + 1e-9));
        assert_true(below < above);
        assert_near(above - below, 0.0, 1e-7);
    }
    assert_near(draw_quantile(0.25), -draw_quantile(0.75), 0.0);
}

static void the_ends_of_the_interval_have_no_quantile(void **state)
{
    (void)state;
    assert_true(isnan(draw_quantile(0.0)));
    assert_true(isnan(draw_quantile(1.0)));
    assert_true(isnan(draw_quantile(-0.1)));
    assert_true(isnan(draw_quantile(NAN)));
    assert_true(isfinite(draw_quantile(0x1p-53)));
    assert_true(isfinite(draw_quantile(1.0 - 0x1p-53)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(known_answer_for_zeros),
        cmocka_unit_test(known_answer_for_ones),
        cmocka_unit_test(known_answer_for_the_digits_of_pi),
        cmocka_unit_test(a_uniform_number_is_made_of_the_first_two_words),
        cmocka_unit_test(a_uniform_number_is_an_odd_multiple_of_the_smallest_step),
        cmocka_unit_test(each_of_the_five_keys_matters),
        cmocka_unit_test(uniform_numbers_fill_the_interval_evenly),
        cmocka_unit_test(neighbouring_counters_do_not_correlate),
        cmocka_unit_test(normal_numbers_have_the_moments_of_the_normal_distribution),
        cmocka_unit_test(quantiles_are_those_of_the_tables),
        cmocka_unit_test(quantiles_undo_erfc_from_the_far_tail_to_the_middle),
        cmocka_unit_test(quantiles_agree_with_gsl),
        cmocka_unit_test(quantiles_rise_and_mirror_across_the_joins),
        cmocka_unit_test(the_ends_of_the_interval_have_no_quantile),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
