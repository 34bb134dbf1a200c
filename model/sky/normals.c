/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/normals.c - a stochastic generator of daily weather from monthly normals.
 *
 * In the manner of Richardson (1981), Water Resources Research 17(1), 182-190: wet and dry days
 * follow a two-state chain, amounts on wet days a gamma distribution, temperatures a process with
 * memory, and wet days have a smaller range between low and high. What the normals give (lows,
 * highs, rain, wet days) is met in the mean of many years; all else is common practice below.
 *
 * Every number is drawn by (seed; date, purpose, try). Chains with memory usually make a day depend
 * on where they were started. Here they do not:
 *   - a chain day whose draw makes it wet (or dry) whatever came before is a fixed point; a day is
 *     settled by looking back to the nearest one (coupling from the past, Propp and Wilson 1996);
 *   - memory of temperature is a weighted sum over the draws of the last days.
 */
#include "sky/normals.h"
#include "base/draw.h"
#include <gsl/gsl_interp.h>
#include <math.h>

static const double PI = 3.14159265358979323846;
static const double YEAR_DAYS = 365.2425;
/* All common practice, no source, unless marked. */
static const double WET_MEMORY = 0.35;      /* lag-1 correlation of wet and dry */
static const double RAIN_SHAPE = 0.75;      /* of the gamma distribution; 0.6 to 0.9 */
static const double WARM_MEMORY = 0.65;     /* lag-1 correlation of the day's mean (memory:
                                             * Richardson 1981 has 0.6 to 0.7) */
static const double WARM_SHARE = 0.35;      /* its spread, as a share of the normal range, which is
                                             * 3.5 K for 10 K: small where the sea is near */
static const double WARM_LEAST_K = 1.5, WARM_MOST_K = 5.0;
static const double RANGE_WET = 0.35;       /* how much narrower a wet day is than a dry one */
static const double RANGE_SPREAD = 0.25;    /* of the logarithm of a day's range */
static const double WIND_SPREAD = 0.4;      /* of the logarithm of a day's wind */
enum { LOOK_BACK = 48 };                    /* days; memory left after them is 0.65^48 = 1e-9 */
enum purpose { DRAW_WET, DRAW_WARM, DRAW_RANGE, DRAW_WIND, DRAW_BOOST, DRAW_RAIN, DRAW_RAIN_KEEP };

static const char *const MONTH[12] = {"January", "February", "March", "April", "May", "June",
                                      "July", "August", "September", "October", "November",
                                      "December"};

static const struct date FIRST_DATE = {1900, 1, 1}, LAST_DATE = {2200, 12, 31};

/* ---- the climate of a date ---- */

struct place_in_year {
    int month, day, length; /* month 0 to 11, day 0 to length - 1 */
};

static struct place_in_year place_of(date_count number)
{
    struct date date = date_of(number);
    struct date first = {date.year, date.month, 1}, next = {date.year, date.month + 1, 1};
    if (date.month == 12)
        next = (struct date){date.year, 12, 31};
    int length = (int)(date_number(next) - date_number(first)) + (date.month == 12);
    return (struct place_in_year){date.month - 1, date.day - 1, length};
}

/* Monthly values as a smooth yearly course whose mean over each month is the month's value: the
 * slope of a periodic cubic spline through the running sum (in months, less the year's mean). */
struct course {
    double mean, sum[13];
    gsl_interp *spline;
};

static const double MONTH_END[13] = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};

static bool course_make(struct course *course, const double value[12])
{
    course->mean = 0.0;
    for (int m = 0; m < 12; m++)
        course->mean += value[m] / 12.0;
    course->sum[0] = 0.0;
    for (int m = 0; m < 12; m++)
        course->sum[m + 1] = course->sum[m] + value[m] - course->mean;
    course->sum[12] = course->sum[0]; /* but for rounding it is */
    course->spline = gsl_interp_alloc(gsl_interp_cspline_periodic, 13);
    return course->spline && !gsl_interp_init(course->spline, MONTH_END, course->sum, 13);
}

