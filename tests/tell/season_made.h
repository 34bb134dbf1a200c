/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/season_made.h - a season made up for the tellers' tests, with what is awkward in it:
 * long names, a control character, a value that is not a number, every kind of event.
 *
 * Nothing about compost is tested with it.
 */
#ifndef TELL_SEASON_MADE_H
#define TELL_SEASON_MADE_H
#include "lib/near.h"
#include "tell/tale.h"
#include <stdio.h>
#include <stdlib.h>

enum { MADE_DAYS = 100, MADE_EVENTS = 7, MADE_HOT_DAYS = 9, MADE_PEAK_DAY = 4 };

struct made {
    struct scenario scenario;
    struct record record;
    struct record_day day[MADE_DAYS];
    struct record_event event[MADE_EVENTS];
    struct tale tale;
    double room;
};

/* The middle: 63 C on day 4, 56 C on the other days up to day 10, 45 C to day 20, then 12 C. */
static inline double made_middle_K(int number)
{
    double temp_C = number == MADE_PEAK_DAY                    ? 63.0
                    : number >= 2 && number <= MADE_HOT_DAYS + 1 ? 56.0
                    : number <= 20                             ? 45.5
                                                               : 12.0;
    return temp_C + 273.15;
}

static inline void made_day(struct record_day *day, int number)
{
    double middle_K = made_middle_K(number);
    *day = (struct record_day){.air_K = 280.15, .middle_K = middle_K,
                               .deep_30cm_K = middle_K - 4.0, .hand_deep_K = middle_K - 10.0,
                               .mean_K = middle_K - 6.0, .hottest_K = middle_K + 2.0,
                               .coldest_tenth_K = middle_K - 20.0, .water_share = 0.58,
                               .free_air_share = 0.4, .oxygen_lowest_share = 0.11,
                               .starved_share = 0.2, .height_m = 0.9, .volume_m3 = 1.1,
                               .wet_kg = 250.0, .dry_kg = 105.0, .carbon_kg = 45.0,
                               .nitrogen_kg = 1.8, .heat_made_W = 300.0, .over_45C_share = 0.6,
                               .over_55C_share = 0.25, .steps = 20};
    for (int i = 0; i < FLUXES; i++)
        day->flux[i] = (i % 2 ? -1e4 : 1e4) * (i + 1);
    day->flux[FLUX_decay_heat] = 300.0 * 86400.0;
    day->flux[FLUX_air_heat] = -200.0 * 86400.0;
}

static inline void made_scenario(struct scenario *scenario)
{
    scenario->start = date_number((struct date){2025, 10, 18});
    scenario->last_day = MADE_DAYS - 1;
    scenario->bucket_m3 = 0.012;
    snprintf(scenario->name, sizeof scenario->name, "Quince \"Corner\" \x1b[31m bay");
    scenario->bays = 2;
    scenario->bay[0] = (struct plan_bay){"bay 1", PLAN_BIN, 1.2, 1.2, 1.0, 0, 0, 0,
                                         PLAN_BAY_HERE, 0, 0, 0, 0};
    scenario->bay[1] = (struct plan_bay){"bay 2", PLAN_BIN, 1.2, 1.2, 1.0, 0, 0, 0,
                                         PLAN_BAY_EMPTY, 0, 0, 0, 0};
    scenario->stuffs = 2;
    snprintf(scenario->stuff[0].name, sizeof scenario->stuff[0].name, "horse manure");
    snprintf(scenario->stuff[1].name, sizeof scenario->stuff[1].name, "wheat straw");
    scenario->stuff[0].settle_share = scenario->stuff[1].settle_share = 0.25;
    scenario->layers = 3;
    for (int i = 0; i < 3; i++)
        scenario->layer[i] = (struct plan_layer){
            .portions = 2,
            .portion = {{.stuff = 0, .wet_kg = {60, 80, 100}, .water_share = {0.6, 0.7, 0.8},
                         .volume_m3 = {0.1, 0.12, 0.15}, .piece_m = 0.01},
                        {.stuff = 1, .wet_kg = {8, 10, 12}, .water_share = {0.1, 0.1, 0.1},
                         .volume_m3 = {0.2, 0.25, 0.3}, .piece_m = 0.01}},
            .water_kg = {12, 12, 12}};
    scenario->plans = 2;
    snprintf(scenario->plan[0].name, PLAN_NAME, "leave it");
    snprintf(scenario->plan[1].name, PLAN_NAME, "two turns with a name that goes on and on and on");
    scenario->assumed = 2;
    snprintf(scenario->assumption[0], sizeof scenario->assumption[0], "walls: pallets");
    snprintf(scenario->assumption[1], sizeof scenario->assumption[1], "bucket: 12 L");
}

static inline void made_record(struct record *record, struct record_day *day,
                               struct record_event *event)
{
    record->days = MADE_DAYS;
    record->day = day;
    record->event = event;
    record->events = MADE_EVENTS;
    for (int i = 0; i < MADE_DAYS; i++)
        made_day(&day[i], i + 1);
    for (int i = 0; i < MADE_EVENTS; i++)
        event[i] = (struct record_event){.day = 30, .deed = (enum plan_deed)i,
                                         .way = PLAN_OUTSIDE_IN, .into = i == 0 ? 1 : -1,
                                         .water_kg = 24.0, .person_s = 1800.0, .lifted_kg = 150.0};
    day[30].first_event = 0;
    day[30].events = MADE_EVENTS;
    for (int i = 0; i < FLUXES; i++)
        for (int d = 0; d < MADE_DAYS; d++)
            record->flux_total[i] += day[d].flux[i];
    for (int i = 0; i < 3; i++) {
        record->balance[i] = 1e-13;
        record->seeds_laid[i] = i == 2 ? 0.0 : 1000.0; /* none of the hardy kind */
        record->seeds_alive[i] = i == 0 ? 10.0 : 0.0;
    }
    record->person_s = 5100.0;
    record->lifted_kg = 400.0;
    record->water_l = 48.0;
    record->turns = 2;
}

/* A new one; free() it. */
static inline struct made *made_new(void)
{
    struct made *made = calloc(1, sizeof *made);
    assert_non_null(made);
    made_scenario(&made->scenario);
    made_record(&made->record, made->day, made->event);
    made->tale = (struct tale){.record = &made->record, .members = 1, .room = &made->room, .scenario = &made->scenario, .draw = 7,
                               .version = "9.9.9", .file = "quince.yaml"};
    return made;
}

/* Columns of the widest line, in letters of UTF-8. */
static inline int made_widest(const char *text)
{
    int widest = 0, wide = 0;
    for (; *text; text++) {
        if (*text == '\n')
            wide = 0;
        else if (((unsigned char)*text & 0xC0) != 0x80)
            wide++;
        widest = wide > widest ? wide : widest;
    }
    return widest;
}

static inline int made_lines(const char *text)
{
    int lines = 0;
    for (; *text; text++)
        lines += *text == '\n';
    return lines;
}
#endif
