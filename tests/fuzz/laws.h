/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/laws.h - what must hold of every season, whatever the garden.
 *
 * From outside the project are the first law (amounts that came, went and stayed add up), signs and
 * shares, and a principle of extremes: heat flows from warm to cold, so no part of a pile gets colder
 * than the coldest thing that takes heat from it (sky, air down to its wet bulb, ground, what was
 * laid or poured) nor, once its microbes have stopped, warmer than the warmest that gives it some.
 * [derived] That a season doesn't depend on its length, on its neighbours or on names is the
 * program's own claim [derived].
 */
#ifndef FUZZ_LAWS_H
#define FUZZ_LAWS_H
#include "door/climate.h"
#include "door/scenario.h"
#include "fuzz/garden.h"
#include "many/spell.h"
#include "many/unknown.h"
#include "run/season.h"
#include <math.h>
#include <stdlib.h>

enum { LAWS_MEMBERS = 4, LAWS_NEWS = 400, LAWS_STEFAN_DAYS = 48 };

#define LAWS_NOISE 2e-4    /* of a pile's carbon, a day: see laws_ways */
#define LAWS_STEP 1e-2     /* the same, where a step errs by all it may: 0.008 days of a clock, at 1.2 a day */
#define LAWS_J_PER_KG 40e6 /* of carbon: 32/12 kg of oxygen at 14 to 15 MJ/kg */

/* all that a season needs, too large for a stack */
struct laws {
    struct scenario scenario, shorter;
    struct garden garden;
    struct param param;
    struct possible possible[LAWS_MEMBERS];
    struct curve sky[LAWS_MEMBERS];
    const struct curve *skies[LAWS_MEMBERS];
    int made;
    struct record one[LAWS_MEMBERS], wide[LAWS_MEMBERS], part;
    double cold_K[64], warm_K[64];  /* of each day, bounds that hold until its end */
    struct trouble why;
    char news[LAWS_NEWS];           /* the first law that was broken; "" = none */
    bool grave;                     /* that law was the solver's or the books' own */
    bool slight;                    /* it was of what a step's tolerance leaves open */
    bool ran;                       /* false: the keeper's plan can't be done, or the pile can't stand */
};

