/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/lesson.c - see ask/lesson.h. */
#include "ask/lesson.h"
#include "ask/lesson_try.h"
#include "ask/vary.h"
#include "many/band.h"
#include <stdlib.h>
#include <string.h>

/* past its peak, yet warm enough for a class to see it rise */
static const double TURN_BELOW_K = 323.15;
enum { TURN_SOONEST = 5, TURN_LATEST = 56 };

/* ---- the season ---- */

static bool full_season(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    const struct scenario *scenario = work->ask->scenario;
    struct trial *run = lesson_try_begin(work, LESSON_ASKED, why);
    if (!run || !lesson_try_go(work, run, why))
        return false;
    found->asked = found->alone = run;
    if (scenario->plan[work->ask->plan].events == 0)
        return true;
    run = lesson_try_alone(work, LESSON_ALONE, scenario->last_day, why);
    found->alone = run;
    return run && lesson_try_go(work, run, why);
}

/* ---- what is asked of the whole season ---- */

static void stock(struct lesson_found *found)
{
    double *room = found->room;
    found->dry_kg = trial_span(found->asked, TRIAL_DRY_KG, 0, room);
    found->quick_kg = trial_span(found->asked, TRIAL_QUICK_KG, 0, room);
    found->water_kg = trial_span(found->asked, TRIAL_WATER_KG, 0, room);
    found->free_air_share = trial_span(found->asked, TRIAL_FREE_AIR, 0, room);
    found->used_kg = trial_span(found->alone, TRIAL_USED_KG, 0, room);
    found->heat_MJ_per_kg = trial_span(found->alone, TRIAL_HEAT_PER_KG, 0, room);
    found->dried_kg_per_kg = trial_span(found->alone, TRIAL_DRIED_PER_KG, 0, room);
    found->hottest_over_55_share = trial_span(found->alone, TRIAL_OVER_55, 0, room);
    double *heat[] = {&found->heat_MJ_per_kg.low, &found->heat_MJ_per_kg.mid,
                      &found->heat_MJ_per_kg.high};
    for (int i = 0; i < 3; i++)
        *heat[i] /= 1e6;
}

/* The day from `from` on with the highest median of the middle. */
static int warmest(const struct span *middle_K, int from, int days)
{
    int most = from;
    for (int i = from; i < days; i++)
        if (middle_K[i].mid > middle_K[most].mid)
            most = i;
    return most;
}

static void today(struct lesson_found *found, const struct lesson_ask *ask)
{
    const struct trial *run = found->asked;
    int days = run->scenario->last_day + 1;
    double *room = found->room;
    found->how = ask->day < 0 ? LESSON_FURTHEST : ask->how;
    found->day = ask->day < 0 ? able_furthest(&run->able, days) : ask->day;
    found->budget = budget_range_of(run->able.record, run->able.members, found->day, -1, room);
    found->asked_peak_K = trial_span(run, TRIAL_PEAK_K, 0, room);
    found->middle_K = trial_span(run, TRIAL_MIDDLE_K, found->day, room);
    found->deep_30cm_K = trial_span(run, TRIAL_DEEP_30CM_K, found->day, room);
    found->hand_deep_K = trial_span(run, TRIAL_HAND_DEEP_K, found->day, room);
    found->air_K = trial_span(run, TRIAL_AIR_K, found->day, room);
    found->next_day = found->day + LESSON_WEEK < days ? found->day + LESSON_WEEK : -1;
    if (found->next_day < 0)
        return;
    found->next_middle_K = trial_span(run, TRIAL_MIDDLE_K, found->next_day, room);
    found->next_deep_30cm_K = trial_span(run, TRIAL_DEEP_30CM_K, found->next_day, room);
    found->next_hand_deep_K = trial_span(run, TRIAL_HAND_DEEP_K, found->next_day, room);
}

/* When the middle has fallen below 50 C after its peak, within eight weeks. */
static int day_to_turn(const struct span *middle_K, int last_day)
{
    int latest = last_day - LESSON_WEEK < TURN_LATEST ? last_day - LESSON_WEEK : TURN_LATEST;
    int day = warmest(middle_K, 0, latest) + 2;
    while (day < latest && middle_K[day].mid >= TURN_BELOW_K)
        day++;
    day = day < TURN_SOONEST ? TURN_SOONEST : day;
    return day > latest ? latest : day;
}

