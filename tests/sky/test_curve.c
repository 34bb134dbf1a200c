/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/sky/test_curve.c - sky/curve: reading curves, the ground's wave, cutting. */
#include "sky/curve.h"
#include "lib/near.h"
#include <stdlib.h>

static const double PI = 3.14159265358979323846;
static const double YEAR_S = 365.2425 * 86400.0;

/* Four days of rain whose other values do not matter here. */
static struct curve make(double mean_K, double swing_K, double coldest_day)
{
    static const double rain[4] = {0.0, 7.25, 31.0, 0.5};
    struct weather weather;
    struct curve curve;
    struct trouble why = {0};
    assert_true(weather_make(&weather, date_number((struct date){2025, 1, 1}), 4, &why));
    for (int i = 0; i < 4; i++) {
        weather.day[i].low_K = 283.0 + i;
        weather.day[i].high_K = 293.0 - i;
        weather.day[i].rain_kg_per_m2 = rain[i];
    }
    weather.wave = (struct weather_wave){mean_K, swing_K, coldest_day};
    weather_fill(&weather, 0.8, 0.0);
    assert_true(curve_make(&curve, &weather, 0.8, 0.0, &why));
    weather_free(&weather);
    return curve;
}

/* Cubic Hermite pieces are exact for cubics (any text on numerical analysis). */
static void pieces_reproduce_a_cubic(void **state)
{
    (void)state;
    double value[4], slope[4];
    struct curve curve = {.knot_s = 2.0, .knots = 4, .value = {value}, .slope_per_s = {slope}};
    for (int k = 0; k < 4; k++) {
        double t = 2.0 * k;
        value[k] = 1.0 - 2.0 * t + 0.5 * t * t - 0.25 * t * t * t;
        slope[k] = -2.0 + t - 0.75 * t * t;
    }
    for (double t = 0.0; t <= 6.0; t += 0.1)
        assert_near(curve_at(&curve, 0, t), 1.0 - 2.0 * t + 0.5 * t * t - 0.25 * t * t * t, 1e-13);
}

static void ends_are_held_and_nothing_stays_nothing(void **state)
{
    (void)state;
    struct curve curve = make(283.0, 10.0, 20.0);
    double last_s = 4.0 * 86400.0;
    assert_near(curve_at(&curve, CURVE_AIR_K, -5.0), curve.value[CURVE_AIR_K][0], 0.0);
    assert_near(curve_at(&curve, CURVE_AIR_K, last_s), curve.value[CURVE_AIR_K][96], 0.0);
    assert_near(curve_at(&curve, CURVE_AIR_K, 1e12), curve.value[CURVE_AIR_K][96], 0.0);
    assert_true(isnan(curve_at(&curve, CURVE_AIR_K, NAN)));
    assert_near(curve_wet_until(&curve, -1.0), 0.0, 0.0);
    assert_near(curve_wet_until(&curve, 1e12), 38.75, 0.0);
    assert_true(isnan(curve_wet_until(&curve, NAN)));
    curve_free(&curve);
    assert_null(curve.block);
}

/* The integral of (1 - cos 2 pi t) R by hand; the sine of the C library beside our own. */
static void rain_within_a_day_is_the_integral_by_hand(void **state)
{
    (void)state;
    struct curve curve = make(283.0, 10.0, 20.0);
    static const double before[4] = {0.0, 0.0, 7.25, 38.25}, rain[4] = {0.0, 7.25, 31.0, 0.5};
    for (int i = 0; i <= 4000; i++) {
        double days = i / 1000.0;
        int day = i / 1000 < 4 ? i / 1000 : 3;
        double tau = days - day;
        double by_hand = before[day] + rain[day] * (tau - sin(2.0 * PI * tau) / (2.0 * PI));
        assert_near(curve_wet_until(&curve, days * 86400.0), by_hand, 1e-13 * 40.0);
    }
    assert_near(curve_wet_until(&curve, 4.0 * 86400.0), 38.75, 0.0);
    curve_free(&curve);
}

/* [derived] Damped yearly wave (Carslaw and Jaeger 1959, section 2.6) in loam of 7e-7 m2/s: depth
 * 2.6517 m, at 1 m 0.68583 of the swing 21.92 days late. */
