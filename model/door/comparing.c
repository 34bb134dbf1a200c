/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/comparing.c - see door/comparing.h.
 *
 * One plan after the other, each with the same members; of a season only a few numbers are kept, so
 * that memory does not grow with plans.
 */
#include "door/comparing.h"
#include "ask/compare.h"
#include "door/answer.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "door/team.h"
#include "many/able.h"
#include "tell/compare.h"
#include "tell/json.h"
#include "tell/plans.h"
#include <stdlib.h>
#include <string.h>


struct work {
    const struct ask *ask;
    const volatile sig_atomic_t *stop;
    struct scenario **scenario;     /* [ask->operand_count] */
    struct curve *sky;              /* the same */
    int skies;
    int count;
    struct contender contender[COMPARE_MOST];
    int file[COMPARE_MOST];         /* row of scenario and sky */
    struct standing standing[COMPARE_MOST];
    json_t *runs;
    double *room;                   /* [members] */
    int failures;
};

/* What was named twice is compared once. */
static bool add(struct work *work, int file, int plan, struct trouble *why)
{
    for (int i = 0; i < work->count; i++)
        if (work->contender[i].plan == plan &&
            strcmp(work->contender[i].file, work->ask->operands[file]) == 0)
            return true;
    if (work->count == COMPARE_MOST)
        return trouble_set(why, TROUBLE_USAGE, "more than %d plans to compare; name some by --plan",
                           COMPARE_MOST);
    work->file[work->count] = file;
    work->contender[work->count++] = (struct contender){.file = work->ask->operands[file],
                                                        .scenario = work->scenario[file],
                                                        .asked = work->scenario[0],
                                                        .plan = plan};
    return true;
}

/* All plans of a file, or those that were named. A name that stands in one file of several only is
 * taken from that one. */
static bool add_file(struct work *work, int file, struct trouble *why)
{
    const struct ask *ask = work->ask;
    const struct scenario *scenario = work->scenario[file];
    if (!choice_built(scenario, ask->operands[file], why))
        return false;
    for (int i = 0; i < scenario->plans && ask->plan_count == 0; i++)
        if (!add(work, file, i, why))
            return false;
    for (int i = 0; i < ask->plan_count; i++) {
        struct trouble none = {0};
        int plan = choice_named(scenario, ask->plans[i], ask->operand_count > 1 ? &none : why);
        if (plan < 0 && ask->operand_count == 1)
            return false;
        if (plan >= 0 && !add(work, file, plan, why))
            return false;
    }
    return true;
}

static bool read_files(struct work *work, struct trouble *why)
{
    for (int i = 0; i < work->ask->operand_count; i++) {
        struct ask one = *work->ask;
        one.operand = one.operands[i];
        work->scenario[i] = answer_scenario(&one, why);
        if (!work->scenario[i] || !add_file(work, i, why))
            return false;
        scenario_look_on(work->scenario[i]);
        if (!climate_curve(&work->sky[i], work->scenario[i], work->ask->draw, why))
            return false;
        work->skies++;
    }
    if (work->count == 0)
        return trouble_set(why, TROUBLE_USAGE, "none of the scenarios has such a plan");
    return true;
}

/* The run object of a plan, without its days. */
static bool keep_run(struct work *work, const struct contender *c, const struct able *able)
{
    struct tale tale = {.record = able->record, .members = able->members, .failed = able->failed,
                        .failures = able->failures, .room = able->room, .scenario = c->scenario,
                        .plan = c->plan, .draw = work->ask->draw, .version = help_version,
                        .file = c->file, .plan_named = true};
    json_t *run = json_season_object(&tale, false);
    if (run)
        json_put_text(run, "file", c->file);
    return run && json_array_append_new(work->runs, run) == 0;
}

static bool keep(struct work *work, struct contender *c, const struct crew_done *done,
                 struct trouble *why)
{
    struct able able;
    work->failures += done->failures;
    if (done->defect)
        return trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed under "
                           "plan `%s`; this is a defect of the program", done->failures,
                           done->members, c->scenario->plan[c->plan].name);
    bool good = able_of(&able, done, why) && compare_fill(c, done, &able, why) &&
                (!work->runs || keep_run(work, c, &able));
    able_free(&able);
    return good || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to compare");
}

static bool run_all(struct work *work, struct trouble *why)
{
    for (int i = 0; i < work->count; i++) {
        struct contender *c = &work->contender[i];
        struct crew_done done;
        bool good = team_run(&done, work->ask, c->scenario, c->plan, &work->sky[work->file[i]], i,
                             work->count, work->stop, why) &&
                    keep(work, c, &done, why);
        crew_free(&done);
        if (!good)
            return false;
        work->standing[i] = compare_standing(c, work->room);
    }
    return true;
}

static bool tell(struct work *work, struct trouble *why)
{
    struct answer answer;
    const struct ask *ask = work->ask;
    struct comparison comparison = {.contender = work->contender, .standing = work->standing,
                                    .count = work->count, .files = ask->operand_count,
                                    .members = ask->last, .failures = work->failures,
                                    .draw = ask->draw, .room = work->room};
    struct phrase_style style = answer_style(work->scenario[0]);
    bool told = true;
    if (ask->plot && !plans_draw(ask->plot, ask->given[HELP_FORCE], &comparison, why))
        return false;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON]) {
        told = compare_json(answer.out, &comparison, work->runs, why);
        work->runs = NULL;
    } else {
        compare_text(answer.out, &comparison, &style, ask->given[HELP_LONG]);
    }
    return answer_end(&answer, ask, told, why);
}

bool comparing_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct work *work = calloc(1, sizeof *work);
    size_t files = (size_t)ask->operand_count;
    bool good = work != NULL;
    if (good) {
        *work = (struct work){.ask = ask, .stop = stop,
                              .scenario = calloc(files, sizeof *work->scenario),
                              .sky = calloc(files, sizeof *work->sky),
                              .runs = ask->given[HELP_JSON] ? json_array() : NULL,
                              .room = calloc((size_t)ask->last, sizeof *work->room)};
        good = work->scenario && work->sky && work->room;
    }
    if (!good)
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to compare");
    good = good && (!ask->plot || plans_may(ask->plot, ask->given[HELP_FORCE], why)) &&
           read_files(work, why) && run_all(work, why) && tell(work, why);
    for (int i = 0; work && i < work->count; i++) {
        free(work->contender[i].outcome);
        free(work->contender[i].middle_K);
    }
    for (size_t i = 0; work && work->scenario && i < files; i++)
        free(work->scenario[i]);
    for (int i = 0; work && i < work->skies; i++)
        curve_free(&work->sky[i]);
    if (work) {
        free(work->scenario);
        free(work->sky);
        free(work->room);
        json_decref(work->runs);
    }
    free(work);
    return good;
}
