/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/asked.c - see ask/asked.h. */
#include "ask/asked.h"
#include <math.h>
#include <string.h>

struct asked_heat asked_heat_of(const struct record *record)
{
    struct asked_heat heat = {.peak_K = -INFINITY};
    for (int i = 0; i < record->days; i++) {
        double middle_K = record->day[i].middle_K;
        if (middle_K > heat.peak_K) {
            heat.peak_K = middle_K;
            heat.peak_day = i + 1;
        }
        heat.hot_days += middle_K >= ASKED_HOT_K;
        heat.warm_days += middle_K >= ASKED_WARM_K;
        heat.cool_days += middle_K >= ASKED_COOL_K;
        if (middle_K >= ASKED_COOL_K)
            heat.last_day_above_40 = i + 1;
    }
    return heat;
}

double asked_heat(const struct record *record, int thing, int unused)
{
    (void)unused;
    struct asked_heat heat = asked_heat_of(record);
    bool over = heat.last_day_above_40 < record->days;
    const double things[] = {heat.peak_K, heat.peak_day, heat.hot_days, heat.warm_days,
                             heat.cool_days, over ? heat.last_day_above_40 + 1.0 : (double)NAN};
    return things[thing];
}

double asked_work(const struct record *record, int which, int unused)
{
    (void)unused;
    const double works[] = {record->person_s, record->lifted_kg, record->water_l, record->turns};
    return works[which];
}

double asked_most(const struct record *record, int which, int unused)
{
    (void)unused;
    double most = -INFINITY;
    for (int i = 0; i < record->days; i++) {
        const struct record_day *day = &record->day[i];
        const double of_day[] = {day->hand_deep_K, day->deep_30cm_K, day->over_55C_share,
                                 day->starved_share};
        most = fmax(most, of_day[which]);
    }
    return most;
}

double asked_deep_m(const struct record *record, const struct scenario *scenario, int day)
{
    const struct plan_bay *bay = &scenario->bay[scenario->home];
    for (int i = 0; i < record->events && record->event[i].day <= day + 1; i++)
        if (record->event[i].into >= 0)
            bay = &scenario->bay[record->event[i].into];
    return fmin(record->day[day].height_m, 0.5 * fmin(bay->length_m, bay->width_m));
}

double asked_end(const struct record *record, int which, int unused)
{
    (void)unused;
    if (record->days == 0)
        return NAN;
    const struct record_day *first = &record->day[0], *last = &record->day[record->days - 1];
    const double ends[] = {first->volume_m3, last->volume_m3, last->height_m, last->wet_kg,
                           last->dry_kg, last->nitrogen_kg, last->water_share,
                           last->carbon_kg / last->nitrogen_kg};
    return ends[which];
}

/* lines of the budget, in the order of their words */
static const char *const ways[ASKED_WAYS] = {"air", "vapour", "walls", "top", "sun_and_sky", "ground",
                                             "rain_and_water"};
const char *const asked_way_words[ASKED_WAYS] = {"moist draught", "vapour", "the walls", "wind on top",
                                                 "sky", "the ground", "water"};

/* Energy that came in by one line of the budget, J; a loss is negative. */
static double budget_J(const struct record *record, const char *group)
{
    double sum_J = 0.0;
    for (int i = 0; i < FLUXES; i++)
        if (flux_rows[i].of == FLUX_OF_ENERGY && strcmp(flux_rows[i].group, group) == 0)
            sum_J += record->flux_total[i];
    return sum_J;
}

double asked_decay_J(const struct record *record, int unused, int unused_too)
{
    (void)unused, (void)unused_too;
    return budget_J(record, "decay");
}

double asked_way(const struct record *record, int way, int unused)
{
    (void)unused;
    double all_J = 0.0;
    for (int i = 0; i < ASKED_WAYS; i++)
        all_J += fmax(0.0, -budget_J(record, ways[i]));
    return all_J > 0.0 ? fmax(0.0, -budget_J(record, ways[way])) / all_J : 0.0;
}
