/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/sky/test_normals.c - sky/normals: many years keep the normals they were made from.
 *
 * Statistics are allowed four standard errors, which the comments derive; every draw is fixed by
 * its seed, so a test that passes passes always.
 */
#include "sky/normals.h"
#include "door/sheet.h"
#include "lib/near.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics.h>
#include <stdlib.h>

static const double PI = 3.14159265358979323846;
enum { YEARS = 99, MOST = WEATHER_MOST_DAYS };

/* An invented climate with cold winters. */
static const struct weather_normals COLD = {
    .low_K = {267, 268, 271, 275, 280, 283, 285, 285, 281, 277, 272, 268},
    .high_K = {273, 276, 281, 287, 292, 295, 297, 297, 292, 285, 278, 274},
    .rain_kg_per_m2 = {55, 48, 55, 62, 90, 105, 110, 100, 75, 60, 58, 60},
    .wet_days = {11, 9, 10, 11, 12, 13, 13, 12, 10, 9, 10, 11},
    .wind_m_per_s = 1.8,
};

static date_count day_number(int year, int month, int day)
{
    return date_number((struct date){year, month, day});
}

static struct weather generate(const struct weather_normals *normals, date_count start, int days,
                               uint64_t seed)
{
    struct weather weather;
    struct trouble why = {0};
    if (!normals_generate(&weather, normals, start, days, seed, &why))
        fail_msg("%s", why.text);
    return weather;
}

static struct weather many_years(uint64_t seed)
{
    return generate(&COLD, day_number(1901, 1, 1), (int)(day_number(2000, 1, 1) -
                                                         day_number(1901, 1, 1)), seed);
}

/* A month's figure in each year of the many. */
struct months {
    double figure[12][YEARS];
};

static double mean_of(const double *figure) { return gsl_stats_mean(figure, 1, YEARS); }

/* Four standard errors of a mean over years; years hardly hang together. */
static double allowed(const double *figure)
{
    return 4.0 * gsl_stats_sd(figure, 1, YEARS) / sqrt(YEARS);
}

enum figure { LOW, HIGH, RAIN, WET };

static struct months tally(const struct weather *weather, enum figure figure)
{
    struct months months = {0};
    int days[12][YEARS] = {0};
    for (int i = 0; i < weather->days; i++) {
        struct date date = date_of(weather->start + i);
        const struct weather_day *day = &weather->day[i];
        double value = figure == LOW    ? day->low_K
                       : figure == HIGH ? day->high_K
                       : figure == RAIN ? day->rain_kg_per_m2
                                        : day->rain_kg_per_m2 > 0.0;
        months.figure[date.month - 1][date.year - 1901] += value;
        days[date.month - 1][date.year - 1901]++;
    }
    for (int m = 0; figure <= HIGH && m < 12; m++)
        for (int y = 0; y < YEARS; y++)
            months.figure[m][y] /= days[m][y];
    return months;
}

static void many_years_keep_monthly_lows_and_highs(void **state)
{
    (void)state;
    struct weather weather = many_years(1);
    struct months low = tally(&weather, LOW), high = tally(&weather, HIGH);
    for (int m = 0; m < 12; m++) {
        assert_near(mean_of(low.figure[m]), COLD.low_K[m], allowed(low.figure[m]));
        assert_near(mean_of(high.figure[m]), COLD.high_K[m], allowed(high.figure[m]));
        assert_true(allowed(low.figure[m]) < 1.0); /* the years say something */
    }
    weather_free(&weather);
}

static void many_years_keep_monthly_rain_and_wet_days(void **state)
{
    (void)state;
    struct weather weather = many_years(2);
    struct months rain = tally(&weather, RAIN), wet = tally(&weather, WET);
    for (int m = 0; m < 12; m++) {
        assert_near(mean_of(rain.figure[m]), COLD.rain_kg_per_m2[m], allowed(rain.figure[m]));
        assert_near(mean_of(wet.figure[m]), COLD.wet_days[m], allowed(wet.figure[m]));
        assert_true(allowed(rain.figure[m]) < 0.25 * COLD.rain_kg_per_m2[m]);
        assert_true(allowed(wet.figure[m]) < 2.0);
    }
    weather_free(&weather);
}

