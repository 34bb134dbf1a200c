/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/season_of.h - a whole season from the text of a scenario, for tests.
 *
 * The weather is the scenario's own in its mean year (draw 0), or a steady one: the same damp air
 * day and night, no sun and the same rain every day, so that what a pile does is its own.
 * Tests free what they get; a season that fails fails the test.
 */
#ifndef RUN_SEASON_OF_H
#define RUN_SEASON_OF_H
#include "run/season.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>

#define SEASON_OF_ICE_K 273.15

struct season_of {
    struct scenario scenario;
    struct curve sky;
    const struct curve *skies[1];
    struct param param;
    struct possible possible;
    struct setup setup;
    struct record record;
    struct trouble why;
};

static inline int season_of_plan(const struct scenario *scenario, const char *name)
{
    for (int i = 0; i < scenario->plans; i++)
        if (!name || strcmp(scenario->plan[i].name, name) == 0)
            return i;
    fail_msg("no plan %s", name ? name : "at all");
    return -1;
}

static inline struct season_of *season_of_begin(const char *text, const char *plan)
{
    struct season_of *s = calloc(1, sizeof *s);
    assert_non_null(s);
    if (!scenario_read_text(&s->scenario, text, strlen(text), "test", &s->why))
        fail_msg("%s", s->why.text);
    s->param = param_usual();
    s->skies[0] = &s->sky;
    s->setup = (struct setup){.scenario = &s->scenario, .sky = s->skies, .possible = &s->possible,
                              .plan = season_of_plan(&s->scenario, plan)};
    possible_usual(&s->possible, &s->scenario, &s->param);
    return s;
}

static inline void season_of_run(struct season_of *s)
{
    possible_usual(&s->possible, &s->scenario, &s->param);
    if (!season_run_x1(&s->record, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
}

static inline void season_of_free(struct season_of *s)
{
    record_free(&s->record);
    curve_free(&s->sky);
    free(s);
}

/* A season in the scenario's own weather; plan NULL is its first. */
static inline struct season_of *season_of(const char *text, const char *plan)
{
    struct season_of *s = season_of_begin(text, plan);
    if (!climate_curve(&s->sky, &s->scenario, 0, &s->why))
        fail_msg("%s", s->why.text);
    season_of_run(s);
    return s;
}

/* The same air at every hour of a day, 80 % of its possible vapour, no sun, 1 m/s of wind; from
 * the day `change` on the air is `later_C`. */
static inline void season_of_still(struct season_of *s, double air_C, double rain_mm_per_day,
                                   int change, double later_C)
{
    struct weather weather;
    const struct plan_place_on_earth *place = &s->scenario.place;
    if (!weather_make(&weather, s->scenario.start, s->scenario.last_day + 1, &s->why))
        fail_msg("%s", s->why.text);
    for (int d = 0; d < weather.days; d++) {
        double air_K = (d < change ? air_C : later_C) + SEASON_OF_ICE_K;
        weather.day[d] = (struct weather_day){
            .low_K = air_K, .high_K = air_K, .rain_kg_per_m2 = rain_mm_per_day,
            .vapour_Pa = 0.8 * weather_saturation_Pa(air_K), .wind_m_per_s = 1};
    }
    weather.wave = (struct weather_wave){.mean_K = air_C + SEASON_OF_ICE_K};
    bool made = curve_make(&s->sky, &weather, place->latitude_rad, place->elevation_m, &s->why);
    weather_free(&weather);
    if (!made)
        fail_msg("%s", s->why.text);
}

/* A season of steady weather. */
static inline struct season_of *season_of_steady(const char *text, const char *plan, double air_C,
                                                 double rain_mm_per_day)
{
    struct season_of *s = season_of_begin(text, plan);
    season_of_still(s, air_C, rain_mm_per_day, s->scenario.last_day + 1, air_C);
    season_of_run(s);
    return s;
}

/* ---- questions asked of a record ---- */

static inline double season_of_C(double temp_K)
{
    return temp_K - SEASON_OF_ICE_K;
}

/* Hottest daily mean in the middle from day first to last (0 is the day of building), deg C. */
static inline double season_of_peak(const struct record *r, int first, int last)
{
    double most = -300;
    for (int d = first; d <= last && d < r->days; d++)
        most = fmax(most, season_of_C(r->day[d].middle_K));
    return most;
}

/* The first day whose mean in the middle is above a temperature; -1 = never. */
static inline int season_of_first_above(const struct record *r, double temp_C)
{
    for (int d = 0; d < r->days; d++)
        if (season_of_C(r->day[d].middle_K) > temp_C)
            return d;
    return -1;
}

static inline double season_of_total(const struct record *r, enum flux flux)
{
    return r->flux_total[flux];
}
#endif