/* The mean of the course over one day. */
static double course_on(const struct course *course, struct place_in_year at)
{
    double from = at.month + (double)at.day / at.length;
    double to = at.month + (at.day + 1.0) / at.length;
    double rise = gsl_interp_eval(course->spline, MONTH_END, course->sum, to, NULL) -
                  gsl_interp_eval(course->spline, MONTH_END, course->sum, from, NULL);
    return course->mean + at.length * rise;
}

/* A course through ranges that jump to nothing could dip below it. */
static double range_on(const struct course *range, struct place_in_year at)
{
    return fmax(0.0, course_on(range, at));
}

struct climate {
    const struct weather_normals *normals;
    struct course middle, range; /* of low and high; of high less low */
    uint64_t seed;
};

static bool climate_make(struct climate *climate, const struct weather_normals *normals,
                         uint64_t seed)
{
    double middle[12], range[12];
    for (int m = 0; m < 12; m++) {
        middle[m] = 0.5 * (normals->low_K[m] + normals->high_K[m]);
        range[m] = normals->high_K[m] - normals->low_K[m];
    }
    *climate = (struct climate){.normals = normals, .seed = seed};
    return course_make(&climate->middle, middle) && course_make(&climate->range, range);
}

static void climate_free(struct climate *climate)
{
    if (climate->middle.spline)
        gsl_interp_free(climate->middle.spline);
    if (climate->range.spline)
        gsl_interp_free(climate->range.spline);
}

/* ---- chance ---- */

static double uniform(uint64_t seed, date_count day, enum purpose purpose, uint32_t try)
{
    return draw_uniform(seed, (uint32_t)day, (uint32_t)purpose, try);
}

static double normal(uint64_t seed, date_count day, enum purpose purpose)
{
    return draw_normal(seed, (uint32_t)day, (uint32_t)purpose, 0);
}

/* Share of a month's days that are wet. */
static double wet_share(const struct weather_normals *normals, struct place_in_year at)
{
    double share = normals->wet_days[at.month] / at.length;
    return share < 1.0 ? share : 1.0;
}

/* P(wet after dry) = share (1 - memory), P(wet after wet) = that + memory: a draw below the first
 * or above the second settles the day, one between repeats the day before. */
static bool is_wet(const struct climate *climate, date_count day)
{
    date_count first = date_number(FIRST_DATE);
    for (date_count back = day; back > day - LOOK_BACK && back >= first; back--) {
        double after_dry = wet_share(climate->normals, place_of(back)) * (1.0 - WET_MEMORY);
        double drawn = uniform(climate->seed, back, DRAW_WET, 0);
        if (drawn < after_dry)
            return true;
        if (drawn >= after_dry + WET_MEMORY)
            return false;
    }
    return false; /* chance 0.35^48, but for the first days of the calendar */
}

/* Gamma with mean 1: Marsaglia and Tsang (2000), ACM Trans. Math. Softw. 26(3), 363-372, for
 * shape + 1, brought down by a power of a uniform number. Nineteen tries in twenty succeed. */
static double gamma_of_mean_one(const struct climate *climate, date_count day)
{
    double d = RAIN_SHAPE + 1.0 - 1.0 / 3.0, c = 1.0 / sqrt(9.0 * d);
    double boost = pow(uniform(climate->seed, day, DRAW_BOOST, 0), 1.0 / RAIN_SHAPE);
    double v = 1.0;
    for (uint32_t try = 0; try < 64; try++) {
        double x = draw_normal(climate->seed, (uint32_t)day, DRAW_RAIN, try);
        v = (1.0 + c * x) * (1.0 + c * x) * (1.0 + c * x);
        if (v > 0.0 && log(uniform(climate->seed, day, DRAW_RAIN_KEEP, try)) <
                           0.5 * x * x + d - d * v + d * log(v))
            break;
    }
    return (v > 0.0 ? d * v : d) * boost / RAIN_SHAPE;
}

