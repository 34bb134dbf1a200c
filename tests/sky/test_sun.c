/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/sky/test_sun.c - sky/sun against worked examples and tables printed by others.
 *
 * FAO-56 is Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56.
 */
#include "sky/sun.h"
#include "lib/near.h"

static const double PI = 3.14159265358979323846;

static double rad(double degrees)
{
    return degrees * PI / 180.0;
}

/* [seen] FAO-56 example 8: 20 S on 3 September (day 246). */
static void third_of_september_at_20_south_is_as_in_example_8(void **state)
{
    (void)state;
    assert_near(sun_nearness(246), 0.985, 0.0005);
    assert_near(sun_declination_rad(246), 0.120, 0.0005);
    assert_near(sun_sunset_rad(rad(-20.0), 246), 1.527, 0.0005);
    assert_near(sun_above_J_per_m2(rad(-20.0), 246) / 1e6, 32.2, 0.05);
}

/* [seen] FAO-56 example 9: the same day, 11.7 h from sunrise to sunset. */
static void daylight_is_as_in_example_9(void **state)
{
    (void)state;
    assert_near(sun_daylight_s(rad(-20.0), 246) / 3600.0, 11.7, 0.05);
}

/* [seen] FAO-56 example 10: 7.1 bright hours of 10.9 and Ra 25.1 give Rs 14.45 MJ/m2 by eq. 35;
 * read backwards over Rso = 0.75 Ra (eq. 37 at sea level), that sun speaks of 1 - 7.1/10.9 of
 * cloud. */
static void cloud_is_what_was_not_bright_in_example_10(void **state)
{
    (void)state;
    assert_near(sun_cloud_share(14.45e6, 0.75 * 25.1e6), 1.0 - 7.1 / 10.9, 0.0005);
}

/* [seen] FAO-56 example 15: low 14.8 C, high 26.6 C, Ra 40.6, inland: 22.3 MJ/m2. */
static void sun_guessed_from_temperatures_is_as_in_example_15(void **state)
{
    (void)state;
    assert_near(sun_guess_J_per_m2(14.8, 26.6, 40.6e6, 0.75 * 40.6e6, false) / 1e6, 22.3, 0.05);
}

/* [seen] FAO-56 eq. 50: never above a clear day's; the coast's coefficient is 0.19. */
static void guess_is_never_above_a_clear_day(void **state)
{
    (void)state;
    assert_near(sun_guess_J_per_m2(270.0, 300.0, 40e6, 30e6, false), 30e6, 0.0);
    assert_near(sun_guess_J_per_m2(280.0, 289.0, 40e6, 30e6, true), 0.19 * 3.0 * 40e6, 1.0);
}

/* [seen] FAO-56 example 18: 50.8 N (50 deg 48'), day 187, 100 m: Ra 41.09, Rso 30.90 MJ/m2. */
static void clear_day_is_as_in_example_18(void **state)
{
    (void)state;
    assert_near(sun_above_J_per_m2(rad(50.8), 187) / 1e6, 41.09, 0.005);
    assert_near(sun_clear_J_per_m2(rad(50.8), 187, 100.0) / 1e6, 30.90, 0.005);
}

static const int MIDDLE[12] = {15, 46, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344};

/* [derived] FAO-56 eq. 21 worked out apart from this code, to 0.01 MJ/m2. */
static void sun_above_the_air_is_as_tabulated(void **state)
{
    (void)state;
    static const struct { double latitude, above[12]; } rows[] = {
        {30, {21.08, 25.83, 31.63, 36.84, 40.02, 41.12, 40.43, 37.88, 33.33, 27.49, 22.30, 19.90}},
        {40, {15.01, 20.37, 27.50, 34.67, 39.71, 41.75, 40.62, 36.47, 29.92, 22.47, 16.41, 13.75}},
        {50, {8.89, 14.45, 22.55, 31.52, 38.50, 41.57, 39.96, 34.09, 25.61, 16.83, 10.33, 7.68}},
        {55, {5.96, 11.40, 19.80, 29.63, 37.63, 41.28, 39.39, 32.59, 23.15, 13.86, 7.35, 4.84}},
        {60, {3.25, 8.34, 16.91, 27.55, 36.66, 41.00, 38.78, 30.93, 20.52, 10.82, 4.51, 2.30}},
    };
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++)
        for (int m = 0; m < 12; m++)
            assert_near(sun_above_J_per_m2(rad(rows[r].latitude), MIDDLE[m]) / 1e6,
                        rows[r].above[m], 0.0051);
}

