/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/test_fitted.c - how well the folds of a fit know a constant. */
#include "field/fitted.c"
#include "lib/near.h"

static void folds_that_agree_leave_nothing_open(void **state)
{
    (void)state;
    const double fold[FITTED_FOLDS] = {0.2, 0.2, 0.2, 0.2, 0.2};
    assert_near(fitted_within(fold), 1, 1e-12);
}

/* Where a fit is a mean of five measurements of the logarithm, folds are the means of four of them, and the
 * mean's standard error is sd/sqrt(5): [derived] of 1, 2, 4, 5, 8 the sd is sqrt(7.5). */
static void a_jackknife_of_means_is_the_means_own_error(void **state)
{
    (void)state;
    static const double measured[FITTED_FOLDS] = {1, 2, 4, 5, 8};
    double fold[FITTED_FOLDS];
    for (int k = 0; k < FITTED_FOLDS; k++)
        fold[k] = exp((20 - measured[k]) / 4);
    double even = log(fitted_within(fold)); /* half width of an even distribution of that deviation */
    assert_near(even / sqrt(3), sqrt(7.5) / sqrt(5), 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(folds_that_agree_leave_nothing_open),
        cmocka_unit_test(a_jackknife_of_means_is_the_means_own_error),
    };
    return cmocka_run_group_tests_name("field/fitted", tests, NULL, NULL);
}
