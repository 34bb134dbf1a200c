/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/sky/test_curve_make.c - sky/curve_make: days are met, sums kept, slopes joined. */
#include "sky/curve.h"
#include "sky/sun.h"
#include "door/sheet.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>

static const double PI = 3.14159265358979323846;
static const double HOUR_S = 3600.0, DAY_S = 86400.0;

/* Days that differ, from a small fixed recipe; nothing in them is an answer. */
static struct weather days_from(int year, int month, int day, int days, double latitude_rad)
{
    struct weather weather;
    struct trouble why = {0};
    assert_true(weather_make(&weather, date_number((struct date){year, month, day}), days, &why));
    for (int i = 0; i < days; i++) {
        struct weather_day *d = &weather.day[i];
        d->low_K = 271.0 + 6.0 * sin(0.7 * i) + 3.0 * cos(2.9 * i);
        d->high_K = d->low_K + 6.0 + 5.0 * sin(1.9 * i);
        d->rain_kg_per_m2 = i % 3 ? 0.0 : 4.0 + i % 7;
        d->wind_m_per_s = 2.0 + 1.5 * cos(1.3 * i);
    }
    weather_fill(&weather, latitude_rad, 430.0);
    return weather;
}

static struct curve curve_of(const struct weather *weather, double latitude_rad)
{
    struct curve curve;
    struct trouble why = {0};
    assert_true(curve_make(&curve, weather, latitude_rad, 430.0, &why));
    return curve;
}

/* Exact for the cubics a curve consists of (Simpson's rule, an hour at a time). */
static double integral_of_day(const struct curve *curve, enum curve_thing thing, int day)
{
    double sum = 0.0;
    for (int h = 0; h < 24; h++) {
        double t = day * DAY_S + h * HOUR_S;
        sum += HOUR_S / 6.0 * (curve_at(curve, thing, t) +
                               4.0 * curve_at(curve, thing, t + 0.5 * HOUR_S) +
                               curve_at(curve, thing, t + HOUR_S));
    }
    return sum;
}

/* [seen] ASHRAE Handbook of Fundamentals (2017), chapter 1, table 1: 95461, 89875, 61640 Pa. */
static void air_pressure_is_as_in_the_standard_atmosphere(void **state)
{
    (void)state;
    static const double rows[3][2] = {{500, 95461}, {1000, 89875}, {4000, 61640}};
    struct weather weather = days_from(2025, 3, 1, 3, 0.8);
    for (int i = 0; i < 3; i++) {
        struct curve curve;
        struct trouble why = {0};
        assert_true(curve_make(&curve, &weather, 0.8, rows[i][0], &why));
        assert_near(curve.air_Pa, rows[i][1], 1.0);
        curve_free(&curve);
    }
    weather_free(&weather);
}

static void extremes_of_each_day_are_met_and_not_passed(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 2, 1, 60, 0.8);
    struct curve curve = curve_of(&weather, 0.8);
    for (int d = 0; d < weather.days; d++) {
        double least = 1e9, most = 0.0;
        for (double t = d * DAY_S; t <= d * DAY_S + 15.0 * HOUR_S; t += 600.0) {
            double air_K = curve_at(&curve, CURVE_AIR_K, t);
            least = fmin(least, air_K);
            if (t > d * DAY_S + 10.0 * HOUR_S) /* after sunrise */
                most = fmax(most, air_K);
        }
        double before = weather.day[d ? d - 1 : 0].high_K; /* a day may begin colder than its low */
        assert_near(least, fmin(weather.day[d].low_K, curve.value[CURVE_AIR_K][24 * d]), 1e-9);
        assert_true(before < weather.day[d].low_K || fabs(least - weather.day[d].low_K) < 1e-9);
        assert_near(most, weather.day[d].high_K, 1e-9);
        assert_near(curve_at(&curve, CURVE_AIR_K, d * DAY_S + 15.0 * HOUR_S),
                    weather.day[d].high_K, 1e-9);
    }
    curve_free(&curve);
    weather_free(&weather);
}

