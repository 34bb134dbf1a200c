/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/sun.h - the sun's path, the day's radiation and the long waves of the sky.
 *
 * Day of year is 1 on 1 January; latitude is positive north; heights are above the sea.
 */
#ifndef SKY_SUN_H
#define SKY_SUN_H
#include <stdbool.h>

/* Inverse relative distance of earth and sun, squared. */
double sun_nearness(int day_of_year);
double sun_declination_rad(int day_of_year);
/* Hour angle of sunset, 0 in the polar night to pi under the midnight sun. */
double sun_sunset_rad(double latitude_rad, int day_of_year);
double sun_daylight_s(double latitude_rad, int day_of_year);
/* What a day brings to level ground: above the air; under a clear sky; guessed from the day's
 * extremes of temperature. */
double sun_above_J_per_m2(double latitude_rad, int day_of_year);
double sun_clear_J_per_m2(double latitude_rad, int day_of_year, double elevation_m);
double sun_guess_J_per_m2(double low_K, double high_K, double above_J_per_m2,
                          double clear_J_per_m2, bool coastal);
/* Share of the sky under cloud that a day's radiation speaks of; half where there is no sun. */
double sun_cloud_share(double sun_J_per_m2, double clear_J_per_m2);
double sun_clear_emissivity(double air_K, double vapour_Pa);
double sun_long_W_per_m2(double air_K, double vapour_Pa, double cloud_share);
#endif
