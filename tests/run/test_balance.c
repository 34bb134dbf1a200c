/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_balance.c - what a step knows of a cell's pools, on a pile that has stood for a week: sums taken
 * again here, and the series made of them against the closed form it stands for.
 */
#include "run/standing.h"

static struct standing *week_old(void)
{
    struct standing *s = standing_open("tests/bench/hot-boards.yaml");
    standing_build(s, 7);
    balance_store(&s->setting.balance);
    return s;
}

static void moments_are_sums_of_carbon_times_powers_of_its_rate(void **state)
{
    (void)state;
    struct standing *s = week_old();
    const struct balance *b = &s->setting.balance;
    assert_true(b->pile->mesh->cells > 10 && b->pile->stuffs > 1);
    for (int c = 0; c < b->pile->mesh->cells; c++)
        for (int k = 0; k < POOLS; k++)
            for (int j = 0; j < DECAY_MOMENTS; j++) {
                double sum = 0;
                for (int i = 0; i < b->pile->stuffs; i++)
                    sum += lane_get(pile_pool(b->pile, i, (enum pool)k)[c], 0) *
                           pow(lane_get(b->pile->stuff[i].rate_per_d[k], 0), j + 1);
                assert_true(sum > 0);
                assert_near(b->store.moment[k][j][c], sum, 1e-13 * sum);
            }
    standing_free(s);
}

/* sum C k exp(-k th) by four terms of its series is off by less than the fifth, sum C k (k th)^4/24, which bounds
 * an alternating series of falling terms [derived: Leibniz]. */
static void the_series_of_a_step_is_within_its_next_term_of_the_closed_form(void **state)
{
    (void)state;
    struct standing *s = week_old();
    const struct balance *b = &s->setting.balance;
    assert_true(b->pile->mesh->cells > 10 && b->pile->stuffs > 1);
    for (int c = 0; c < b->pile->mesh->cells; c++)
        for (int k = 0; k < POOLS; k++)
            for (double clock_d = 0.01; clock_d < 0.2; clock_d *= 2) {
                lane moment[DECAY_MOMENTS];
                double exact = 0, next = 0;
                for (int j = 0; j < DECAY_MOMENTS; j++)
                    moment[j] = b->store.moment[k][j][c];
                for (int i = 0; i < b->pile->stuffs; i++) {
                    double carbon = lane_get(pile_pool(b->pile, i, (enum pool)k)[c], 0);
                    double rate = lane_get(b->pile->stuff[i].rate_per_d[k], 0);
                    exact += carbon * rate * exp(-rate * clock_d);
                    next += carbon * rate * pow(rate * clock_d, 4) / 24;
                }
                assert_near(decay_now(moment, lane_of(clock_d)), exact, next + 1e-13 * exact);
            }
    standing_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments_are_sums_of_carbon_times_powers_of_its_rate),
        cmocka_unit_test(the_series_of_a_step_is_within_its_next_term_of_the_closed_form),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