/* Departure of the day's mean temperature in units of its spread: a first-order process written
 * out over the draws that still count. */
static double warmth(const struct climate *climate, date_count day)
{
    double sum = 0.0, weight = sqrt(1.0 - WARM_MEMORY * WARM_MEMORY);
    for (int back = 0; back < LOOK_BACK; back++) {
        sum += weight * normal(climate->seed, day - back, DRAW_WARM);
        weight *= WARM_MEMORY;
    }
    return sum;
}

/* A factor with mean 1 whose logarithm has this spread. */
static double factor(const struct climate *climate, date_count day, enum purpose purpose,
                     double spread)
{
    return exp(spread * normal(climate->seed, day, purpose) - 0.5 * spread * spread);
}

/* ---- one day ---- */

static void set_temperature(struct weather_day *day, double middle_K, double range_K)
{
    day->low_K = middle_K - 0.5 * range_K;
    day->high_K = middle_K + 0.5 * range_K;
}

static double normal_rain(const struct weather_normals *normals, int month, double wet_days)
{
    return wet_days > 0.0 ? normals->rain_kg_per_m2[month] / wet_days : 0.0;
}

/* The mean year: a whole number of wet days a month, spread evenly, at least one if it rains. */
static struct weather_day mean_day(const struct climate *climate, date_count date)
{
    struct place_in_year at = place_of(date);
    const struct weather_normals *normals = climate->normals;
    struct weather_day day = {.vapour_Pa = NAN, .sun_J_per_m2 = NAN,
                              .wind_m_per_s = normals->wind_m_per_s};
    set_temperature(&day, course_on(&climate->middle, at), range_on(&climate->range, at));
    int wet = (int)floor(wet_share(normals, at) * at.length + 0.5);
    if (wet == 0 && normals->rain_kg_per_m2[at.month] > 0.0)
        wet = 1;
    /* the k-th wet day is the middle one of the k-th part */
    int before = (2 * at.day * wet + at.length) / (2 * at.length);
    int until = (2 * (at.day + 1) * wet + at.length) / (2 * at.length);
    day.rain_kg_per_m2 = (until - before) * normal_rain(normals, at.month, wet);
    return day;
}

static struct weather_day drawn_day(const struct climate *climate, date_count date)
{
    struct place_in_year at = place_of(date);
    const struct weather_normals *normals = climate->normals;
    double share = wet_share(normals, at), range_K = range_on(&climate->range, at);
    bool wet = is_wet(climate, date);
    struct weather_day day = {.vapour_Pa = NAN, .sun_J_per_m2 = NAN};
    double spread_K = fmax(WARM_LEAST_K, fmin(WARM_MOST_K, WARM_SHARE * range_K));
    double middle_K = course_on(&climate->middle, at) + spread_K * warmth(climate, date);
    /* narrower when wet, wider when dry, so that the month's mean range stays */
    double narrow = 1.0 + RANGE_WET * (wet ? share - 1.0 : share);
    set_temperature(&day, middle_K,
                    range_K * narrow * factor(climate, date, DRAW_RANGE, RANGE_SPREAD));
    if (wet)
        day.rain_kg_per_m2 = gamma_of_mean_one(climate, date) *
                             normal_rain(normals, at.month, share * at.length);
    day.wind_m_per_s = normals->wind_m_per_s * factor(climate, date, DRAW_WIND, WIND_SPREAD);
    return day;
}

/* ---- the whole ---- */

static bool dates_sound(date_count start, int days, struct trouble *why)
{
    const date_count first = date_number(FIRST_DATE), last = date_number(LAST_DATE);
    if (start >= first && days >= 1 && days <= WEATHER_MOST_DAYS && start <= last - days + 1)
        return true;
    return trouble_set(why, TROUBLE_INPUT,
                       "weather of %d days is asked for; 1 to %d days within 1900 to 2200 can be "
                       "generated", days, (int)WEATHER_MOST_DAYS);
}

