/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/outcome.c - see ask/outcome.h. */
#include "ask/outcome.h"
#include "ask/asked.h"
#include "ask/ready.h"
#include <math.h>

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
                              .water_kg = record->water_l, .longest_s = longest_s(record),
                              .peak_K = heat.peak_K, .hot_days = heat.hot_days};
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

bool outcome_in_time(const struct outcome *outcome, const struct plan_need *need, date_count start)
{
    /* day 1 is the start date */
    return need->is && outcome->ready_day[need->what] <= (double)(need->by - start + 1);
}

bool outcome_enough(double chance, const struct scenario *scenario)
{
    return scenario->need.is && lround(10 * chance) >= lround(10 * scenario->need.chance);
}
