/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/crew.c - see many/crew.h.
 *
 * Each thread takes the next four or eight members, draws them, makes their weather and runs them side by
 * side where the processor has wide registers and the plan allows it; whoever ends first gives its
 * place to the next member. The same bits come from one at a time (tests/lanes). Members of whom one
 * fails are run again one by one, so that a failure has the member's name.
 */
#include "many/crew.h"
#include "many/spell.h"
#include "run/season.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct work {
    const struct crew *crew;
    struct crew_done *done;
    struct unknowns unknowns;
    int width;                  /* so many side by side */
    pthread_mutex_t lock;       /* of what follows, and of the listener */
    int next, finished;
    bool stopped;
    struct trouble why;         /* what ends it all */
};

/* members side by side: who they are, their piles and skies for a setup */
struct squad {
    struct work *work;
    int count, member[SEASON_WIDEST];
    struct possible possible[SEASON_WIDEST];
    struct curve made[SEASON_WIDEST];    /* where the weather is made up */
    const struct curve *sky[SEASON_WIDEST];
    struct record record[SEASON_WIDEST];
    struct trouble why;
};

static void dismiss(struct squad *squad)
{
    for (int i = 0; i < SEASON_WIDEST; i++)
        curve_free(&squad->made[i]);
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

/* A member comes into a row of the squad, whose weather stays if there is no other for it. */
static bool enlist(struct squad *squad, const struct crew *crew, const struct unknowns *unknowns,
                   int row, int member, struct trouble *why)
{
    double chance[UNKNOWN_MOST];
    struct possible *possible = &squad->possible[row];
    struct curve made = {0};
    crew_chances(crew, unknowns, member, chance);
    unknown_choose(possible, unknowns, chance, crew->scenario, crew->param);
    squad->sky[row] = crew->sky ? crew->sky : &squad->made[row];
    if (!crew->sky && !spell_made(&made, crew->scenario, unknown_weather(unknowns, chance),
                                  possible->param.season_warmth_K, why))
        return false;
    curve_free(&squad->made[row]);
    squad->made[row] = made;
    return true;
}

static struct setup setup_of(const struct crew *crew, const struct squad *squad)
{
    return (struct setup){.scenario = crew->scenario, .plan = crew->plan,
                          .possible = squad->possible, .sky = squad->sky, .hours_day = crew->hours_day,
                          .stop = crew->stop};
}

static bool run_one(struct record *record, const struct crew *crew, const struct unknowns *unknowns,
                    int member, struct squad *squad, struct trouble *why)
{
    bool good = enlist(squad, crew, unknowns, 0, member, why);
    struct setup setup = setup_of(crew, squad);
    good = good && season_run(record, &setup, why);
    dismiss(squad);
    return good;
}

static bool stopped(const struct crew *crew)
{
    return crew->stop && *crew->stop;
}

/* Takes the next members, at most so many; 0 when there are none left or somebody said stop. */
static int take(struct work *work, int most, int *member)
{
    const struct crew *crew = work->crew;
    pthread_mutex_lock(&work->lock);
    int left = crew->last - work->next + 1, count = left < most ? left : most;
    if (work->stopped || stopped(crew))
        count = 0;
    for (int i = 0; i < count; i++)
        member[i] = work->next++;
    pthread_mutex_unlock(&work->lock);
    return count;
}

static void tell(struct work *work)
{
    const struct crew *crew = work->crew;
    pthread_mutex_lock(&work->lock);
    work->finished++;
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

static void run_each(struct squad *squad)
{
    struct work *work = squad->work;
    for (int i = 0; i < squad->count && !stopped(work->crew); i++) {
        int member = squad->member[i];
        struct record *record = &work->done->record[member - work->crew->first];
        squad->why = (struct trouble){0};
        if (!run_one(record, work->crew, &work->unknowns, member, squad, &squad->why))
            note_failure(work, member, &squad->why);
        tell(work);
    }
}

static void deliver(struct squad *squad, int row, struct record *record)
{
    struct work *work = squad->work;
    work->done->record[squad->member[row] - work->crew->first] = *record;
    *record = (struct record){0};
    tell(work);
}

/* A season is over (struct setup): the next member takes its row. */
static bool relieve(void *asker, int row, struct record *record)
{
    struct squad *squad = asker;
    struct work *work = squad->work;
    for (int member = 0; take(work, 1, &member) > 0; tell(work)) {
        if (enlist(squad, work->crew, &work->unknowns, row, member, &squad->why)) {
            deliver(squad, row, record);
            squad->member[row] = member;
            return true;
        }
        note_failure(work, member, &squad->why);
    }
    return false;
}

/* Some at first, then whoever takes the place of those who have ended. False when one failed: nothing
 * is known of those under way then. */
static bool run_wide(struct squad *squad)
{
    struct work *work = squad->work;
    bool good = true;
    for (int i = 0; good && i < squad->count; i++)
        good = enlist(squad, work->crew, &work->unknowns, i, squad->member[i], &squad->why);
    struct setup setup = setup_of(work->crew, squad);
    setup.next = relieve;
    setup.asker = squad;
    good = good && season_run_wide(squad->count, squad->record, &setup, &squad->why);
    dismiss(squad);
    for (int i = 0; i < squad->count; i++) {
        if (good)
            deliver(squad, i, &squad->record[i]);
        else
            record_free(&squad->record[i]);
    }
    return good;
}

static void *labour(void *shared)
{
    struct work *work = shared;
    struct squad *squad = calloc(1, sizeof *squad);
    while (squad && (squad->count = take(work, work->width, squad->member)) > 0) {
        squad->work = work;
        squad->why = (struct trouble){0};
        bool wide = work->width > 1 && squad->count == work->width;
        if (!wide || !run_wide(squad))
            run_each(squad);
    }
    free(squad);
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
    if (stopped(crew))
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
        work->width = season_width(crew->scenario, crew->plan);
        if (work->width == SEASON_WIDEST && members < crew->threads * SEASON_WIDEST)
            work->width /= 2; /* every thread has some */
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
    struct squad *squad = calloc(1, sizeof *squad);
    *record = (struct record){0};
    bool good = unknowns && squad;
    if (!good)
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a season");
    else {
        unknown_list(unknowns, crew->scenario, crew->plan, crew->fixed);
        good = run_one(record, crew, unknowns, member, squad, why);
    }
    free(unknowns);
    free(squad);
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
