/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search.c - see ask/search.h. */
#include "ask/search.h"
#include "ask/compare.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

_Static_assert(SEARCH_TRIALS >= 2 + (SPACE_TURNS - 2) * (96 + 2 * SPACE_MOVES), "room for all");
enum { POOL = 96, KEEP = 2, WAYS_AT_FIRST = 2, ROUNDS = 2, FINALISTS = 3,
       FRESH_FIRST = SEARCH_MEMBERS * 4096 + 1 };
/* a week more or less than needed moves the score of a member from a half to a quarter or three quarters */
static const double SOFT_DAYS = 7;
static const double HOPELESS = 0.02;    /* of score: what one turn more must add, or the next one */
static const double LIKELY_GAIN = 0.01; /* on the first few members, to be tried on all */
static const double LIKELY_LOSS = 0.1;  /* on these, to be tried on all if it is less work */

/* ---- a trial ---- */

static double median(double *value, int count)
{
    return band_of(value, count).mid;
}

/* 1 long before the need, 1/2 on its day, 0 never: chances of few members are too coarse to rank by */
static double member_score(const struct search *s, const struct outcome *o)
{
    double need = (double)(s->scenario->need.by - s->scenario->start + 1);
    double day = o->ready_day[s->scenario->need.what];
    return o->computed && !isnan(day) ? 1 / (1 + exp((day - need - 0.5) / SOFT_DAYS)) : 0;
}

static double score_of(const struct search *s, const struct search_trial *t, int members)
{
    double sum = 0;
    for (int i = 0; i < members; i++)
        sum += member_score(s, &t->outcome[i]);
    return sum / members;
}

/* A pile that could not be run is not in time, and has neither work nor a day. */
static void sum_up(struct search *s, struct search_trial *t)
{
    double work[SEARCH_MEMBERS], day[SEARCH_MEMBERS], visit[SEARCH_MEMBERS];
    double helpers = fmax(s->scenario->people.helpers.mid, 1);
    int in_time = 0, computed = 0;
    for (int i = 0; i < t->members; i++) {
        const struct outcome *o = &t->outcome[i];
        if (!o->computed)
            continue;
        in_time += outcome_in_time(o, &s->scenario->need, s->scenario->start);
        work[computed] = o->person_s;
        visit[computed] = o->longest_s;
        day[computed++] = outcome_day(o, s->scenario->need.what, s->scenario);
    }
    t->score = score_of(s, t, t->members);
    t->chance = in_time / (double)t->members;
    t->person_s = median(work, computed);
    t->ready_day = median(day, computed);
    if (median(visit, computed) / helpers > s->scenario->people.visit_s) {
        t->possible = false;
        s->too_long++;
    }
}

/* Members first to last into outcome; a plan for which there is no bin is no trouble. */
static bool run_members(struct search *s, const struct candidate *candidate, int first, int last,
                        struct outcome *outcome, bool *possible, struct trouble *why)
{
    struct crew_done done;
    struct trouble *own = calloc(1, sizeof *own);
    if (!own)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    space_plan(&s->scenario->plan[0], &s->space, candidate);
    s->crew.first = first;
    s->crew.last = last;
    bool good = crew_run(&done, &s->crew, own);
    for (int i = 0; good && i < done.members; i++)
        outcome[i] = done.failed[i] ? (struct outcome){.person_s = 0}
                                    : outcome_of(&done.record[i], s->scenario);
    s->seasons += last - first + 1;
    *possible = good;
    if (!good && own->kind != TROUBLE_NO)
        *why = *own;
    bool fine = good || own->kind == TROUBLE_NO;
    crew_free(&done);
    free(own);
    return fine;
}

static struct search_trial *find(struct search *s, const struct candidate *candidate)
{
    for (int i = 0; i < s->trials; i++)
        if (space_same(&s->trial[i].candidate, candidate))
            return &s->trial[i];
    if (s->trials == SEARCH_TRIALS)
        return NULL;
    struct search_trial *t = &s->trial[s->trials];
    *t = (struct search_trial){.candidate = *candidate, .possible = true,
                               .outcome = calloc(SEARCH_MEMBERS, sizeof *t->outcome)};
    s->trials += t->outcome != NULL;
    return t->outcome ? t : NULL;
}

