/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/space.c - see ask/space.h. */
#include "ask/space.h"
#include "run/calendar.h"
#include <string.h>

enum { COARSE_DAYS = 12, LAST_CHANCE_DAYS = 1 };

/* Weekdays count whether they were said or only assumed: a plan to be made needs days. */
static bool is_open(const struct scenario *scenario, int day)
{
    unsigned weekday = 1u << date_weekday(scenario->start + day);
    return scenario->people.weekdays & weekday && !calendar_away(scenario, day);
}

/* Where there are more days than there is room for, every second or third, up to the last. */
static void find_days(struct space *space, int first)
{
    const struct scenario *scenario = space->scenario;
    int last = scenario->need.is ? (int)(scenario->need.by - scenario->start) - LAST_CHANCE_DAYS
                                 : scenario->last_day;
    int all = 0, seen = 0;
    first = first < 1 ? 1 : first;
    for (int day = first; day <= last; day++)
        all += is_open(scenario, day);
    int step = 1 + (all - 1) / SPACE_DAYS;
    for (int day = first; day <= last; day++)
        if (is_open(scenario, day) && seen++ % step == 0)
            space->day[space->days++] = day;
    space->coarse = (space->days + COARSE_DAYS - 1) / COARSE_DAYS;
    if (space->coarse < 1)
        space->coarse = 1;
}

/* A cover that a plan of the keeper's lays on is one that the keeper has. */
static void find_cover(struct space *space)
{
    const struct scenario *scenario = space->scenario;
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++) {
            const struct plan_event *event = &scenario->plan[p].event[e];
            if (event->deed != PLAN_COVER || event->cover < 0)
                continue;
            space->cover = event->cover;
            space->cover_m = event->cover_m;
        }
}

void space_of(struct space *space, const struct scenario *scenario, int first)
{
    static const enum plan_way between[] = {PLAN_OUTSIDE_IN, PLAN_MIXED, PLAN_LAYER_BY_LAYER};
    static const enum plan_way at_home[] = {PLAN_OUT_AND_BACK, PLAN_OUTSIDE_IN, PLAN_MIXED};
    *space = (struct space){.scenario = scenario, .cover = -1, .ways = 3,
                            .moves_on = scenario->bays > 1};
    memcpy(space->way, space->moves_on ? between : at_home, sizeof between);
    find_days(space, first);
    find_cover(space);
}

/* ---- a candidate as events ---- */

static struct plan_event bare(int day)
{
    return (struct plan_event){.when = PLAN_ON_DAY, .day = day, .until = day, .rule_squeeze = -1,
                               .cover = -1, .into = PLAN_SAME_BAY};
}

static void cover_on(struct plan *plan, const struct space *space, int day)
{
    struct plan_event *event = &plan->event[plan->events++];
    *event = bare(day);
    event->deed = PLAN_COVER;
    event->cover = space->cover;
    event->cover_m = space->cover_m;
}

void space_plan(struct plan *plan, const struct space *space, const struct candidate *candidate)
{
    *plan = (struct plan){.name = "found"};
    bool first_turned = candidate->turns > 0 && candidate->turn[0].day == 0;
    if (candidate->covered && space->days > 0 && !first_turned)
        cover_on(plan, space, space->day[0]);
    for (int i = 0; i < candidate->turns; i++) {
        int day = space->day[candidate->turn[i].day];
        struct plan_event *event = &plan->event[plan->events++];
        *event = bare(day);
        event->deed = PLAN_TURN;
        event->way = candidate->turn[i].way;
        event->into = candidate->turn[i].into;
        event->until_it_drips = candidate->turn[i].wet;
        if (candidate->covered)
            cover_on(plan, space, day);
    }
}

/* ---- neighbours ---- */

bool space_same(const struct candidate *a, const struct candidate *b)
{
    if (a->turns != b->turns || a->covered != b->covered)
        return false;
    for (int i = 0; i < a->turns; i++)
        if (a->turn[i].day != b->turn[i].day || a->turn[i].way != b->turn[i].way ||
            a->turn[i].into != b->turn[i].into || a->turn[i].wet != b->turn[i].wet)
            return false;
    return true;
}

bool space_add(struct candidate *more, const struct space *space, const struct candidate *candidate,
               int day, enum plan_way way)
{
    int at = 0;
    while (at < candidate->turns && candidate->turn[at].day < day)
        at++;
    if (candidate->turns == SPACE_TURNS || (at < candidate->turns && candidate->turn[at].day == day))
        return false;
    *more = *candidate;
    for (int i = candidate->turns; i > at; i--)
        more->turn[i] = candidate->turn[i - 1];
    more->turn[at].day = day;
    more->turn[at].way = way;
    more->turn[at].into = space->moves_on ? PLAN_NEXT_BAY : PLAN_SAME_BAY;
    more->turn[at].wet = true;
    more->turns++;
    return true;
}

struct moves {
    struct candidate *move;
    int count;
};

static struct candidate *begin(struct moves *moves, const struct candidate *from)
{
    if (moves->count == SPACE_MOVES)
        return NULL;
    moves->move[moves->count] = *from;
    return &moves->move[moves->count++];
}

static void shift(struct moves *moves, const struct space *space, const struct candidate *from, int turn,
                  int by)
{
    int day = from->turn[turn].day + by;
    int before = turn > 0 ? from->turn[turn - 1].day : -1;
    int after = turn + 1 < from->turns ? from->turn[turn + 1].day : space->days;
    struct candidate *to = day > before && day < after ? begin(moves, from) : NULL;
    if (to)
        to->turn[turn].day = day;
}

static void otherwise(struct moves *moves, const struct space *space, const struct candidate *from,
                      int turn)
{
    struct candidate *to = begin(moves, from);
    if (to)
        to->turn[turn].wet = !to->turn[turn].wet;
    for (int i = 0; i < space->ways; i++)
        if (space->way[i] != from->turn[turn].way && (to = begin(moves, from)))
            to->turn[turn].way = space->way[i];
    for (int bay = -1; space->scenario->bays > 2 && bay < space->scenario->bays; bay++)
        if (bay != from->turn[turn].into && (to = begin(moves, from)))
            to->turn[turn].into = bay; /* -1: back where it is */
}

static void without(struct moves *moves, const struct candidate *from, int turn)
{
    struct candidate *to = begin(moves, from);
    if (!to)
        return;
    for (int i = turn; i + 1 < to->turns; i++)
        to->turn[i] = to->turn[i + 1];
    to->turns--;
}

int space_moves(struct candidate move[SPACE_MOVES], const struct space *space,
                const struct candidate *candidate)
{
    struct moves moves = {move, 0};
    for (int i = 0; i < candidate->turns; i++) {
        for (int by = -space->coarse; by <= space->coarse; by++)
            if (by != 0)
                shift(&moves, space, candidate, i, by);
        otherwise(&moves, space, candidate, i);
        without(&moves, candidate, i);
    }
    struct candidate *to = space->cover >= 0 ? begin(&moves, candidate) : NULL;
    if (to)
        to->covered = !to->covered;
    return moves.count;
}
