/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/seasons.c - see door/seasons.h. */
#include "door/seasons.h"
#include "base/save.h"
#include "door/answer.h"
#include "door/bytes.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/merge.h"
#include "door/scenario.h"
#include "door/team.h"
#include "door/telling.h"
#include "many/able.h"
#include "many/shard.h"
#include "run/season.h"
#include "tell/plot.h"
#include "tell/variance.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SCENARIO_MOST = 4 << 20, WEATHER_MOST = 1 << 28 };

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
        done = telling_tale(ask, tale, why);
    record_free(&record);
    free(possible);
    tale->record = NULL;
    tale->room = NULL;
    return done;
}

/* ---- many ---- */

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
    if (!bytes_read(&bytes, scenario->sky_file, WEATHER_MOST, why))
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

/* Pictures are of the central pile, with the range of all in them. */
static bool draw_many(const struct ask *ask, struct tale *tale, const struct crew_done *done,
                      const struct curve *sky, const volatile sig_atomic_t *stop,
                      struct trouble *why)
{
    struct able able;
    bool good = able_of(&able, done, why);
    struct span *middle_K = good ? able_middle_K(&able, tale->scenario->last_day + 1) : NULL;
    bool drawn = middle_K ? run_central(ask, tale, sky, middle_K, stop, why)
                          : trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for "
                                        "pictures");
    free(middle_K);
    able_free(&able);
    return drawn;
}

static bool run_many(const struct ask *ask, struct tale *tale, const struct bytes *text,
                     const struct curve *sky, const volatile sig_atomic_t *stop,
                     struct trouble *why)
{
    struct crew_done done;
    bool good = team_run(&done, ask, tale->scenario, tale->plan, sky, 0, 1, stop, why);
    if (good && ask->slice)
        good = save_slice(ask, tale->scenario, text, tale->plan, &done, why);
    else if (good)
        good = (!ask->plot || draw_many(ask, tale, &done, sky, stop, why)) &&
               telling_many(ask, tale, &done, why);
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
    if (!choice_built(scenario, ask->operand, why))
        return false;
    if (ask->plot && !plot_may(ask->plot, ask->given[HELP_FORCE], why))
        return false;
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

bool seasons_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct bytes text = {0};
    if (ask->given[HELP_MERGE])
        return merge_answer(ask, why);
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
