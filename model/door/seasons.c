/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/seasons.c - see door/seasons.h. */
#include "door/seasons.h"
#include "base/save.h"
#include "door/answer.h"
#include "door/bytes.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "door/team.h"
#include "many/band.h"
#include "many/shard.h"
#include "run/season.h"
#include "tell/csv.h"
#include "tell/json.h"
#include "tell/plot.h"
#include "tell/text.h"
#include "tell/variance.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SCENARIO_MOST = 4 << 20, SHARD_MOST = 1 << 30 };

/* ---- telling ---- */

static bool tell_tale(const struct ask *ask, const struct tale *tale, struct trouble *why)
{
    struct answer answer;
    bool told = true;
    struct phrase_style style = answer_style(tale->scenario);
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        told = json_season(answer.out, tale, why);
    else if (ask->given[HELP_CSV])
        csv_season(answer.out, tale);
    else
        told = text_season(answer.out, tale, &style, ask->given[HELP_LONG], why);
    return answer_end(&answer, ask, told, why);
}

/* The members that could be run, closed up; the others by number. */
static bool tell_many(const struct ask *ask, struct tale *tale, const struct crew_done *done,
                      struct trouble *why)
{
    struct record *record = calloc((size_t)done->members, sizeof *record);
    int *failed = calloc((size_t)done->members, sizeof *failed);
    tale->room = calloc((size_t)done->members, sizeof *tale->room);
    bool good = record && failed && tale->room;
    tale->members = tale->failures = 0;
    for (int i = 0; good && i < done->members; i++) {
        if (done->failed[i]) {
            failed[tale->failures++] = done->first + i;
            if (!ask->given[HELP_QUIET])
                fprintf(stderr, "midden: member %d can't be run and is left out: %s\n",
                        done->first + i, done->failed[i]);
        } else {
            record[tale->members++] = done->record[i];
        }
    }
    tale->record = record;
    tale->failed = failed;
    good = good ? tell_tale(ask, tale, why)
                : trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    if (good && done->defect)
        good = trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed and are not "
                           "in the answer; this is a defect of the program", done->failures,
                           done->members);
    free(record);
    free(failed);
    free(tale->room);
    return good;
}

/* ---- one pile ---- */

static bool run_central(const struct ask *ask, struct tale *tale, const struct curve *sky,
                        const struct span *middle_K, const volatile sig_atomic_t *stop,
                        struct trouble *why)
{
    struct record record;
    double room;
    int picture_day[CHOICE_PICTURES];
    struct possible *possible = malloc(sizeof *possible);
    if (!possible)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    possible_usual(possible, tale->scenario, &ask->param);
    struct setup setup = {.scenario = tale->scenario, .plan = tale->plan, .sky = &sky,
                          .possible = possible, .picture_day = picture_day, .stop = stop};
    if (ask->plot)
        setup.pictures = choice_pictures(picture_day, tale->day, tale->scenario->last_day + 1);
    tale->record = &record;
    tale->members = 1;
    tale->room = &room;
    bool done = season_run(&record, &setup, why) && !*stop;
    if (done && ask->plot)
        done = plot_season(ask->plot, ask->given[HELP_FORCE], &record, tale->scenario,
                           tale->scenario->plan[tale->plan].name, middle_K, why);
    if (done && ask->first == 0)
        done = tell_tale(ask, tale, why);
    record_free(&record);
    free(possible);
    return done;
}

/* ---- many ---- */

static bool run_crew(const struct ask *ask, const struct scenario *scenario, int plan,
                     const struct curve *sky, const volatile sig_atomic_t *stop,
                     struct crew_done *done, struct trouble *why)
{
    struct team_progress progress;
    struct crew crew = team_crew(ask, scenario, plan, sky, stop, &progress);
    bool good = crew_run(done, &crew, why);
    team_end(&progress);
    return good;
}

static bool run_sensitivity(const struct ask *ask, const struct tale *tale, const struct curve *sky,
                            const volatile sig_atomic_t *stop, struct trouble *why)
{
    enum { USUAL_SET = 256 };
    struct team_progress progress;
    struct crew crew = team_crew(ask, tale->scenario, tale->plan, sky, stop, &progress);
    struct sense *sense = calloc(1, sizeof *sense);
    struct answer answer;
    const char *plan = tale->scenario->plan[tale->plan].name;
    if (!ask->given[HELP_MEMBERS])
        crew.last = USUAL_SET;
    bool good = sense ? sense_run(sense, &crew, why)
                      : trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    team_end(&progress);
    if (good && answer_begin(&answer, why)) {
        if (ask->given[HELP_JSON])
            good = variance_json(answer.out, sense, tale->scenario->name, plan, why);
        else
            variance_text(answer.out, sense, tale->scenario->name, plan);
        good = answer_end(&answer, ask, good, why);
    }
    free(sense);
    return good;
}

/* A checksum of the weather file, so that slices made under different weather don't merge. */
static bool weigh_weather(const struct scenario *scenario, uint64_t *sum, struct trouble *why)
{
    struct bytes bytes;
    *sum = 0;
    if (scenario->sky != PLAN_SKY_FILE)
        return true;
    if (!bytes_read(&bytes, scenario->sky_file, SHARD_MOST, why))
        return false;
    *sum = shard_checksum(bytes.text, bytes.length);
    bytes_free(&bytes);
    return true;
}

