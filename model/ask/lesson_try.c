/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/lesson_try.c - see ask/lesson_try.h.
 *
 * Sizes and wetnesses are those that a class can build: 0.6 and 1.2 m; 25, 55 and 75 % water.
 */
#include "ask/lesson_try.h"
#include "ask/vary.h"
#include "know/bound.h"
#include "many/band.h"
#include <stdlib.h>

const double lesson_try_side_m[LESSON_SIZES] = {0.6, 1.2};
const double lesson_try_water_share[LESSON_WETS] = {0.25, 0.55, 0.75};
const double lesson_try_cover_m = 0.10;
static const double ICE_POINT_K = 273.15, SEEN_K = 1; /* what a garden thermometer shows */
enum { COVER_BEFORE = 7, WINTER_AGE = 28, AFTER_COLD = 60 };

/* ---- runs ---- */

struct trial *lesson_try_begin(struct lesson_work *work, enum lesson_kind kind, struct trouble *why)
{
    struct trial *run = &work->found->run[kind];
    run->plan = work->ask->plan;
    run->scenario = malloc(sizeof *run->scenario);
    if (!run->scenario) {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the lesson");
        return NULL;
    }
    *run->scenario = *work->ask->scenario;
    return run;
}

bool lesson_try_go(struct lesson_work *work, struct trial *run, struct trouble *why)
{
    struct crew crew = work->ask->crew;
    crew.scenario = run->scenario;
    crew.plan = run->plan;
    if (work->ask->part)
        work->ask->part(crew.listener, work->part, work->parts);
    work->part++;
    if (!crew_run(&run->done, &crew, why) || !able_of(&run->able, &run->done, why))
        return false;
    return !run->done.defect
           || trouble_set(why, TROUBLE_SOLVE,
                          "%d of %d possible piles could not be computed; this is a "
                          "defect of the program",
                          run->done.failures, run->done.members);
}

struct trial *lesson_try_alone(struct lesson_work *work, enum lesson_kind kind, int last_day,
                               struct trouble *why)
{
    struct trial *run = lesson_try_begin(work, kind, why);
    if (run)
        vary_alone(run->scenario, run->plan, last_day);
    return run;
}

/* ---- experiments ---- */

static struct lesson_warmth warmth(const struct trial *run, double *room)
{
    return (struct lesson_warmth){
        .peak_K = trial_span(run, TRIAL_PEAK_K, 0, room),
        .warm_days = trial_span(run, TRIAL_WARM_DAYS, 0, room),
        .last_K = trial_span(run, TRIAL_MIDDLE_K, run->scenario->last_day, room),
        .used_share = trial_span(run, TRIAL_USED_SHARE, 0, room),
        .oxygen_least_share = trial_span(run, TRIAL_OXYGEN_LEAST, 0, room),
        .free_air_share = trial_span(run, TRIAL_FREE_AIR, 0, room),
        .water_share = trial_span(run, TRIAL_WATER_SHARE, 0, room)};
}

static double built_m3(const struct lesson_found *found)
{
    const struct able *able = &found->alone->able;
    for (int m = 0; m < able->members; m++)
        found->room[m] = able->record[m].day[0].volume_m3;
    return band_of(found->room, able->members).mid;
}

bool lesson_try_sizes(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    double volume_m3 = built_m3(found);
    for (int i = 0; i < LESSON_SIZES; i++) {
        struct trial *run = lesson_try_alone(work, (enum lesson_kind)(LESSON_SMALL + i),
                                             LESSON_TRIAL_DAYS - 1, why);
        if (!run)
            return false;
        vary_cube(run->scenario, lesson_try_side_m[i], volume_m3);
        if (!lesson_try_go(work, run, why))
            return false;
        found->size[i] = warmth(run, found->room);
    }
    int last = found->run[LESSON_SMALL].scenario->last_day;
    found->larger_warmer =
        trial_more(&found->run[LESSON_LARGE], TRIAL_MIDDLE_K, last, &found->run[LESSON_SMALL],
                   TRIAL_MIDDLE_K, last, SEEN_K, &found->size_pairs);
    return true;
}

static int count_damp_most(const struct lesson_found *found, int *sets)
{
    const struct trial *dry = &found->run[LESSON_DRY], *wet = &found->run[LESSON_WET];
    const struct trial *damp = &found->run[LESSON_DAMP];
    int count = 0;
    *sets = 0;
    for (int m = 0; m < damp->done.members; m++) {
        if (dry->done.failed[m] || damp->done.failed[m] || wet->done.failed[m])
            continue;
        double used = trial_number(&damp->done.record[m], TRIAL_USED_SHARE, 0);
        ++*sets;
        count += used > trial_number(&dry->done.record[m], TRIAL_USED_SHARE, 0)
                 && used > trial_number(&wet->done.record[m], TRIAL_USED_SHARE, 0);
    }
    return count;
}