/* Departures of the day's middle from the mean year, in units of 0.35 of its range. */
static double *departures(const struct weather *weather)
{
    struct weather mean = generate(&COLD, weather->start, weather->days, 0);
    double *departure = malloc((size_t)weather->days * sizeof *departure);
    assert_non_null(departure);
    for (int i = 0; i < weather->days; i++) {
        double range_K = mean.day[i].high_K - mean.day[i].low_K;
        double middle_K = 0.5 * (weather->day[i].low_K + weather->day[i].high_K);
        departure[i] = (middle_K - 0.5 * (mean.day[i].low_K + mean.day[i].high_K)) /
                       (0.35 * range_K);
    }
    weather_free(&mean);
    return departure;
}

/* First-order process: lag-1 correlation 0.65 with error sqrt((1 - 0.65^2)/n); variance 1 with
 * error sqrt(2/n (1 + 0.65^2)/(1 - 0.65^2)) (Bartlett 1946). */
static void temperatures_have_the_memory_and_spread_they_claim(void **state)
{
    (void)state;
    struct weather weather = many_years(3);
    double *departure = departures(&weather);
    double n = weather.days, square = 0.65 * 0.65;
    assert_near(gsl_stats_lag1_autocorrelation(departure, 1, (size_t)weather.days), 0.65,
                4.0 * sqrt((1.0 - square) / n));
    assert_near(gsl_stats_variance(departure, 1, (size_t)weather.days), 1.0,
                4.0 * sqrt(2.0 / n * (1.0 + square) / (1.0 - square)));
    free(departure);
    weather_free(&weather);
}

/* The same normals all year, so that the chain has one pair of chances. */
static struct weather_normals even_climate(void)
{
    struct weather_normals normals = COLD;
    for (int m = 0; m < 12; m++) {
        normals.low_K[m] = 280.0;
        normals.high_K[m] = 290.0;
        normals.rain_kg_per_m2[m] = 80.0;
        normals.wet_days[m] = 11.0;
    }
    return normals;
}

/* Chain of wet and dry: lag-1 correlation 0.35, standard error about 1/sqrt(n). */
static void wet_days_come_in_spells(void **state)
{
    (void)state;
    struct weather_normals normals = even_climate();
    struct weather weather = generate(&normals, day_number(1950, 1, 1), MOST, 4);
    double *wet = malloc(MOST * sizeof *wet);
    assert_non_null(wet);
    for (int i = 0; i < MOST; i++)
        wet[i] = weather.day[i].rain_kg_per_m2 > 0.0;
    assert_near(gsl_stats_lag1_autocorrelation(wet, 1, MOST), 0.35, 4.0 / sqrt(MOST));
    free(wet);
    weather_free(&weather);
}

/* Kolmogorov and Smirnov against the gamma distribution of the GNU Scientific Library; beyond
 * 1.95/sqrt(n) one true sample in a thousand falls. Months of 30 days only: one scale. */
static void amounts_follow_the_gamma_distribution(void **state)
{
    (void)state;
    struct weather_normals normals = even_climate();
    struct weather weather = generate(&normals, day_number(1950, 1, 1), MOST, 5);
    double *amount = malloc(MOST * sizeof *amount), furthest = 0.0;
    size_t count = 0;
    assert_non_null(amount);
    for (int i = 0; i < MOST; i++)
        if (weather.day[i].rain_kg_per_m2 > 0.0)
            amount[count++] = weather.day[i].rain_kg_per_m2;
    gsl_sort(amount, 1, count);
    for (size_t i = 0; i < count; i++) {
        double share = gsl_cdf_gamma_P(amount[i], 0.75, 80.0 / 11.0 / 0.75);
        furthest = fmax(furthest, fmax(share - (double)i / (double)count,
                                       (double)(i + 1) / (double)count - share));
    }
    assert_true(count > 10000);
    assert_near(furthest, 0.0, 1.95 / sqrt((double)count));
    free(amount);
    weather_free(&weather);
}

static void wet_days_have_the_smaller_range(void **state)
{
    (void)state;
    struct weather_normals normals = even_climate();
    struct weather weather = generate(&normals, day_number(1950, 1, 1), MOST, 6);
    double sum[2] = {0.0}, count[2] = {0.0};
    for (int i = 0; i < MOST; i++) {
        int wet = weather.day[i].rain_kg_per_m2 > 0.0;
        assert_true(weather.day[i].high_K > weather.day[i].low_K);
        sum[wet] += weather.day[i].high_K - weather.day[i].low_K;
        count[wet] += 1.0;
    }
    double share = count[1] / MOST; /* by hand: 10 K (1 + 0.35 share) dry, less 3.5 K wet;
                                     * error 2.5 K/sqrt(n) each */
    assert_near(sum[0] / count[0], 10.0 + 3.5 * share, 4.0 * 2.6 / sqrt(count[0]));
    assert_near(sum[0] / count[0] - sum[1] / count[1], 3.5, 4.0 * 2.6 * sqrt(2.0 / count[1]));
    weather_free(&weather);
}

