/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/curve_make.c - daily weather drawn out into curves with continuous slopes.
 *
 *   air        half cosines between the low at sunrise and the high at 15 h; both on whole hours,
 *              where the knots are, so that the extremes of the file are met exactly
 *   vapour,    the day's mean at noon, joined by Steffen's monotone cubic (1990); vapour never
 *   wind       more than the air of that hour holds, the rest is dew
 *   sun        a squared sine from sunrise to sunset whose integral over the day is the file's
 *   long wave  Brutsaert's clear sky with the day's cloud, from sky/sun
 *   snow       falls in the cold, melts by degree-days; what reaches the ground is rain and melt
 *   ground     the year's wave of the air, damped and late with depth (Carslaw and Jaeger 1959,
 *              section 2.6); lying snow and plants would damp it further and are left out
 *
 * Apart from sky/curve because a season, which only reads curves, must do without GSL.
 */
#include "sky/curve.h"
#include "sky/sun.h"
#include <gsl/gsl_interp.h>
#include <math.h>
#include <stdlib.h>

static const double ICE_POINT_K = 273.15;
static const double PI = 3.14159265358979323846;
static const double DAY_S = 86400.0;
static const double YEAR_S = 365.2425 * 86400.0;
static const double SOIL_M2_PER_S = 7e-7; /* loam, between 0.70 and 0.80 (Lawrence, Slater 2008) */
static const double SNOW_KG_PER_M3 = 200.0;     /* settled a little; common practice, no source */
static const double MELT_KG_PER_M2_K_DAY = 3.5;     /* 3 to 4; common practice, no source */
enum { HOURS = 24, NOON = 12, HIGH_HOUR = 15, EARLIEST_LOW = 2, LATEST_LOW = 10 };
static const double KNOT_S = 3600.0;

static bool in_range(double value, double least, double most)
{
    return value >= least && value <= most; /* NaN is not */
}

static bool day_sound(const struct weather_day *day)
{
    return in_range(day->low_K, 180.0, 350.0) && in_range(day->high_K, day->low_K, 350.0) &&
           in_range(day->rain_kg_per_m2, 0.0, 5000.0) && in_range(day->vapour_Pa, 0.01, 4e4) &&
           in_range(day->wind_m_per_s, 0.0, 100.0) && in_range(day->sun_J_per_m2, 0.0, 60e6);
}

static bool sound(const struct weather *weather, double latitude_rad, double elevation_m,
                  struct trouble *why)
{
    if (!in_range(latitude_rad, -0.5 * PI, 0.5 * PI) || !in_range(elevation_m, -500.0, 6000.0))
        return trouble_set(why, TROUBLE_INPUT,
                           "a place at latitude %g degrees and height %g m; a latitude from -90 to "
                           "90 and a height from -500 to 6000 m are expected",
                           latitude_rad * 180.0 / PI, elevation_m);
    if (weather->days < 1 || weather->days > WEATHER_MOST_DAYS)
        return trouble_set(why, TROUBLE_INPUT, "weather of %d days; 1 to %d can be used",
                           weather->days, (int)WEATHER_MOST_DAYS);
    for (int d = 0; d < weather->days; d++) {
        if (day_sound(&weather->day[d]))
            continue;
        char date[DATE_TEXT];
        date_write(weather->start + d, date);
        return trouble_set(why, TROUBLE_INPUT,
                           "the weather of %s has a value that is missing or out of range", date);
    }
    return true;
}

/* One block holds everything: two rows of knots for each thing, then the days' water. */
static bool make_room(struct curve *curve, const struct weather *weather, struct trouble *why)
{
    size_t days = (size_t)weather->days, knots = HOURS * days + 1;
    *curve = (struct curve){.start = weather->start, .days = weather->days, .knot_s = KNOT_S};
    double *block = calloc(2 * CURVE_THINGS * knots + 2 * days + 1, sizeof *block);
    curve->block = block;
    if (!block)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for the curves of %d days",
                           weather->days);
    curve->knots = (int)knots;
    for (int thing = 0; thing < CURVE_THINGS; thing++) {
        curve->value[thing] = block + 2 * (size_t)thing * knots;
        curve->slope_per_s[thing] = curve->value[thing] + knots;
    }
    curve->wet_kg_per_m2 = block + 2 * CURVE_THINGS * knots;
    curve->wet_before_kg_per_m2 = curve->wet_kg_per_m2 + days;
    return true;
}

