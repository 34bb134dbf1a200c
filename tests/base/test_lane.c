/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_lane.c - exp, log and masks of base/lane against the C library's long double. */
#include "base/lane.h"
#include "lib/near.h"
#include <float.h>

enum { ARGUMENTS = 400000 };

/* One number from a cell's worth of members. */
static double exp_of(double x) { return lane_get(lane_exp(lane_of(x)), 0); }
static double log_of(double x) { return lane_get(lane_log(lane_of(x)), 0); }

/* size of the last place of a value that long double gives */
static double last_place(long double value)
{
    int power;
    frexpl(value, &power);
    return ldexp(1.0, power - DBL_MANT_DIG);
}

/* the worst error over a range, in last places (and 1e-16 of the value, as the header says) */
static double worst_exp(double low, double high)
{
    double worst = 0;
    for (int i = 0; i <= ARGUMENTS; i++) {
        double x = low + (high - low) * i / ARGUMENTS;
        long double want = expl(x);
        double error = (double)fabsl(exp_of(x) - want);
        worst = fmax(worst, error / (last_place(want) + 1e-16 * (double)want));
    }
    return worst;
}

static void exponential_is_within_its_bound_over_its_range(void **state)
{
    (void)state;
    assert_true(worst_exp(-700, 700) <= 1);
    assert_true(worst_exp(-40, 40) <= 1);
    assert_true(worst_exp(-1, 1) <= 1);
    assert_true(worst_exp(-1e-6, 1e-6) <= 1);
}

static void exponential_of_nothing_is_one_exactly(void **state)
{
    (void)state;
    assert_near(exp_of(0), 1, 0);
    assert_near(exp_of(-0.0), 1, 0);
}

static void exponential_never_falls(void **state)
{
    (void)state;
    double before = 0;
    for (double x = -3; x < 3; x += 1.7e-5) {
        double now = exp_of(x);
        assert_true(now >= before * (1 - DBL_EPSILON));
        before = now;
    }
}

/* Far from one by the logarithm's own last place; near one, where it is nearly nothing, by the
 * argument's, which is all that can be asked of a sum of e ln 2 and a series: 2 places. */
static double worst_log(double low_power, double high_power)
{
    double worst = 0;
    for (int i = 0; i <= ARGUMENTS; i++) {
        double x = exp2(low_power + (high_power - low_power) * i / ARGUMENTS);
        long double want = logl(x);
        double error = (double)fabsl(log_of(x) - want);
        worst = fmax(worst, error / last_place(want));
    }
    return worst;
}

static void logarithm_is_within_two_last_places(void **state)
{
    (void)state;
    assert_true(worst_log(-1020, 1020) <= 2);
    assert_true(worst_log(-30, 30) <= 2);
    assert_true(worst_log(-2, 2) <= 2);
    assert_true(worst_log(-0.4, 0.4) <= 2);
}

static void logarithm_of_one_is_nothing_exactly(void **state)
{
    (void)state;
    assert_near(log_of(1), 0, 0);
    assert_near(log_of(2), 0.69314718055994531, 0);
    assert_near(log_of(DBL_MIN), -708.39641853226408, 2e-13);
    assert_near(log_of(DBL_MAX), 709.78271289338397, 2e-13);
}

static void logarithm_undoes_the_exponential(void **state)
{
    (void)state;
    for (double x = -650; x < 650; x += 0.37)
        assert_near(log_of(exp_of(x)), x, 4e-16 * (1 + fabs(x)));
}

static void masks_are_all_ones_or_none(void **state)
{
    (void)state;
    lane one = lane_of(1), two = lane_of(2), nothing = lane_of(NAN);
    for (int i = 0; i < LANES; i++) {
        assert_true(lane_mask_get(lane_less(one, two), i) == -1);
        assert_true(lane_mask_get(lane_less(two, one), i) == 0);
        assert_true(lane_mask_get(lane_less(one, one), i) == 0);
        assert_true(lane_mask_get(lane_at_most(one, one), i) == -1);
        assert_true(lane_mask_get(lane_less(one, nothing), i) == 0);
        assert_true(lane_mask_get(lane_less(nothing, one), i) == 0);
        assert_true(lane_mask_get(~lane_less(one, two), i) == 0);
    }
    assert_true(lane_any(lane_less(one, two)));
    assert_false(lane_any(lane_less(two, one)));
}

/* What is not chosen may be infinite or no number at all; it leaves no trace. */
static void choice_takes_one_and_forgets_the_other(void **state)
{
    (void)state;
    lane_mask yes = lane_less(lane_of(1), lane_of(2)), no = ~yes;
    assert_near(lane_get(lane_if(yes, lane_of(3), lane_of(NAN)), 0), 3, 0);
    assert_near(lane_get(lane_if(no, lane_of(INFINITY), lane_of(4)), 0), 4, 0);
    assert_near(lane_get(lane_max(lane_of(-1), lane_of(2)), 0), 2, 0);
    assert_near(lane_get(lane_min(lane_of(-1), lane_of(2)), 0), -1, 0);
    assert_near(lane_get(lane_abs(lane_of(-2.5)), 0), 2.5, 0);
    assert_near(lane_get(lane_sqrt(lane_of(2)), 0), sqrt(2), 0);
}

static void one_member_is_put_and_got(void **state)
{
    (void)state;
    lane x = lane_of(7);
    lane_put(&x, LANES - 1, 8);
    assert_near(lane_get(x, LANES - 1), 8, 0);
    assert_near(lane_get(x, 0), LANES == 1 ? 8 : 7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exponential_is_within_its_bound_over_its_range),
        cmocka_unit_test(exponential_of_nothing_is_one_exactly),
        cmocka_unit_test(exponential_never_falls),
        cmocka_unit_test(logarithm_is_within_two_last_places),
        cmocka_unit_test(logarithm_of_one_is_nothing_exactly),
        cmocka_unit_test(logarithm_undoes_the_exponential),
        cmocka_unit_test(masks_are_all_ones_or_none),
        cmocka_unit_test(choice_takes_one_and_forgets_the_other),
        cmocka_unit_test(one_member_is_put_and_got),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
