/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/calendar.c - see run/calendar.h. */
#include "run/calendar.h"

bool calendar_away(const struct scenario *scenario, int day)
{
    const struct plan_people *people = &scenario->people;
    for (int i = 0; i < people->aways; i++)
        if (people->away[i] == scenario->start + day)
            return true;
    return false;
}

bool calendar_open(const struct scenario *scenario, int day)
{
    const struct plan_people *people = &scenario->people;
    unsigned weekday = 1u << date_weekday(scenario->start + day);
    return !calendar_away(scenario, day) && (!people->days_said || (people->weekdays & weekday));
}

bool calendar_comes(const struct scenario *scenario, const struct plan_event *event, int day)
{
    if (event->when == PLAN_ON_DAY)
        return day == event->day;
    int every = event->every_days > 0 ? event->every_days : 1;
    return day >= event->day && day <= event->until && (day - event->day) % every == 0 &&
           calendar_open(scenario, day);
}

int calendar_times(const struct scenario *scenario, const struct plan_event *event)
{
    int times = 0;
    if (event->when == PLAN_ON_DAY)
        return event->day <= scenario->last_day;
    for (int day = event->day; day <= event->until && day <= scenario->last_day; day++)
        times += calendar_comes(scenario, event, day);
    return times;
}