struct search_trial *search_try(struct search *s, const struct candidate *candidate, int members,
                                struct trouble *why)
{
    struct search_trial *t = find(s, candidate);
    if (!t) {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
        return NULL;
    }
    if (!t->possible || t->members >= members)
        return t;
    if (!run_members(s, candidate, t->members + 1, members, t->outcome + t->members, &t->possible, why))
        return NULL;
    if (!t->possible)
        return t;
    t->members = members;
    sum_up(s, t);
    if (s->told)
        s->told(s->listener, s);
    return t;
}

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
        const struct search_trial *t = find(s, &here);
        if (!t || !t->possible)
            continue;
        int at = left++;
        for (; at > 0 && find(s, &pool->candidate[at - 1])->score < t->score; at--)
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

static bool does_it(const struct search *s, const struct search_trial *t)
{
    return t->possible && t->members == s->members && outcome_enough(t->chance, s->scenario);
}

/* Not by a hair, so that nobody need try what is more work: members it hasn't seen will say the same. */
static bool surely_does_it(const struct search *s, const struct search_trial *t)
{
    int in_time = (int)lround(t->chance * t->members);
    return does_it(s, t) && outcome_enough(band_chance(in_time, t->members).low, s->scenario);
}

/* Is one better than the other for what is wanted now: chance, then work. */
static bool improves(const struct search *s, const struct search_trial *a, const struct search_trial *b)
{
    if (!a->possible)
        return false;
    if (does_it(s, a) && does_it(s, b))
        return a->person_s < b->person_s;
    return does_it(s, a) || (!does_it(s, b) && score_of(s, a, a->members) > score_of(s, b, a->members));
}

/* A neighbour worth all members: better on the few, or as good to all likelihood and cheaper. */
static bool promising(const struct search *s, const struct search_trial *t,
                      const struct search_trial *now)
{
    double before = score_of(s, now, t->members);
    bool cheaper = does_it(s, now) && t->person_s < now->person_s;
    return t->possible && t->score > before + (cheaper ? -LIKELY_LOSS : LIKELY_GAIN);
}

