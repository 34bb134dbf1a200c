/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/weather.c - gaps of daily weather filled, and the year's wave found in it.
 *
 * Fillings are those of Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper
 * 56, chapter 3, for stations with few instruments; equation numbers are theirs.
 */
#include "sky/weather.h"
#include "sky/sun.h"
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>

static const double ICE_POINT_K = 273.15;
static const double YEAR_DAYS = 365.2425;
static const double PI = 3.14159265358979323846;
static const double USUAL_WIND_M_PER_S = 2.0; /* FAO-56, where unknown (memory) */

bool weather_make(struct weather *weather, date_count start, int days, struct trouble *why)
{
    *weather = (struct weather){.start = start};
    if (days < 1 || days > WEATHER_MOST_DAYS)
        return trouble_set(why, TROUBLE_INPUT, "weather of %d days asked; 1 to %d can be held",
                           days, (int)WEATHER_MOST_DAYS);
    weather->day = malloc((size_t)days * sizeof *weather->day);
    if (!weather->day)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for %d days of weather", days);
    weather->days = days;
    for (int i = 0; i < days; i++)
        weather->day[i] = (struct weather_day){NAN, NAN, NAN, NAN, NAN, NAN};
    return true;
}

void weather_free(struct weather *weather)
{
    free(weather->day);
    *weather = (struct weather){0};
}

double weather_air_Pa(double elevation_m)
{
    return 101325.0 * pow(1.0 - 2.25577e-5 * elevation_m, 5.2559);
}

double weather_boils_K(double elevation_m)
{
    const double mm_of_mercury = weather_air_Pa(elevation_m) / 133.322;
    return 1730.63 / (8.07131 - log10(mm_of_mercury)) - 233.426 + 273.15;
}

double weather_saturation_Pa(double temp_K) /* eq. 11 */
{
    double temp_C = temp_K - ICE_POINT_K;
    return 610.8 * exp(17.27 * temp_C / (temp_C + 237.3));
}

double weather_saturation_Pa_per_K(double temp_K) /* eq. 13 */
{
    double over_K = temp_K - ICE_POINT_K + 237.3;
    return 17.27 * 237.3 * weather_saturation_Pa(temp_K) / (over_K * over_K);
}

double weather_wind_at_2m(double wind_m_per_s, double height_m) /* eq. 47 */
{
    return wind_m_per_s * 4.87 / log(67.8 * height_m - 5.42);
}

void weather_fill(struct weather *weather, double latitude_rad, double elevation_m)
{
    for (int i = 0; i < weather->days; i++) {
        struct weather_day *day = &weather->day[i];
        int day_of_year = date_day_of_year(weather->start + i);
        if (isnan(day->rain_kg_per_m2))
            day->rain_kg_per_m2 = 0.0;
        if (isnan(day->vapour_Pa)) /* eq. 48: at dawn the air is close to dew */
            day->vapour_Pa = weather_saturation_Pa(day->low_K);
        if (isnan(day->wind_m_per_s))
            day->wind_m_per_s = USUAL_WIND_M_PER_S;
        if (isnan(day->sun_J_per_m2))
            day->sun_J_per_m2 = sun_guess_J_per_m2(
                day->low_K, day->high_K, sun_above_J_per_m2(latitude_rad, day_of_year),
                sun_clear_J_per_m2(latitude_rad, day_of_year, elevation_m), weather->coastal);
    }
}

/* A first guess of the year where nothing is known but the place: zonal mean as in the two-term
 * Legendre fit of North, Cahalan and Coakley (1981) (memory), 6 K/km of height, a swing growing
 * with latitude, and cold four weeks after the solstice (all three common practice, no source). */
static struct weather_wave guess(double latitude_rad, double elevation_m)
{
    double sine = sin(latitude_rad);
    return (struct weather_wave){
        .mean_K = ICE_POINT_K + 14.9 - 28.0 * 0.5 * (3.0 * sine * sine - 1.0) -
                  0.006 * elevation_m,
        .swing_K = 14.0 * fabs(sine),
        .coldest_day = latitude_rad < 0.0 ? 19.0 + 0.5 * YEAR_DAYS : 19.0,
    };
}

/* The columns of the fit: mean, and the cosine and sine of the time of year. */
static void columns(double days_of_year, double column[3])
{
    double turn = 2.0 * PI * days_of_year / YEAR_DAYS;
    column[0] = 1.0;
    column[1] = -cos(turn);
    column[2] = -sin(turn);
}

/* Normal equations of the fit, the guess counted as a measurement with errors of 6 K in the mean
 * and 4 K in the swing. Days differ from the wave by about 4 K and hang together from day to day
 * (correlation 0.65), so a day counts (1 - 0.65)/(1 + 0.65) of an independent one. */
static void equations(const struct weather *weather, const double first[3], double matrix[9],
                      double right[3])
{
    const double worth[3] = {1.0 / 36.0, 1.0 / 16.0, 1.0 / 16.0};
    const double worth_of_day = (1.0 - 0.65) / (1.0 + 0.65) / 16.0;
    for (int r = 0; r < 3; r++) {
        matrix[4 * r] = worth[r];
        right[r] = worth[r] * first[r];
    }
    for (int i = 0; i < weather->days; i++) {
        const struct weather_day *day = &weather->day[i];
        double column[3];
        columns(date_day_of_year(weather->start + i) - 0.5, column);
        for (int r = 0; r < 3; r++) {
            right[r] += worth_of_day * column[r] * 0.5 * (day->low_K + day->high_K);
            for (int c = 0; c < 3; c++)
                matrix[3 * r + c] += worth_of_day * column[r] * column[c];
        }
    }
}

struct weather_wave weather_year(const struct weather *weather, double latitude_rad,
                                 double elevation_m)
{
    if (weather->wave.mean_K > 0.0)
        return weather->wave;
    struct weather_wave wave = guess(latitude_rad, elevation_m);
    double phase = 2.0 * PI * wave.coldest_day / YEAR_DAYS;
    double first[3] = {wave.mean_K, wave.swing_K * cos(phase), wave.swing_K * sin(phase)};
    double matrix[9] = {0.0}, right[3] = {0.0}, found[3];
    equations(weather, first, matrix, right);
    gsl_matrix_view m = gsl_matrix_view_array(matrix, 3, 3);
    gsl_vector_view b = gsl_vector_view_array(right, 3), x = gsl_vector_view_array(found, 3);
    /* positive definite thanks to the guess, so that neither call can fail */
    if (gsl_linalg_cholesky_decomp1(&m.matrix) || gsl_linalg_cholesky_solve(&m.matrix, &b.vector,
                                                                            &x.vector))
        return wave;
    wave.mean_K = found[0];
    wave.swing_K = hypot(found[1], found[2]);
    wave.coldest_day = YEAR_DAYS * atan2(found[2], found[1]) / (2.0 * PI);
    if (wave.coldest_day < 0.0)
        wave.coldest_day += YEAR_DAYS;
    return wave;
}
