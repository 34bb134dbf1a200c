/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/why.c - see ask/why.h. */
#include "ask/why.h"
#include "ask/asked.h"
#include "ask/outcome.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* as told: a thermometer shows half a kelvin, a calendar a day */
static const double SEEN_K = 0.5, SEEN_DAYS = 0.5;
static const double DAYS_A_KELVIN = 0.5; /* of the order of changes only [trade] */

/* what a season came to for one member */
struct end {
    bool computed, never;
    double middle_K, ready_day;
};

struct ends {
    int members;
    struct end *end;
};

struct work {
    const struct why_ask *ask;
    struct why_found *found;
    struct change_pile pile;
    struct scenario *changed;   /* room for one */
    struct param coarse;
    double *room;               /* [members] */
};

/* ---- seasons ---- */

static struct end end_of(const struct record *record, const struct work *work,
                         const struct scenario *scenario)
{
    struct outcome outcome = outcome_of(record, scenario);
    int use = work->found->use, from = work->ask->day + 1, days = work->found->after_days;
    double sum = 0;
    for (int d = from; d < from + days; d++)
        sum += record->day[d].middle_K;
    return (struct end){.computed = true, .never = isnan(outcome.ready_day[use]),
                        .middle_K = sum / days, .ready_day = outcome_day(&outcome, use, scenario)};
}

static bool ends_of(struct ends *ends, const struct crew_done *done, const struct work *work,
                    const struct scenario *scenario, struct trouble *why)
{
    *ends = (struct ends){done->members, calloc((size_t)done->members, sizeof *ends->end)};
    if (!ends->end)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    for (int m = 0; m < done->members; m++)
        if (!done->failed[m])
            ends->end[m] = end_of(&done->record[m], work, scenario);
    return true;
}

/* A few members on the coarser mesh, or all as they are forecast. */
static struct crew crew_for(const struct work *work, const struct scenario *scenario, bool trial)
{
    struct crew crew = work->ask->crew;
    crew.scenario = scenario;
    if (!trial)
        return crew;
    crew.param = &work->coarse;
    crew.told = NULL; /* soon over */
    crew.last = work->found->screened;
    return crew;
}

static bool run(struct ends *ends, const struct work *work, const struct scenario *scenario,
                bool trial, struct trouble *why)
{
    struct crew crew = crew_for(work, scenario, trial);
    struct crew_done done;
    *ends = (struct ends){0};
    bool good = crew_run(&done, &crew, why) && ends_of(ends, &done, work, scenario, why);
    if (good && done.defect)
        good = trouble_set(why, TROUBLE_SOLVE, "a possible pile could not be computed with a change made; "
                           "this is a defect of the program");
    crew_free(&done);
    return good;
}

static void part(const struct work *work, int which, int of)
{
    if (work->ask->part)
        work->ask->part(work->ask->crew.listener, which, of);
}

/* ---- one change ---- */

static void compare(struct why_effect *effect, const struct ends *with, const struct ends *without,
                    double *room)
{
    int both = 0;
    effect->never_with = effect->never_without = effect->warmer = effect->sooner = 0;
    for (int m = 0; m < with->members && m < without->members; m++)
        if (with->end[m].computed && without->end[m].computed) {
            room[both++] = with->end[m].middle_K - without->end[m].middle_K;
            effect->warmer += room[both - 1] >= SEEN_K;
            effect->never_with += with->end[m].never;
            effect->never_without += without->end[m].never;
        }
    effect->members = both;
    effect->middle_K = band_of(room, both);
    both = 0;
    for (int m = 0; m < with->members && m < without->members; m++)
        if (with->end[m].computed && without->end[m].computed) {
            room[both++] = with->end[m].ready_day - without->end[m].ready_day;
            effect->sooner += room[both - 1] <= -SEEN_DAYS;
        }
    effect->ready_days = band_of(room, both);
    effect->score = -effect->ready_days.mid + DAYS_A_KELVIN * effect->middle_K.mid;
}

