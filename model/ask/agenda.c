/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/agenda.c - see ask/agenda.h. */
#include "ask/agenda.h"
#include "run/calendar.h"

enum { ANY_DAY = 0x7F, ROWS_A_DAY = 3 };

static bool any_on(const struct scenario *scenario, int plan, int day, bool rule)
{
    const struct plan *of = &scenario->plan[plan];
    for (int e = 0; e < of->events; e++)
        if ((of->event[e].when == PLAN_RULE) == rule
            && calendar_comes(scenario, &of->event[e], day))
            return true;
    return false;
}

bool agenda_works_on(const struct scenario *scenario, int plan, int day)
{
    return any_on(scenario, plan, day, false);
}

bool agenda_looks_on(const struct scenario *scenario, int plan, int day)
{
    return any_on(scenario, plan, day, true);
}

bool agenda_turns_on(const struct scenario *scenario, int plan, int day, bool perhaps)
{
    const struct plan *of = &scenario->plan[plan];
    for (int e = 0; e < of->events; e++)
        if (of->event[e].deed == PLAN_TURN && (perhaps || of->event[e].when != PLAN_RULE)
            && calendar_comes(scenario, &of->event[e], day))
            return true;
    return false;
}

int agenda_next(const struct scenario *scenario, int plan, int after, int last)
{
    for (int day = after + 1; day <= last; day++)
        if (agenda_works_on(scenario, plan, day) || agenda_looks_on(scenario, plan, day))
            return day;
    return -1;
}

int agenda_visit(const struct scenario *scenario, int from, int last)
{
    unsigned people = scenario->people.weekdays;
    bool any = (people & ANY_DAY) == ANY_DAY;
    int weekday = date_weekday(scenario->start);
    for (int day = from; day < last; day++)
        if (calendar_open(scenario, day) && (people >> date_weekday(scenario->start + day) & 1u)
            && (!any || date_weekday(scenario->start + day) == weekday))
            return day;
    return last;
}

int agenda_most(const struct scenario *scenario)
{
    return ROWS_A_DAY * (scenario->last_day + 1) + 1;
}

int agenda_make(struct agenda_row *row, const struct scenario *scenario, int plan, int peak_day)
{
    int count = 0, nth[AGENDA_READ + 1] = {0}, moved = scenario->found.is ? -1 : 0;
    for (int day = 0; day <= scenario->last_day; day++) {
        int since = moved < 0 ? -1 : day - moved;
        bool there = false;
        bool is[] = {[AGENDA_BUILD] = day == 0 && !scenario->found.is,
                     [AGENDA_WORK] = agenda_works_on(scenario, plan, day),
                     [AGENDA_LOOK] = agenda_looks_on(scenario, plan, day),
                     [AGENDA_PEAK] = day == peak_day,
                     [AGENDA_READ] = since == AGENDA_FIRST_READ || since == AGENDA_SECOND_READ};
        for (int kind = AGENDA_BUILD; kind <= AGENDA_READ; kind++) {
            nth[kind] += is[kind]; /* those that aren't told count, so that a number stays */
            if (!is[kind] || (there && kind >= AGENDA_PEAK))
                continue;
            there = true;
            row[count++] = (struct agenda_row){day, (enum agenda_kind)kind, nth[kind], since};
        }
        if (agenda_turns_on(scenario, plan, day, false))
            moved = day;
    }
    return count;
}
