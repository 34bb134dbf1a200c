/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/pile/test_flux.c - pile/flux: names, units and budget lines of every movement. */
#include "pile/flux.h"
#include "lib/near.h"

static void every_movement_has_its_own_name_a_line_and_a_meaning(void **state)
{
    (void)state;
    for (int i = 0; i < FLUXES; i++) {
        assert_true(strlen(flux_rows[i].name) > 0 && strlen(flux_rows[i].group) > 0);
        assert_true(strlen(flux_rows[i].meaning) > 10);
        for (int j = 0; j < i; j++)
            assert_string_not_equal(flux_rows[i].name, flux_rows[j].name);
    }
}

static void rows_stand_in_the_order_of_their_numbers(void **state)
{
    (void)state;
    assert_string_equal(flux_rows[FLUX_decay_heat].name, "decay_heat");
    assert_string_equal(flux_rows[FLUX_leachate_water].name, "leachate_water");
    assert_string_equal(flux_rows[FLUXES - 1].name, "removed_seeds");
}

static void energy_is_told_in_megajoules_and_matter_in_kilograms(void **state)
{
    (void)state;
    assert_string_equal(flux_unit(FLUX_decay_heat), "MJ");
    assert_near(3.6e6 * flux_factor(FLUX_decay_heat), 3.6, 1e-12); /* a kilowatt hour, by SI */
    assert_string_equal(flux_unit(FLUX_rain_water), "kg");
    assert_near(flux_factor(FLUX_rain_water), 1.0, 0.0);
    assert_string_equal(flux_unit(FLUX_co2_carbon), "kg");
    assert_string_equal(flux_unit(FLUX_ammonia), "kg");
    assert_string_equal(flux_unit(FLUX_killed_seeds), "seeds");
    assert_near(flux_factor(FLUX_killed_seeds), 1.0, 0.0);
}

/* The lines of a heat budget that a program may rely on; their sum is what the pile stores. */
static void heat_budget_has_its_nine_lines(void **state)
{
    (void)state;
    static const char *const lines[] = {"decay", "vapour", "air", "walls", "top", "ground",
                                        "sun_and_sky", "rain_and_water", "added"};
    int seen[9] = {0};
    for (int i = 0; i < FLUXES; i++) {
        int known = 0;
        for (int j = 0; j < 9 && flux_rows[i].of == FLUX_OF_ENERGY; j++)
            if (strcmp(flux_rows[i].group, lines[j]) == 0)
                known = ++seen[j];
        assert_true(known || flux_rows[i].of != FLUX_OF_ENERGY);
    }
    for (int j = 0; j < 9; j++)
        assert_true(seen[j] > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_movement_has_its_own_name_a_line_and_a_meaning),
        cmocka_unit_test(rows_stand_in_the_order_of_their_numbers),
        cmocka_unit_test(energy_is_told_in_megajoules_and_matter_in_kilograms),
        cmocka_unit_test(heat_budget_has_its_nine_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
