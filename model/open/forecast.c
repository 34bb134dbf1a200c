/* SPDX-License-Identifier: GPL-3.0-or-later */
/* open/forecast.c - see open/forecast.h. */
#include "open/forecast.h"
#include "ask/asked.h"
#include "ask/hygiene.h"
#include "ask/yield.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "run/season.h"
#include "tell/column.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double SECONDS_A_MINUTE = 60.0, ICE_POINT_K = 273.15;

/* ---- what is asked ---- */

static const struct figure {
    double (*ask)(const struct record *, int, int);
    int thing;
    double divisor, less;
} figures[FORECAST_FIGURES] = { /* in the order of enum midden_figure */
    {yield_of, YIELD_VOLUME_M3, 1, 0},
    {yield_of, YIELD_WET_KG, 1, 0},
    {yield_of, YIELD_DRY_KG, 1, 0},
    {yield_of, YIELD_NITROGEN_KG, 1, 0},
    {yield_of, YIELD_C_TO_N, 1, 0},
    {NULL, 0, 1, 0}, /* beds that the first one covers: the need says how deep */
    {asked_work, ASKED_PERSON_S, SECONDS_A_MINUTE, 0},
    {asked_work, ASKED_LIFTED_KG, 1, 0},
    {asked_work, ASKED_TURNS, 1, 0},
    {asked_work, ASKED_WATER_L, 1, 0},
    {asked_heat, ASKED_PEAK_K, 1, ICE_POINT_K},
    {asked_heat, ASKED_PEAK_DAY, 1, 0},
    {asked_heat, ASKED_HOT_DAYS, 1, 0},
};

/* The column of a quantity, which are the promised ones among all. */
static int column_at(int quantity)
{
    int left = quantity;
    for (int i = 0; i < column_count; i++)
        if (column_rows[i].promised && left-- == 0)
            return i;
    return -1;
}

const char *forecast_quantity(int quantity)
{
    int column = quantity < 0 ? -1 : column_at(quantity);
    return column < 0 ? NULL : column_rows[column].name;
}

double forecast_day(const struct forecast *forecast, int quantity, int row, int member)
{
    return column_of_day(&forecast->able.record[member], row, column_at(quantity));
}

double forecast_season(const struct forecast *forecast, int figure, int member)
{
    const struct figure *asked = &figures[figure];
    const struct record *record = &forecast->able.record[member];
    int day = ready_told_day(record, forecast->scenario);
    if (!asked->ask)
        return yield_bed_m2(&forecast->scenario->need, yield_of(record, YIELD_VOLUME_M3, day));
    return asked->ask(record, asked->thing, day) / asked->divisor - asked->less;
}

/* ---- ranges ---- */

static struct span range(struct forecast *forecast, double (*ask)(const struct record *, int, int),
                         int thing)
{
    const struct able *able = &forecast->able;
    for (int i = 0; i < able->members; i++)
        able->room[i] = ask(&able->record[i], thing, 0);
    return band_of(able->room, able->members);
}

static void read_days(struct forecast *forecast)
{
    const struct able *able = &forecast->able;
    for (int row = 0; row < forecast->days; row++)
        for (int q = 0; q < FORECAST_QUANTITIES; q++) {
            for (int i = 0; i < able->members; i++)
                able->room[i] = forecast_day(forecast, q, row, i);
            forecast->day[row * FORECAST_QUANTITIES + q] = band_of(able->room, able->members);
        }
}

static void read_season(struct forecast *forecast)
{
    const struct able *able = &forecast->able;
    for (int figure = 0; figure < FORECAST_FIGURES; figure++) {
        for (int i = 0; i < able->members; i++)
            able->room[i] = forecast_season(forecast, figure, i);
        forecast->season[figure] = band_of(able->room, able->members);
    }
}

