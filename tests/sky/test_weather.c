/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/sky/test_weather.c - sky/weather: vapour against worked examples, gaps, the year's wave.
 *
 * FAO-56 is Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56.
 */
#include "sky/weather.h"
#include "sky/sun.h"
#include "lib/near.h"

static const double PI = 3.14159265358979323846;
static const double YEAR_DAYS = 365.2425;

static double hold_kPa(double temp_C)
{
    return weather_saturation_Pa(temp_C + 273.15) / 1000.0;
}

static struct weather room(int year, int month, int day, int days)
{
    struct weather weather;
    struct trouble why = {0};
    assert_true(weather_make(&weather, date_number((struct date){year, month, day}), days, &why));
    return weather;
}

/* [seen] FAO-56 example 3: mean of what air holds at 15 and 24.5 C, 2.39 kPa. */
static void air_holds_as_in_example_3(void **state)
{
    (void)state;
    assert_near(0.5 * (hold_kPa(15.0) + hold_kPa(24.5)), 2.39, 0.005);
}

/* [seen] FAO-56 example 4: dry bulb 25.6, wet bulb 19.5 C, 87.9 kPa, ventilated: 1.91 kPa. */
static void wet_bulb_gives_the_vapour_of_example_4(void **state)
{
    (void)state;
    assert_near(hold_kPa(19.5) - 0.000662 * 87.9 * (25.6 - 19.5), 1.91, 0.005);
}

/* [seen] FAO-56 example 5: 18 C 82 %, 25 C 54 %: 1.70 kPa; from the 82 % alone 1.69, from the mean
 * 68 % 1.78. */
static void humidity_gives_the_vapour_of_example_5(void **state)
{
    (void)state;
    assert_near(hold_kPa(18.0), 2.064, 0.0005);
    assert_near(hold_kPa(25.0), 3.168, 0.0005);
    assert_near(0.5 * (hold_kPa(18.0) * 0.82 + hold_kPa(25.0) * 0.54), 1.70, 0.005);
    assert_near(hold_kPa(18.0) * 0.82, 1.69, 0.005);
    assert_near(0.68 * 0.5 * (hold_kPa(18.0) + hold_kPa(25.0)), 1.78, 0.005);
}

/* [seen] FAO-56 example 20: the low 14.8 C taken for the dew point: 1.68 kPa. */
static void vapour_is_filled_as_in_example_20(void **state)
{
    (void)state;
    struct weather weather = room(2025, 7, 15, 1);
    weather.day[0].low_K = 14.8 + 273.15;
    weather.day[0].high_K = 26.6 + 273.15;
    weather_fill(&weather, 0.7, 100.0);
    assert_near(weather.day[0].vapour_Pa / 1000.0, 1.68, 0.005);
    assert_near(weather.day[0].rain_kg_per_m2, 0.0, 0.0);
    assert_near(weather.day[0].wind_m_per_s, 2.0, 0.0); /* [memory] FAO-56: mean of 2000 stations */
    weather_free(&weather);
}

/* [seen] FAO-56 example 17: slope of the curve at 30.2 C, 0.246 kPa/K. */
static void slope_is_as_in_example_17(void **state)
{
    (void)state;
    assert_near(weather_saturation_Pa_per_K(30.2 + 273.15) / 1000.0, 0.246, 0.0005);
    double h = 1e-3, T = 281.0; /* and is the slope of the curve itself */
    assert_near(weather_saturation_Pa_per_K(T),
                (weather_saturation_Pa(T + h) - weather_saturation_Pa(T - h)) / (2.0 * h), 1e-6);
}

/* [seen] FAO-56 example 14: 3.2 m/s at 10 m is 2.4 at 2 m. */
static void wind_is_brought_down_as_in_example_14(void **state)
{
    (void)state;
    assert_near(weather_wind_at_2m(3.2, 10.0), 2.4, 0.05);
    assert_near(weather_wind_at_2m(3.2, 2.0), 3.2, 0.01);
}

/* [seen] FAO-56 example 15, through the filling: 22.3 MJ/m2 where Ra is 40.6. [memory] The place is
 * at 45 deg 43' N and 200 m in July, whose 15th, day 196, has that Ra. */
static void sun_is_filled_as_in_example_15(void **state)
{
    (void)state;
    double latitude_rad = (45.0 + 43.0 / 60.0) * PI / 180.0;
    assert_near(sun_above_J_per_m2(latitude_rad, 196) / 1e6, 40.6, 0.05);
    struct weather weather = room(2025, 7, 15, 2);
    for (int i = 0; i < 2; i++) {
        weather.day[i].low_K = 14.8 + 273.15;
        weather.day[i].high_K = 26.6 + 273.15;
    }
    weather.day[1].sun_J_per_m2 = 1.5e7; /* what was measured stays */
    weather_fill(&weather, latitude_rad, 200.0);
    assert_near(weather.day[0].sun_J_per_m2 / 1e6, 22.3, 0.05);
    assert_near(weather.day[1].sun_J_per_m2, 1.5e7, 0.0);
    weather_free(&weather);
}

/* A pure wave is found again from many years, whatever the guess; its coldest day falls on
 * 1 February (31 days after 00:00 of 1 January). */
