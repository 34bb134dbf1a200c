/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/outing.c - see ask/outing.h. */
#include "ask/outing.h"
#include "run/calendar.h"
#include <math.h>
#include <string.h>

static void add_span(struct span *sum, struct span more)
{
    sum->low += more.low;
    sum->mid += more.mid;
    sum->high += more.high;
}

/* By insertion, so that equals stay as they were named; there are few. */
static void order(struct outing *visit)
{
    for (int i = 1; i < visit->stops; i++) {
        struct outing_stop held = visit->stop[i];
        int at = i;
        for (; at > 0 && visit->stop[at - 1].due.person_s.mid < held.due.person_s.mid; at--)
            visit->stop[at] = visit->stop[at - 1];
        visit->stop[at] = held;
    }
}

int outing_bay(const struct outing_stop *stop)
{
    int bay = stop->due.build ? stop->pile.scenario->home : -1;
    for (int i = 0; i < stop->due.tasks; i++) {
        const struct plan_event *event = stop->due.task[i].event;
        if (event->deed == PLAN_TURN && event->when != PLAN_RULE)
            bay = stop->due.task[i].into;
    }
    return bay;
}

/* One place alone that was given no name is its own pile's: every such file calls it by its shape. */
static bool shared(const struct outing_stop *stop)
{
    static const char *const unnamed[] = {"bin", "heap", "windrow", "jar"};
    const struct scenario *scenario = stop->pile.scenario;
    for (int i = 0; i < 4; i++)
        if (scenario->bays == 1 && !strcmp(scenario->bay[0].name, unnamed[i]))
            return false;
    return true;
}

static void find_clashes(struct outing *visit)
{
    for (int i = 0; i < visit->stops; i++)
        for (int k = i + 1; k < visit->stops; k++) {
            const struct outing_stop *one = &visit->stop[i], *other = &visit->stop[k];
            int a = outing_bay(one), b = outing_bay(other);
            if (a >= 0 && b >= 0 && shared(one) && shared(other) && visit->clashes < OUTING_CLASHES
                && !strcmp(one->pile.scenario->bay[a].name, other->pile.scenario->bay[b].name))
                visit->clash[visit->clashes++] = (struct outing_clash){i, k, a};
        }
}

/* The same people go from pile to pile: the widest of what the files say of them, the shortest
 * stay. */
static void meet(struct outing *visit, const struct plan_people *people, bool first)
{
    struct span *helpers = &visit->helpers;
    *helpers = first ? people->helpers
                     : (struct span){fmin(helpers->low, people->helpers.low),
                                     fmin(helpers->mid, people->helpers.mid),
                                     fmax(helpers->high, people->helpers.high)};
    visit->visit_s = first ? people->visit_s : fmin(visit->visit_s, people->visit_s);
}

void outing_join(struct outing *visit)
{
    order(visit);
    visit->away = false;
    visit->clashes = 0;
    visit->person_s = visit->clock_s = visit->water_kg = visit->lifted_kg = (struct span){0, 0, 0};
    for (int i = 0; i < visit->stops; i++) {
        const struct outing_stop *stop = &visit->stop[i];
        meet(visit, &stop->pile.scenario->people, i == 0);
        visit->away =
            visit->away
            || (due_any(&stop->due) && !calendar_open(stop->pile.scenario, stop->due.day));
        add_span(&visit->person_s, stop->due.person_s);
        add_span(&visit->water_kg, stop->due.water_kg);
        add_span(&visit->lifted_kg, stop->due.lifted_kg);
    }
    visit->clock_s = due_clock(visit->person_s, visit->helpers);
    find_clashes(visit);
}