static void read_verdicts(struct forecast *forecast)
{
    const struct able *able = &forecast->able;
    for (int use = 0; use < READY_USES; use++)
        forecast->ready[use] = ready_summary(able->record, able->members, forecast->scenario, use,
                                             able->room);
    for (int rule = 0; rule < RULES; rule++) {
        forecast->met[rule] = range(forecast, hygiene_share, rule);
        forecast->first_met[rule] = range(forecast, hygiene_first, rule);
    }
    for (int i = 0; i < FORECAST_SEEDS; i++)
        forecast->alive[i] = range(forecast, hygiene_seeds, i);
    for (int i = 0; i < FORECAST_GERMS; i++)
        forecast->alive[FORECAST_SEEDS + i] = range(forecast, hygiene_germs, i);
}

static void read_cautions(struct forecast *forecast)
{
    struct tale tale = {.record = forecast->able.record, .members = forecast->able.members,
                        .scenario = forecast->scenario, .plan = forecast->plan};
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(&tale, (enum tale_caution)i))
            forecast->caution[forecast->cautions++] = tale_caution_full((enum tale_caution)i);
}

static bool read_all(struct forecast *forecast, struct trouble *why)
{
    if (!able_of(&forecast->able, &forecast->done, why))
        return false;
    forecast->days = forecast->able.record[0].days;
    forecast->day = calloc((size_t)forecast->days * FORECAST_QUANTITIES, sizeof *forecast->day);
    if (!forecast->day)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    read_days(forecast);
    read_season(forecast);
    read_verdicts(forecast);
    read_cautions(forecast);
    return true;
}

/* ---- the season ---- */

/* Its record lies as that of a crew of one. */
static bool run_central(struct forecast *forecast, const struct forecast_order *order,
                        const struct curve *sky, struct trouble *why)
{
    struct crew_done *done = &forecast->done;
    struct possible *possible = malloc(sizeof *possible);
    *done = (struct crew_done){.first = 1, .members = 1, .record = calloc(1, sizeof *done->record),
                               .failed = calloc(1, sizeof *done->failed)};
    bool good = possible && done->record && done->failed;
    if (good) {
        possible_usual(possible, forecast->scenario, order->param);
        struct setup setup = {.scenario = forecast->scenario, .plan = order->plan, .sky = &sky,
                              .possible = possible, .stop = order->stop};
        good = season_run(done->record, &setup, why);
    } else {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a season");
    }
    free(possible);
    return good;
}

static bool run_many(struct forecast *forecast, const struct forecast_order *order,
                     const struct curve *sky, struct trouble *why)
{
    struct crew crew = {.scenario = forecast->scenario, .plan = order->plan, .param = order->param,
                        .fixed = order->fixed, .draw = (uint64_t)order->draw, .first = 1,
                        .last = order->members, .threads = order->threads, .stop = order->stop,
                        .told = order->told, .listener = order->listener};
    if (forecast->scenario->sky == PLAN_SKY_FILE)
        crew.sky = sky;
    if (!crew_run(&forecast->done, &crew, why))
        return false;
    return !forecast->done.defect ||
           trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed; this is a "
                       "defect of midden", forecast->done.failures, forecast->done.members);
}

bool forecast_make(struct forecast *forecast, const struct scenario *scenario,
                   const struct forecast_order *order, struct trouble *why)
{
    struct curve sky;
    *forecast = (struct forecast){.plan = order->plan, .scenario = malloc(sizeof *scenario)};
    if (!forecast->scenario)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a scenario");
    memcpy(forecast->scenario, scenario, sizeof *scenario);
    scenario_look_on(forecast->scenario);
    if (!climate_curve(&sky, forecast->scenario, order->draw, why))
        return false;
    bool good = (order->members == 1 ? run_central : run_many)(forecast, order, &sky, why);
    curve_free(&sky);
    return good && read_all(forecast, why);
}

void forecast_free(struct forecast *forecast)
{
    able_free(&forecast->able);
    crew_free(&forecast->done);
    free(forecast->day);
    free(forecast->scenario);
    *forecast = (struct forecast){0};
}