/* Runs it; what no pile can do is left out, other trouble ends it all. */
static bool try_change(struct work *work, int kind, const struct ends *without, bool trial,
                       struct trouble *why)
{
    struct why_effect *effect = &work->found->effect[kind];
    double score = effect->score;
    struct ends with;
    struct trouble *own = calloc(1, sizeof *own);
    if (!own)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    effect->change = change_make(work->changed, (enum change_kind)kind, &work->pile);
    if (effect->change.stuff >= 0)
        memcpy(effect->stuff, work->changed->stuff[effect->change.stuff].name, sizeof effect->stuff);
    bool good = true;
    if (effect->change.bar == CHANGE_CAN) {
        good = run(&with, work, work->changed, trial, own);
        if (good)
            compare(effect, &with, without, work->room);
        else if (own->kind == TROUBLE_NO)
            effect->change.bar = CHANGE_FAILS;
        free(with.end);
    }
    if (!trial)
        effect->score = score;
    good = good || effect->change.bar == CHANGE_FAILS;
    if (!good)
        *why = *own;
    free(own);
    return good;
}

/* ---- which matter ---- */

static bool try_all(struct work *work, struct trouble *why)
{
    struct ends without;
    struct why_found *found = work->found;
    bool good = run(&without, work, work->ask->scenario, true, why);
    for (int kind = 0; good && kind < CHANGE_KINDS; kind++) {
        good = try_change(work, kind, &without, true, why);
        found->tried += found->effect[kind].change.bar == CHANGE_CAN;
    }
    free(without.end);
    return good;
}

/* The best not yet taken whose family isn't either; -1 = none. */
static int next_best(const struct why_found *found)
{
    int best = -1;
    for (int kind = 0; kind < CHANGE_KINDS; kind++) {
        const struct why_effect *effect = &found->effect[kind];
        bool taken = effect->change.bar != CHANGE_CAN || effect->members == 0;
        for (int i = 0; i < found->tells; i++)
            taken |= change_family((enum change_kind)found->told[i]) ==
                     change_family((enum change_kind)kind);
        if (!taken && (best < 0 || effect->score > found->effect[best].score))
            best = kind;
    }
    return best;
}

/* Those that surely do some good are told first. */
static void clear_first(struct why_found *found)
{
    int told[WHY_TOLD], count = 0;
    for (int clear = 1; clear >= 0; clear--)
        for (int i = 0; i < found->tells; i++) {
            const struct why_effect *effect = &found->effect[found->told[i]];
            if ((why_warms(effect) || why_hastens(effect)) == clear)
                told[count++] = found->told[i];
        }
    memcpy(found->told, told, (size_t)count * sizeof *told);
}

static bool weigh_best(struct work *work, struct trouble *why)
{
    struct why_found *found = work->found;
    struct ends without;
    for (int best; found->tells < WHY_TOLD && (best = next_best(found)) >= 0;)
        found->told[found->tells++] = best;
    bool good = ends_of(&without, &found->done, work, work->ask->scenario, why);
    for (int kind = 0; kind < CHANGE_KINDS; kind++)
        found->effect[kind].members = 0;
    for (int i = 0; good && i < found->tells; i++) {
        part(work, i + 1, found->tells + 1);
        good = try_change(work, found->told[i], &without, false, why);
    }
    free(without.end);
    clear_first(found);
    return good;
}

/* ---- the whole ---- */

static double middle_of(const struct record_day *row) { return row->middle_K; }
static double air_of(const struct record_day *row) { return row->air_K; }
static double water_of(const struct record_day *row) { return row->water_share; }
static double made_of(const struct record_day *row) { return row->heat_made_W; }
static double core_of(const struct record_day *row) { return row->core_water_share; }
static double volume_of(const struct record_day *row) { return row->volume_m3; }

static double thirst_kg(struct work *work, int day)
{
    const struct able *able = &work->found->able;
    for (int m = 0; m < able->members; m++)
        work->room[m] = cause_water_l(&able->record[m], day + 1);
    return band_of(work->room, able->members).mid;
}

static double deep_m(struct work *work)
{
    const struct able *able = &work->found->able;
    for (int m = 0; m < able->members; m++)
        work->room[m] = asked_deep_m(&able->record[m], work->ask->scenario, work->ask->day);
    return band_of(work->room, able->members).mid;
}