/* Sunrise to the nearest whole hour, and within bounds where the sun hardly sets or rises. */
static int low_hour(const struct weather *weather, int day, double latitude_rad)
{
    double daylight_s = sun_daylight_s(latitude_rad, date_day_of_year(weather->start + day));
    int hour = (int)floor(NOON - 0.5 * daylight_s / 3600.0 + 0.5);
    if (hour < EARLIEST_LOW)
        return EARLIEST_LOW;
    return hour > LATEST_LOW ? LATEST_LOW : hour;
}

struct extreme {
    int hour; /* from the start */
    double temp_K;
};

/* Days before the first and after the last are like these. */
static struct extreme low_of(const struct weather *weather, int day, double latitude_rad)
{
    int like = day < weather->days ? day : weather->days - 1;
    return (struct extreme){HOURS * day + low_hour(weather, like, latitude_rad),
                            weather->day[like].low_K};
}

static struct extreme high_of(const struct weather *weather, int day)
{
    return (struct extreme){HOURS * day + HIGH_HOUR, weather->day[day < 0 ? 0 : day].high_K};
}

static void draw_air(struct curve *curve, const struct weather *weather, double latitude_rad)
{
    for (int k = 0; k < curve->knots; k++) {
        int day = k / HOURS;
        struct extreme from = low_of(weather, day, latitude_rad), to;
        if (k < from.hour) {
            to = from;
            from = high_of(weather, day - 1);
        } else if (k < HOURS * day + HIGH_HOUR) {
            to = high_of(weather, day);
        } else {
            from = high_of(weather, day);
            to = low_of(weather, day + 1, latitude_rad);
        }
        double span = to.hour - from.hour, rise_K = to.temp_K - from.temp_K;
        double phase = PI * (k - from.hour) / span;
        curve->value[CURVE_AIR_K][k] = from.temp_K + 0.5 * rise_K * (1.0 - cos(phase));
        curve->slope_per_s[CURVE_AIR_K][k] = 0.5 * rise_K * PI * sin(phase) / (span * KNOT_S);
    }
}

/* Steffen's cubic through `count` points a day apart, the first at first_day, ends held; value and
 * slope at every knot. `point` has room for one more before and after. */
static bool steffen(const struct curve *curve, double *time_s, double *point, int count,
                    double first_day, double *value, double *slope_per_s)
{
    size_t size = (size_t)count + 2;
    for (size_t i = 0; i < size; i++)
        time_s[i] = (first_day - 1.0 + (double)i) * DAY_S;
    point[0] = point[1];
    point[count + 1] = point[count];
    gsl_interp *interp = gsl_interp_alloc(gsl_interp_steffen, size);
    if (!interp)
        return false;
    bool good = gsl_interp_init(interp, time_s, point, size) == 0;
    gsl_interp_accel place = {0, 0, 0};
    for (int k = 0; good && k < curve->knots; k++)
        good = !gsl_interp_eval_e(interp, time_s, point, k * KNOT_S, &place, &value[k]) &&
               !gsl_interp_eval_deriv_e(interp, time_s, point, k * KNOT_S, &place,
                                        &slope_per_s[k]);
    gsl_interp_free(interp);
    return good;
}

/* Where the air can't hold the day's vapour, at night, its curve follows what it can hold: the
 * lesser of both, (day^-n + most^-n)^(-1/n), rounded so that an hour's knots can follow the change
 * of lead. Air at 60 % is left alone to 1e-6, air at 100 % is drawn at 97 %. */
static void let_dew_fall(struct curve *curve)
{
    static const double SHARP = 24.0;
    double *vapour = curve->value[CURVE_VAPOUR_PA], *slope = curve->slope_per_s[CURVE_VAPOUR_PA];
    for (int k = 0; k < curve->knots; k++) {
        double air_K = curve->value[CURVE_AIR_K][k], day_Pa = vapour[k];
        double most_Pa = weather_saturation_Pa(air_K);
        double most_Pa_per_s = weather_saturation_Pa_per_K(air_K) *
                               curve->slope_per_s[CURVE_AIR_K][k];
        double lead = 1.0 / (1.0 + pow(day_Pa / most_Pa, SHARP)); /* 1 where the day's leads */
        vapour[k] = day_Pa * pow(lead, 1.0 / SHARP);
        slope[k] = vapour[k] * (lead * slope[k] / day_Pa + (1.0 - lead) * most_Pa_per_s / most_Pa);
    }
}

