/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search.c - see ask/search.h. */
#include "ask/search.h"
#include "ask/search_try.h"
#include "ask/search_verdict.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>

_Static_assert(SEARCH_TRIALS >= 2 + (SPACE_TURNS - 2) * (96 + 2 * SPACE_MOVES), "room for all");
enum { POOL = 96, KEEP = 2, WAYS_AT_FIRST = 2, ROUNDS = 2 };
static const double HOPELESS = 0.02;    /* of score: what one turn more must add, or the next one */
static const double LIKELY_GAIN = 0.01; /* on the first few members, to be tried on all */
static const double LIKELY_LOSS = 0.1;  /* on these, to be tried on all if it is less work */

/* ---- a race ---- */

struct pool {
    int count;
    struct candidate candidate[POOL];
};

static void enter(struct pool *pool, const struct candidate *candidate)
{
    for (int i = 0; i < pool->count; i++)
        if (space_same(&pool->candidate[i], candidate))
            return;
    if (pool->count < POOL)
        pool->candidate[pool->count++] = *candidate;
}

/* Best score first; what isn't possible goes. Trials are found again by their candidate. */
static void rank(struct search *s, struct pool *pool)
{
    int left = 0;
    for (int i = 0; i < pool->count; i++) {
        struct candidate here = pool->candidate[i];
        const struct search_trial *t = search_try_find(s, &here);
        if (!t || !t->possible)
            continue;
        int at = left++;
        for (; at > 0 && search_try_find(s, &pool->candidate[at - 1])->score < t->score; at--)
            pool->candidate[at] = pool->candidate[at - 1];
        pool->candidate[at] = here;
    }
    pool->count = left;
}

/* Until `keep` are left, which have met all members; the best comes first. */
static bool race(struct search *s, struct pool *pool, int keep, struct trouble *why)
{
    for (int members = SEARCH_LOOK;; members *= 2) {
        members = members < s->members ? members : s->members;
        for (int i = 0; i < pool->count; i++)
            if (!search_try(s, &pool->candidate[i], members, why))
                return false;
        rank(s, pool);
        if (members >= s->members)
            break;
        int half = (pool->count + 1) / 2;
        pool->count = half > keep ? half : pool->count < keep ? pool->count : keep;
    }
    pool->count = pool->count < keep ? pool->count : keep;
    return true;
}

/* ---- one turn more, then small changes ---- */

/* Every n-th of the days, as a calendar would have it. */
static void enter_interval(const struct search *s, struct pool *pool, int turns)
{
    const struct space *space = &s->space;
    struct candidate at_intervals = {0};
    for (int i = 1; i <= turns; i++) {
        struct candidate more;
        int day = (int)((double)i * space->days / (turns + 1));
        if (!space_add(&more, space, &at_intervals, day < space->days ? day : space->days - 1,
                       space->way[0]))
            return;
        at_intervals = more;
    }
    enter(pool, &at_intervals);
}

/* Where the plans before do it already, what more work would buy is looked at less closely. */
static void enter_more(const struct search *s, struct pool *pool, const struct pool *before, int turns,
                       bool done)
{
    struct candidate more;
    pool->count = 0;
    for (int b = 0; b < (done ? 1 : before->count); b++)
        for (int day = 0; day < s->space.days; day += s->space.coarse)
            for (int way = 0; way < (done ? 1 : WAYS_AT_FIRST); way++)
                if (space_add(&more, &s->space, &before->candidate[b], day, s->space.way[way]))
                    enter(pool, &more);
    enter_interval(s, pool, turns);
}

/* Not by a hair, so that nobody need try what is more work: members it hasn't seen will say the same. */
static bool surely_does_it(const struct search *s, const struct search_trial *t)
{
    int in_time = (int)lround(t->chance * t->members);
    return search_try_does_it(s, t) && outcome_enough(band_chance(in_time, t->members).low, s->scenario);
}

/* Is one better than the other for what is wanted now: chance, then work. */
static bool improves(const struct search *s, const struct search_trial *a, const struct search_trial *b)
{
    if (!a->possible)
        return false;
    bool a_does = search_try_does_it(s, a), b_does = search_try_does_it(s, b);
    if (a_does && b_does)
        return a->person_s < b->person_s;
    return a_does || (!b_does && search_try_score(s, a, a->members) > search_try_score(s, b, a->members));
}

/* A neighbour worth all members: better on the few, or as good to all likelihood and cheaper. */
static bool promising(const struct search *s, const struct search_trial *t,
                      const struct search_trial *now)
{
    double before = search_try_score(s, now, t->members);
    bool cheaper = search_try_does_it(s, now) && t->person_s < now->person_s;
    return t->possible && t->score > before + (cheaper ? -LIKELY_LOSS : LIKELY_GAIN);
}