static void wind_keeps_its_mean(void **state)
{
    (void)state;
    struct weather weather = many_years(7);
    double sum = 0.0;
    for (int i = 0; i < weather.days; i++) {
        assert_true(weather.day[i].wind_m_per_s > 0.0);
        sum += weather.day[i].wind_m_per_s;
    }
    /* spread of a lognormal factor, sqrt(exp(0.4^2) - 1) = 0.417 */
    assert_near(sum / weather.days, 1.8, 4.0 * 1.8 * 0.417 / sqrt(weather.days));
    weather_free(&weather);
}

static void a_day_is_the_same_wherever_the_weather_begins(void **state)
{
    (void)state;
    struct weather early = generate(&COLD, day_number(2024, 1, 1), 500, 99);
    struct weather late = generate(&COLD, day_number(2024, 11, 17), 60, 99);
    int shift = (int)(late.start - early.start);
    for (int i = 0; i < late.days; i++)
        assert_memory_equal(&late.day[i].low_K, &early.day[shift + i].low_K, 3 * sizeof(double));
    struct weather other = generate(&COLD, day_number(2024, 11, 17), 60, 100);
    int same = 0;
    for (int i = 0; i < late.days; i++)
        same += late.day[i].low_K == other.day[i].low_K;
    assert_int_equal(same, 0); /* another seed, another weather */
    weather_free(&early);
    weather_free(&late);
    weather_free(&other);
}

/* Exact, in a common and in a leap year. */
static void mean_year_has_the_normals_of_each_month(void **state)
{
    (void)state;
    for (int year = 2023; year <= 2024; year++) {
        for (int m = 1; m <= 12; m++) {
            date_count first = day_number(year, m, 1);
            date_count next = m < 12 ? day_number(year, m + 1, 1) : day_number(year + 1, 1, 1);
            struct weather weather = generate(&COLD, first, (int)(next - first), 0);
            double low = 0.0, high = 0.0, rain = 0.0;
            int wet = 0;
            for (int i = 0; i < weather.days; i++) {
                low += weather.day[i].low_K / weather.days;
                high += weather.day[i].high_K / weather.days;
                rain += weather.day[i].rain_kg_per_m2;
                wet += weather.day[i].rain_kg_per_m2 > 0.0;
            }
            assert_near(low, COLD.low_K[m - 1], 1e-10);
            assert_near(high, COLD.high_K[m - 1], 1e-10);
            assert_near(rain, COLD.rain_kg_per_m2[m - 1], 1e-10);
            assert_int_equal(wet, (int)COLD.wet_days[m - 1]);
            weather_free(&weather);
        }
    }
}

static void mean_year_is_smooth(void **state)
{
    (void)state;
    struct weather weather = generate(&COLD, day_number(2024, 1, 1), 730, 0);
    for (int i = 1; i + 1 < weather.days; i++)
        assert_near(weather.day[i + 1].low_K - 2.0 * weather.day[i].low_K +
                    weather.day[i - 1].low_K, 0.0, 0.03); /* no step at the month's end */
    weather_free(&weather);
}

static void dry_and_soaked_months_are_made(void **state)
{
    (void)state;
    struct weather_normals normals = COLD;
    normals.rain_kg_per_m2[6] = normals.wet_days[6] = 0.0;
    normals.rain_kg_per_m2[7] = 3.0;
    normals.wet_days[7] = 0.3;  /* one wet day in three years */
    normals.wet_days[1] = 31.0; /* as a careless keeper may write of February */
    for (uint64_t seed = 0; seed < 2; seed++) {
        struct weather weather = generate(&normals, day_number(2024, 1, 1), 366, seed);
        double rain[12] = {0.0};
        int wet[12] = {0};
        for (int i = 0; i < 366; i++) {
            int m = date_of(weather.start + i).month - 1;
            rain[m] += weather.day[i].rain_kg_per_m2;
            wet[m] += weather.day[i].rain_kg_per_m2 > 0.0;
        }
        assert_near(rain[6], 0.0, 0.0);
        assert_int_equal(wet[1], 29);
        if (seed == 0)
            assert_near(rain[7], 3.0, 1e-12);
        weather_free(&weather);
    }
}

