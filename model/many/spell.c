/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/spell.c - see many/spell.h.
 *
 * Made-up weather begins 210 days before the season, since it decides how much snow lies on the first
 * day.
 */
#include "many/spell.h"
#include "sky/normals.h"

enum { EARLIER_DAYS = 210, LATER_DAYS = 2, MONTHS = 12 };
/* FAO Irrigation and Drainage Paper 56 takes 2 m/s where no wind is known (memory) */
static const double USUAL_WIND_M_PER_S = 2.0;
static const double WATER_KG_PER_M3 = 1000.0;

static void own_normals(struct weather_normals *normals, const struct scenario *scenario)
{
    *normals = (struct weather_normals){.wind_m_per_s = USUAL_WIND_M_PER_S};
    for (int i = 0; i < MONTHS; i++) {
        normals->low_K[i] = scenario->normals[0][i];
        normals->high_K[i] = scenario->normals[1][i];
        normals->rain_kg_per_m2[i] = scenario->normals[2][i] * WATER_KG_PER_M3;
        normals->wet_days[i] = scenario->normals[3][i];
    }
}

static bool generate(struct weather *weather, const struct scenario *scenario, uint64_t seed,
                     double warmer_K, struct trouble *why)
{
    const struct plan_place_on_earth *place = &scenario->place;
    date_count first = scenario->start - EARLIER_DAYS;
    date_count earliest = date_number((struct date){1900, 1, 1});
    date_count last = scenario->start + scenario->last_day + LATER_DAYS;
    date_count latest = date_number((struct date){2200, 12, 31});
    struct weather_normals normals;
    if (scenario->sky == PLAN_SKY_NAMED)
        normals_of_skies(&normals, &skies_rows[scenario->sky_row], place->latitude_rad,
                         place->elevation_m);
    else
        own_normals(&normals, scenario);
    for (int i = 0; i < MONTHS; i++) {
        normals.low_K[i] += warmer_K;
        normals.high_K[i] += warmer_K;
    }
    first = first < earliest ? earliest : first;
    last = last > latest ? latest : last;
    return normals_generate(weather, &normals, first, (int)(last - first) + 1, seed, why);
}

bool spell_of(struct curve *curve, const struct scenario *scenario, struct weather *weather,
              struct trouble *why)
{
    const struct plan_place_on_earth *place = &scenario->place;
    weather_fill(weather, place->latitude_rad, place->elevation_m);
    if (!curve_make(curve, weather, place->latitude_rad, place->elevation_m, why))
        return false;
    if (curve_cut(curve, scenario->start, scenario->last_day + 1, why))
        return true;
    curve_free(curve);
    return false;
}

bool spell_made(struct curve *curve, const struct scenario *scenario, uint64_t seed, double warmer_K,
                struct trouble *why)
{
    struct weather made;
    if (!generate(&made, scenario, seed, warmer_K, why))
        return false;
    bool done = spell_of(curve, scenario, &made, why);
    weather_free(&made);
    return done;
}