/* The low comes at sunrise to the nearest hour: [derived] 12 h less half the 9.47 h and 15.66 h of
 * FAO-56 eq. 34 at 40 N on day 15 and 50 N on day 198 is 7.3 and 4.2 h. */
static void low_comes_at_sunrise(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 1, 15, 1, 40.0 * PI / 180.0);
    struct curve curve = curve_of(&weather, 40.0 * PI / 180.0);
    assert_near(curve.value[CURVE_AIR_K][7], weather.day[0].low_K, 1e-12);
    curve_free(&curve);
    weather.start = date_number((struct date){2025, 7, 17});
    curve = curve_of(&weather, 50.0 * PI / 180.0);
    assert_near(curve.value[CURVE_AIR_K][4], weather.day[0].low_K, 1e-12);
    curve_free(&curve);
    weather_free(&weather);
}

static void sun_of_each_day_is_the_files_and_never_negative(void **state)
{
    (void)state;
    static const double latitude[5] = {0.0, 0.6, -0.9, 1.15, 1.4};
    for (int i = 0; i < 5; i++) {
        struct weather weather = days_from(2024, 1, 1, 366, latitude[i]);
        struct curve curve = curve_of(&weather, latitude[i]);
        for (int d = 0; d < weather.days; d++)
            assert_near(integral_of_day(&curve, CURVE_SUN_W_PER_M2, d),
                        weather.day[d].sun_J_per_m2, 1e-12 * 3e7);
        for (double t = 0.0; t < weather.days * DAY_S; t += 431.0)
            assert_true(curve_at(&curve, CURVE_SUN_W_PER_M2, t) >= 0.0);
        curve_free(&curve);
        weather_free(&weather);
    }
}

static void sun_is_up_only_by_day_and_highest_at_noon(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 3, 21, 1, 0.8); /* twelve hours */
    struct curve curve = curve_of(&weather, 0.8);
    double noon = curve_at(&curve, CURVE_SUN_W_PER_M2, 12.0 * HOUR_S);
    assert_near(curve_at(&curve, CURVE_SUN_W_PER_M2, 5.0 * HOUR_S), 0.0, 0.0);
    assert_near(curve_at(&curve, CURVE_SUN_W_PER_M2, 19.0 * HOUR_S), 0.0, 0.0);
    /* by hand: a squared sine over twelve hours has its top at twice its mean, 4 S/day */
    assert_near(noon, 4.0 * weather.day[0].sun_J_per_m2 / DAY_S, 0.02 * noon);
    assert_near(curve_at(&curve, CURVE_SUN_W_PER_M2, 9.0 * HOUR_S), 0.5 * noon, 0.02 * noon);
    curve_free(&curve);
    weather_free(&weather);
}

static double slope_beside(const struct curve *curve, enum curve_thing thing, double t, double h)
{
    double near = curve_at(curve, thing, t + h), far = curve_at(curve, thing, t + 2.0 * h);
    return (4.0 * near - far - 3.0 * curve_at(curve, thing, t)) / (2.0 * h);
}

/* One-sided slopes by three points; their error is the third derivative, at most about the jump of
 * values per knot, times h^2. */
static void assert_slopes_join(const struct curve *curve)
{
    for (enum curve_thing thing = 0; thing < CURVE_THINGS; thing++) {
        double largest = 0.0;
        for (int k = 1; k < curve->knots; k++)
            largest = fmax(largest, fabs(curve->value[thing][k] - curve->value[thing][k - 1]));
        for (int k = 1; k + 1 < curve->knots; k++) {
            double t = k * HOUR_S, h = 10.0;
            double right = slope_beside(curve, thing, t, h);
            double left = slope_beside(curve, thing, t, -h);
            double scale = largest / HOUR_S;
            assert_near(left, right, 2e-3 * scale + 1e-12);
            assert_near(right, curve->slope_per_s[thing][k], 2e-3 * scale + 1e-12);
        }
    }
}

static void slopes_join_at_every_knot(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 11, 1, 60, 0.8);
    struct curve curve = curve_of(&weather, 0.8);
    assert_slopes_join(&curve);
    curve_free(&curve);
    weather_free(&weather);
}

