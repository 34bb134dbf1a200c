/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/sun.c - the solar chain of reference evapotranspiration, and Brutsaert's clear sky.
 *
 * Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3; equation
 * numbers below are theirs. All day totals; their radiation above the air is doubtful in the winter
 * of latitudes beyond 55 degrees, where there is little of it.
 */
#include "sky/sun.h"
#include <math.h>

static const double PI = 3.14159265358979323846;
static const double SOLAR_W_PER_M2 = 0.0820e6 / 60.0;       /* 0.0820 MJ/(m2 min) */
static const double STEFAN_W_PER_M2_K4 = 5.670374419e-8;    /* CODATA 2018 */

static double turn_of_year(int day_of_year)
{
    return 2.0 * PI * day_of_year / 365.0;
}

double sun_nearness(int day_of_year) /* eq. 23 */
{
    return 1.0 + 0.033 * cos(turn_of_year(day_of_year));
}

double sun_declination_rad(int day_of_year) /* eq. 24 */
{
    return 0.409 * sin(turn_of_year(day_of_year) - 1.39);
}

/* Eq. 25. Beyond -1 and 1 the sun does not set or does not rise; at the very poles the tangent is
 * huge but finite, which comes to the same. */
double sun_sunset_rad(double latitude_rad, int day_of_year)
{
    double cosine = -tan(latitude_rad) * tan(sun_declination_rad(day_of_year));
    if (cosine <= -1.0)
        return PI;
    return cosine >= 1.0 ? 0.0 : acos(cosine);
}

double sun_daylight_s(double latitude_rad, int day_of_year) /* eq. 34 */
{
    return 86400.0 * sun_sunset_rad(latitude_rad, day_of_year) / PI;
}

double sun_above_J_per_m2(double latitude_rad, int day_of_year) /* eq. 21 */
{
    double sunset = sun_sunset_rad(latitude_rad, day_of_year);
    double declination = sun_declination_rad(day_of_year);
    double height = sunset * sin(latitude_rad) * sin(declination) +
                    cos(latitude_rad) * cos(declination) * sin(sunset);
    return 86400.0 / PI * SOLAR_W_PER_M2 * sun_nearness(day_of_year) * height;
}

double sun_clear_J_per_m2(double latitude_rad, int day_of_year, double elevation_m) /* eq. 37 */
{
    return (0.75 + 2e-5 * elevation_m) * sun_above_J_per_m2(latitude_rad, day_of_year);
}

/* Eq. 50, after Hargreaves: cloud keeps nights warm and days cool. Never more than a clear day. */
double sun_guess_J_per_m2(double low_K, double high_K, double above_J_per_m2,
                          double clear_J_per_m2, bool coastal)
{
    double guess = (coastal ? 0.19 : 0.16) * sqrt(high_K - low_K) * above_J_per_m2;
    return guess < clear_J_per_m2 ? guess : clear_J_per_m2;
}

/* Eq. 35 and 37 together: bright hours n/N = 1.5 Rs/Rso - 0.5, and cloud is what is not bright.
 * Without sun nothing is known of the cloud: half is taken (common practice, no source). */
double sun_cloud_share(double sun_J_per_m2, double clear_J_per_m2)
{
    static const double LEAST_J_PER_M2 = 0.1e6; /* below it the ratio is noise */
    if (!(clear_J_per_m2 > LEAST_J_PER_M2))
        return 0.5;
    double share = 1.5 * (1.0 - sun_J_per_m2 / clear_J_per_m2);
    if (share < 0.0)
        return 0.0;
    return share > 1.0 ? 1.0 : share;
}

/* Brutsaert (1975): 1.24 (e/T)^(1/7), e in hPa. */
double sun_clear_emissivity(double air_K, double vapour_Pa)
{
    return 1.24 * pow(vapour_Pa / 100.0 / air_K, 1.0 / 7.0);
}

/* Cloud after Campbell and Norman (1998): its base shines like the air below. */
double sun_long_W_per_m2(double air_K, double vapour_Pa, double cloud_share)
{
    double cover = 0.84 * cloud_share;
    double emissivity = sun_clear_emissivity(air_K, vapour_Pa) * (1.0 - cover) + cover;
    return emissivity * STEFAN_W_PER_M2_K4 * air_K * air_K * air_K * air_K;
}