static bool refine(struct search *s, struct candidate *best, struct trouble *why)
{
    struct candidate *move = calloc(SPACE_MOVES, sizeof *move);
    bool good = move || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    bool better = good;
    int look = SEARCH_LOOK < s->members ? SEARCH_LOOK : s->members;
    for (int round = 0; good && better && round < ROUNDS; round++) {
        int moves = space_moves(move, &s->space, best);
        better = false;
        for (int i = 0; good && i < moves; i++) {
            const struct search_trial *now = search_try_find(s, best);
            const struct search_trial *t = search_try(s, &move[i], look, why);
            if (t && promising(s, t, now))
                t = search_try(s, &move[i], s->members, why);
            good = t != NULL;
            if (good && t->members == s->members && improves(s, t, now)) {
                *best = move[i];
                better = true;
            }
        }
    }
    free(move);
    return good;
}

/* From plans of some turns to those of one more, until one does it or more turns are of no use. */
struct climb {
    int turns;
    struct pool now, next;
    double score[SPACE_TURNS + 1];
    bool ended;
};

static bool begin(struct climb *c, struct search *s, struct trouble *why)
{
    enter(&c->now, &(struct candidate){0});
    if (s->space.cover >= 0)
        enter(&c->now, &(struct candidate){.covered = true});
    return race(s, &c->now, KEEP, why);
}

/* Where plans of so many turns do it, those of one more are looked at for what their work would buy, and the
 * climb stays: it goes on from there should none of them hold. */
static bool climb_on(struct climb *c, struct search *s, struct trouble *why)
{
    for (;; c->turns++) {
        int k = c->turns;
        const struct search_trial *best = search_try_find(s, &c->now.candidate[0]);
        bool done = search_try_does_it(s, best);
        if (k == 0 && surely_does_it(s, best))
            return true;
        c->score[k] = best->score;
        bool hopeless = k >= 2 && c->score[k] < c->score[k - 2] + HOPELESS;
        c->ended = hopeless || k == s->most_turns || s->space.days <= k;
        if (c->ended)
            return true;
        enter_more(s, &c->next, &c->now, k + 1, done);
        if (!race(s, &c->next, KEEP, why))
            return false;
        c->ended = c->next.count == 0; /* no turn is possible */
        if (c->ended || done)
            return true;
        if (!refine(s, &c->next.candidate[0], why))
            return false;
        c->now = c->next;
    }
}

static bool climb(struct search *s, struct trouble *why)
{
    struct climb *c = calloc(1, sizeof *c);
    bool good = c ? begin(c, s, why)
                  : trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    do
        good = good && climb_on(c, s, why) && (!s->fresh || search_verdict_holds(s, why));
    while (good && s->fresh && !s->found && !c->ended);
    free(c);
    return good;
}

bool search_open(struct search *s, const struct scenario *scenario, int first_day, struct trouble *why)
{
    s->scenario = malloc(sizeof *s->scenario);
    if (!s->scenario)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    *s->scenario = *scenario;
    space_of(&s->space, s->scenario, first_day);
    s->scenario->plans = 1;
    s->crew.scenario = s->scenario;
    s->crew.plan = 0;
    s->most_turns = SPACE_TURNS - 2;
    s->members = SEARCH_MEMBERS;
    s->fine = s->crew.param;
    s->coarse = *s->fine;
    for (int i = 0; i < PARAM_COARSER; i++) {
        const struct param_row *row = param_find(param_coarser[i].name);
        if (!s->crew.fixed || !s->crew.fixed[row - param_rows])
            param_put(&s->coarse, row, param_coarser[i].value);
    }
    s->crew.param = &s->coarse;
    return true;
}

bool search_run(struct search *s, struct trouble *why)
{
    s->finished = climb(s, why) && (!s->fresh || search_verdict_fresh(s, why));
    bool stopped = s->crew.stop && *s->crew.stop;
    search_verdict_front(s);
    if (s->finished && s->fresh)
        return true;
    if (!s->finished && (!stopped || s->trials == 0 || s->trial[0].members == 0))
        return false;
    if (!s->finished)
        *why = (struct trouble){0}; /* cut short, but there is an answer */
    search_verdict_known(s);
    return true;
}

void search_free(struct search *s)
{
    for (int i = 0; i < s->trials; i++)
        free(s->trial[i].outcome);
    free(s->scenario);
}