/* [derived] FAO-56 eq. 34 worked out apart from this code, to 0.01 h. */
static void daylight_is_as_tabulated(void **state)
{
    (void)state;
    static const struct { double latitude, hours[12]; } rows[] = {
        {30, {10.27, 10.96, 11.82, 12.74, 13.51, 13.90, 13.72, 13.05, 12.16, 11.25, 10.47, 10.10}},
        {40, {9.47, 10.49, 11.74, 13.08, 14.22, 14.79, 14.52, 13.53, 12.24, 10.90, 9.77, 9.21}},
        {50, {8.33, 9.84, 11.63, 13.53, 15.20, 16.07, 15.66, 14.19, 12.34, 10.44, 8.78, 7.94}},
        {55, {7.51, 9.39, 11.56, 13.84, 15.89, 17.00, 16.47, 14.64, 12.40, 10.12, 8.08, 7.01}},
    };
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++)
        for (int m = 0; m < 12; m++)
            assert_near(sun_daylight_s(rad(rows[r].latitude), MIDDLE[m]) / 3600.0,
                        rows[r].hours[m], 0.0051);
}

/* The limit solved by hand: at a pole the sun is up all day or not at all, and circles at the
 * height of its declination: Ra = 1440 min * 0.0820 * dr * sin(declination). */
static void poles_have_day_or_night(void **state)
{
    (void)state;
    double by_hand = 1440.0 * 0.0820e6 * sun_nearness(172) * sin(sun_declination_rad(172));
    assert_near(sun_daylight_s(rad(90.0), 172), 86400.0, 1e-9);
    assert_near(sun_above_J_per_m2(rad(90.0), 172), by_hand, 1e-3);
    assert_near(sun_daylight_s(rad(-90.0), 172), 0.0, 0.0);
    assert_near(sun_above_J_per_m2(rad(-90.0), 172), 0.0, 1e-3);
    assert_near(sun_cloud_share(0.0, 0.0), 0.5, 0.0); /* nothing known of the cloud */
}

/* [seen] Brutsaert (1975), 1.24 (e/T)^(1/7). [derived] What such a sky sends down, worked out apart
 * from this code, W/m2, the vapour given to 0.01 hPa. Under full cloud, [seen] Campbell and Norman
 * (1998), 0.16 of the net loss of a black ground is left. */
static void clear_sky_is_as_in_brutsaert_1975(void **state)
{
    (void)state;
    static const struct { double temp_C, vapour_hPa, down; } rows[] = {
        {-10, 2.29, 171.2}, {0, 4.89, 220.3}, {10, 9.21, 277.1}, {20, 14.03, 336.4},
        {30, 21.23, 406.2},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double air_K = rows[i].temp_C + 273.15, black = 5.670374e-8 * pow(air_K, 4.0);
        double vapour_Pa = 100.0 * rows[i].vapour_hPa;
        assert_near(sun_long_W_per_m2(air_K, vapour_Pa, 0.0), rows[i].down, 0.1);
        assert_near(black - sun_long_W_per_m2(air_K, vapour_Pa, 1.0),
                    0.16 * (black - rows[i].down), 0.1);
    }
}

/* [seen] FAO-56 example 11, eq. 39: low 19.1, high 25.1 C, Rs 14.5, Rso 18.8, ea 2.1 kPa lose 3.5
 * MJ/m2 a day net. Another formula, fitted to other places: within 1 MJ/m2 (12 W/m2). */
static void cloudy_sky_agrees_with_the_other_formula_of_example_11(void **state)
{
    (void)state;
    double air_K = 22.1 + 273.15, black = 5.670374e-8 * pow(air_K, 4.0);
    double cloud = sun_cloud_share(14.5e6, 18.8e6);
    double loss = black - sun_long_W_per_m2(air_K, 2100.0, cloud);
    assert_near(loss * 86400.0 / 1e6, 3.5, 1.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(third_of_september_at_20_south_is_as_in_example_8),
        cmocka_unit_test(daylight_is_as_in_example_9),
        cmocka_unit_test(cloud_is_what_was_not_bright_in_example_10),
        cmocka_unit_test(sun_guessed_from_temperatures_is_as_in_example_15),
        cmocka_unit_test(guess_is_never_above_a_clear_day),
        cmocka_unit_test(clear_day_is_as_in_example_18),
        cmocka_unit_test(sun_above_the_air_is_as_tabulated),
        cmocka_unit_test(daylight_is_as_tabulated),
        cmocka_unit_test(poles_have_day_or_night),
        cmocka_unit_test(clear_sky_is_as_in_brutsaert_1975),
        cmocka_unit_test(cloudy_sky_agrees_with_the_other_formula_of_example_11),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