/* By hand: mean 280 K, swing 9 K, coldest 30 days into the year; each month's mean by integrating
 * the wave over a twelfth of the year. */
static void wave_of_the_normals_is_found_exactly(void **state)
{
    (void)state;
    struct weather_normals normals = COLD;
    double coldest = 2.0 * PI * 30.0 / 365.2425;
    for (int m = 0; m < 12; m++) {
        double from = 2.0 * PI * m / 12.0 - coldest, to = 2.0 * PI * (m + 1) / 12.0 - coldest;
        double mean_K = 280.0 - 9.0 * (sin(to) - sin(from)) / (to - from);
        normals.low_K[m] = mean_K - 4.0;
        normals.high_K[m] = mean_K + 4.0;
    }
    struct weather weather = generate(&normals, day_number(2025, 1, 1), 1, 1);
    assert_near(weather.wave.mean_K, 280.0, 1e-9);
    assert_near(weather.wave.swing_K, 9.0, 1e-9);
    assert_near(weather.wave.coldest_day, 30.0, 1e-6);
    weather_free(&weather);
}

static void shipped_sky_is_moved_to_the_south_and_up(void **state)
{
    (void)state;
    struct skies row = {.name = "test", .wind_m_per_s = 2.5, .elevation_m = 100, .coastal = 1};
    for (int m = 0; m < 12; m++) {
        row.low_C[m] = m;
        row.high_C[m] = 10 + m;
        row.rain_mm[m] = 50 + m;
        row.wet_days[m] = 5 + m;
    }
    struct weather_normals normals;
    normals_of_skies(&normals, &row, 0.8, 600.0); /* 500 m higher: 3 K colder */
    assert_near(normals.low_K[0], 273.15 - 3.0, 1e-12);
    assert_near(normals.high_K[11], 273.15 + 21.0 - 3.0, 1e-12);
    assert_near(normals.wind_m_per_s, 2.5, 0.0);
    assert_true(normals.coastal);
    normals_of_skies(&normals, &row, -0.8, 100.0);
    assert_near(normals.low_K[0], 273.15 + 6.0, 1e-12); /* January as July */
    assert_near(normals.low_K[6], 273.15, 1e-12);
    assert_near(normals.rain_kg_per_m2[8], 52.0, 0.0);
    assert_near(normals.wet_days[11], 10.0, 0.0);
}

static void impossible_normals_are_refused_by_month(void **state)
{
    (void)state;
    struct weather weather;
    struct weather_normals bad[4] = {COLD, COLD, COLD, COLD};
    bad[0].low_K[2] = bad[0].high_K[2] + 1.0;
    bad[1].wet_days[2] = 0.0;
    bad[2].rain_kg_per_m2[2] = NAN;
    bad[3].wet_days[2] = 32.0;
    for (int i = 0; i < 4; i++) {
        struct trouble why = {0};
        assert_false(normals_generate(&weather, &bad[i], 0, 10, 1, &why));
        assert_int_equal(why.kind, TROUBLE_INPUT);
        assert_non_null(strstr(why.text, "March"));
        assert_null(weather.day);
    }
}

static void days_outside_the_calendar_are_refused(void **state)
{
    (void)state;
    struct weather weather;
    const date_count last = day_number(2200, 12, 31);
    struct trouble why = {0};
    assert_false(normals_generate(&weather, &COLD, last, 2, 1, &why));
    why = (struct trouble){0};
    assert_false(normals_generate(&weather, &COLD, day_number(1900, 1, 1) - 1, 2, 1, &why));
    why = (struct trouble){0};
    assert_false(normals_generate(&weather, &COLD, 0, 0, 1, &why));
    assert_int_equal(why.kind, TROUBLE_INPUT);
    weather = generate(&COLD, last, 1, 1); /* the last day there is */
    weather_free(&weather);
    weather = generate(&COLD, day_number(1900, 1, 1), 1, 1);
    weather_free(&weather);
}

/* ---- against measured weather: tests/sky/data/README.md ---- */

