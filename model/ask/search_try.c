/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/search_try.c - see ask/search_try.h. */
#include "ask/search_try.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>

/* a week more or less than needed moves the score of a member from a half to a quarter or three quarters */
static const double SOFT_DAYS = 7;

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

double search_try_score(const struct search *s, const struct search_trial *t, int members)
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
    t->score = search_try_score(s, t, t->members);
    t->chance = in_time / (double)t->members;
    t->person_s = median(work, computed);
    t->ready_day = median(day, computed);
    if (median(visit, computed) / helpers > s->scenario->people.visit_s) {
        t->possible = false;
        s->too_long++;
    }
}

bool search_try_members(struct search *s, const struct candidate *candidate, int first, int last,
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
    for (int i = 0; good && i < done.members; i++) {
        outcome[i] = (struct outcome){.computed = false};
        if (!done.failed[i])
            outcome[i] = outcome_of(&done.record[i], s->scenario);
    }
    s->seasons += last - first + 1;
    *possible = good;
    if (!good && own->kind != TROUBLE_NO)
        *why = *own;
    bool fine = good || own->kind == TROUBLE_NO;
    crew_free(&done);
    free(own);
    return fine;
}

struct search_trial *search_try_find(struct search *s, const struct candidate *candidate)
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
    struct search_trial *t = search_try_find(s, candidate);
    if (!t) {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
        return NULL;
    }
    if (!t->possible || t->members >= members)
        return t;
    if (!search_try_members(s, candidate, t->members + 1, members, t->outcome + t->members, &t->possible, why))
        return NULL;
    if (!t->possible)
        return t;
    t->members = members;
    sum_up(s, t);
    if (s->told)
        s->told(s->listener, s);
    return t;
}

bool search_try_does_it(const struct search *s, const struct search_trial *t)
{
    return t->possible && !t->refuted && t->members == s->members && outcome_enough(t->chance, s->scenario);
}