static void look(struct work *work)
{
    struct why_found *found = work->found;
    const struct why_ask *ask = work->ask;
    int before = ask->day > 0 ? ask->day - 1 : 0;
    found->budget = budget_range_of(found->able.record, found->able.members, ask->day, ask->hour,
                                    work->room);
    found->middle_K = able_span(&found->able, middle_of, ask->day);
    found->air_K = able_span(&found->able, air_of, ask->day);
    found->water_share = able_span(&found->able, water_of, ask->day);
    found->made_W = able_span(&found->able, made_of, ask->day);
    found->deep_m = deep_m(work);
    found->causes = cause_odds(found->odds, found->able.record, found->able.members, ask->scenario,
                               ask->day + 1);
    work->pile = (struct change_pile){.scenario = ask->scenario, .plan = ask->plan, .day = ask->day,
                                      .thirst_kg = thirst_kg(work, before),
                                      .water_share = able_span(&found->able, core_of, before).mid,
                                      .volume_m3 = able_span(&found->able, volume_of, before).mid};
}

static bool forecast(struct work *work, struct trouble *why)
{
    struct why_found *found = work->found;
    struct crew crew = crew_for(work, work->ask->scenario, false);
    crew.hours_day = work->ask->day + 1;
    part(work, 0, WHY_TOLD + 1);
    if (!crew_run(&found->done, &crew, why) || !able_of(&found->able, &found->done, why))
        return false;
    return !found->done.defect ||
           trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed; this is a "
                       "defect of the program", found->done.failures, found->done.members);
}

static void coarsen(struct work *work)
{
    const struct crew *crew = &work->ask->crew;
    work->coarse = *crew->param;
    for (int i = 0; i < PARAM_COARSER; i++) {
        const struct param_row *row = param_find(param_coarser[i].name);
        if (!crew->fixed || !crew->fixed[row - param_rows])
            param_put(&work->coarse, row, param_coarser[i].value);
    }
}

static bool begin(struct work *work, struct trouble *why)
{
    const struct why_ask *ask = work->ask;
    int last = ask->crew.last;
    work->changed = malloc(sizeof *work->changed);
    work->room = calloc((size_t)last, sizeof *work->room);
    if (!work->changed || !work->room)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    coarsen(work);
    work->found->screened = last < WHY_SCREENED ? last : WHY_SCREENED;
    work->found->use = outcome_use(ask->scenario);
    int left = ask->scenario->last_day - ask->day;
    work->found->after_days = left < WHY_AFTER_DAYS ? left : WHY_AFTER_DAYS;
    return true;
}

bool why_run(struct why_found *found, const struct why_ask *ask, struct trouble *why)
{
    *found = (struct why_found){0};
    struct work work = {.ask = ask, .found = found};
    bool good = begin(&work, why) && forecast(&work, why);
    if (good)
        look(&work);
    good = good && (found->after_days < 1 || (try_all(&work, why) && weigh_best(&work, why)));
    free(work.changed);
    free(work.room);
    return good;
}

void why_free(struct why_found *found)
{
    able_free(&found->able);
    crew_free(&found->done);
}

int why_furthest(const struct why_ask *ask, struct trouble *why)
{
    struct why_found found = {0};
    struct work work = {.ask = ask, .found = &found};
    bool good = begin(&work, why);
    struct crew crew = crew_for(&work, ask->scenario, true);
    good = good && crew_run(&found.done, &crew, why) && able_of(&found.able, &found.done, why);
    int furthest = good ? able_furthest(&found.able, ask->scenario->last_day + 1) : -1;
    why_free(&found);
    free(work.changed);
    free(work.room);
    return furthest;
}

bool why_warms(const struct why_effect *e)
{
    return e->members > 0 && e->middle_K.low >= SEEN_K;
}

bool why_cools(const struct why_effect *e)
{
    return e->members > 0 && e->middle_K.high <= -SEEN_K;
}

bool why_hastens(const struct why_effect *e)
{
    return e->members > 0 && e->ready_days.high <= -SEEN_DAYS;
}

bool why_delays(const struct why_effect *e)
{
    return e->members > 0 && e->ready_days.low >= SEEN_DAYS;
}
