/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_yield.c - what there is to spread, against handbook arithmetic. */
#include "ask/yield.h"
#include "lib/near.h"

/* One cubic yard covers 324 square feet an inch deep, one cubic metre 40 m2 at 2.5 cm (spreading tables
 * of handbooks [trade]; 27 ft3 / (1/12 ft) [derived]). */
static void a_cubic_yard_covers_324_square_feet_an_inch_deep(void **state)
{
    (void)state;
    struct plan_need need = {.is = true, .bed_depth_m = 0.0254};
    double yard_m3 = 0.9144 * 0.9144 * 0.9144, foot2_m2 = 0.3048 * 0.3048;
    assert_near(yield_bed_m2(&need, yard_m3) / foot2_m2, 324, 1e-9);
    need.bed_depth_m = 0.025;
    assert_near(yield_bed_m2(&need, 1), 40, 1e-12);
}

/* 1.0 m3 at the start of which 30 to 45 % is left covers 12 to 18 m2 at 2.5 cm [calculated]. */
static void a_cubic_metre_laid_covers_twelve_to_eighteen_square_metres(void **state)
{
    (void)state;
    struct record_day day[2] = {{.volume_m3 = 1.0}, {.volume_m3 = 0.30}};
    struct record record = {.days = 2, .day = day};
    struct plan_need need = {.is = true, .bed_depth_m = 0.025, .bed_area_m2 = 14.4};
    assert_near(yield_of(&record, YIELD_OF_LAID, 2), 0.30, 1e-12);
    assert_near(yield_bed_m2(&need, yield_of(&record, YIELD_VOLUME_M3, 2)), 12, 1e-9);
    assert_near(yield_bed_share(&need, yield_of(&record, YIELD_VOLUME_M3, 2)), 12 / 14.4, 1e-9);
    day[1].volume_m3 = 0.45;
    assert_near(yield_bed_m2(&need, yield_of(&record, YIELD_VOLUME_M3, 2)), 18, 1e-9);
    assert_near(yield_bed_share(&need, 0.45), 1, 0); /* more than enough is all of them */
}

static void what_the_sieve_keeps_is_a_share_of_mass_and_volume(void **state)
{
    (void)state;
    struct record_day day = {.volume_m3 = 0.5, .wet_kg = 250, .sticks_share = 0.1, .carbon_kg = 40,
                             .nitrogen_kg = 2};
    struct record record = {.days = 1, .day = &day};
    assert_near(yield_of(&record, YIELD_STICKS_KG, 1), 25, 1e-9);
    assert_near(yield_of(&record, YIELD_STICKS_M3, 1), 0.05, 1e-12);
    assert_near(yield_of(&record, YIELD_C_TO_N, 1), 20, 1e-12);
    struct span first = yield_first_year_kg((struct span){1, 2, 3});
    assert_near(first.low, 0.05, 1e-12); /* 5 to 20 % of it [trade] */
    assert_near(first.mid, 0.2, 1e-12);
    assert_near(first.high, 0.6, 1e-12);
}

static void where_nothing_was_said_nothing_is_known(void **state)
{
    (void)state;
    struct record none = {0};
    struct plan_need need = {.is = true};
    assert_true(isnan(yield_of(&none, YIELD_VOLUME_M3, 0)));
    assert_true(isnan(yield_of(&none, YIELD_VOLUME_M3, 1)));
    assert_true(isnan(yield_bed_m2(&need, 1)));
    assert_true(isnan(yield_bed_share(&need, 1)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cubic_yard_covers_324_square_feet_an_inch_deep),
        cmocka_unit_test(a_cubic_metre_laid_covers_twelve_to_eighteen_square_metres),
        cmocka_unit_test(what_the_sieve_keeps_is_a_share_of_mass_and_volume),
        cmocka_unit_test(where_nothing_was_said_nothing_is_known),
    };
    return cmocka_run_group_tests_name("ask/yield", tests, NULL, NULL);
}
