/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/merge.c - see door/merge.h. */
#include "door/merge.h"
#include "door/bytes.h"
#include "door/choice.h"
#include "door/scenario.h"
#include "door/telling.h"
#include "many/shard.h"
#include <stdlib.h>
#include <string.h>

enum { SHARD_MOST = 1 << 30 };

static int by_first(const void *a, const void *b)
{
    return ((const struct crew_done *)a)->first - ((const struct crew_done *)b)->first;
}

/* Members of all slices in their order: from the first on, each once. Records move. */
static bool join(struct crew_done *all, struct crew_done *slice, int slices, struct trouble *why)
{
    int members = 0;
    *all = (struct crew_done){.first = 1};
    qsort(slice, (size_t)slices, sizeof *slice, by_first);
    for (int i = 0; i < slices; i++) {
        int first = slice[i].first, last = first + slice[i].members - 1;
        if (first > members + 1)
            return trouble_set(why, TROUBLE_INPUT, "members %d to %d are in none of the shards",
                               members + 1, first - 1);
        if (first <= members)
            return trouble_set(why, TROUBLE_INPUT, "members %d to %d are in more than one shard",
                               first, last < members ? last : members);
        members = last;
    }
    all->record = calloc((size_t)members, sizeof *all->record);
    all->failed = calloc((size_t)members, sizeof *all->failed);
    if (!all->record || !all->failed)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to merge");
    for (int i = 0; i < slices; i++) {
        memcpy(&all->record[all->members], slice[i].record,
               (size_t)slice[i].members * sizeof *all->record);
        memcpy(&all->failed[all->members], slice[i].failed,
               (size_t)slice[i].members * sizeof *all->failed);
        all->members += slice[i].members;
        all->failures += slice[i].failures;
        all->defect |= slice[i].defect;
        free(slice[i].record);
        free(slice[i].failed);
        slice[i] = (struct crew_done){0};
    }
    return true;
}

struct slices {
    struct bytes *bytes;        /* [count] texts of the runs, days and events lie in these */
    struct shard_run *run;
    struct crew_done *done;
    int count;
};

static bool read_slices(struct slices *s, const struct ask *ask, struct trouble *why)
{
    size_t count = (size_t)ask->operand_count;
    s->bytes = calloc(count, sizeof *s->bytes);
    s->run = calloc(count, sizeof *s->run);
    s->done = calloc(count, sizeof *s->done);
    if (!s->bytes || !s->run || !s->done)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to merge");
    for (; s->count < ask->operand_count; s->count++) {
        int i = s->count;
        const char *name = ask->operands[i];
        if (!bytes_map(&s->bytes[i], name, SHARD_MOST, why))
            return false;
        if (!shard_read(&s->run[i], &s->done[i], (const unsigned char *)s->bytes[i].text,
                        s->bytes[i].length, name, why)) {
            s->count++;
            return false;
        }
        if (!shard_alike(&s->run[i], &s->run[0])) {
            s->count++;
            return trouble_set(why, TROUBLE_INPUT, "%s: this shard is of another run than %s: "
                               "scenario, plan, draw, parameters and version must be the same", name,
                               ask->operands[0]);
        }
    }
    return true;
}

static void free_slices(struct slices *s)
{
    for (int i = 0; i < s->count; i++) {
        crew_free(&s->done[i]);
        bytes_free(&s->bytes[i]);
    }
    free(s->bytes);
    free(s->run);
    free(s->done);
}

static bool tell_merged(const struct ask *ask, const struct shard_run *run, struct crew_done *all,
                        struct trouble *why)
{
    struct scenario *scenario = calloc(1, sizeof *scenario);
    if (!scenario)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a scenario");
    struct tale tale = {.scenario = scenario, .draw = (long long)run->draw, .version = run->version,
                        .file = run->file, .plan = run->plan, .plan_named = run->plan_named};
    bool good = scenario_read_text(scenario, run->text, run->text_size, run->file, why);
    if (good)
        scenario_look_on(scenario);
    good = good && (tale.day = choice_day(ask, scenario, why)) >= 0;
    for (int i = 0; good && i < all->members; i++)
        if (!all->failed[i] && all->record[i].days != scenario->last_day + 1)
            good = trouble_set(why, TROUBLE_INPUT, "member %d has not the days of its scenario",
                               i + 1);
    if (good && (run->plan < 0 || run->plan >= scenario->plans))
        good = trouble_set(why, TROUBLE_INPUT, "the shards name a plan that isn't there");
    good = good && telling_many(ask, &tale, all, why);
    free(scenario);
    return good;
}

bool merge_answer(const struct ask *ask, struct trouble *why)
{
    struct slices slices = {0};
    struct crew_done all = {0};
    bool good = read_slices(&slices, ask, why) && join(&all, slices.done, slices.count, why) &&
                tell_merged(ask, &slices.run[0], &all, why);
    crew_free(&all);
    free_slices(&slices);
    return good;
}