static void ground_wave_is_damped_and_late_as_derived(void **state)
{
    (void)state;
    struct curve curve = make(283.0, 10.0, 20.0);
    double coldest_s = 20.0 * 86400.0, late_s = coldest_s + 21.92 * 86400.0;
    assert_near(curve.ground_depth_m, 2.6517, 1e-4);
    assert_near(curve_ground_K(&curve, 0.0, coldest_s), 273.0, 1e-9);
    assert_near(curve_ground_K(&curve, 0.0, coldest_s + 0.5 * YEAR_S), 293.0, 1e-9);
    assert_near((283.0 - curve_ground_K(&curve, 1.0, late_s)) / 10.0, 0.68583, 1e-5);
    double day_s = 86400.0; /* and that is the lowest point */
    assert_true(curve_ground_K(&curve, 1.0, late_s) <
                curve_ground_K(&curve, 1.0, late_s - day_s));
    assert_true(curve_ground_K(&curve, 1.0, late_s) <
                curve_ground_K(&curve, 1.0, late_s + day_s));
    curve_free(&curve);
}

/* The same wave with the C library's functions. */
static void ground_agrees_with_the_formula_in_the_c_library(void **state)
{
    (void)state;
    struct curve curve = make(280.0, 12.0, 200.0);
    for (int i = -500; i < 1500; i += 7)
        for (double z = 0.0; z < 6.0; z += 0.37) {
            double time_s = i * 86400.0, deep = z / curve.ground_depth_m;
            double phase = 2.0 * PI * (time_s - 200.0 * 86400.0) / YEAR_S - deep;
            assert_near(curve_ground_K(&curve, z, time_s), 280.0 - 12.0 * exp(-deep) * cos(phase),
                        1e-11);
        }
    curve_free(&curve);
}

static void cutting_shifts_time_and_nothing_else(void **state)
{
    (void)state;
    struct curve whole = make(283.0, 10.0, 20.0), part = make(283.0, 10.0, 20.0);
    struct trouble why = {0};
    assert_true(curve_cut(&part, whole.start + 1, 2, &why));
    assert_int_equal(part.start, whole.start + 1);
    assert_int_equal(part.days, 2);
    for (double t = 0.0; t <= 2.0 * 86400.0; t += 1000.0) {
        for (enum curve_thing thing = 0; thing < CURVE_THINGS; thing++)
            assert_near(curve_at(&part, thing, t), curve_at(&whole, thing, t + 86400.0), 1e-9);
        assert_near(curve_wet_until(&part, t),
                    curve_wet_until(&whole, t + 86400.0) - curve_wet_until(&whole, 86400.0), 1e-12);
        assert_near(curve_ground_K(&part, 0.7, t), curve_ground_K(&whole, 0.7, t + 86400.0), 1e-9);
    }
    curve_free(&part);
    curve_free(&whole);
}

static void cutting_beyond_the_weather_is_refused_with_both_spans(void **state)
{
    (void)state;
    struct curve curve = make(283.0, 10.0, 20.0);
    struct trouble why = {0};
    assert_false(curve_cut(&curve, curve.start + 2, 3, &why));
    assert_int_equal(why.kind, TROUBLE_INPUT);
    assert_non_null(strstr(why.text, "from 2025-01-01 to 2025-01-04"));
    assert_non_null(strstr(why.text, "from 2025-01-03 to 2025-01-05"));
    why = (struct trouble){0};
    assert_false(curve_cut(&curve, curve.start - 1, 2, &why));
    assert_int_equal(curve.days, 4); /* untouched */
    curve_free(&curve);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_reproduce_a_cubic),
        cmocka_unit_test(ends_are_held_and_nothing_stays_nothing),
        cmocka_unit_test(rain_within_a_day_is_the_integral_by_hand),
        cmocka_unit_test(ground_wave_is_damped_and_late_as_derived),
        cmocka_unit_test(ground_agrees_with_the_formula_in_the_c_library),
        cmocka_unit_test(cutting_shifts_time_and_nothing_else),
        cmocka_unit_test(cutting_beyond_the_weather_is_refused_with_both_spans),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