/* A slope written down wrong would still join its neighbour. So, at each knot, the long wave's is
 * compared with that of the formula along the air and vapour there; the cloud's share stays. */
static void long_wave_changes_with_air_and_vapour(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 4, 1, 5, 0.8);
    double cloud = 0.4, step_s = 1.0, steepest = 0.0;
    for (int i = 0; i < 5; i++)
        weather.day[i].sun_J_per_m2 = sun_clear_J_per_m2(0.8, 91 + i, 430.0) * (1.0 - cloud / 1.5);
    struct curve curve = curve_of(&weather, 0.8);
    for (int k = 1; k + 1 < curve.knots; k++) {
        double t = k * HOUR_S, long_W[2];
        for (int side = 0; side < 2; side++) {
            double beside = t + (side ? step_s : -step_s);
            long_W[side] = sun_long_W_per_m2(curve_at(&curve, CURVE_AIR_K, beside),
                                             curve_at(&curve, CURVE_VAPOUR_PA, beside), cloud);
        }
        double slope = (long_W[1] - long_W[0]) / (2.0 * step_s);
        assert_near(curve.slope_per_s[CURVE_LONG_W_PER_M2][k], slope, 1e-6);
        steepest = fmax(steepest, fabs(slope));
    }
    assert_true(steepest > 1e-3);
    curve_free(&curve);
    weather_free(&weather);
}

/* Slope at a knot from the two before and the two after: exact where they lie on one cubic. */
static double five_knot_slope(const double *v)
{
    return (v[-2] - 8.0 * v[-1] + 8.0 * v[1] - v[2]) / (12.0 * HOUR_S);
}

/* Air and vapour alike all day, cloud changing: from noon to noon the long wave is one cubic, whose
 * slope the difference over five knots gives exactly. */
static void long_wave_changes_with_the_cloud(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 4, 1, 4, 0.8);
    double steepest = 0.0;
    for (int i = 0; i < 4; i++) {
        struct weather_day *day = &weather.day[i];
        day->low_K = day->high_K = 290.0;
        day->vapour_Pa = 900.0;
        day->sun_J_per_m2 = sun_clear_J_per_m2(0.8, 91 + i, 430.0) * (0.5 + 0.12 * (i % 3));
    }
    struct curve curve = curve_of(&weather, 0.8);
    const double *v = curve.value[CURVE_LONG_W_PER_M2];
    for (int noon = 12; noon <= 60; noon += 24)
        for (int j = noon + 2; j <= noon + 22; j++) {
            double slope = five_knot_slope(v + j);
            assert_near(curve.slope_per_s[CURVE_LONG_W_PER_M2][j], slope, 1e-12);
            steepest = fmax(steepest, fabs(slope));
        }
    assert_true(steepest > 1e-4);
    curve_free(&curve);
    weather_free(&weather);
}

static void vapour_and_wind_are_the_files_at_noon_and_between_in_between(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 2, 1, 40, 0.8);
    for (int i = 0; i < 40; i++)
        weather.day[i].vapour_Pa *= 0.6; /* dry enough that no dew falls */
    struct curve curve = curve_of(&weather, 0.8);
    for (int d = 0; d + 1 < 40; d++) {
        double noon = (d + 0.5) * DAY_S, one = weather.day[d].wind_m_per_s;
        double other = weather.day[d + 1].wind_m_per_s;
        assert_near(curve_at(&curve, CURVE_WIND_M_PER_S, noon), one, 1e-12);
        assert_near(curve_at(&curve, CURVE_VAPOUR_PA, noon) / weather.day[d].vapour_Pa, 1.0, 1e-6);
        for (double t = noon; t <= noon + DAY_S; t += 1234.0) {
            double wind = curve_at(&curve, CURVE_WIND_M_PER_S, t);
            assert_true(wind >= fmin(one, other) - 1e-9 && wind <= fmax(one, other) + 1e-9);
        }
    }
    curve_free(&curve);
    weather_free(&weather);
}

