/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/crew.c - see many/crew.h.
 *
 * Each thread takes the next four members, draws them, makes their weather and runs them side by
 * side where the processor has wide registers and the plan has dates only; the same bits come from
 * one at a time (tests/lanes). Four of which one fails are run again one by one, so that a failure
 * has the member's name.
 */
#include "many/crew.h"
#include "many/spell.h"
#include "run/season.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { SIDE_BY_SIDE = 4 };

struct work {
    const struct crew *crew;
    struct crew_done *done;
    struct unknowns unknowns;
    bool wide;
    pthread_mutex_t lock;       /* of what follows, and of the listener */
    int next, finished;
    bool stopped;
    struct trouble why;         /* what ends it all */
};

/* some members drawn: piles and skies for a setup */
struct batch {
    struct possible possible[SIDE_BY_SIDE];
    struct curve made[SIDE_BY_SIDE];
    const struct curve *sky[SIDE_BY_SIDE];
    int skies;                  /* made ones, to be freed */
};

static void batch_free(struct batch *batch)
{
    for (int i = 0; i < batch->skies; i++)
        curve_free(&batch->made[i]);
}

/* The row of a list with a name, first looked for where it stands in another; -1 = none. */
static int row_of(const struct unknowns *list, const char *name, int first)
{
    if (first < list->count && strcmp(list->row[first].name, name) == 0)
        return first;
    for (int i = 0; i < list->count; i++)
        if (strcmp(list->row[i].name, name) == 0)
            return i;
    return -1;
}

void crew_chances(const struct crew *crew, const struct unknowns *unknowns, int member,
                  double chance[UNKNOWN_MOST])
{
    for (int k = 0; k < unknowns->count; k++) {
        const char *name = unknowns->row[k].name;
        int row = crew->chance_of ? row_of(crew->chance_of, name, k) : -1;
        bool other = crew->other && crew->other[k];
        if (row >= 0)
            chance[k] = crew->chance[(size_t)(member - crew->first) * (size_t)crew->chance_of->count
                                     + (size_t)row];
        else
            chance[k] = unknown_chance(other ? crew->other_draw : crew->draw, (uint32_t)member, name);
    }
}

static bool batch_draw(struct batch *batch, const struct crew *crew, const struct unknowns *unknowns,
                       int member, int count, struct trouble *why)
{
    double chance[UNKNOWN_MOST];
    batch->skies = 0;
    for (int i = 0; i < count; i++) {
        crew_chances(crew, unknowns, member + i, chance);
        unknown_choose(&batch->possible[i], unknowns, chance, crew->scenario, crew->param);
        batch->sky[i] = crew->sky ? crew->sky : &batch->made[i];
        if (crew->sky)
            continue;
        if (!spell_made(&batch->made[i], crew->scenario, unknown_weather(unknowns, chance),
                        batch->possible[i].param.season_warmth_K, why))
            return false;
        batch->skies++;
    }
    return true;
}

static struct setup setup_of(const struct crew *crew, const struct batch *batch)
{
    return (struct setup){.scenario = crew->scenario, .plan = crew->plan,
                          .possible = batch->possible, .sky = batch->sky, .hours_day = crew->hours_day,
                          .stop = crew->stop};
}

static bool run_one(struct record *record, const struct crew *crew, const struct unknowns *unknowns,
                    int member, struct batch *batch, struct trouble *why)
{
    bool good = batch_draw(batch, crew, unknowns, member, 1, why);
    struct setup setup = setup_of(crew, batch);
    good = good && season_run(record, &setup, why);
    batch_free(batch);
    return good;
}

static bool run_four(struct record record[SIDE_BY_SIDE], const struct work *work, int member,
                     struct batch *batch, struct trouble *why)
{
    bool good = batch_draw(batch, work->crew, &work->unknowns, member, SIDE_BY_SIDE, why);
    struct setup setup = setup_of(work->crew, batch);
    good = good && season_run_wide(record, &setup, why);
    batch_free(batch);
    for (int i = 0; !good && i < SIDE_BY_SIDE; i++)
        record_free(&record[i]);
    return good;
}

/* Takes the next members; 0 when there are none left or somebody said stop. */
static int take(struct work *work, int *member)
{
    const struct crew *crew = work->crew;
    pthread_mutex_lock(&work->lock);
    int left = crew->last - work->next + 1, count = left < SIDE_BY_SIDE ? left : SIDE_BY_SIDE;
    if (work->stopped || (crew->stop && *crew->stop))
        count = 0;
    *member = work->next;
    work->next += count;
    pthread_mutex_unlock(&work->lock);
    return count;
}

static void tell(struct work *work, int count)
{
    const struct crew *crew = work->crew;
    pthread_mutex_lock(&work->lock);
    work->finished += count;
    if (crew->told)
        crew->told(crew->listener, work->finished, crew->last - crew->first + 1);
    pthread_mutex_unlock(&work->lock);
}