/* A day's sun. The integral of a Hermite curve over whole days, which begin and end flat, is the
 * sum of its knots times their spacing, so scaling that sum makes the day's total exact. A slope is
 * held to three values per spacing, which keeps the first and last piece of a day above 0.
 * Less than four hours of daylight are drawn as four: a file may speak of twilight. */
static void draw_sun_of_day(struct curve *curve, int day, double daylight_s, double sun_J_per_m2)
{
    double *value = curve->value[CURVE_SUN_W_PER_M2] + HOURS * day;
    double *slope = curve->slope_per_s[CURVE_SUN_W_PER_M2] + HOURS * day;
    double span_s = daylight_s < 4.0 * KNOT_S ? 4.0 * KNOT_S : daylight_s;
    double sum = 0.0;
    for (int h = 0; h < HOURS; h++) {
        double share = ((h - NOON) * KNOT_S + 0.5 * span_s) / span_s;
        bool up = share > 0.0 && share < 1.0;
        value[h] = up ? sin(PI * share) * sin(PI * share) : 0.0;
        slope[h] = up ? PI * sin(2.0 * PI * share) / span_s : 0.0;
        sum += value[h];
    }
    double scale = sun_J_per_m2 / (KNOT_S * sum);
    for (int h = 0; h < HOURS; h++) {
        double most = 3.0 * value[h] / KNOT_S;
        slope[h] = scale * fmax(-most, fmin(most, slope[h]));
        value[h] *= scale;
    }
}

static void draw_sun(struct curve *curve, const struct weather *weather, double latitude_rad)
{
    for (int d = 0; d < weather->days; d++) {
        int day_of_year = date_day_of_year(weather->start + d);
        draw_sun_of_day(curve, d, sun_daylight_s(latitude_rad, day_of_year),
                        weather->day[d].sun_J_per_m2);
    }
}

/* Long waves of the sky, slope by the chain rule; on entry their rows hold the share of cloud. */
static void draw_long(struct curve *curve)
{
    for (int k = 0; k < curve->knots; k++) {
        double air_K = curve->value[CURVE_AIR_K][k], vapour_Pa = curve->value[CURVE_VAPOUR_PA][k];
        double warming = curve->slope_per_s[CURVE_AIR_K][k] / air_K;
        double wetting = curve->slope_per_s[CURVE_VAPOUR_PA][k] / vapour_Pa;
        double cloud = curve->value[CURVE_LONG_W_PER_M2][k];
        double clouding = curve->slope_per_s[CURVE_LONG_W_PER_M2][k];
        double clear = sun_clear_emissivity(air_K, vapour_Pa);
        double black = sun_long_W_per_m2(air_K, vapour_Pa, cloud) /
                       (clear * (1.0 - 0.84 * cloud) + 0.84 * cloud);
        double change = clear * (wetting - warming) / 7.0 * (1.0 - 0.84 * cloud) +
                        0.84 * clouding * (1.0 - clear);
        curve->value[CURVE_LONG_W_PER_M2][k] = sun_long_W_per_m2(air_K, vapour_Pa, cloud);
        curve->slope_per_s[CURVE_LONG_W_PER_M2][k] =
            4.0 * warming * curve->value[CURVE_LONG_W_PER_M2][k] + black * change;
    }
}

/* Share of a day's fall that is snow: all at 0 deg C of the day's mean, none at 2 (common practice,
 * no source). */
static double snow_share(const struct weather_day *day)
{
    double mean_C = 0.5 * (day->low_K + day->high_K) - ICE_POINT_K;
    return fmax(0.0, fmin(1.0, 0.5 * (2.0 - mean_C)));
}

/* Mean of the day's positive degrees over its hours. */
static double thaw_K(const struct curve *curve, int day)
{
    double sum = 0.0;
    for (int h = 0; h < HOURS; h++)
        sum += fmax(0.0, curve->value[CURVE_AIR_K][HOURS * day + h] - ICE_POINT_K);
    return sum / HOURS;
}