/* From noon to noon each is one cubic, whose slope the difference over five knots gives exactly. */
static void vapour_and_wind_have_the_slopes_of_their_values(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 2, 1, 20, 0.8);
    for (int i = 0; i < 20; i++)
        weather.day[i].vapour_Pa *= 0.2; /* far from dew */
    struct curve curve = curve_of(&weather, 0.8);
    for (int k = 14; k < 24 * 19; k += k % 24 == 10 ? 4 : 1) {
        assert_near(curve.slope_per_s[CURVE_VAPOUR_PA][k],
                    five_knot_slope(curve.value[CURVE_VAPOUR_PA] + k), 1e-9);
        assert_near(curve.slope_per_s[CURVE_WIND_M_PER_S][k],
                    five_knot_slope(curve.value[CURVE_WIND_M_PER_S] + k), 1e-12);
    }
    curve_free(&curve);
    weather_free(&weather);
}

static void air_never_holds_more_vapour_than_it_can(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 2, 1, 40, 0.8);
    struct curve curve = curve_of(&weather, 0.8);
    int dewy = 0;
    for (double t = 0.0; t < 40.0 * DAY_S; t += 300.0) {
        double most_Pa = weather_saturation_Pa(curve_at(&curve, CURVE_AIR_K, t));
        double humidity = curve_at(&curve, CURVE_VAPOUR_PA, t) / most_Pa;
        assert_true(humidity > 0.0 && humidity <= 1.002); /* between knots it may pass by a hair */
        dewy += humidity > 0.96;
    }
    assert_true(dewy > 40); /* the lows were taken for dew points, so nights are dewy */
    curve_free(&curve);
    weather_free(&weather);
}

/* What fell is what reached the ground and what still lies. */
static void snow_and_rain_balance(void **state)
{
    (void)state;
    struct weather weather = days_from(2024, 12, 1, 90, 0.8);
    struct curve curve = curve_of(&weather, 0.8);
    double fallen = 0.0, lain_m = 0.0;
    for (int d = 0; d < 90; d++) {
        fallen += weather.day[d].rain_kg_per_m2;
        double lying_m = curve_at(&curve, CURVE_SNOW_M, (d + 1) * DAY_S);
        assert_near(curve_wet_until(&curve, (d + 1) * DAY_S) + 200.0 * lying_m, fallen, 1e-10);
        lain_m = fmax(lain_m, lying_m);
    }
    assert_true(lain_m > 0.01); /* the test saw snow */
    curve_free(&curve);
    weather_free(&weather);
}

/* Days of one temperature, on the first of which 20 kg/m2 fall. */
static struct curve one_fall(double temp_C)
{
    struct weather weather = days_from(2025, 1, 1, 5, 0.8);
    for (int i = 0; i < 5; i++) {
        weather.day[i].low_K = weather.day[i].high_K = temp_C + 273.15;
        weather.day[i].rain_kg_per_m2 = i ? 0.0 : 20.0;
    }
    struct curve curve = curve_of(&weather, 0.8);
    weather_free(&weather);
    return curve;
}

/* By hand. At -5 C all lies, 10 cm deep at 200 kg/m3. At +1 C half is snow and melts by 3.5 kg/m2 a
 * day: 3.5, 3.5, 3.0. At +2 C all is rain. */
static void snow_falls_and_melts_as_by_hand(void **state)
{
    (void)state;
    static const struct { double temp_C, wet[5], lies_m; } rows[] = {
        {-5.0, {0, 0, 0, 0, 0}, 0.1}, {1.0, {13.5, 3.5, 3.0, 0, 0}, 0.0325}, {2.0, {20.0}, 0.0},
    };
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        struct curve curve = one_fall(rows[r].temp_C);
        for (int d = 0; d < 5; d++)
            assert_near(curve.wet_kg_per_m2[d], rows[r].wet[d], 1e-9);
        assert_near(curve_at(&curve, CURVE_SNOW_M, DAY_S), rows[r].lies_m, 1e-12);
        assert_near(curve_at(&curve, CURVE_SNOW_M, 4.0 * DAY_S), rows[r].temp_C < 0 ? 0.1 : 0.0,
                    1e-12);
        curve_free(&curve);
    }
}