static bool refine(struct search *s, struct candidate *best, struct trouble *why)
{
    struct candidate *move = calloc(SPACE_MOVES, sizeof *move);
    bool good = move || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    bool better = good;
    for (int round = 0; good && better && round < ROUNDS; round++) {
        int moves = space_moves(move, &s->space, best);
        better = false;
        for (int i = 0; good && i < moves; i++) {
            const struct search_trial *now = find(s, best);
            const struct search_trial *t = search_try(s, &move[i], SEARCH_LOOK, why);
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

static bool climb(struct search *s, struct trouble *why)
{
    struct pool *before = calloc(1, sizeof *before), *pool = calloc(1, sizeof *pool);
    bool good = before && pool, done = false;
    double score[SPACE_TURNS + 1] = {0};
    if (good) {
        enter(before, &(struct candidate){0});
        if (s->space.cover >= 0)
            enter(before, &(struct candidate){.covered = true});
        good = race(s, before, KEEP, why);
    } else {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    }
    for (int k = 0; good; k++) {
        const struct search_trial *best = find(s, &before->candidate[0]);
        score[k] = best->score;
        bool enough = done || (k == 0 && surely_does_it(s, best)) || (k >= 2 && score[k] < score[k - 2] + HOPELESS);
        done = does_it(s, best);
        if (enough || k == s->most_turns || s->space.days <= k)
            break;
        enter_more(s, pool, before, k + 1, done);
        good = race(s, pool, KEEP, why) &&
               (pool->count == 0 || done || refine(s, &pool->candidate[0], why));
        if (pool->count == 0)
            break; /* no turn is possible */
        struct pool *swap = before;
        before = pool;
        pool = swap;
    }
    free(before);
    free(pool);
    return good;
}

/* ---- the verdict ---- */

/* The rows that do it, least work first; returns how many. */
static int finalists(const struct search *s, int row[FINALISTS])
{
    int count = 0;
    for (int i = 0; i < s->trials; i++) {
        if (!does_it(s, &s->trial[i]))
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

/* More work must buy more chance, or it isn't on the curve. */
static void find_front(struct search *s)
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
    find_front(s);
    for (int i = 0; i < s->fronts; i++) {
        struct search_trial *t = find(s, &s->front[i].candidate);
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
    find_front(s);
    for (int i = 0; i < s->fronts; i++)
        if (i == 0 || i > s->fronts - FINALISTS)
            row[count++] = (int)(find(s, &s->front[i].candidate) - s->trial);
    return count;
}

/* Members nobody has seen: part 0 to choose by, part 1, twice as many, to tell of. */
static bool meet_fresh(struct search *s, int row, int part, struct outcome *outcome, struct trouble *why)
{
    bool possible;
    int first = FRESH_FIRST + part * 2 * SEARCH_MEMBERS;
    s->crew.param = s->fine;
    memset(outcome, 0, 2 * SEARCH_MEMBERS * sizeof *outcome); /* none is computed if none can be */
    return run_members(s, &s->trial[row].candidate, first,
                       first + (part + 1) * s->members - 1, outcome, &possible, why);
}

/* The nearest of the runners-up, judged on fresh members. */
static bool choose_nearest(struct search *s, struct outcome *outcome, struct trouble *why)
{
    int row[FINALISTS], count = runners_up(s, row);
    double room[SEARCH_MEMBERS];
    struct contender best = {0};
    s->best = 0;
    for (int i = 0; i < count; i++, outcome += 2 * SEARCH_MEMBERS) {
        if (!meet_fresh(s, row[i], 0, outcome, why))
            return false;
        struct contender met = contender_of(s, outcome, s->members);
        if (i > 0 && !compare_nearer(&met, &best, room))
            continue;
        best = met;
        s->best = row[i];
    }
    return true;
}

/* The first of the finalists that holds on fresh members; else the nearest. */
static bool choose(struct search *s, struct outcome *outcome, struct trouble *why)
{
    int row[FINALISTS], count = finalists(s, row);
    for (int i = 0; i < count && !s->found; i++) {
        if (!meet_fresh(s, row[i], 0, outcome, why))
            return false;
        tell_of(s, outcome, s->members);
        s->found = outcome_enough(s->chance.mid, s->scenario);
        s->best = row[i];
    }
    return s->found || choose_nearest(s, outcome, why);
}

static bool confirm(struct search *s, struct trouble *why)
{
    struct outcome *outcome = calloc(FINALISTS * 2 * SEARCH_MEMBERS, sizeof *outcome);
    bool good = outcome ? choose(s, outcome, why) && meet_fresh(s, s->best, 1, outcome, why)
                        : trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    if (good) {
        tell_of(s, outcome, 2 * s->members);
        s->found = outcome_enough(s->chance.mid, s->scenario); /* the verdict is what is told */
    }
    s->told_fresh = good;
    free(outcome);
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
    bool good = climb(s, why) && (!s->fresh || confirm(s, why));
    bool stopped = s->crew.stop && *s->crew.stop;
    find_front(s);
    if (good) {
        s->finished = true;
        if (s->fresh)
            return true;
    } else if (!stopped || s->trials == 0 || s->trial[0].members == 0) {
        return false;
    }
    if (!good)
        *why = (struct trouble){0}; /* cut short, but there is an answer */
    int row[FINALISTS];
    s->found = finalists(s, row) > 0;
    s->best = s->found ? row[0] : nearest(s);
    s->told_fresh = false;
    tell_of(s, s->trial[s->best].outcome, s->trial[s->best].members);
    return true;
}

void search_free(struct search *s)
{
    for (int i = 0; i < s->trials; i++)
        free(s->trial[i].outcome);
    free(s->scenario);
}