/* A member failed: what can't be done by any pile, or is a defect, ends it all. */
static void note_failure(struct work *work, int member, struct trouble *why)
{
    int row = member - work->crew->first;
    pthread_mutex_lock(&work->lock);
    work->done->failed[row] = strdup(why->text);
    work->done->failures++;
    work->done->defect |= why->kind == TROUBLE_SOLVE;
    bool grave = why->kind == TROUBLE_LEDGER || why->kind == TROUBLE_MEMORY;
    if ((grave || !work->done->failed[row]) && !work->stopped) {
        work->stopped = true;
        trouble_set(&work->why, why->kind, "member %d: %s", member, why->text);
    }
    pthread_mutex_unlock(&work->lock);
    record_free(&work->done->record[row]);
}

static void run_each(struct work *work, int member, int count, struct batch *batch,
                     struct trouble *why)
{
    struct record *record = &work->done->record[member - work->crew->first];
    for (int i = 0; i < count; i++) {
        *why = (struct trouble){0};
        if (!run_one(&record[i], work->crew, &work->unknowns, member + i, batch, why))
            note_failure(work, member + i, why);
    }
}

static void *labour(void *shared)
{
    struct work *work = shared;
    struct batch *batch = calloc(1, sizeof *batch);
    struct trouble *why = calloc(1, sizeof *why);
    int member, count;
    while (batch && why && (count = take(work, &member)) > 0) {
        struct record *record = &work->done->record[member - work->crew->first];
        *why = (struct trouble){0};
        bool wide = work->wide && count == SIDE_BY_SIDE;
        if (!wide || !run_four(record, work, member, batch, why))
            run_each(work, member, count, batch, why);
        tell(work, count);
    }
    free(batch);
    free(why);
    return NULL;
}

/* Threads beyond the first; what can't be started is done by the others. */
static void labour_together(struct work *work)
{
    enum { MOST = 256 };
    pthread_t thread[MOST];
    int started = 0, wanted = work->crew->threads - 1;
    while (started < wanted && started < MOST &&
           pthread_create(&thread[started], NULL, labour, work) == 0)
        started++;
    labour(work);
    for (int i = 0; i < started; i++)
        pthread_join(thread[i], NULL);
}

/* All failed alike, or something grave did, or a signal came. */
static bool verdict(const struct work *work, struct trouble *why)
{
    const struct crew *crew = work->crew;
    const struct crew_done *done = work->done;
    if (crew->stop && *crew->stop)
        return trouble_set(why, TROUBLE_SOLVE, "interrupted");
    if (work->stopped) {
        *why = work->why;
        return false;
    }
    if (work->finished < done->members)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a season");
    if (done->failures < done->members)
        return true;
    struct record record;
    bool good = crew_member(&record, crew, crew->first, why); /* for the kind of its trouble */
    record_free(&record);
    return good;
}

bool crew_run(struct crew_done *done, const struct crew *crew, struct trouble *why)
{
    int members = crew->last - crew->first + 1;
    *done = (struct crew_done){.first = crew->first, .members = members};
    done->record = calloc((size_t)members, sizeof *done->record);
    done->failed = calloc((size_t)members, sizeof *done->failed);
    struct work *work = calloc(1, sizeof *work);
    bool good = done->record && done->failed && work;
    if (!good) {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for %d seasons", members);
    } else {
        work->crew = crew;
        work->done = done;
        work->next = crew->first;
        work->wide = season_wide(crew->scenario, crew->plan);
        unknown_list(&work->unknowns, crew->scenario, crew->plan, crew->fixed);
        pthread_mutex_init(&work->lock, NULL);
        labour_together(work);
        pthread_mutex_destroy(&work->lock);
        good = verdict(work, why);
    }
    free(work);
    return good;
}

bool crew_member(struct record *record, const struct crew *crew, int member, struct trouble *why)
{
    struct unknowns *unknowns = malloc(sizeof *unknowns);
    struct batch *batch = calloc(1, sizeof *batch);
    *record = (struct record){0};
    bool good = unknowns && batch;
    if (!good)
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a season");
    else {
        unknown_list(unknowns, crew->scenario, crew->plan, crew->fixed);
        good = run_one(record, crew, unknowns, member, batch, why);
    }
    free(unknowns);
    free(batch);
    return good;
}

void crew_free(struct crew_done *done)
{
    for (int i = 0; i < done->members; i++) {
        if (done->record)
            record_free(&done->record[i]);
        if (done->failed)
            free(done->failed[i]);
    }
    free(done->record);
    free(done->failed);
    *done = (struct crew_done){0};
}

int crew_threads(void)
{
    long here = sysconf(_SC_NPROCESSORS_ONLN);
    return here < 1 ? 1 : here > 64 ? 64 : (int)here;
}