static bool sound(const struct weather_normals *normals, struct trouble *why)
{
    for (int m = 0; m < 12; m++) {
        double low_K = normals->low_K[m], high_K = normals->high_K[m];
        double rain = normals->rain_kg_per_m2[m], wet = normals->wet_days[m];
        if (!(low_K >= 200.0 && high_K <= 330.0 && low_K <= high_K))
            return trouble_set(why, TROUBLE_INPUT,
                               "normals of %s: low %.1f and high %.1f C; a low from -73 C and not "
                               "above the high, a high up to 57 C are expected",
                               MONTH[m], low_K - 273.15, high_K - 273.15);
        if (!(rain >= 0.0 && rain <= 3000.0 && wet >= 0.0 && wet <= 31.0))
            return trouble_set(why, TROUBLE_INPUT,
                               "normals of %s: %.1f mm of rain on %.1f wet days; 0 to 3000 mm and "
                               "0 to 31 days are expected", MONTH[m], rain, wet);
        if (rain > 0.0 && !(wet > 0.0))
            return trouble_set(why, TROUBLE_INPUT,
                               "normals of %s: %.1f mm of rain but no wet days; give the number of "
                               "days with rain", MONTH[m], rain);
    }
    if (!(normals->wind_m_per_s >= 0.0 && normals->wind_m_per_s <= 30.0))
        return trouble_set(why, TROUBLE_INPUT,
                           "mean wind of %.1f m/s; 0 to 30 m/s are expected",
                           normals->wind_m_per_s);
    return true;
}

/* First harmonic of the monthly means; averaging over a month shrinks it by sin(x)/x, x = pi/12. */
static struct weather_wave wave_of(const struct weather_normals *normals)
{
    double mean = 0.0, even = 0.0, odd = 0.0;
    for (int m = 0; m < 12; m++) {
        double temp_K = 0.5 * (normals->low_K[m] + normals->high_K[m]);
        double turn = 2.0 * PI * (m + 0.5) / 12.0;
        mean += temp_K / 12.0;
        even -= temp_K * cos(turn) / 6.0;
        odd -= temp_K * sin(turn) / 6.0;
    }
    double shrunk = sin(PI / 12.0) / (PI / 12.0), turn = atan2(odd, even) / (2.0 * PI);
    return (struct weather_wave){mean, hypot(even, odd) / shrunk,
                                 YEAR_DAYS * (turn < 0.0 ? turn + 1.0 : turn)};
}

void normals_of_skies(struct weather_normals *normals, const struct skies *row,
                      double latitude_rad, double elevation_m)
{
    double colder_K = 0.006 * (elevation_m - row->elevation_m); /* common practice, no source */
    for (int m = 0; m < 12; m++) {
        int like = latitude_rad < 0.0 ? (m + 6) % 12 : m;
        normals->low_K[m] = row->low_C[like] + 273.15 - colder_K;
        normals->high_K[m] = row->high_C[like] + 273.15 - colder_K;
        normals->rain_kg_per_m2[m] = row->rain_mm[like];
        normals->wet_days[m] = row->wet_days[like];
    }
    normals->wind_m_per_s = row->wind_m_per_s;
    normals->coastal = row->coastal != 0;
}

bool normals_generate(struct weather *weather, const struct weather_normals *normals,
                      date_count start, int days, uint64_t seed, struct trouble *why)
{
    *weather = (struct weather){0};
    struct climate climate;
    if (!dates_sound(start, days, why) || !sound(normals, why) ||
        !weather_make(weather, start, days, why))
        return false;
    if (!climate_make(&climate, normals, seed)) {
        climate_free(&climate);
        weather_free(weather);
        return trouble_set(why, TROUBLE_MEMORY, "no memory to interpolate normals");
    }
    for (int d = 0; d < days; d++)
        weather->day[d] = seed ? drawn_day(&climate, start + d) : mean_day(&climate, start + d);
    climate_free(&climate);
    weather->wave = wave_of(normals);
    weather->coastal = normals->coastal;
    return true;
}