static void assert_finite(const struct curve *curve)
{
    for (enum curve_thing thing = 0; thing < CURVE_THINGS; thing++)
        for (int k = 0; k < curve->knots; k++) {
            assert_true(isfinite(curve->value[thing][k]));
            assert_true(isfinite(curve->slope_per_s[thing][k]));
        }
    assert_true(isfinite(curve_wet_until(curve, 1e9)));
    assert_true(isfinite(curve_ground_K(curve, 1.0, 1e6)));
}

static void poles_leap_days_and_new_year_make_curves(void **state)
{
    (void)state;
    static const double degrees[] = {90, -90, 89.9, 66.6, -66.6, 0};
    for (size_t i = 0; i < sizeof degrees / sizeof degrees[0]; i++) {
        struct weather weather = days_from(2023, 12, 1, 400, degrees[i] * PI / 180.0);
        struct curve curve = curve_of(&weather, degrees[i] * PI / 180.0);
        assert_finite(&curve);
        curve_free(&curve);
        for (int d = 0; d < 400; d++) /* a file may speak of twilight in the polar night */
            weather.day[d].sun_J_per_m2 = 1e5;
        curve = curve_of(&weather, degrees[i] * PI / 180.0);
        assert_finite(&curve);
        assert_near(integral_of_day(&curve, CURVE_SUN_W_PER_M2, 20), 1e5, 1e-6);
        curve_free(&curve);
        weather_free(&weather);
    }
}

static void one_and_two_days_make_curves(void **state)
{
    (void)state;
    for (int days = 1; days <= 2; days++) {
        struct weather weather = days_from(2024, 2, 29, days, 0.8);
        struct curve curve = curve_of(&weather, 0.8);
        assert_int_equal(curve.knots, 24 * days + 1);
        assert_finite(&curve);
        curve_free(&curve);
        weather_free(&weather);
    }
}

static void weather_with_a_gap_is_refused_by_its_date(void **state)
{
    (void)state;
    struct weather weather = days_from(2025, 3, 1, 5, 0.8);
    struct curve curve;
    double *holes[] = {&weather.day[2].low_K, &weather.day[2].rain_kg_per_m2,
                       &weather.day[2].vapour_Pa, &weather.day[2].sun_J_per_m2};
    for (size_t i = 0; i < sizeof holes / sizeof holes[0]; i++) {
        struct trouble why = {0};
        double was = *holes[i];
        *holes[i] = NAN;
        assert_false(curve_make(&curve, &weather, 0.8, 0.0, &why));
        assert_int_equal(why.kind, TROUBLE_INPUT);
        assert_non_null(strstr(why.text, "2025-03-03"));
        assert_null(curve.block);
        *holes[i] = was;
    }
    struct trouble why = {0};
    assert_false(curve_make(&curve, &weather, 2.0, 0.0, &why));
    assert_non_null(strstr(why.text, "latitude"));
    weather_free(&weather);
}

/* ---- measured weather: tests/sky/data/README.md ---- */

static struct weather measured(void)
{
    struct weather weather;
    struct trouble why = {0};
    if (!sheet_weather(&weather, "tests/sky/data/coast_2012_2015.csv", &why))
        fail_msg("%s", why.text);
    return weather;
}

/* [seen] The origin file's own columns, summed apart from this code by year: rain and snow, mm, and
 * the mean of the two extremes, deg C. */