static void fit_finds_the_wave_it_was_given(void **state)
{
    (void)state;
    struct weather weather = room(1950, 3, 10, 100 * 365);
    for (int i = 0; i < weather.days; i++) {
        double day_of_year = date_day_of_year(weather.start + i) - 0.5;
        double temp_K = 285.0 - 9.0 * cos(2.0 * PI * (day_of_year - 31.0) / YEAR_DAYS);
        weather.day[i].low_K = temp_K - 4.0;
        weather.day[i].high_K = temp_K + 4.0;
    }
    struct weather_wave wave = weather_year(&weather, 0.9, 0.0);
    assert_near(wave.mean_K, 285.0, 0.01);
    assert_near(wave.swing_K, 9.0, 0.01);
    assert_near(wave.coldest_day, 31.0, 0.1);
    weather.days = 366; /* one year leans on the guess a little */
    wave = weather_year(&weather, 0.9, 0.0);
    assert_near(wave.mean_K, 285.0, 0.2);
    assert_near(wave.swing_K, 9.0, 0.4);
    assert_near(wave.coldest_day, 31.0, 2.0);
    weather_free(&weather);
}

/* A known climate is not fitted again. */
static void known_wave_is_kept(void **state)
{
    (void)state;
    struct weather weather = room(2025, 1, 1, 1);
    weather.day[0].low_K = weather.day[0].high_K = 300.0;
    weather.wave = (struct weather_wave){281.0, 10.0, 20.0};
    assert_near(weather_year(&weather, 0.8, 0.0).mean_K, 281.0, 0.0);
    weather_free(&weather);
}

/* A few days say little of a year: the guess of the place stays, near the [memory] zonal means 5.8
 * C at 50 N and 26.2 C at the equator (Sellers 1965), to 4 K; summers are opposite in the south. */
static void few_days_lean_on_the_place(void **state)
{
    (void)state;
    struct weather weather = room(2025, 7, 15, 3);
    for (int i = 0; i < 3; i++) {
        weather.day[i].low_K = 288.0;
        weather.day[i].high_K = 298.0;
    }
    struct weather_wave north = weather_year(&weather, 50.0 * PI / 180.0, 0.0);
    assert_near(north.mean_K - 273.15, 5.8, 4.0);
    assert_near(north.coldest_day, 19.0, 10.0);
    struct weather_wave middle = weather_year(&weather, 0.0, 0.0);
    assert_near(middle.mean_K - 273.15, 26.2, 4.0);
    assert_true(middle.swing_K < 5.0);
    struct weather_wave south = weather_year(&weather, -50.0 * PI / 180.0, 0.0);
    assert_near(south.coldest_day, 19.0 + 182.6, 25.0);
    weather_free(&weather);
}

/* By hand, at the equator, where the guess is 28.9 C all year, give or take 6 K in the mean and 4 K
 * in the swing: one day of 295.05 K, 7 K colder, whose own error is 16 K2 (1 + 0.65)/(1 - 0.65) as
 * a square, moves the mean by 7 * 36/(36 + 16 + that). */
static void one_day_moves_the_guess_as_by_hand(void **state)
{
    (void)state;
    struct weather weather = room(2025, 7, 15, 1);
    weather.day[0].low_K = 290.05;
    weather.day[0].high_K = 300.05;
    double moved_K = 7.0 * 36.0 / (36.0 + 16.0 + 16.0 * 1.65 / 0.35);
    assert_near(weather_year(&weather, 0.0, 0.0).mean_K, 302.05 - moved_K, 1e-9);
    weather_free(&weather);
}

/* Boiling points of water at heights in the standard atmosphere: 100.0, 95.0, 93.4 and 91.7 C at 0, 1500, 2000 and
 * 2500 m [derived from steam tables]; air pressure 84.6 and 79.5 kPa at 1500 and 2000 m (US Standard
 * Atmosphere 1976, table [memory]). */
static void water_boils_as_steam_tables_say_at_a_height(void **state)
{
    (void)state;
    const struct { double height_m, boils_C; } want[] = {{0, 100.0}, {1500, 95.0}, {2000, 93.4}, {2500, 91.7}};
    for (int i = 0; i < 4; i++)
        assert_near(weather_boils_K(want[i].height_m) - 273.15, want[i].boils_C, 0.1);
    assert_near(weather_air_Pa(1500), 84560, 30);
    assert_near(weather_air_Pa(2000), 79500, 30);
}

static void weather_without_days_is_refused(void **state)
{
    (void)state;
    struct weather weather;
    struct trouble why = {0};
    assert_false(weather_make(&weather, 0, 0, &why));
    assert_int_equal(why.kind, TROUBLE_INPUT);
    assert_null(weather.day);
    why = (struct trouble){0};
    assert_false(weather_make(&weather, 0, 1000000000, &why));
    assert_non_null(strstr(why.text, "36600"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_holds_as_in_example_3),
        cmocka_unit_test(wet_bulb_gives_the_vapour_of_example_4),
        cmocka_unit_test(humidity_gives_the_vapour_of_example_5),
        cmocka_unit_test(vapour_is_filled_as_in_example_20),
        cmocka_unit_test(slope_is_as_in_example_17),
        cmocka_unit_test(wind_is_brought_down_as_in_example_14),
        cmocka_unit_test(sun_is_filled_as_in_example_15),
        cmocka_unit_test(fit_finds_the_wave_it_was_given),
        cmocka_unit_test(known_wave_is_kept),
        cmocka_unit_test(few_days_lean_on_the_place),
        cmocka_unit_test(one_day_moves_the_guess_as_by_hand),
        cmocka_unit_test(water_boils_as_steam_tables_say_at_a_height),
        cmocka_unit_test(weather_without_days_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
