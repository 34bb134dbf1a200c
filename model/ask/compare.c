/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/compare.c - see ask/compare.h. */
#include "ask/compare.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>

static const double WORTH_DAYS = 7, WORTH_CHANCE = 0.1; /* what an hour with the fork should buy */
static const double MINUTE_S = 60;
static const double HOTTER_K = 1;
static const double SIGN_CHANCE = 0.05; /* both sides together */

bool compare_fill(struct contender *c, const struct crew_done *done, const struct able *able,
                  struct trouble *why)
{
    c->members = done->members;
    c->days = c->scenario->last_day + 1;
    c->outcome = calloc((size_t)done->members, sizeof *c->outcome);
    c->middle_K = able_middle_K(able, c->days);
    if (!c->outcome || !c->middle_K)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to compare");
    for (int i = 0; i < done->members; i++)
        if (!done->failed[i])
            c->outcome[i] = outcome_of(&done->record[i], c->scenario);
    return true;
}

/* ---- one ---- */

enum thing { READY, WORK, WATER, HOT, PEAK };

static double thing_of(const struct outcome *o, enum thing thing, int use)
{
    const double things[] = {o->ready_day[use], o->person_s, o->water_kg, o->hot_days,
                             o->peak_K};
    return things[thing];
}

static struct span range(const struct contender *c, enum thing thing, double *room)
{
    int count = 0, use = outcome_use(c->asked);
    for (int i = 0; i < c->members; i++)
        if (c->outcome[i].computed)
            room[count++] = thing_of(&c->outcome[i], thing, use);
    return band_of(room, count);
}

/* On the day of the need asked for, whenever its own season began. */
static bool in_time_for(const struct contender *c, int member)
{
    return outcome_in_time(&c->outcome[member], &c->asked->need, c->scenario->start);
}

static int computed(const struct contender *c, int *in_time)
{
    int count = 0;
    *in_time = 0;
    for (int i = 0; i < c->members; i++) {
        count += c->outcome[i].computed;
        *in_time += c->outcome[i].computed && in_time_for(c, i);
    }
    return count;
}

struct standing compare_standing(const struct contender *c, double *room)
{
    int in_time, members = computed(c, &in_time);
    struct standing s = {
        .ready_day = range(c, READY, room), .person_s = range(c, WORK, room),
        .water_kg = range(c, WATER, room), .hot_days = range(c, HOT, room),
        .peak_K = range(c, PEAK, room), .chance = {NAN, NAN, NAN}};
    if (c->asked->need.is)
        s.chance = band_chance(in_time, members);
    return s;
}

/* ---- two ---- */

/* Days from the start of a's season on which b's day falls: two files may start on different days. */
static double day_of(const struct contender *c, int member, const struct contender *reference)
{
    const struct outcome *o = &c->outcome[member];
    return outcome_day(o, outcome_use(c->asked), c->scenario) +
           (double)(c->scenario->start - reference->scenario->start);
}

struct pair compare_pair(const struct contender *a, const struct contender *b, double *room)
{
    struct pair pair = {.chance_sooner = 0};
    int both = 0, hotter = 0, gained = 0;
    int members = a->members < b->members ? a->members : b->members;
    for (int i = 0; i < members; i++) {
        if (!a->outcome[i].computed || !b->outcome[i].computed)
            continue;
        room[both] = day_of(b, i, a) - day_of(a, i, a);
        pair.sooner += room[both] > 0;
        pair.later += room[both++] < 0;
        hotter += a->outcome[i].peak_K > b->outcome[i].peak_K + HOTTER_K;
        gained += in_time_for(a, i) - in_time_for(b, i);
    }
    pair.piles = both;
    pair.sooner_days = band_of(room, both);
    both = 0;
    for (int i = 0; i < members; i++)
        if (a->outcome[i].computed && b->outcome[i].computed)
            room[both++] = a->outcome[i].person_s - b->outcome[i].person_s;
    pair.extra_person_s = band_of(room, both);
    pair.chance_sooner = pair.sooner / (double)both;
    pair.chance_hotter = hotter / (double)both;
    pair.extra_chance = gained / (double)both;
    return pair;
}

bool compare_idle(const struct pair *p)
{
    return p->extra_person_s.mid > MINUTE_S && p->sooner_days.mid < WORTH_DAYS &&
           p->extra_chance < WORTH_CHANCE;
}

bool compare_clear(const struct pair *p)
{
    int all = p->sooner + p->later, fewer = p->sooner < p->later ? p->sooner : p->later;
    double just = all * log(0.5), tail = exp(just); /* log of the chance that just so many go that way: none, 1 ... */
    for (int k = 1; k <= fewer; k++) {
        just += log((all - k + 1.0) / k);
        tail += exp(just);
    }
    return all > 0 && 2 * tail <= SIGN_CHANCE;
}

/* ---- all ---- */

static bool does_it(const struct standing *s, const struct contender *c)
{
    return outcome_enough(s->chance.mid, c->asked);
}

/* Ready earlier in the middle of all members; never is last. */
static double sooner(const struct standing *s, const struct contender *c)
{
    double day = s->ready_day.mid;
    return (double)c->scenario->start + (isnan(day) ? c->scenario->last_day + 2.0 : day);
}

static bool better(const struct standing *s, const struct contender *c, int a, int b)
{
    bool does_a = does_it(&s[a], &c[a]), does_b = does_it(&s[b], &c[b]);
    if (does_a != does_b)
        return does_a;
    if (does_a && fabs(s[a].person_s.mid - s[b].person_s.mid) > MINUTE_S)
        return s[a].person_s.mid < s[b].person_s.mid;
    if (sooner(&s[a], &c[a]) != sooner(&s[b], &c[b]))
        return sooner(&s[a], &c[a]) < sooner(&s[b], &c[b]);
    return s[a].person_s.mid < s[b].person_s.mid;
}

void compare_order(int *order, const struct standing *standing, int count)
{
    for (int i = 0; i < count; i++) {
        int at = i;
        for (; at > 0 && standing[order[at - 1]].person_s.mid > standing[i].person_s.mid; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
}

bool compare_nearer(const struct contender *a, const struct contender *b, double *room)
{
    struct pair p = compare_pair(a, b, room);
    if (p.extra_person_s.mid > MINUTE_S)
        return p.extra_chance >= 0 && !compare_idle(&p);
    return p.extra_chance > 0 || (p.extra_chance == 0 && p.sooner_days.mid > 0);
}

/* From the least work on. */
static int nearest(const struct standing *standing, const struct contender *contender, int count, double *room)
{
    int order[COMPARE_MOST] = {0};
    compare_order(order, standing, count);
    int best = order[0];
    for (int i = 1; i < count; i++)
        if (compare_nearer(&contender[order[i]], &contender[best], room))
            best = order[i];
    return best;
}

int compare_choice(const struct standing *standing, const struct contender *contender, int count,
                   double *room)
{
    int best = 0;
    for (int i = 1; i < count; i++)
        if (better(standing, contender, i, best))
            best = i;
    return !contender[best].asked->need.is || does_it(&standing[best], &contender[best])
               ? best : nearest(standing, contender, count, room);
}
