/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/weather.h - daily weather, read from a file or generated from monthly normals. */
#ifndef SKY_WEATHER_H
#define SKY_WEATHER_H
#include "base/date.h"
#include "base/trouble.h"
#include <stdbool.h>

enum { WEATHER_MOST_DAYS = 36600 }; /* a hundred years */

/* NAN where a file says nothing: low and high are always there, the rest is filled by weather_fill
 * with stated methods */
struct weather_day {
    double low_K, high_K;
    double rain_kg_per_m2;      /* rain and snow, as water */
    double vapour_Pa;           /* mean vapour pressure */
    double wind_m_per_s;        /* mean at 2 m */
    double sun_J_per_m2;        /* global radiation of the day */
};

/* the year's wave of air temperature: mean - swing cos(2 pi (time - coldest)/year) */
struct weather_wave {
    double mean_K, swing_K;     /* mean 0 = not known */
    double coldest_day;         /* days after 00:00 of 1 January */
};

struct weather {
    date_count start;
    int days;
    struct weather_day *day;    /* [days] */
    struct weather_wave wave;   /* set where the climate is known, or else fitted to the days */
    bool coastal;               /* for the guess of the sun */
};

/* Room for some days, each value NAN; anything the struct held before is forgotten, not freed. */
bool weather_make(struct weather *weather, date_count start, int days, struct trouble *why);
/* Fills what a file did not say: rain 0, vapour pressure from the low (FAO-56 eq. 48), wind 2 m/s,
 * sun by Hargreaves (FAO-56 eq. 50). */
void weather_fill(struct weather *weather, double latitude_rad, double elevation_m);
void weather_free(struct weather *weather);

/* The year's wave: as known, or fitted to the days there are, leaning on a guess from latitude and
 * height where they are few. */
struct weather_wave weather_year(const struct weather *weather, double latitude_rad,
                                 double elevation_m);

/* What air can hold, over water, and its slope in temperature (FAO-56 eq. 11 and 13). For weather
 * between -60 and 60 deg C only: a hot pile has its own, closer law. */
/* Air pressure at a height in the standard atmosphere (ASHRAE Handbook of Fundamentals 2017, chapter 1,
 * eq. 3). */
double weather_air_Pa(double elevation_m);
/* Water boils at this temperature there, by Antoine's equation with the usual constants for 1 to 100 C
 * [memory]: what a thermometer should read in it. */
double weather_boils_K(double elevation_m);
double weather_saturation_Pa(double temp_K);
double weather_saturation_Pa_per_K(double temp_K);
/* Wind at 2 m from the wind at another height over grass (FAO-56 eq. 47). */
double weather_wind_at_2m(double wind_m_per_s, double height_m);
#endif
