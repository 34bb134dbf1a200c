/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/climate.c - the weather of a scenario, whatever it names, as the curves of its season.
 *
 * Weather begins before the season where it can, since it decides how much snow lies on the first
 * day: made-up weather 210 days before, a file as far back as it goes.
 */
#include "door/climate.h"
#include "door/sheet.h"
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

static bool generate(struct weather *weather, const struct scenario *scenario, long long draw,
                     struct trouble *why)
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
    first = first < earliest ? earliest : first;
    last = last > latest ? latest : last;
    return normals_generate(weather, &normals, first, (int)(last - first) + 1, (uint64_t)draw, why);
}

/* Says which days of the season a file leaves out, by its ends. */
static bool covers(const struct weather *weather, const struct scenario *scenario,
                   struct trouble *why)
{
    date_count first = scenario->start, last = scenario->start + scenario->last_day;
    date_count has_first = weather->start, has_last = weather->start + weather->days - 1;
    char from[DATE_TEXT], to[DATE_TEXT], has_from[DATE_TEXT], has_to[DATE_TEXT];
    if (has_first <= first && has_last >= last)
        return true;
    date_write(has_first, has_from);
    date_write(has_last, has_to);
    bool early = has_first > first, late = has_last < last;
    date_write(early ? first : has_last + 1 > first ? has_last + 1 : first, from);
    date_write(late ? last : has_first - 1 < last ? has_first - 1 : last, to);
    if (early && late)
        return trouble_set(why, TROUBLE_INPUT, "%s: the season is %s to %s, but the weather is "
                           "only %s to %s; days at both ends are missing", scenario->sky_file,
                           from, to, has_from, has_to);
    return trouble_set(why, TROUBLE_INPUT, "%s: the weather is %s to %s; the days %s to %s of the "
                       "season are missing", scenario->sky_file, has_from, has_to, from, to);
}

static bool read_weather(struct weather *weather, const struct scenario *scenario, long long draw,
                         struct trouble *why)
{
    if (scenario->sky != PLAN_SKY_FILE)
        return generate(weather, scenario, draw, why);
    if (!sheet_weather(weather, scenario->sky_file, why))
        return false;
    if (covers(weather, scenario, why))
        return true;
    weather_free(weather);
    return false;
}

bool climate_curve(struct curve *curve, const struct scenario *scenario, long long draw,
                   struct trouble *why)
{
    struct weather weather;
    const struct plan_place_on_earth *place = &scenario->place;
    if (!read_weather(&weather, scenario, draw, why))
        return false;
    weather_fill(&weather, place->latitude_rad, place->elevation_m);
    bool made = curve_make(curve, &weather, place->latitude_rad, place->elevation_m, why);
    weather_free(&weather);
    if (!made)
        return false;
    if (curve_cut(curve, scenario->start, scenario->last_day + 1, why))
        return true;
    curve_free(curve);
    return false;
}
