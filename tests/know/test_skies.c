/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/know/test_skies.c - know/skies: invented, yet each the kind of climate its name says. */
#include "know/skies.h"
#include "lib/near.h"

static double mean_C(const struct skies *sky, int month)
{
    return (sky->low_C[month] + sky->high_C[month]) / 2.0;
}

/* what the classes of Koeppen ask for; summer is April to September */
struct year {
    double coldest_C, hottest_C, mean_C, rain_mm, summer_mm, driest_summer_mm, wettest_winter_mm;
    int warm_months; /* of 10 C and more */
};

static struct year year_of(const struct skies *sky)
{
    struct year year = {.coldest_C = 99.0, .hottest_C = -99.0, .driest_summer_mm = 9999.0};
    for (int month = 0; month < 12; month++) {
        double temp_C = mean_C(sky, month), rain_mm = sky->rain_mm[month];
        year.coldest_C = fmin(year.coldest_C, temp_C);
        year.hottest_C = fmax(year.hottest_C, temp_C);
        year.mean_C += temp_C / 12.0;
        year.rain_mm += rain_mm;
        year.warm_months += temp_C >= 10.0;
        if (month >= 3 && month <= 8) {
            year.summer_mm += rain_mm;
            year.driest_summer_mm = fmin(year.driest_summer_mm, rain_mm);
        } else {
            year.wettest_winter_mm = fmax(year.wettest_winter_mm, rain_mm);
        }
    }
    return year;
}

/* The dryness limit, mm a year. */
static double dry_below_mm(const struct year *year)
{
    double share = year->summer_mm / year->rain_mm;
    return 10.0 * (2.0 * year->mean_C + (share > 0.7 ? 28.0 : share < 0.3 ? 0.0 : 14.0));
}

/* [memory] Criteria of Koeppen-Geiger classes as in Peel, Finlayson and McMahon 2007, Hydrology and
 * Earth System Sciences 11:1633, table 1. Classes f and s only, as no winter here is dry. */
static void class_of(const struct skies *sky, char text[4])
{
    struct year year = year_of(sky);
    memset(text, 0, 4);
    if (year.rain_mm < dry_below_mm(&year)) {
        text[0] = 'B';
        text[1] = year.rain_mm < 0.5 * dry_below_mm(&year) ? 'W' : 'S';
        text[2] = year.mean_C >= 18.0 ? 'h' : 'k';
        return;
    }
    text[0] = year.coldest_C <= 0.0 ? 'D' : year.coldest_C < 18.0 ? 'C' : 'A';
    text[1] = year.driest_summer_mm < 40.0 && year.driest_summer_mm < year.wettest_winter_mm / 3.0
                  ? 's' : 'f';
    text[2] = year.hottest_C >= 22.0 ? 'a' : year.warm_months >= 4 ? 'b' : 'c';
}

static void each_sky_is_of_the_class_its_name_promises(void **state)
{
    (void)state;
    static const char *const want[][2] = {
        {"cold winters", "Dfb"}, {"mild and wet", "Cfb"},   {"dry upland", "BSk"},
        {"long winter", "Dfc"},  {"warm and humid", "Cfa"}, {"dry summers", "Csa"},
    };
    assert_int_equal(skies_count, sizeof want / sizeof want[0]);
    for (int i = 0; i < skies_count; i++) {
        char text[4];
        int at = skies_find(want[i][0]);
        assert_true(at >= 0);
        class_of(&skies_rows[at], text);
        assert_string_equal(text, want[i][1]);
    }
}

static void every_month_is_possible(void **state)
{
    (void)state;
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    for (int i = 0; i < skies_count; i++)
        for (int month = 0; month < 12; month++) {
            const struct skies *sky = &skies_rows[i];
            double swing_C = sky->high_C[month] - sky->low_C[month];
            assert_true(swing_C >= 5.0 && swing_C <= 20.0);
            assert_true(sky->wet_days[month] >= 1.0 && sky->wet_days[month] < days[month]);
            double rain_mm = sky->rain_mm[month] / sky->wet_days[month];
            assert_true(rain_mm >= 1.0 && rain_mm <= 12.0);
        }
}

/* Northern tables: one cold and one warm season, and no leap from month to month. */
static void the_year_is_one_wave(void **state)
{
    (void)state;
    for (int i = 0; i < skies_count; i++) {
        const struct skies *sky = &skies_rows[i];
        int warmest = 0, coldest = 0;
        for (int month = 0; month < 12; month++) {
            warmest = mean_C(sky, month) > mean_C(sky, warmest) ? month : warmest;
            coldest = mean_C(sky, month) < mean_C(sky, coldest) ? month : coldest;
            assert_true(fabs(mean_C(sky, month) - mean_C(sky, (month + 1) % 12)) <= 8.0);
        }
        assert_true(warmest == 6 || warmest == 7);
        assert_true(coldest == 11 || coldest <= 1);
        assert_true(sky->wind_m_per_s > 0.5 && sky->wind_m_per_s < 5.0);
        assert_true(sky->elevation_m >= 0.0 && sky->elevation_m < 3000.0);
        assert_true(sky->coastal == 0 || sky->elevation_m < 200.0);
    }
}

static void a_sky_is_found_by_its_name_in_any_case(void **state)
{
    (void)state;
    for (int i = 0; i < skies_count; i++)
        assert_int_equal(skies_find(skies_rows[i].name), i);
    assert_int_equal(skies_find("Cold_Winters"), skies_find("cold winters"));
    assert_int_equal(skies_find("cold"), -1);
    assert_int_equal(skies_find("cold winters "), -1);
    assert_int_equal(skies_find(""), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_sky_is_of_the_class_its_name_promises),
        cmocka_unit_test(every_month_is_possible),
        cmocka_unit_test(the_year_is_one_wave),
        cmocka_unit_test(a_sky_is_found_by_its_name_in_any_case),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