static struct weather_normals normals_of(const struct weather *weather)
{
    struct weather_normals normals = {.wind_m_per_s = 2.0};
    double days[12] = {0.0};
    for (int i = 0; i < weather->days; i++) {
        int m = date_of(weather->start + i).month - 1;
        days[m] += 1.0;
        normals.low_K[m] += weather->day[i].low_K;
        normals.high_K[m] += weather->day[i].high_K;
        normals.rain_kg_per_m2[m] += weather->day[i].rain_kg_per_m2 / 4.0; /* years */
        normals.wet_days[m] += (weather->day[i].rain_kg_per_m2 > 0.0) / 4.0;
    }
    for (int m = 0; m < 12; m++) {
        normals.low_K[m] /= days[m];
        normals.high_K[m] /= days[m];
    }
    return normals;
}

struct habits {
    double spread_K, warm_memory, wet_memory, dry_over_wet_range, wet_mean_kg, wet_share_above_10;
};

static struct habits habits_of(const struct weather *weather, const struct weather *mean)
{
    size_t n = (size_t)weather->days;
    double *warm = malloc(n * sizeof *warm), *wet = malloc(n * sizeof *wet);
    double range[2] = {0.0}, count[2] = {0.0}, rain = 0.0, heavy = 0.0;
    assert_true(warm && wet);
    for (size_t i = 0; i < n; i++) {
        const struct weather_day *day = &weather->day[i], *usual = &mean->day[i];
        int rains = day->rain_kg_per_m2 > 0.0;
        wet[i] = rains;
        warm[i] = 0.5 * (day->low_K + day->high_K - usual->low_K - usual->high_K);
        range[rains] += (day->high_K - day->low_K) / (usual->high_K - usual->low_K);
        count[rains] += 1.0;
        rain += day->rain_kg_per_m2;
        heavy += day->rain_kg_per_m2 > 10.0;
    }
    struct habits habits = {gsl_stats_sd(warm, 1, n), gsl_stats_lag1_autocorrelation(warm, 1, n),
                            gsl_stats_lag1_autocorrelation(wet, 1, n),
                            range[0] / count[0] / (range[1] / count[1]), rain / count[1],
                            heavy / count[1]};
    free(warm);
    free(wet);
    return habits;
}

/* Four measured years and a hundred made from their normals: what the normals don't say, which is
 * common practice in the generator, is compared with what was measured. A coast hangs together more
 * than the generator's middling climate, hence the allowances. */
static void generated_days_behave_like_measured_ones(void **state)
{
    (void)state;
    struct weather measured;
    struct trouble why = {0};
    if (!sheet_weather(&measured, "tests/sky/data/coast_2012_2015.csv", &why))
        fail_msg("%s", why.text);
    struct weather_normals normals = normals_of(&measured);
    struct weather usual = generate(&normals, measured.start, measured.days, 0);
    struct weather made = generate(&normals, measured.start, 36500, 8);
    struct weather made_usual = generate(&normals, measured.start, 36500, 0);
    struct habits want = habits_of(&measured, &usual), got = habits_of(&made, &made_usual);
    assert_near(got.spread_K, want.spread_K, 0.2 * want.spread_K);
    assert_near(got.warm_memory, want.warm_memory, 0.15);
    assert_near(got.wet_memory, want.wet_memory, 0.15);
    assert_near(got.dry_over_wet_range, want.dry_over_wet_range, 0.15);
    assert_near(got.wet_mean_kg, want.wet_mean_kg, 0.05 * want.wet_mean_kg);
    assert_near(got.wet_share_above_10, want.wet_share_above_10, 0.04);
    weather_free(&measured);
    weather_free(&usual);
    weather_free(&made);
    weather_free(&made_usual);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(many_years_keep_monthly_lows_and_highs),
        cmocka_unit_test(many_years_keep_monthly_rain_and_wet_days),
        cmocka_unit_test(temperatures_have_the_memory_and_spread_they_claim),
        cmocka_unit_test(wet_days_come_in_spells),
        cmocka_unit_test(amounts_follow_the_gamma_distribution),
        cmocka_unit_test(wet_days_have_the_smaller_range),
        cmocka_unit_test(wind_keeps_its_mean),
        cmocka_unit_test(a_day_is_the_same_wherever_the_weather_begins),
        cmocka_unit_test(mean_year_has_the_normals_of_each_month),
        cmocka_unit_test(mean_year_is_smooth),
        cmocka_unit_test(dry_and_soaked_months_are_made),
        cmocka_unit_test(wave_of_the_normals_is_found_exactly),
        cmocka_unit_test(shipped_sky_is_moved_to_the_south_and_up),
        cmocka_unit_test(impossible_normals_are_refused_by_month),
        cmocka_unit_test(days_outside_the_calendar_are_refused),
        cmocka_unit_test(generated_days_behave_like_measured_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
