/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/learn.c - see ask/learn.h. */
#include "ask/learn.h"
#include "many/band.h"
#include "many/likely.h"
#include <math.h>
#include <stdlib.h>

/* Half of what chance makes of Kolmogorov's statistic times the root of the sample is below this; how
 * often it is above a number d is 2 exp(-2 d^2), where that is small [Kolmogorov 1933, memory]. */
static const double HALF_BELOW = 0.8276;
/* how often any unknown of all is said to be learnt of, though the readings tell nothing */
static const double ANY_BY_CHANCE = 0.05;
static const double SUSPECT = 0.5;

static double chance_at(const struct posterior *p, int member, int unknown)
{
    return p->chance[(size_t)member * (size_t)p->unknowns.count + (size_t)unknown];
}

/* ---- unknowns ---- */

static struct span span_at(const struct unknowns *list, int row, struct span chance,
                           const struct crew *crew, const char **unit)
{
    return (struct span){unknown_value(list, row, chance.low, crew->scenario, crew->param, unit),
                         unknown_value(list, row, chance.mid, crew->scenario, crew->param, unit),
                         unknown_value(list, row, chance.high, crew->scenario, crew->param, unit)};
}

/* Of sorted chances, the largest distance of their distribution from an even one. */
static double moved(const double *chance, int count)
{
    double most = 0;
    for (int i = 0; i < count; i++)
        most = fmax(most, fmax(chance[i] - (double)i / count, (i + 1.0) / count - chance[i]));
    return most;
}

static struct learn_unknown unknown_of(const struct posterior *p, const struct crew *crew, int row,
                                       double *room)
{
    static const struct span drawn = {0.1, 0.5, 0.9};
    struct learn_unknown u = {.unknown = &p->unknowns.row[row]};
    for (int i = 0; i < p->members; i++)
        room[i] = chance_at(p, i, row);
    struct span now = band_of(room, p->members); /* sorts them */
    u.before = span_at(&p->unknowns, row, drawn, crew, &u.unit);
    u.after = span_at(&p->unknowns, row, now, crew, &u.unit);
    u.moved = moved(room, p->members);
    return u;
}

static int more_learnt(const void *a, const void *b)
{
    const struct learn_unknown *x = a, *y = b;
    if (x->taught != y->taught)
        return y->taught - x->taught;
    return y->moved < x->moved ? -1 : y->moved > x->moved;
}

static int less(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return *x < *y ? -1 : *x > *y;
}

/* Members that went on from one another are alike, and count for fewer than they are. For how many, the
 * unknowns themselves say: readings of a few weeks tell nothing of most of them, so that the middle one
 * has moved as far as chance takes it (an empirical null; Efron 2004, J. Am. Stat. Assoc. 99, 96-104
 * [memory]). */
static double counting(const struct learnt *l, int members)
{
    double far[UNKNOWN_MOST];
    for (int k = 0; k < l->unknowns; k++)
        far[k] = l->unknown[k].moved;
    qsort(far, (size_t)l->unknowns, sizeof *far, less);
    double middle = far[l->unknowns / 2];
    return middle > 0 ? fmin(members, pow(HALF_BELOW / middle, 2)) : members;
}

/* Further than chance takes any of so many. */
static void mark_taught(struct learnt *l, int members)
{
    if (l->unknowns == 0)
        return;
    double far = sqrt(0.5 * log(2 * l->unknowns / ANY_BY_CHANCE)) / sqrt(counting(l, members));
    for (int k = 0; k < l->unknowns; k++)
        l->unknown[k].taught = l->unknown[k].moved > far;
}

/* ---- readings ---- */

/* What an instrument would have shown of what was there. */
static struct span shown(const struct posterior *p, const struct crew *crew, const double *seen,
                         int reading, bool after, double *room)
{
    const struct scenario *scenario = crew->scenario;
    int known = 0;
    for (int i = 0; i < p->members; i++) {
        double is = seen[(size_t)i * (size_t)scenario->readings + (size_t)reading];
        double off_K = scenario->thermometer.ice_K, hand = 0;
        if (after)
            unknown_eyes(&p->unknowns, p->chance + (size_t)i * (size_t)p->unknowns.count, scenario,
                         &off_K, &hand);
        enum plan_read what = scenario->reading[reading].what;
        if (is > 0)
            room[known++] = is + (what <= PLAN_READ_INSIDE ? off_K : what == PLAN_READ_SQUEEZE ? hand : 0);
    }
    return known ? band_of(room, known) : (struct span){NAN, NAN, NAN};
}

static struct learn_reading reading_of(const struct posterior *p, const struct crew *crew, int row,
                                       double *room)
{
    struct learn_reading r = {.reading = &crew->scenario->reading[row]};
    for (int i = 0; i < p->members; i++)
        r.wild += p->wild[i][row] / p->members;
    r.before = shown(p, crew, p->seen_before, row, false, room);
    r.after = shown(p, crew, p->seen, row, true, room);
    r.suspect = r.reading->what != PLAN_READ_AIR && r.wild > SUSPECT;
    return r;
}

bool learn_tell(struct learnt *l, const struct posterior *p, const struct crew *crew, struct trouble *why)
{
    double *room = calloc((size_t)p->members, sizeof *room);
    if (!room)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to learn");
    l->readings = crew->scenario->readings;
    l->unknowns = l->suspects = l->taught = 0;
    for (int i = 0; i < l->readings; i++) {
        l->reading[i] = reading_of(p, crew, i, room);
        l->suspects += l->reading[i].suspect;
    }
    for (int k = 0; k < p->unknowns.count; k++)
        if (p->unknowns.row[k].kind != UNKNOWN_WEATHER && p->unknowns.row[k].kind != UNKNOWN_SLIPS)
            l->unknown[l->unknowns++] = unknown_of(p, crew, k, room);
    mark_taught(l, p->members);
    qsort(l->unknown, (size_t)l->unknowns, sizeof *l->unknown, more_learnt);
    while (l->taught < l->unknowns && l->unknown[l->taught].taught)
        l->taught++;
    free(room);
    return true;
}
