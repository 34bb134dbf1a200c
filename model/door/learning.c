/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/learning.c - see door/learning.h.
 *
 * While learning a season is run only up to the last reading; then both the piles as drawn and those
 * that fit are run to the season's end.
 */
#include "door/learning.h"
#include "ask/learn.h"
#include "door/answer.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/fit.h"
#include "door/glance.h"
#include "door/scenario.h"
#include "door/team.h"
#include "run/jar.h"
#include "tell/learn.h"
#include <stdlib.h>

struct work {
    const struct ask *ask;
    const volatile sig_atomic_t *stop;
    struct glance glance;
    struct posterior posterior;
    struct learnt learnt;
    struct crew_done before;
    struct able able_before, able;
    int now;                    /* day of the last reading, from 0 */
};

/* One of the two ensembles to the season's end. */
static bool run(struct work *work, struct crew_done *done, struct able *able, bool learnt,
                struct trouble *why)
{
    const struct ask *ask = work->ask;
    struct team_progress progress;
    struct curve sky;
    if (!climate_curve(&sky, work->glance.scenario, ask->draw, why))
        return false;
    struct crew crew = team_crew(ask, work->glance.scenario, work->glance.plan, &sky, work->stop,
                                 &progress);
    if (learnt) {
        crew.chance = work->posterior.chance;
        crew.chance_of = &work->posterior.unknowns;
    }
    progress.part = learnt;
    progress.parts = 2;
    bool good = crew_run(done, &crew, why) && able_of(able, done, why);
    team_end(&progress);
    curve_free(&sky);
    return good;
}

static struct tale tale_of(const struct work *work, const struct able *able)
{
    return (struct tale){.record = able->record, .members = able->members, .room = able->room,
                         .failed = able->failed, .failures = able->failures,
                         .scenario = work->glance.scenario, .plan = work->glance.plan,
                         .plan_named = work->ask->plan != NULL, .draw = work->ask->draw,
                         .version = help_version, .file = work->ask->operand};
}

static bool tell(const struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    struct answer answer;
    struct tale before = tale_of(work, &work->able_before), after = tale_of(work, &work->able);
    struct learn_tale tale = {.learnt = &work->learnt, .before = &before, .after = &after,
                              .now = work->now + 1, .now_share = work->posterior.moved_share};
    struct phrase_style style = answer_style(after.scenario);
    bool told_it = true;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        told_it = learn_json(answer.out, &tale, why);
    else
        learn_text(answer.out, &tale, &style, ask->given[HELP_LONG]);
    return answer_end(&answer, ask, told_it, why);
}

static bool something_to_learn(const struct work *work, struct trouble *why)
{
    const struct scenario *scenario = work->glance.scenario;
    char date[DATE_TEXT];
    date_write(scenario->start + work->now, date);
    if (work->ask->last < FIT_MEMBERS)
        return trouble_set(why, TROUBLE_USAGE, "learning takes %d possible piles at least; leave "
                           "--members out", (int)FIT_MEMBERS);
    if (jar_is_held(scenario))
        return trouble_set(why, TROUBLE_NO, "a jar is held at its temperature by whoever keeps it, so that "
                           "readings of it tell nothing");
    return fit_readings(scenario, work->now) > 0 ||
           trouble_set(why, TROUBLE_ABSENT, "%s: no readings of the pile%s%s up to %s; write them under "
                       "`readings`, or in a log as `midden sheet` prints it", work->ask->operand,
                       *scenario->log_file ? ", nor in " : "", scenario->log_file, date);
}

static bool answer(struct work *work, struct trouble *why)
{
    struct glance *glance = &work->glance;
    if (!glance_read(glance, work->ask, 0, why) ||
        (work->now = glance_now(glance, work->ask, why)) < 0 || !something_to_learn(work, why) ||
        !fit_learn(&work->posterior, &work->learnt, work->ask, glance->scenario, glance->plan,
                   work->now, work->stop, why))
        return false;
    scenario_look_on(glance->scenario);
    return run(work, &work->before, &work->able_before, false, why) &&
           run(work, &glance->done, &work->able, true, why) && tell(work, why);
}

bool learning_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct work *work = calloc(1, sizeof *work);
    if (!work)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    work->ask = ask;
    work->stop = stop;
    bool good = answer(work, why);
    posterior_free(&work->posterior);
    able_free(&work->able);
    able_free(&work->able_before);
    crew_free(&work->before);
    glance_free(&work->glance);
    free(work);
    return good;
}
