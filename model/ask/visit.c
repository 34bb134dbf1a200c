/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/visit.c - see ask/visit.h. */
#include "ask/visit.h"
#include "many/band.h"
#include "run/calendar.h"
#include <math.h>

static bool same(const struct visit_odd *a, const struct visit_odd *b)
{
    return a->what == b->what && a->plan == b->plan && a->day == b->day;
}

static bool is_odd(const struct scenario *scenario, const struct plan_event *event,
                   struct visit_odd *odd)
{
    odd->day = event->day;
    if (event->when != PLAN_ON_DAY) {
        odd->what = VISIT_NEVER;
        return calendar_times(scenario, event) == 0 && event->day <= scenario->last_day;
    }
    odd->what = calendar_away(scenario, event->day) ? VISIT_AWAY : VISIT_WEEKDAY;
    return !calendar_open(scenario, event->day);
}

int visit_odds(const struct scenario *scenario, struct visit_odd odd[], int most)
{
    struct visit_odd last = {.plan = -1};
    int count = 0;
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++) {
            struct visit_odd this = {.plan = p};
            /* deeds of one visit stand one after another */
            if (!is_odd(scenario, &scenario->plan[p].event[e], &this) || same(&this, &last))
                continue;
            last = this;
            if (count < most)
                odd[count] = this;
            count++;
        }
    return count;
}

struct visit_long visit_longest(const struct record *record, const struct plan_people *people)
{
    struct visit_long longest = {0};
    double helpers = fmax(people->helpers.mid, 1);
    for (int d = 0; d < record->days; d++) {
        const struct record_day *day = &record->day[d];
        const struct record_event *event = &record->event[day->first_event];
        double person_s = 0;
        int most = 0;
        for (int i = 0; i < day->events; i++) {
            person_s += event[i].person_s;
            most = event[i].person_s > event[most].person_s ? i : most;
        }
        if (person_s / helpers > longest.clock_s)
            longest = (struct visit_long){d, event[most].deed, person_s / helpers};
    }
    return longest;
}

struct visit_too_long visit_too_long(const struct record *record, int members,
                                     const struct plan_people *people, double *room)
{
    struct visit_too_long found = {.allowed_s = people->visit_s};
    for (int i = 0; i < members; i++) {
        room[i] = visit_longest(&record[i], people).clock_s;
        found.over += people->visit_s > 0 && room[i] > people->visit_s;
    }
    found.clock_s = band_of(room, members);
    found.over_s = found.clock_s.mid - found.allowed_s;
    double nearest = INFINITY;
    for (int i = 0; i < members; i++) {
        struct visit_long one = visit_longest(&record[i], people);
        double off = fabs(one.clock_s - found.clock_s.mid);
        if (off < nearest) {
            nearest = off;
            found.usual = one;
        }
    }
    return found;
}