static inline bool laws_break(struct laws *l, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static inline bool laws_break(struct laws *l, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    if (!*l->news)
        vsnprintf(l->news, sizeof l->news, format, values);
    va_end(values);
    return false;
}

static inline void laws_free(struct laws *l)
{
    for (int i = 0; i < LAWS_MEMBERS; i++) {
        record_free(&l->one[i]);
        record_free(&l->wide[i]);
        l->one[i] = l->wide[i] = (struct record){0};
    }
    record_free(&l->part);
    l->part = (struct record){0};
    for (int i = 0; i < l->made; i++)
        curve_free(&l->sky[i]);
    l->made = 0;
}

/* ---- bounds of temperature ---- */

/* Wet bulb by halving: e = es(Tw) - 0.000665/K P (T - Tw), FAO-56 eq. 15 and 16 with the constant of a
 * ventilated wet bulb [seen]. */
static inline double laws_wet_bulb_K(double air_K, double vapour_Pa, double air_Pa)
{
    double low = air_K - 60, high = air_K;
    for (int i = 0; i < 40; i++) {
        double mid = 0.5 * (low + high);
        bool above = weather_saturation_Pa(mid) - 0.000665 * air_Pa * (air_K - mid) > vapour_Pa;
        *(above ? &high : &low) = mid;
    }
    return low;
}

static inline double laws_radiant_K(double W_per_m2)
{
    return pow(W_per_m2 / 5.670374e-8, 0.25); /* CODATA 2018 [memory] */
}

static inline void laws_layer(const struct plan_layer *layer, double *cold_K, double *warm_K)
{
    if (layer->portions && layer->laid_K > 0) {
        *cold_K = fmin(*cold_K, layer->laid_K);
        *warm_K = fmax(*warm_K, layer->laid_K);
    }
    if (layer->pour_K > 0) {
        *cold_K = fmin(*cold_K, layer->pour_K);
        *warm_K = fmax(*warm_K, layer->pour_K);
    }
}

static inline void laws_start(const struct laws *l, int member, double *cold_K, double *warm_K)
{
    const struct scenario *s = &l->scenario;
    const struct curve *sky = l->skies[member];
    *cold_K = sky->ground_mean_K - fabs(sky->ground_swing_K);
    const struct param *param = &l->possible[member].param;
    *warm_K = 273.15 + fmax(param->hottest_C, param->lignin_hottest_C); /* bacteria may stop before fungi do */
    for (int i = 0; i < s->layers; i++)
        laws_layer(&s->layer[i], cold_K, warm_K);
    for (int e = 0; e < s->plan[0].events; e++)
        laws_layer(&s->plan[0].event[e].add, cold_K, warm_K);
    if (s->found.is && s->found.middle_K.low > 0) {
        *cold_K = fmin(*cold_K, s->found.middle_K.low);
        *warm_K = fmax(*warm_K, s->found.middle_K.high);
    }
}

static inline void laws_bounds(struct laws *l, int member, int days)
{
    const struct curve *sky = l->skies[member];
    double cold_K, warm_K;
    laws_start(l, member, &cold_K, &warm_K);
    for (int d = 0; d < days && d < 64; d++) {
        double shine = 0;
        for (int k = 0; k < LAWS_STEFAN_DAYS; k++) {
            double time_s = 86400.0 * (d + (k + 0.5) / LAWS_STEFAN_DAYS);
            double air_K = curve_at(sky, CURVE_AIR_K, time_s), down = curve_at(sky, CURVE_LONG_W_PER_M2, time_s);
            double wet_K = laws_wet_bulb_K(air_K, curve_at(sky, CURVE_VAPOUR_PA, time_s), sky->air_Pa);
            shine += (curve_at(sky, CURVE_SUN_W_PER_M2, time_s) + down) / LAWS_STEFAN_DAYS;
            cold_K = fmin(cold_K, fmin(wet_K, laws_radiant_K(down)));
            warm_K = fmax(warm_K, air_K);
        }
        warm_K = fmax(warm_K, laws_radiant_K(shine));
        l->cold_K[d] = cold_K;
        l->warm_K[d] = warm_K;
    }
}

/* ---- one season ---- */

static inline bool laws_share(double value)
{
    return value >= 0 && value <= 1;
}

static inline bool laws_day(struct laws *l, int member, const struct record *r, int d)
{
    const struct record_day *day = &r->day[d];
    const double slack_K = l->param.tolerance_K + 1.0; /* of a step; of the keeper's ready-made air */
    double coldest = fmin(day->coldest_tenth_K, fmin(day->middle_K, day->hand_deep_K));
    if (!(day->wet_kg > 0) || !(day->dry_kg > 0) || !(day->height_m > 0) || !(day->volume_m3 > 0))
        return laws_break(l, "member %d day %d: the pile is gone or negative (%g kg, %g kg dry, %g m, %g m3)",
                          member, d, day->wet_kg, day->dry_kg, day->height_m, day->volume_m3);
    if (!laws_share(day->water_share) || !laws_share(day->free_air_share) || !laws_share(day->starved_share) ||
        !laws_share(day->sticks_share) || !laws_share(day->over_45C_share) || !laws_share(day->over_55C_share))
        return laws_break(l, "member %d day %d: a share is none: water %g air %g starved %g sticks %g", member,
                          d, day->water_share, day->free_air_share, day->starved_share, day->sticks_share);
    if (!(day->oxygen_lowest_share >= 0 && day->oxygen_lowest_share <= 0.2096))
        return laws_break(l, "member %d day %d: oxygen is %g", member, d, day->oxygen_lowest_share);
    for (int k = 0; k < 6; k++)
        if (!(day->pool_kg[k] >= 0))
            return laws_break(l, "member %d day %d: pool %d holds %g kg", member, d, k, day->pool_kg[k]);
    if (!(day->heat_made_W * 86400 >= -LAWS_J_PER_KG * LAWS_NOISE * day->carbon_kg) || !(day->carbon_kg >= 0) ||
        !(day->nitrogen_kg >= 0) ||
        !(day->test_breath_per_s >= 0))
        return laws_break(l, "member %d day %d: heat %g W, carbon %g, nitrogen %g, breath %g", member, d,
                          day->heat_made_W, day->carbon_kg, day->nitrogen_kg, day->test_breath_per_s);
    if (!(coldest >= l->cold_K[d] - slack_K))
        return laws_break(l, "member %d day %d: %.2f K, colder than sky, wet bulb and ground, %.2f K",
                          member, d, coldest, l->cold_K[d]);
    return true;
}

/* Of each cell at a day's end. A dry cell takes up vapour from a wet one that is no warmer, and the heat
 * of that may make it the warmest of all; so a cell is too warm only if its vapour pressure, by its
 * water activity (docs/physics.md 3), is also above what the warmest allowed could give, and no cell
 * heated so has been seen that it may have its warmth from. */
static inline bool laws_picture(struct laws *l, int member, const struct record_picture *picture, double *dry_K)
{
    const double most_K = fmax(*dry_K, l->warm_K[picture->day] + l->param.tolerance_K + 1.0);
    const double half = l->possible[member].param.activity_half;
    for (int c = 0; c < picture->cells; c++) {
        const struct record_cell *cell = &picture->cell[c];
        double wet = cell->water_share / (1.0 - cell->water_share);
        double activity = 1 / (1 + pow(half / wet, 2.5));
        if (!(cell->oxygen_share >= 0 && cell->oxygen_share < 0.21) || !laws_share(cell->water_share) ||
            !laws_share(cell->free_air_share) || !(cell->temp_K >= l->cold_K[picture->day] - 1.0 - l->param.tolerance_K))
            return laws_break(l, "member %d day %d: a cell of %.2f K, water %g, air %g, oxygen %g", member,
                              picture->day, cell->temp_K, cell->water_share, cell->free_air_share,
                              cell->oxygen_share);
        if (activity < 0.9)
            *dry_K = fmax(*dry_K, cell->temp_K);
        else if (cell->temp_K > most_K &&
            activity * weather_saturation_Pa(cell->temp_K) > weather_saturation_Pa(most_K))
            return laws_break(l, "member %d day %d: %.2f K, warmer than decay and sun allow, %.2f K", member,
                              picture->day, cell->temp_K, most_K);
    }
    return true;
}

/* What leaves only leaves; nothing kills seeds into being. Water may be taken up by decay, in souring. Where
 * hardly anything is breathed out, in frost or without air, what is booked is the difference of closed form
 * and step, which may have either sign: a ten thousandth of the pile's carbon a day was seen just below
 * `coldest_C`, with the heat that goes with it (LAWS_NOISE). More than that, up to what a step may err by
 * (LAWS_STEP), is no broken law where it goes away with steps that may err by a tenth. */

static inline bool laws_ways(struct laws *l, int member, const struct record *r)
{
    for (int d = 0; d < r->days; d++) {
        const double *flux = r->day[d].flux;
        if (flux[FLUX_killed_seeds] > 0 || flux[FLUX_removed_seeds] > 0 || flux[FLUX_added_seeds] < 0)
            return laws_break(l, "member %d day %d: seeds rise: killed %g removed %g added %g", member, d,
                              flux[FLUX_killed_seeds], flux[FLUX_removed_seeds], flux[FLUX_added_seeds]);
        static const int out[] = {FLUX_co2_carbon, FLUX_leachate_water, FLUX_ammonia, FLUX_leached_nitrogen,
                                  FLUX_runoff_water, FLUX_removed_water, FLUX_removed_carbon};
        static const int in[] = {FLUX_rain_water, FLUX_decay_heat, FLUX_poured_water, FLUX_added_water,
                                 FLUX_added_carbon, FLUX_added_nitrogen, FLUX_added_seeds};
        const double noise_kg = LAWS_NOISE * r->day[d].carbon_kg;
        for (int k = 0; k < 7; k++) {
            bool back = !(flux[out[k]] <= (out[k] == FLUX_co2_carbon ? noise_kg : 1e-12));
            bool forth = !(flux[in[k]] >= (in[k] == FLUX_decay_heat ? -LAWS_J_PER_KG * noise_kg : 0));
            if (!back && !forth)
                continue;
            l->slight = (!back || out[k] == FLUX_co2_carbon) && (!forth || in[k] == FLUX_decay_heat) &&
                        flux[FLUX_co2_carbon] <= LAWS_STEP * r->day[d].carbon_kg;
            return laws_break(l, "member %d day %d: the wrong way: %s %g, %s %g", member, d,
                              flux_rows[out[k]].name, flux[out[k]], flux_rows[in[k]].name, flux[in[k]]);
        }
    }
    for (int k = 0; k < 3; k++)
        if (!(r->seeds_alive[k] >= 0 && r->seeds_alive[k] <= r->seeds_laid[k] * (1 + 1e-12)))
            return laws_break(l, "member %d: %g seeds alive of %g", member, r->seeds_alive[k], r->seeds_laid[k]);
    return true;
}

static inline bool laws_season(struct laws *l, int member, const struct record *r)
{
    for (int k = 0; k < RECORD_BALANCES; k++)
        if (!(r->balance[k] >= 0 && r->balance[k] < 1e-9))
            return laws_break(l, "member %d: the balance of %s is off by %g", member, record_balance_name[k],
                              r->balance[k]);
    double dry_K = 0;
    laws_bounds(l, member, r->days);
    bool good = laws_ways(l, member, r);
    for (int d = 0; d < r->days && good; d++)
        good = laws_day(l, member, r, d);
    for (int p = 0; p < r->pictures && good; p++)
        good = laws_picture(l, member, &r->picture[p], &dry_K);
    return good;
}

/* ---- the same season otherwise ---- */

/* Every number of both is the same bits; names of doubles only, so that padding doesn't count. */
static inline bool laws_same_days(const struct record *a, const struct record *b, int days)
{
    for (int d = 0; d < days; d++) {
        const struct record_day *x = &a->day[d], *y = &b->day[d];
        if (memcmp(x, y, offsetof(struct record_day, first_event)) != 0 || x->first_event != y->first_event ||
            x->events != y->events)
            return false;
    }
    return true;
}

static inline bool laws_setup(struct laws *l, struct setup *setup, const struct scenario *scenario, int member)
{
    *setup = (struct setup){.scenario = scenario, .plan = 0, .possible = &l->possible[member],
                            .sky = &l->skies[member]};
    return true;
}

/* A season that ends on the day of its middle event is the whole one up to that day; but for plans
 * that add material, whose rows are laid out for all that is to come. */
static inline bool laws_split(struct laws *l)
{
    const struct record *whole = &l->one[0];
    for (int e = 0; e < l->scenario.plan[0].events; e++)
        if (l->scenario.plan[0].event[e].add.portions)
            return true;
    int last = whole->events ? whole->event[whole->events / 2].day : whole->days / 2;
    struct setup setup;
    if (last < 1 || last >= whole->days - 1)
        return true;
    memcpy(&l->shorter, &l->scenario, sizeof l->shorter);
    l->shorter.last_day = last;
    laws_setup(l, &setup, &l->shorter, 0);
    if (!season_run(&l->part, &setup, &l->why))
        return laws_break(l, "split on day %d: %.200s", last, l->why.text);
    return laws_same_days(whole, &l->part, last + 1) || laws_break(l, "split on day %d, the days before differ", last);
}

/* Four members side by side are the four alone. */
static inline bool laws_lanes(struct laws *l)
{
    struct setup setup;
    laws_setup(l, &setup, &l->scenario, 0);
    if (season_width(&l->scenario, 0) < LAWS_MEMBERS)
        return true;
    if (!season_run_wide(LAWS_MEMBERS, l->wide, &setup, &l->why))
        return laws_break(l, "four at once: %.200s", l->why.text);
    for (int m = 0; m < LAWS_MEMBERS; m++)
        if (l->one[m].days != l->wide[m].days || !laws_same_days(&l->one[m], &l->wide[m], l->one[m].days) ||
            memcmp(l->one[m].flux_total, l->wide[m].flux_total, sizeof l->one[m].flux_total) != 0)
            return laws_break(l, "member %d differs beside three others", m);
    return true;
}

/* Other names of pile, bins and plan, and a floor laid a quarter turn round, change no digit. */
static inline bool laws_relabelled(struct laws *l)
{
    struct setup setup;
    memcpy(&l->shorter, &l->scenario, sizeof l->shorter);
    struct scenario *other = &l->shorter;
    memcpy(other->name, "another", sizeof "another");
    memcpy(other->plan[0].name, "otherwise", sizeof "otherwise");
    for (int b = 0; b < other->bays; b++) {
        struct plan_bay *bay = &other->bay[b];
        snprintf(bay->name, sizeof bay->name, "b%d", b);
        if (bay->shape == PLAN_BIN) {
            double length = bay->length_m;
            bay->length_m = bay->width_m;
            bay->width_m = length;
        }
    }
    record_free(&l->part);
    laws_setup(l, &setup, other, 0);
    if (!season_run(&l->part, &setup, &l->why))
        return laws_break(l, "relabelled: %.200s", l->why.text);
    return laws_same_days(&l->one[0], &l->part, l->one[0].days) ||
           laws_break(l, "names or a quarter turn of the bin change digits");
}

/* ---- a garden ---- */

static inline bool laws_members(struct laws *l)
{
    struct unknowns *unknowns = malloc(sizeof *unknowns);
    double chance[UNKNOWN_MOST];
    static const bool fixed[PARAM_ROWS];
    if (!unknowns)
        return false;
    unknown_list(unknowns, &l->scenario, 0, fixed);
    for (int m = 0; m < LAWS_MEMBERS; m++) {
        for (int k = 0; k < unknowns->count; k++)
            chance[k] = m ? unknown_chance(1, (uint32_t)m, unknowns->row[k].name) : 0.5;
        unknown_choose(&l->possible[m], unknowns, chance, &l->scenario, &l->param);
        if (!m)
            possible_usual(&l->possible[m], &l->scenario, &l->param);
        if (!spell_made(&l->sky[m], &l->scenario, m ? unknown_weather(unknowns, chance) : 0,
                        l->possible[m].param.season_warmth_K, &l->why))
            break;
        l->skies[m] = &l->sky[m];
        l->made++;
    }
    free(unknowns);
    return l->made == LAWS_MEMBERS || laws_break(l, "no weather: %.200s", l->why.text);
}

static inline bool laws_run(struct laws *l)
{
    for (int m = 0; m < LAWS_MEMBERS; m++) {
        struct setup setup;
        int day[64];
        laws_setup(l, &setup, &l->scenario, m);
        setup.picture_day = day;
        for (; setup.pictures <= l->scenario.last_day && setup.pictures < 64; setup.pictures++)
            day[setup.pictures] = setup.pictures;
        l->why = (struct trouble){0};
        if (season_run(&l->one[m], &setup, &l->why)) {
            if (!laws_season(l, m, &l->one[m]))
                return false;
        } else if (l->why.kind != TROUBLE_NO) {
            l->grave = true;
            return laws_break(l, "member %d: %.300s", m, l->why.text);
        } else {
            return true; /* by this member's measures it can't be done */
        }
    }
    l->ran = true;
    return laws_split(l) && laws_lanes(l) && laws_relabelled(l);
}

enum laws_care { LAWS_COARSE, LAWS_USUAL, LAWS_FINE };

/* The laws on the coarser mesh, on the usual one, or there by steps that may err by a tenth. */
static inline bool laws_mesh(struct laws *l, enum laws_care care)
{
    l->news[0] = '\0';
    l->ran = l->grave = l->slight = false;
    l->why = (struct trouble){0};
    l->param = param_usual();
    for (int i = 0; i < PARAM_COARSER && care == LAWS_COARSE; i++)
        param_set(&l->param, param_coarser[i].name, param_coarser[i].value, &l->why);
    if (care == LAWS_FINE)
        l->param.tolerance_K /= 10;
    bool good = laws_members(l) && laws_run(l);
    laws_free(l);
    return good;
}

/* Makes a garden from bytes and tries every law on it; false when one is broken, l->news says which.
 * The coarser mesh errs by up to two kelvin in a step, so a law about what the pile does that is
 * broken there is tried again on the usual one; a season that can't be run is not. */
static inline bool laws_try(struct laws *l, const uint8_t *bytes, size_t size)
{
    l->why = (struct trouble){0};
    l->news[0] = '\0';
    l->ran = false;
    garden_write(&l->garden, bytes, size);
    if (!scenario_read_text(&l->scenario, l->garden.text, l->garden.used, "garden", &l->why))
        return laws_break(l, "the reader refuses: %.300s", l->why.text);
    return laws_mesh(l, LAWS_COARSE) || (!l->grave && laws_mesh(l, LAWS_USUAL)) ||
           (!l->grave && l->slight && laws_mesh(l, LAWS_FINE));
}
#endif