static bool look_over(struct lesson_found *found, const struct lesson_ask *ask, struct trouble *why)
{
    struct span *alone_K = able_middle_K(&found->alone->able, ask->scenario->last_day + 1);
    if (!alone_K)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the lesson");
    stock(found);
    today(found, ask);
    found->turn_day = day_to_turn(alone_K, ask->scenario->last_day);
    free(alone_K);
    return true;
}

/* ---- two plans ---- */

/* One that does something beside one that doesn't; else the next. -1 = the scenario has no other.
 */
static int plan_beside(const struct lesson_ask *ask)
{
    const struct scenario *scenario = ask->scenario;
    bool does = scenario->plan[ask->plan].events > 0;
    int other = -1;
    if (ask->other >= 0)
        return ask->other;
    for (int p = scenario->plans - 1; p >= 0; p--)
        if (p != ask->plan
            && (other < 0 || (scenario->plan[p].events > 0) != does
                || (scenario->plan[other].events > 0) == does))
            other = p;
    return other;
}

static bool run_other(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    const struct scenario *scenario = work->ask->scenario;
    int beside = plan_beside(work->ask);
    bool leaves = beside < 0 || scenario->plan[beside].events == 0;
    if (leaves && found->alone != found->asked) {
        struct plan *plan = &found->run[LESSON_ALONE].scenario->plan[work->ask->plan];
        memcpy(plan->name, beside < 0 ? "left alone" : scenario->plan[beside].name,
               beside < 0 ? sizeof "left alone" : PLAN_NAME);
        found->other = found->alone;
        return true;
    }
    struct trial *run = lesson_try_begin(work, LESSON_OTHER, why);
    found->other = run;
    if (!run)
        return false;
    if (beside >= 0) {
        run->plan = beside;
    } else {
        vary_turn(&run->scenario->plan[run->plan], found->turn_day, PLAN_MIXED, PLAN_SAME_BAY);
        memcpy(run->scenario->plan[run->plan].name, "one turn", sizeof "one turn");
    }
    return lesson_try_go(work, run, why);
}

static bool contend(struct lesson_found *found, int which, const struct trial *run,
                    struct trouble *why)
{
    struct contender *c = &found->contender[which];
    *c = (struct contender){.scenario = run->scenario,
                            .asked = found->asked->scenario,
                            .plan = run->plan,
                            .members = run->done.members,
                            .outcome = calloc((size_t)run->done.members, sizeof *c->outcome)};
    if (!c->outcome)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the lesson");
    for (int m = 0; m < run->done.members; m++)
        if (!run->done.failed[m])
            c->outcome[m] = outcome_of(&run->done.record[m], run->scenario);
    found->standing[which] = compare_standing(c, found->room);
    return true;
}

static bool set_beside(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    if (!run_other(work, why) || !contend(found, 0, found->asked, why)
        || !contend(found, 1, found->other, why))
        return false;
    found->busy = found->standing[1].person_s.mid > found->standing[0].person_s.mid;
    found->pair =
        compare_pair(&found->contender[found->busy], &found->contender[!found->busy], found->room);
    return true;
}

/* ---- all ---- */

bool lesson_run(struct lesson_found *found, const struct lesson_ask *ask, struct trouble *why)
{
    struct lesson_work work = {.ask = ask, .found = found, .parts = LESSON_KINDS};
    int members = ask->crew.last - ask->crew.first + 1;
    *found = (struct lesson_found){.members = members,
                                   .room = calloc((size_t)members, sizeof *found->room)};
    if (!found->room)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the lesson");
    if (ask->scenario->last_day + 1 < LESSON_LEAST_DAYS)
        return trouble_set(why, TROUBLE_NO,
                           "a season of %d days is too short for a lesson, which shows at "
                           "least %d; put `need` later",
                           ask->scenario->last_day + 1, LESSON_LEAST_DAYS);
    return full_season(&work, why) && look_over(found, ask, why) && lesson_try_sizes(&work, why)
           && lesson_try_turn(&work, why) && lesson_try_wets(&work, why)
           && lesson_try_winter(&work, why) && set_beside(&work, why);
}

void lesson_free(struct lesson_found *found)
{
    for (int kind = 0; kind < LESSON_KINDS; kind++) {
        crew_free(&found->run[kind].done);
        able_free(&found->run[kind].able);
        free(found->run[kind].scenario);
    }
    for (int i = 0; i < 2; i++)
        free(found->contender[i].outcome);
    free(found->room);
    *found = (struct lesson_found){0};
}