static void measured_years_keep_their_rain_and_warmth(void **state)
{
    (void)state;
    static const struct { int year, days; double rain_mm, mean_C; } years[] = {
        {2012, 366, 1226.0, 11.2832}, {2013, 365, 828.0, 12.1064},
        {2014, 365, 1232.8, 12.8292}, {2015, 365, 1139.2, 13.1318},
    };
    struct weather weather = measured();
    assert_int_equal(weather.days, 1461);
    weather_fill(&weather, 47.4 * PI / 180.0, 130.0);
    struct curve curve = curve_of(&weather, 47.4 * PI / 180.0);
    int day = 0;
    double lain = 0.0;
    for (int y = 0; y < 4; y++) {
        double rain = 0.0, sum_K = 0.0, first_s = day * DAY_S;
        for (int i = 0; i < years[y].days; i++, day++) {
            rain += weather.day[day].rain_kg_per_m2;
            sum_K += 0.5 * (weather.day[day].low_K + weather.day[day].high_K);
        }
        assert_near(rain, years[y].rain_mm, 1e-6);
        assert_near(sum_K / years[y].days - 273.15, years[y].mean_C, 6e-5);
        double lies = 200.0 * curve_at(&curve, CURVE_SNOW_M, day * DAY_S);
        assert_near(curve_wet_until(&curve, day * DAY_S) - curve_wet_until(&curve, first_s) + lies -
                    lain, years[y].rain_mm, 1e-6);
        lain = lies;
    }
    assert_int_equal(day, 1461);
    curve_free(&curve);
    weather_free(&weather);
}

/* The yearly wave fitted to four measured years: mean as above, swing near half the difference of
 * the file's July-August and December-January means. */
static void measured_years_show_their_wave(void **state)
{
    (void)state;
    struct weather weather = measured();
    double sum[2] = {0}, all = 0.0;
    int count[2] = {0};
    for (int i = 0; i < weather.days; i++) {
        int month = date_of(weather.start + i).month;
        double mean_K = 0.5 * (weather.day[i].low_K + weather.day[i].high_K);
        int which = month == 7 || month == 8 ? 1 : month == 12 || month == 1 ? 0 : -1;
        all += mean_K / weather.days;
        if (which >= 0) {
            sum[which] += mean_K;
            count[which]++;
        }
    }
    struct weather_wave wave = weather_year(&weather, 47.4 * PI / 180.0, 130.0);
    assert_near(wave.mean_K, all, 0.05);
    assert_near(wave.swing_K, 0.5 * (sum[1] / count[1] - sum[0] / count[0]), 0.6);
    assert_true(wave.coldest_day > 0.0 && wave.coldest_day < 40.0);
    weather_free(&weather);
}

static void measured_years_make_smooth_finite_curves(void **state)
{
    (void)state;
    struct weather weather = measured();
    weather_fill(&weather, 47.4 * PI / 180.0, 130.0);
    struct curve curve = curve_of(&weather, 47.4 * PI / 180.0);
    assert_finite(&curve);
    assert_slopes_join(&curve);
    for (int d = 0; d < weather.days; d++)
        assert_near(integral_of_day(&curve, CURVE_SUN_W_PER_M2, d), weather.day[d].sun_J_per_m2,
                    1e-12 * 3e7);
    curve_free(&curve);
    weather_free(&weather);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_pressure_is_as_in_the_standard_atmosphere),
        cmocka_unit_test(extremes_of_each_day_are_met_and_not_passed),
        cmocka_unit_test(low_comes_at_sunrise),
        cmocka_unit_test(sun_of_each_day_is_the_files_and_never_negative),
        cmocka_unit_test(sun_is_up_only_by_day_and_highest_at_noon),
        cmocka_unit_test(slopes_join_at_every_knot),
        cmocka_unit_test(long_wave_changes_with_air_and_vapour),
        cmocka_unit_test(long_wave_changes_with_the_cloud),
        cmocka_unit_test(vapour_and_wind_are_the_files_at_noon_and_between_in_between),
        cmocka_unit_test(vapour_and_wind_have_the_slopes_of_their_values),
        cmocka_unit_test(air_never_holds_more_vapour_than_it_can),
        cmocka_unit_test(snow_and_rain_balance),
        cmocka_unit_test(snow_falls_and_melts_as_by_hand),
        cmocka_unit_test(poles_leap_days_and_new_year_make_curves),
        cmocka_unit_test(one_and_two_days_make_curves),
        cmocka_unit_test(weather_with_a_gap_is_refused_by_its_date),
        cmocka_unit_test(measured_years_keep_their_rain_and_warmth),
        cmocka_unit_test(measured_years_show_their_wave),
        cmocka_unit_test(measured_years_make_smooth_finite_curves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
