/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/lessoning.c - see door/lessoning.h.
 *
 * With --ask-first each step stops before what it shows, for one line from standard input; where
 * that ends, the lesson goes on without. Everything was run before the first question, so that no
 * class waits.
 */
#include "door/lessoning.h"
#include "ask/lesson.h"
#include "door/answer.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "door/team.h"
#include "run/jar.h"
#include "tell/lesson.h"
#include "tell/lesson_json.h"
#include "tell/lesson_plot.h"
#include <stdlib.h>
#include <string.h>

enum { USUAL_MEMBERS = 16, GUESS = 256 };

struct work {
    const struct ask *ask;
    struct ask usual; /* with the members of a lesson */
    struct scenario *scenario;
    struct curve sky;
    struct lesson_ask question;
    struct lesson_found found;
    struct team_progress progress;
    const volatile sig_atomic_t *stop;
};

static void told_part(void *listener, int part, int parts)
{
    struct team_progress *progress = listener;
    progress->part = part;
    progress->parts = parts;
}

/* The last reading's day from 0; -1 where there is none within the season. */
static int reading_day(const struct scenario *scenario)
{
    date_count day = scenario->last_reading - scenario->start;
    return scenario->last_reading && day >= 0 && day <= scenario->last_day ? (int)day : -1;
}

static bool fit(struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    work->usual = *ask;
    if (!ask->given[HELP_MEMBERS])
        work->usual.last = USUAL_MEMBERS;
    if (ask->plan_count > 2)
        return trouble_set(why, TROUBLE_USAGE,
                           "a lesson sets two plans side by side, so --plan is given once "
                           "or twice");
    return work->usual.last - work->usual.first < LESSON_MOST_MEMBERS
           || trouble_set(why, TROUBLE_USAGE,
                          "a lesson keeps up to %d possible piles of each experiment",
                          LESSON_MOST_MEMBERS);
}

/* The first --plan is the pile's, the second is set beside it. */
static bool choose(struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    struct lesson_ask *question = &work->question;
    question->other = -1;
    question->plan = ask->plan_count ? choice_named(work->scenario, ask->plans[0], why) : 0;
    if (question->plan < 0)
        return false;
    if (ask->plan_count > 1
        && (question->other = choice_named(work->scenario, ask->plans[1], why)) < 0)
        return false;
    if (question->other == question->plan)
        return trouble_set(why, TROUBLE_USAGE, "the two plans of --plan are one and the same");
    question->how = ask->given[HELP_DAY] ? LESSON_NAMED : LESSON_READING;
    question->day = ask->given[HELP_DAY] ? choice_day(ask, work->scenario, why) - 1
                                         : reading_day(work->scenario);
    return question->day >= 0 || !ask->given[HELP_DAY];
}

static bool read_pile(struct work *work, const volatile sig_atomic_t *stop, struct trouble *why)
{
    const struct ask *ask = work->ask;
    if (!fit(work, why) || !(work->scenario = answer_scenario(ask, why))
        || !choice_built(work->scenario, ask->operand, why))
        return false;
    if (jar_is_held(work->scenario))
        return trouble_set(why, TROUBLE_NO,
                           "the jar is held at its temperature by whoever keeps it, so there "
                           "is no heat in it to teach of");
    scenario_look_on(work->scenario);
    if (!choose(work, why) || !climate_curve(&work->sky, work->scenario, ask->draw, why))
        return false;
    work->question.scenario = work->scenario;
    work->question.part = told_part;
    work->stop = stop;
    work->question.crew = team_crew(&work->usual, work->scenario, work->question.plan, &work->sky,
                                    stop, &work->progress);
    return true;
}

static struct lesson_tale tale_of(const struct work *work)
{
    return (struct lesson_tale){.found = &work->found,
                                .scenario = work->scenario,
                                .plan = work->question.plan,
                                .plan_named = work->ask->plan_count > 0,
                                .draw = work->ask->draw,
                                .version = help_version,
                                .file = work->ask->operand};
}

/* One line, whether it is typed or comes from a file; NULL where there is none. What is longer is
 * read away. */
static const char *guess(char text[GUESS], const char *question)
{
    fprintf(stderr, "%s (Enter goes on) ", question);
    fflush(stderr);
    if (!fgets(text, GUESS, stdin)) {
        fputc('\n', stderr);
        return NULL;
    }
    size_t length = strcspn(text, "\n");
    for (int c = (unsigned char)text[length]; c != '\n' && c != EOF;)
        c = fgetc(stdin);
    text[length] = '\0';
    return text;
}

/* What was told so far goes out before a question is asked, unless it is for a file, which is
 * whole. */
static bool hand_over(struct answer *answer, const struct ask *ask, struct trouble *why)
{
    if (ask->output)
        return true;
    if (!answer_end(answer, ask, true, why))
        return false;
    if (fflush(stdout) != 0)
        return trouble_set(why, TROUBLE_DEVICE, "standard output can't be written");
    return answer_begin(answer, why);
}

/* False when what was told could not be handed over; then there is no answer left to end. */
static bool tell_steps(struct answer *answer, const struct work *work,
                       const struct lesson_tale *tale, const struct phrase_style *style,
                       struct trouble *why)
{
    char text[GUESS];
    bool asking = work->ask->given[HELP_ASK_FIRST];
    lesson_head(answer->out, tale, style);
    for (int step = 0; step < LESSON_STEPS; step++) {
        const char *said = NULL;
        lesson_before(answer->out, (enum lesson_step)step);
        if (asking) {
            if (!hand_over(answer, work->ask, why))
                return false;
            said = guess(text, lesson_rows[step].asks);
            asking = said != NULL;
            if (work->stop && *work->stop)
                return true; /* whoever interrupts a question has had enough of the lesson */
        }
        lesson_reveal(answer->out, tale, (enum lesson_step)step, said, style);
    }
    lesson_tail(answer->out, tale, style);
    return true;
}

static bool tell(const struct work *work, struct trouble *why)
{
    struct answer answer;
    const struct ask *ask = work->ask;
    struct lesson_tale tale = tale_of(work);
    struct phrase_style style = answer_style(work->scenario);
    bool told = true;
    if (ask->plot && !lesson_plot_draw(ask->plot, ask->given[HELP_FORCE], &tale, why))
        return false;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        told = lesson_json(answer.out, &tale, why);
    else if (!tell_steps(&answer, work, &tale, &style, why))
        return false;
    return answer_end(&answer, ask, told, why);
}

bool lessoning_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct work *work = calloc(1, sizeof *work);
    if (!work)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    work->ask = ask;
    bool good = (!ask->plot || lesson_plot_may(ask->plot, ask->given[HELP_FORCE], why))
                && read_pile(work, stop, why) && lesson_run(&work->found, &work->question, why);
    team_end(&work->progress);
    if (good)
        team_tell_failed(ask, &work->found.asked->done);
    good = good && tell(work, why);
    lesson_free(&work->found);
    curve_free(&work->sky);
    free(work->scenario);
    free(work);
    return good;
}