bool lesson_try_wets(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    for (int i = 0; i < LESSON_WETS; i++) {
        struct trial *run =
            lesson_try_alone(work, (enum lesson_kind)(LESSON_DRY + i), LESSON_TRIAL_DAYS - 1, why);
        if (!run)
            return false;
        vary_wet(run->scenario, lesson_try_water_share[i]);
        if (!lesson_try_go(work, run, why))
            return false;
        found->wet[i] = warmth(run, found->room);
    }
    found->damp_most = count_damp_most(found, &found->wet_sets);
    return true;
}

bool lesson_try_turn(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    int day = found->turn_day, pairs;
    double *room = found->room;
    struct trial *run = lesson_try_alone(work, LESSON_TURNED, day + TRIAL_AFTER_TURN, why);
    if (!run || !vary_turn(&run->scenario->plan[run->plan], day, PLAN_MIXED, PLAN_SAME_BAY)
        || !lesson_try_go(work, run, why))
        return false;
    found->turn_before_K = trial_span(run, TRIAL_MIDDLE_K, day - 1, room);
    found->turn_low_K = trial_span(run, TRIAL_TURN_LOW_K, day, room);
    found->turn_top_K = trial_span(run, TRIAL_TURN_TOP_K, day, room);
    found->turn_after_days = trial_span(run, TRIAL_TURN_TOP_AFTER, day, room);
    found->turn_alone_K = trial_span(found->alone, TRIAL_TURN_TOP_K, day, room);
    found->oxygen_before_share = trial_span(run, TRIAL_OXYGEN, day - 1, room);
    found->oxygen_after_share = trial_span(run, TRIAL_OXYGEN, day, room);
    found->turn_drops =
        trial_more(run, TRIAL_MIDDLE_K, day - 1, run, TRIAL_TURN_LOW_K, day, SEEN_K, &pairs);
    found->turn_rises = trial_more(run, TRIAL_TURN_TOP_K, day, found->alone, TRIAL_TURN_TOP_K, day,
                                   SEEN_K, &found->turn_pairs);
    return true;
}

/* Frost in the median, or there is no winter in this season to show. */
static bool has_frost(const struct lesson_found *found)
{
    return trial_span(found->alone, TRIAL_COLD_AIR_K, 0, found->room).mid < ICE_POINT_K;
}

static struct trial *in_winter(struct lesson_work *work, enum lesson_kind kind, struct trouble *why)
{
    struct trial *run = lesson_try_begin(work, kind, why);
    if (!run)
        return NULL;
    bool *moved = &work->found->winter_moved;
    if (*moved && (*moved = vary_winter(run->scenario, WINTER_AGE)))
        run->scenario->last_day = WINTER_AGE + AFTER_COLD;
    vary_alone(run->scenario, run->plan, run->scenario->last_day);
    return run;
}

static void winter_numbers(struct lesson_found *found)
{
    static const enum trial_thing things[] = {TRIAL_COLD_MIDDLE_K, TRIAL_COLD_HAND_K};
    static const enum trial_thing of_day[] = {TRIAL_MIDDLE_K, TRIAL_HAND_DEEP_K};
    const struct trial *bare = found->bare, *covered = &found->run[LESSON_COVERED];
    double *room = found->room;
    found->cold_air_K = trial_span(bare, TRIAL_COLD_AIR_K, 0, room);
    found->cold_day = trial_span(bare, TRIAL_COLD_DAY, 0, room);
    for (int i = 0; i < 2; i++) {
        found->bare_K[i] = trial_span(bare, things[i], 0, room);
        found->covered_K[i] = trial_span(covered, things[i], 0, room);
        found->gain_K[i] = trial_gain_cold(covered, bare, of_day[i], room);
    }
    found->cold_made_W = trial_span(bare, TRIAL_COLD_MADE_W, 0, room);
    found->later_made_W = trial_span(bare, TRIAL_LATER_MADE_W, 0, room);
    found->wakes = trial_more(bare, TRIAL_LATER_MADE_W, 0, bare, TRIAL_COLD_MADE_W, 0, 0,
                              &found->winter_pairs);
}

/* Before the first of all coldest days by a week. */
static int day_to_cover(const struct trial *bare)
{
    int first = bare->scenario->last_day;
    for (int m = 0; m < bare->able.members; m++) {
        int coldest = trial_coldest(&bare->able.record[m]);
        first = coldest < first ? coldest : first;
    }
    return first > COVER_BEFORE ? first - COVER_BEFORE : 1;
}

bool lesson_try_winter(struct lesson_work *work, struct trouble *why)
{
    struct lesson_found *found = work->found;
    found->winter_moved = !has_frost(found) && work->ask->scenario->sky != PLAN_SKY_FILE;
    found->bare = found->alone;
    if (found->winter_moved) {
        struct trial *bare = in_winter(work, LESSON_BARE, why);
        found->bare = bare;
        if (!bare || !lesson_try_go(work, bare, why))
            return false;
    }
    found->cover_day = day_to_cover(found->bare);
    struct trial *run = in_winter(work, LESSON_COVERED, why);
    if (!run
        || !vary_cover(&run->scenario->plan[run->plan], found->cover_day, bound_find("straw", BOUND_COVER),
                       lesson_try_cover_m)
        || !lesson_try_go(work, run, why))
        return false;
    winter_numbers(found);
    return true;
}
