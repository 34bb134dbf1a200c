/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_levels.c - the same digits on three instruction levels of one processor.
 *
 * A season uses its own exp and log and no fused multiply-add, so the copies compiled for AVX2 and for
 * AVX-512 must give every bit that the baseline copy gives.
 */
#include "run/season.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

#ifdef SEASON_AVX2
typedef bool season_copy(struct record record[1], const struct setup *setup, struct trouble *why);

static void compare(season_copy *other)
{
    struct trouble why = {0};
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct curve sky;
    assert_true(scenario_read(scenario, "scenarios/nettle-yard.yaml", &why));
    assert_true(climate_curve(&sky, scenario, 1, &why));
    struct param param = param_usual();
    struct possible possible;
    possible_usual(&possible, scenario, &param);
    const struct curve *skies[] = {&sky};
    struct setup setup = {.scenario = scenario, .sky = skies, .possible = &possible};
    struct record plain, wide;
    assert_true(season_run_x1(&plain, &setup, &why));
    assert_true(other(&wide, &setup, &why));
    assert_int_equal(plain.days, wide.days);
    for (int d = 0; d < plain.days; d++)
        assert_memory_equal(&plain.day[d], &wide.day[d], sizeof plain.day[d]);
    assert_memory_equal(plain.flux_total, wide.flux_total, sizeof plain.flux_total);
    record_free(&plain);
    record_free(&wide);
    curve_free(&sky);
    free(scenario);
}
#endif

static void every_bit_of_a_season_is_the_same_with_and_without_avx2(void **state)
{
    (void)state;
#ifdef SEASON_AVX2
    if (__builtin_cpu_supports("avx2")) {
        compare(season_run_x1_avx2);
        return;
    }
#endif
    skip();
}

static void every_bit_of_a_season_is_the_same_with_and_without_avx512(void **state)
{
    (void)state;
#ifdef SEASON_AVX2
    if (season_has_avx512()) {
        compare(season_run_x1_avx512);
        return;
    }
#endif
    skip();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_bit_of_a_season_is_the_same_with_and_without_avx2),
        cmocka_unit_test(every_bit_of_a_season_is_the_same_with_and_without_avx512),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
