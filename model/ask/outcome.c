/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/outcome.c - see ask/outcome.h. */
#include "ask/outcome.h"
#include "ask/asked.h"
#include "ask/hygiene.h"
#include "ask/ready.h"
#include <math.h>

enum { HOT_C = 55 };

static double dried_kg(const struct record *record)
{
    return -(record->flux_total[FLUX_air_water] + record->flux_total[FLUX_vapour_water] +
             record->flux_total[FLUX_turn_water]);
}

static double longest_s(const struct record *record)
{
    double longest = 0;
    for (int d = 0; d < record->days; d++) {
        double sum = 0;
        for (int i = 0; i < record->day[d].events; i++)
            sum += record->event[record->day[d].first_event + i].person_s;
        longest = fmax(longest, sum);
    }
    return longest;
}

struct outcome outcome_of(const struct record *record, const struct scenario *scenario)
{
    struct asked_heat heat = asked_heat_of(record);
    struct outcome outcome = {.computed = true, .person_s = record->person_s,
                              .lifted_kg = record->lifted_kg, .water_kg = record->water_l,
                              .turns = record->turns, .longest_s = longest_s(record),
                              .peak_K = heat.peak_K, .hot_days = heat.hot_days,
                              .edge_hot_days = (int)hygiene_days(record, HYGIENE_COLDEST, HOT_C),
                              .dried_kg = dried_kg(record)};
    for (int use = 0; use < OUTCOME_USES; use++)
        outcome.ready_day[use] = ready_day(record, scenario, use);
    return outcome;
}

double outcome_day(const struct outcome *outcome, int use, const struct scenario *scenario)
{
    double day = outcome->ready_day[use];
    return isnan(day) ? scenario->last_day + 2.0 : day;
}

int outcome_use(const struct scenario *scenario)
{
    return scenario->need.is ? scenario->need.what : READY_BEDS;
}

bool outcome_in_time(const struct outcome *outcome, const struct scenario *scenario)
{
    const struct plan_need *need = &scenario->need;
    /* day 1 is the start date */
    return need->is && outcome->ready_day[need->what] <= (double)(need->by - scenario->start + 1);
}

bool outcome_enough(double chance, const struct scenario *scenario)
{
    return scenario->need.is && lround(10 * chance) >= lround(10 * scenario->need.chance);
}