static bool save_slice(const struct ask *ask, const struct scenario *scenario,
                       const struct bytes *text, int plan, const struct crew_done *done,
                       struct trouble *why)
{
    struct shard_run run = {.version = help_version, .file = ask->operand, .text = text->text,
                            .text_size = text->length, .plan = plan, .draw = (uint64_t)ask->draw,
                            .param = ask->param, .plan_named = ask->plan != NULL};
    size_t size;
    memcpy(run.fixed, ask->fixed, sizeof run.fixed);
    if (!weigh_weather(scenario, &run.weather, why))
        return false;
    unsigned char *bytes = shard_write(&run, done, &size);
    if (!bytes)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a shard");
    bool saved = save_bytes(ask->output, bytes, size, ask->given[HELP_FORCE], why);
    free(bytes);
    return saved;
}

/* The range of the middle for each day, to be drawn; NULL without memory. The caller frees it. */
static struct span *middle_range(const struct crew_done *done, int days)
{
    struct span *range = calloc((size_t)days, sizeof *range);
    double *value = calloc((size_t)done->members, sizeof *value);
    for (int d = 0; range && value && d < days; d++) {
        int count = 0;
        for (int i = 0; i < done->members; i++)
            if (!done->failed[i])
                value[count++] = done->record[i].day[d].middle_K;
        range[d] = band_of(value, count);
    }
    free(value);
    return range;
}

/* Pictures are of the central pile, with the range of all in them. */
static bool draw_many(const struct ask *ask, struct tale *tale, const struct crew_done *done,
                      const struct curve *sky, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct span *middle_K = middle_range(done, tale->scenario->last_day + 1);
    bool drawn = middle_K ? run_central(ask, tale, sky, middle_K, stop, why)
                          : trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for pictures");
    free(middle_K);
    return drawn;
}

static bool run_many(const struct ask *ask, struct tale *tale, const struct bytes *text,
                     const struct curve *sky, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct crew_done done;
    bool good = run_crew(ask, tale->scenario, tale->plan, sky, stop, &done, why);
    if (good && ask->slice)
        good = save_slice(ask, tale->scenario, text, tale->plan, &done, why);
    else if (good)
        good = (!ask->plot || draw_many(ask, tale, &done, sky, stop, why)) &&
               tell_many(ask, tale, &done, why);
    crew_free(&done);
    return good;
}

static bool run_scenario(const struct ask *ask, const struct scenario *scenario,
                         const struct bytes *text, const volatile sig_atomic_t *stop,
                         struct trouble *why)
{
    struct curve sky;
    struct tale tale = {.scenario = scenario, .draw = ask->draw, .version = help_version,
                        .file = ask->operand, .plan_named = ask->plan != NULL};
    if ((tale.plan = choice_plan(ask, scenario, why)) < 0 ||
        (tale.day = choice_day(ask, scenario, why)) < 0)
        return false;
    if (scenario->layers == 0)
        return trouble_set(why, TROUBLE_NO, "%s: nothing is built yet; say under `build` what goes "
                           "in, from the bottom up", ask->operand);
    if (!ask->plan && scenario->plans > 1 &&
        (ask->given[HELP_JSON] || ask->given[HELP_CSV] || ask->slice))
        answer_note(ask, "no plan was named, so the first is taken: ", scenario->plan[0].name);
    if (!climate_curve(&sky, scenario, ask->draw, why))
        return false;
    bool done = ask->given[HELP_SENSITIVITY] ? run_sensitivity(ask, &tale, &sky, stop, why)
              : ask->first > 0 ? run_many(ask, &tale, text, &sky, stop, why)
                               : run_central(ask, &tale, &sky, NULL, stop, why);
    curve_free(&sky);
    return done;
}

/* ---- shards ---- */

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
            return trouble_set(why, TROUBLE_INPUT, "members %d to %d are in more than one shard", first,
                               last < members ? last : members);
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
    struct bytes *bytes;        /* [count] the texts of the runs point into these */
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
        if (!bytes_read(&s->bytes[i], name, SHARD_MOST, why))
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
    good = good && tell_many(ask, &tale, all, why);
    free(scenario);
    return good;
}

static bool merge(const struct ask *ask, struct trouble *why)
{
    struct slices slices = {0};
    struct crew_done all = {0};
    bool good = read_slices(&slices, ask, why) && join(&all, slices.done, slices.count, why) &&
                tell_merged(ask, &slices.run[0], &all, why);
    crew_free(&all);
    free_slices(&slices);
    return good;
}

bool seasons_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct bytes text = {0};
    if (ask->given[HELP_MERGE])
        return merge(ask, why);
    if (ask->slice && strcmp(ask->operand, "-") == 0)
        return trouble_set(why, TROUBLE_USAGE, "a slice needs its scenario in a file, since every "
                           "slice reads it");
    struct scenario *scenario = answer_scenario(ask, why);
    if (scenario)
        scenario_look_on(scenario);
    bool done = scenario && (!ask->slice || bytes_read(&text, ask->operand, SCENARIO_MOST, why)) &&
                run_scenario(ask, scenario, &text, stop, why);
    bytes_free(&text);
    free(scenario);
    return done;
}
