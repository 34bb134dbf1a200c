/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_least.c - ask/least against going through everything there is.
 *
 * Coefficients are small whole numbers, so that both sides of a condition are exact and neither
 * search can hide behind rounding.
 */
#include "ask/least.h"
#include "base/draw.h"
#include "lib/near.h"

enum { KINDS = 5, ROWS = 4, MOST = 6 };

static int whole(uint32_t a, uint32_t b, uint32_t c, int low, int high)
{
    return low + (int)(draw_uniform(7, a, b, c) * (high - low + 1));
}

static struct least made(uint32_t trial)
{
    struct least least = {.kinds = KINDS, .rows = ROWS, .parts = 2};
    for (int r = 0; r < ROWS; r++) {
        least.limit[r] = whole(trial, 50, (uint32_t)r, -40, 20);
        for (int k = 0; k < KINDS; k++)
            least.use[r][k] = whole(trial, (uint32_t)r, (uint32_t)k, -6, 4);
    }
    for (int k = 0; k < KINDS; k++) {
        least.cost[k] = whole(trial, 60, (uint32_t)k, 1, 3);
        least.fetch[k] = k == KINDS - 1 ? 0 : whole(trial, 61, (uint32_t)k, 0, 4);
        least.most[k] = whole(trial, 62, (uint32_t)k, 0, MOST);
    }
    least.cost[KINDS - 1] = 0.5;
    return least;
}

static bool meets(const struct least *least, const int n[KINDS])
{
    int parts = 0;
    for (int k = 0; k < KINDS - 1; k++)
        parts += n[k] > 0;
    for (int r = 0; r < ROWS; r++) {
        double sum = 0;
        for (int k = 0; k < KINDS; k++)
            sum += least->use[r][k] * n[k];
        if (sum > least->limit[r])
            return false;
    }
    return parts <= least->parts;
}

static double cost_of(const struct least *least, const int n[KINDS])
{
    double cost = 0;
    for (int k = 0; k < KINDS; k++)
        cost += n[k] * least->cost[k] + (n[k] > 0 ? least->fetch[k] : 0);
    return cost;
}

/* All of them, one by one. */
static double cheapest(const struct least *least)
{
    double best = INFINITY;
    int n[KINDS] = {0};
    for (int k = 0; k < KINDS;) {
        if (meets(least, n))
            best = fmin(best, cost_of(least, n));
        for (k = 0; k < KINDS && n[k] == least->most[k]; k++)
            n[k] = 0;
        if (k < KINDS)
            n[k]++;
    }
    return best;
}

static void it_is_as_cheap_as_the_cheapest_of_all(void **state)
{
    (void)state;
    int found = 0, none = 0;
    for (uint32_t trial = 0; trial < 400; trial++) {
        struct least least = made(trial);
        int count[LEAST_KINDS];
        double want = cheapest(&least);
        if (!least_find(&least, count)) {
            assert_true(isinf(want));
            none++;
            continue;
        }
        assert_true(meets(&least, count));
        assert_near(cost_of(&least, count), want, 0);
        for (int k = 0; k < KINDS; k++)
            assert_in_range(count[k], 0, least.most[k]);
        found++;
    }
    /* both kinds of trial were there */
    assert_true(found > 50 && none > 50);
}

static void nothing_is_added_where_nothing_is_wanting(void **state)
{
    (void)state;
    struct least least = {.kinds = 2, .rows = 1, .parts = 1, .use = {{-1, -1}}, .limit = {0},
                          .cost = {1, 1}, .most = {9, 9}};
    int count[LEAST_KINDS];
    assert_true(least_find(&least, count));
    assert_int_equal(count[0] + count[1], 0);
}

/* 3 x 0.1 is not less than 0.3 in binary, and must count as reaching it. */
static void a_bound_reached_but_for_rounding_is_reached(void **state)
{
    (void)state;
    struct least least = {.kinds = 1, .rows = 1, .use = {{-0.1}}, .limit = {-0.3}, .cost = {1},
                          .most = {9}};
    int count[LEAST_KINDS];
    assert_true(least_find(&least, count));
    assert_int_equal(count[0], 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_as_cheap_as_the_cheapest_of_all),
        cmocka_unit_test(nothing_is_added_where_nothing_is_wanting),
        cmocka_unit_test(a_bound_reached_but_for_rounding_is_reached),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