/* What falls lies or runs; `lying` gets the snow at each midnight, m. */
static void store_snow(struct curve *curve, const struct weather *weather, double *lying_m)
{
    double store = 0.0;
    lying_m[0] = 0.0;
    for (int d = 0; d < weather->days; d++) {
        double fall = weather->day[d].rain_kg_per_m2;
        double snow = fall * snow_share(&weather->day[d]);
        store += snow;
        double melt = fmin(store, MELT_KG_PER_M2_K_DAY * thaw_K(curve, d));
        store -= melt;
        curve->wet_kg_per_m2[d] = fall - snow + melt;
        lying_m[d + 1] = store / SNOW_KG_PER_M3;
    }
}

static void sum_wet(struct curve *curve)
{
    curve->wet_before_kg_per_m2[0] = 0.0;
    for (int d = 0; d < curve->days; d++)
        curve->wet_before_kg_per_m2[d + 1] =
            curve->wet_before_kg_per_m2[d] + curve->wet_kg_per_m2[d];
}

/* What of a day is joined from noon to noon. */
static double noon_value(const struct weather *weather, int d, enum curve_thing thing,
                         double latitude_rad, double elevation_m)
{
    const struct weather_day *day = &weather->day[d];
    if (thing == CURVE_VAPOUR_PA)
        return day->vapour_Pa;
    if (thing == CURVE_WIND_M_PER_S)
        return day->wind_m_per_s;
    return sun_cloud_share(day->sun_J_per_m2,
                           sun_clear_J_per_m2(latitude_rad, date_day_of_year(weather->start + d),
                                              elevation_m));
}

/* The curves that GSL joins: scratch holds times and points, days + 3 of each. */
static bool draw_joined(struct curve *curve, const struct weather *weather, double latitude_rad,
                        double elevation_m, double *scratch)
{
    static const enum curve_thing daily[] = {CURVE_VAPOUR_PA, CURVE_WIND_M_PER_S,
                                             CURVE_LONG_W_PER_M2};
    double *time_s = scratch, *point = scratch + weather->days + 3;
    for (size_t i = 0; i < sizeof daily / sizeof daily[0]; i++) {
        for (int d = 0; d < weather->days; d++)
            point[d + 1] = noon_value(weather, d, daily[i], latitude_rad, elevation_m);
        if (!steffen(curve, time_s, point, weather->days, 0.5, curve->value[daily[i]],
                     curve->slope_per_s[daily[i]]))
            return false;
    }
    store_snow(curve, weather, point + 1);
    return steffen(curve, time_s, point, weather->days + 1, 0.0, curve->value[CURVE_SNOW_M],
                   curve->slope_per_s[CURVE_SNOW_M]);
}

static void set_ground(struct curve *curve, const struct weather *weather, double latitude_rad,
                       double elevation_m)
{
    struct weather_wave wave = weather_year(weather, latitude_rad, elevation_m);
    curve->ground_mean_K = wave.mean_K;
    curve->ground_swing_K = wave.swing_K;
    curve->ground_coldest_s = (wave.coldest_day - (date_day_of_year(curve->start) - 1)) * DAY_S;
    curve->ground_depth_m = sqrt(SOIL_M2_PER_S * YEAR_S / PI);
}

bool curve_make(struct curve *curve, const struct weather *weather, double latitude_rad,
                double elevation_m, struct trouble *why)
{
    *curve = (struct curve){0};
    if (!sound(weather, latitude_rad, elevation_m, why) || !make_room(curve, weather, why))
        return false;
    curve->air_Pa = weather_air_Pa(elevation_m);
    draw_air(curve, weather, latitude_rad);
    draw_sun(curve, weather, latitude_rad);
    set_ground(curve, weather, latitude_rad, elevation_m);
    double *scratch = malloc(2 * ((size_t)weather->days + 3) * sizeof *scratch);
    bool good = scratch && draw_joined(curve, weather, latitude_rad, elevation_m, scratch);
    free(scratch);
    if (!good) {
        free(curve->block);
        *curve = (struct curve){0};
        return trouble_set(why, TROUBLE_MEMORY, "no memory to join the days of the weather");
    }
    let_dew_fall(curve);
    draw_long(curve);
    sum_wet(curve);
    return true;
}
