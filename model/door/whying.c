/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/whying.c - see door/whying.h. */
#include "door/whying.h"
#include "door/answer.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/fit.h"
#include "door/scenario.h"
#include "door/team.h"
#include "run/jar.h"
#include "run/setting.h"
#include "tell/heatday.h"
#include "tell/why_json.h"
#include <stdlib.h>
#include <string.h>

enum { GUESS = 128 };

struct work {
    const struct ask *ask;
    struct scenario *scenario;
    struct curve sky;
    struct why_ask question;
    struct why_found found;
    struct posterior posterior; /* of the piles that fit the readings, if there are any */
    int readings;
    struct team_progress progress;
    enum why_day how;
    char guess[GUESS];
    bool guessed;
};

static void told_part(void *listener, int part, int parts)
{
    struct team_progress *progress = listener;
    progress->part = part;
    progress->parts = parts;
}

static bool read_pile(struct work *work, const volatile sig_atomic_t *stop, struct trouble *why)
{
    const struct ask *ask = work->ask;
    if (!(work->scenario = answer_scenario(ask, why)))
        return false;
    int plan = choice_plan(ask, work->scenario, why);
    if (plan < 0 || !choice_built(work->scenario, ask->operand, why))
        return false;
    if (jar_is_held(work->scenario))
        return trouble_set(why, TROUBLE_NO, "the jar is held at its temperature by whoever keeps it, so it "
                           "has no heat budget of its own");
    scenario_look_on(work->scenario);
    if (!climate_curve(&work->sky, work->scenario, ask->draw, why))
        return false;
    work->question = (struct why_ask){.scenario = work->scenario, .plan = plan,
                                      .hour = ask->given[HELP_HOUR] ? ask->hour : -1, .part = told_part};
    work->question.crew = team_crew(ask, work->scenario, plan, &work->sky, stop, &work->progress);
    return true;
}

/* "Now" is --day, else the last reading; a pile without either is asked when it stands furthest
 * above the air. */
static bool choose_day(struct work *work, struct trouble *why)
{
    const struct scenario *scenario = work->scenario;
    date_count reading = scenario->last_reading ? scenario->last_reading - scenario->start : -1;
    int *day = &work->question.day;
    if (work->ask->given[HELP_DAY]) {
        work->how = WHY_NAMED;
        *day = choice_day(work->ask, scenario, why) - 1;
    } else if (reading >= 0 && reading <= scenario->last_day) {
        work->how = WHY_READING;
        *day = (int)reading;
    } else {
        work->how = WHY_FURTHEST;
        *day = why_furthest(&work->question, why);
    }
    if (*day < 0)
        return false;
    if (*day == 0 && work->question.hour >= 0 && work->question.hour < SETTING_DEED_S / 3600)
        return trouble_set(why, TROUBLE_USAGE, "on day 1 the pile is built at 10 h; name an hour from 10 on");
    return true;
}

/* Readings up to that day make the possible piles those that fit; so few of them are taken as drawn. */
static bool fit(struct work *work, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct why_ask *question = &work->question;
    int until = question->day, readings = fit_readings(work->scenario, until);
    if (readings == 0 || work->ask->last < FIT_MEMBERS)
        return true;
    if (!fit_learn(&work->posterior, NULL, work->ask, work->scenario, question->plan, until, stop, why))
        return false;
    work->readings = readings;
    question->crew.chance = work->posterior.chance;
    question->crew.chance_of = &work->posterior.unknowns;
    return true;
}

/* One line, whether it is typed or comes from a file; none at all is no guess. */
static void ask_first(struct work *work)
{
    if (!work->ask->given[HELP_ASK_FIRST])
        return;
    fprintf(stderr, "%s? ", why_question);
    fflush(stderr);
    work->guessed = true;
    if (!fgets(work->guess, GUESS, stdin)) {
        *work->guess = '\0';
        fputc('\n', stderr);
    }
}

static struct why_tale tale_of(const struct work *work)
{
    return (struct why_tale){.found = &work->found, .scenario = work->scenario,
                             .plan = work->question.plan, .day = work->question.day,
                             .hour = work->question.hour, .readings = work->readings,
                             .plan_named = work->ask->plan != NULL,
                             .how = work->how, .draw = work->ask->draw, .version = help_version,
                             .guess = work->guessed ? work->guess : NULL,
                             .room = work->found.able.room};
}

static bool tell(const struct work *work, struct trouble *why)
{
    struct answer answer;
    const struct ask *ask = work->ask;
    struct why_tale tale = tale_of(work);
    struct phrase_style style = answer_style(work->scenario);
    bool told = true;
    if (ask->plot && !heatday_draw(ask->plot, ask->given[HELP_FORCE], &tale, why))
        return false;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        told = why_json(answer.out, &tale, why);
    else
        why_text(answer.out, &tale, &style, ask->given[HELP_LONG]);
    return answer_end(&answer, ask, told, why);
}

bool whying_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct work *work = calloc(1, sizeof *work);
    if (!work)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    work->ask = ask;
    bool good = (!ask->plot || heatday_may(ask->plot, ask->given[HELP_FORCE], why)) &&
                read_pile(work, stop, why) && choose_day(work, why);
    if (good)
        ask_first(work);
    good = good && fit(work, stop, why) && why_run(&work->found, &work->question, why);
    team_end(&work->progress);
    if (good)
        team_tell_failed(ask, &work->found.done);
    good = good && tell(work, why);
    posterior_free(&work->posterior);
    why_free(&work->found);
    curve_free(&work->sky);
    free(work->scenario);
    free(work);
    return good;
}
