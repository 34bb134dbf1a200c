/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/left.c - see ask/left.h. */
#include "ask/left.h"
#include "ask/asked.h"
#include "ask/vary.h"
#include "many/band.h"
#include <stdlib.h>

/* The recipe as it was mixed, for four weeks under its own sky. */
static struct scenario *season_of(const struct mix *mix, const struct scenario *scenario)
{
    struct scenario *season = malloc(sizeof *season);
    if (!season)
        return NULL;
    *season = *mix->recipe;
    season->sky = scenario->sky;
    season->sky_row = scenario->sky_row;
    season->last_day = LEFT_DAYS - 1;
    return season;
}

static void add_span(struct span *to, const struct span *more)
{
    to->low += more->low;
    to->mid += more->mid;
    to->high += more->high;
}

/* So many steps of a kind, a part of it in each layer that has room. */
static void spread(struct scenario *season, const struct amend_kind *kind, double steps)
{
    int layers = 0;
    for (int i = 0; i < season->layers; i++)
        layers += kind->stuff == AMEND_WATER || season->layer[i].portions < PLAN_PORTIONS;
    for (int i = 0; i < season->layers && layers > 0; i++) {
        struct plan_layer *layer = &season->layer[i];
        double part = steps / layers;
        if (kind->stuff == AMEND_WATER) {
            double water_kg = part * kind->water_kg;
            add_span(&layer->water_kg, &(struct span){water_kg, water_kg, water_kg});
        } else if (layer->portions < PLAN_PORTIONS) {
            struct plan_portion *portion = &layer->portion[layer->portions++];
            *portion = kind->one;
            vary_scale(&portion->wet_kg, part);
            vary_scale(&portion->volume_m3, part);
        }
    }
}

static void follow(struct scenario *season, const struct mix *mix)
{
    const struct amend_advice *advice = &mix->advice.advice;
    for (int i = 0; i < advice->items; i++)
        spread(season, &mix->kinds.kind[advice->item[i].kind], advice->item[i].steps);
}

static bool run(struct left *left, int row, const struct scenario *season, struct crew crew,
                struct trouble *why)
{
    struct crew_done done;
    double days[LEFT_MEMBERS], peak_K[LEFT_MEMBERS];
    int count = 0;
    crew.scenario = season;
    crew.plan = 0;
    crew.first = 1;
    crew.last = LEFT_MEMBERS;
    bool good = crew_run(&done, &crew, why);
    for (int i = 0; good && i < done.members; i++) {
        if (done.failed[i])
            continue;
        struct asked_heat heat = asked_heat_of(&done.record[i]);
        days[count] = heat.warm_days;
        peak_K[count++] = heat.peak_K;
    }
    crew_free(&done);
    left->warm_days[row] = band_of(days, count);
    left->peak_K[row] = band_of(peak_K, count);
    return good;
}

bool left_run(struct left *left, const struct mix *mix, const struct scenario *scenario, struct crew crew,
              struct trouble *why)
{
    *left = (struct left){.is = scenario->sky != PLAN_SKY_FILE};
    if (!left->is)
        return true;
    struct scenario *season = season_of(mix, scenario);
    bool good = season || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    good = good && run(left, 0, season, crew, why);
    left->with = mix->advice.advice.items > 0 && !mix->advice.advice.leave_out;
    if (good && left->with) {
        follow(season, mix);
        good = run(left, 1, season, crew, why);
    }
    free(season);
    return good;
}
