/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search_verdict.c - see ask/search_verdict.h. */
#include "ask/search_verdict.h"
#include "ask/compare.h"
#include "ask/search_try.h"
#include "many/band.h"
#include <stdlib.h>
#include <string.h>

enum { FINALISTS = 3, FRESH_FIRST = SEARCH_MEMBERS * 4096 + 1 };

/* ---- by the members of the search ---- */

/* The rows that do it, least work first; returns how many. */
static int finalists(const struct search *s, int row[FINALISTS])
{
    int count = 0;
    for (int i = 0; i < s->trials; i++) {
        if (!search_try_does_it(s, &s->trial[i]))
            continue;
        int at = count < FINALISTS ? count++ : FINALISTS;
        for (; at > 0 && s->trial[i].person_s < s->trial[row[at - 1]].person_s; at--)
            if (at < FINALISTS)
                row[at] = row[at - 1];
        if (at < FINALISTS)
            row[at] = i;
    }
    return count;
}

static void tell_of(struct search *s, const struct outcome *outcome, int members)
{
    double work[2 * SEARCH_MEMBERS], water[2 * SEARCH_MEMBERS], day[2 * SEARCH_MEMBERS];
    int in_time = 0, computed = 0;
    for (int i = 0; i < members; i++) {
        if (!outcome[i].computed)
            continue;
        in_time += outcome_in_time(&outcome[i], &s->scenario->need, s->scenario->start);
        work[computed] = outcome[i].person_s;
        water[computed] = outcome[i].water_kg;
        day[computed++] = outcome[i].ready_day[s->scenario->need.what];
    }
    s->told_members = members;
    s->chance = band_chance(in_time, members);
    s->person_s = band_of(work, computed);
    s->water_kg = band_of(water, computed);
    s->ready_day = band_of(day, computed);
}

void search_verdict_front(struct search *s)
{
    double chance = -1;
    s->fronts = 0;
    for (double work = -1; s->fronts < SEARCH_FRONT;) {
        const struct search_trial *next = NULL;
        for (int i = 0; i < s->trials; i++) {
            const struct search_trial *t = &s->trial[i];
            if (!t->possible || 2 * t->members < s->members || t->person_s <= work || t->chance <= chance)
                continue;
            if (!next || t->person_s < next->person_s ||
                (t->person_s == next->person_s && t->chance > next->chance))
                next = t;
        }
        if (!next)
            return;
        s->front[s->fronts++] = (struct search_front){next->candidate, next->chance, next->person_s,
                                                      next->ready_day, next->members};
        work = next->person_s;
        chance = next->chance;
    }
}

static struct contender contender_of(const struct search *s, struct outcome *outcome, int members)
{
    return (struct contender){.scenario = s->scenario, .asked = s->scenario, .members = members,
                              .outcome = outcome};
}

/* Where none does it: as plans are compared, along the curve from the least work on. */
static int nearest(struct search *s)
{
    double room[SEARCH_MEMBERS];
    struct search_trial *best = &s->trial[0];
    search_verdict_front(s);
    for (int i = 0; i < s->fronts; i++) {
        struct search_trial *t = search_try_find(s, &s->front[i].candidate);
        struct contender a = contender_of(s, t->outcome, t->members);
        struct contender b = contender_of(s, best->outcome, best->members);
        if (i == 0 || compare_nearer(&a, &b, room))
            best = t;
    }
    return (int)(best - s->trial);
}

/* The least work of the curve, and the likeliest, which it flatters most just where none does it. */
static int runners_up(struct search *s, int row[FINALISTS])
{
    int count = 0;
    search_verdict_front(s);
    for (int i = 0; i < s->fronts; i++)
        if (i == 0 || i > s->fronts - FINALISTS)
            row[count++] = (int)(search_try_find(s, &s->front[i].candidate) - s->trial);
    return count;
}

void search_verdict_known(struct search *s)
{
    int row[FINALISTS];
    s->found = finalists(s, row) > 0;
    s->best = s->found ? row[0] : nearest(s);
    s->told_fresh = false;
    tell_of(s, s->trial[s->best].outcome, s->trial[s->best].members);
}

/* ---- by fresh ones ---- */

/* Members nobody has seen: part 0 to choose by, part 1, twice as many, to tell of. */
static bool meet_fresh(struct search *s, int row, int part, struct outcome outcome[2 * SEARCH_MEMBERS],
                       struct trouble *why)
{
    bool possible;
    int first = FRESH_FIRST + part * 2 * SEARCH_MEMBERS;
    const struct param *coarse = s->crew.param;
    memset(outcome, 0, 2 * SEARCH_MEMBERS * sizeof *outcome); /* none is computed if none can be */
    s->crew.param = s->fine;
    bool good = search_try_members(s, &s->trial[row].candidate, first, first + (part + 1) * s->members - 1,
                               outcome, &possible, why);
    s->crew.param = coarse;
    return good;
}

static struct outcome *room_for(int plans, struct trouble *why)
{
    struct outcome *outcome = calloc((size_t)plans * 2 * SEARCH_MEMBERS, sizeof *outcome);
    if (!outcome)
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    return outcome;
}

bool search_verdict_holds(struct search *s, struct trouble *why)
{
    int row[FINALISTS], count = finalists(s, row);
    struct outcome *outcome = room_for(1, why);
    bool good = outcome != NULL;
    for (int i = 0; good && i < count && !s->found; i++) {
        good = meet_fresh(s, row[i], 0, outcome, why);
        if (!good)
            break;
        tell_of(s, outcome, s->members);
        s->found = outcome_enough(s->chance.mid, s->scenario);
        s->trial[row[i]].refuted = !s->found;
        s->best = row[i];
    }
    free(outcome);
    return good;
}

/* The nearest of the runners-up, judged on fresh members. */
static bool choose_nearest(struct search *s, struct trouble *why)
{
    int row[FINALISTS], count = runners_up(s, row);
    double room[SEARCH_MEMBERS];
    struct outcome *all = room_for(FINALISTS, why), *outcome = all;
    struct contender best = {0};
    bool good = all != NULL;
    s->best = 0;
    for (int i = 0; good && i < count; i++, outcome += 2 * SEARCH_MEMBERS) {
        good = meet_fresh(s, row[i], 0, outcome, why);
        struct contender met = contender_of(s, outcome, s->members);
        if (!good || (i > 0 && !compare_nearer(&met, &best, room)))
            continue;
        best = met;
        s->best = row[i];
    }
    free(all);
    return good;
}

bool search_verdict_fresh(struct search *s, struct trouble *why)
{
    if (!s->found && !choose_nearest(s, why))
        return false;
    struct outcome *outcome = room_for(1, why);
    s->told_fresh = outcome && meet_fresh(s, s->best, 1, outcome, why);
    if (s->told_fresh) {
        tell_of(s, outcome, 2 * s->members);
        s->found = outcome_enough(s->chance.mid, s->scenario); /* the verdict is what is told */
    }
    free(outcome);
    return s->told_fresh;
}
