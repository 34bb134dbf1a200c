/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/reporting.c - see door/reporting.h.
 *
 * The plan told of is run first and its members are kept; of the others only what a comparison needs.
 * The central pile is run besides, for its cross-sections.
 */
#include "door/reporting.h"
#include "ask/compare.h"
#include "ask/typical.h"
#include "base/save.h"
#include "door/answer.h"
#include "door/bytes.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/glance.h"
#include "door/scenario.h"
#include "door/team.h"
#include "run/season.h"
#include "tell/film.h"
#include "tell/handover.h"
#include "tell/poster.h"
#include "tell/report.h"
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { DAYS_SHOWN = 12, COMMAND = 4096, SOURCE_MOST = 256 << 10 };

struct work {
    const struct ask *ask;
    const volatile sig_atomic_t *stop;
    struct glance glance;
    int count, failures;        /* plans set side by side, the one told of first */
    struct contender contender[PLAN_PLANS];
    struct standing standing[PLAN_PLANS];
    double *room;               /* [members] */
    struct span *middle_K;
    struct record central, typical;
    struct comparison comparison;
    char command[COMMAND];
    struct bytes source;
};

/* ---- the plans ---- */

static void add(struct work *work, int plan)
{
    for (int i = 0; i < work->count; i++)
        if (work->contender[i].plan == plan)
            return;
    const struct scenario *scenario = work->glance.scenario;
    work->contender[work->count++] = (struct contender){
        .file = work->ask->operand, .scenario = scenario, .asked = scenario, .plan = plan};
}

static bool choose(struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    const struct scenario *scenario = work->glance.scenario;
    for (int i = 0; i < ask->plan_count; i++) {
        int plan = choice_named(scenario, ask->plans[i], why);
        if (plan < 0)
            return false;
        add(work, plan);
    }
    for (int i = 0; i < scenario->plans && ask->plan_count == 0; i++)
        add(work, i);
    work->glance.plan = work->contender[0].plan;
    return true;
}

/* What of a crew a comparison needs. */
static bool keep(struct work *work, int i, const struct crew_done *done, const struct able *able,
                 struct trouble *why)
{
    work->failures += done->failures;
    if (!compare_fill(&work->contender[i], done, able, why))
        return false;
    work->standing[i] = compare_standing(&work->contender[i], work->room);
    return true;
}

static bool run_other(struct work *work, int i, const struct curve *sky, struct trouble *why)
{
    struct crew_done done;
    struct able able = {0};
    const struct contender *c = &work->contender[i];
    bool good = team_run(&done, work->ask, c->scenario, c->plan, sky, i, work->count, work->stop, why);
    if (good && done.defect)
        good = trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed under "
                           "plan `%s`; this is a defect of the program", done.failures, done.members,
                           c->scenario->plan[c->plan].name);
    good = good && able_of(&able, &done, why) && keep(work, i, &done, &able, why);
    able_free(&able);
    crew_free(&done);
    return good;
}

static bool run_others(struct work *work, struct trouble *why)
{
    struct curve sky;
    if (work->count < 2)
        return true;
    if (!climate_curve(&sky, work->glance.scenario, work->ask->draw, why))
        return false;
    bool good = true;
    for (int i = 1; i < work->count && good; i++)
        good = run_other(work, i, &sky, why);
    curve_free(&sky);
    return good;
}

/* ---- the central pile ---- */

/* Thick where a pile changes fast; the season's last day is the last of them. */
static int days_of(int day[DAYS_SHOWN], int days)
{
    static const int usual[] = {2, 5, 8, 14, 21, 30, 45, 60, 90, 120, 180};
    int count = 0;
    for (size_t i = 0; i < sizeof usual / sizeof *usual && usual[i] < days; i++)
        day[count++] = usual[i];
    day[count++] = days;
    return count;
}

static bool run_central(struct work *work, struct record *record, const int *day, int days,
                        struct trouble *why)
{
    struct curve sky;
    const struct curve *one = &sky;
    const struct scenario *scenario = work->glance.scenario;
    if (!climate_curve(&sky, scenario, work->ask->draw, why))
        return false;
    struct possible *possible = malloc(sizeof *possible);
    bool good = possible || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    if (good) {
        possible_usual(possible, scenario, &work->ask->param);
        struct setup setup = {.scenario = scenario, .plan = work->glance.plan, .sky = &one,
                              .possible = possible, .picture_day = day, .pictures = days,
                              .stop = work->stop};
        good = season_run(record, &setup, why) && !*work->stop;
    }
    free(possible);
    curve_free(&sky);
    return good;
}

/* ---- what is told ---- */

/* A word as a shell takes it. */
static void quote(FILE *out, const char *word)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                "-_./=:,+%@";
    if (*word && word[strspn(word, plain)] == '\0') {
        fputs(word, out);
        return;
    }
    fputc('\'', out);
    for (; *word; word++)
        if (*word == '\'')
            fputs("'\\''", out);
        else
            fputc(*word, out);
    fputc('\'', out);
}

/* The command line; the program by its name, wherever it stood. */
static bool command_of(struct work *work, struct trouble *why)
{
    FILE *out = fmemopen(work->command, sizeof work->command, "w");
    if (!out)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    fputs("midden", out);
    for (int i = 1; i < work->ask->word_count; i++) {
        fputc(' ', out);
        quote(out, work->ask->words[i]);
    }
    fclose(out);
    work->command[sizeof work->command - 1] = '\0';
    return true;
}

static struct tale tale_of(const struct work *work)
{
    const struct able *able = &work->glance.able;
    return (struct tale){.record = able->record, .members = able->members, .failed = able->failed,
                         .failures = able->failures, .room = able->room,
                         .scenario = work->glance.scenario, .plan = work->glance.plan,
                         .draw = work->ask->draw, .version = help_version, .file = work->ask->operand,
                         .plan_named = work->ask->plan_count > 0};
}

static struct report report_of(struct work *work)
{
    work->comparison = (struct comparison){.contender = work->contender, .standing = work->standing,
                                           .count = work->count, .files = 1,
                                           .members = work->ask->last, .failures = work->failures,
                                           .draw = work->ask->draw, .room = work->room};
    return (struct report){.tale = tale_of(work),
                           .plates = {work->glance.scenario, work->glance.plan, &work->typical,
                                      &work->central, work->middle_K},
                           .comparison = work->count > 1 ? &work->comparison : NULL,
                           .param = &work->ask->param, .command = work->command,
                           .source = work->source.text};
}

static bool tell_page(struct work *work, const struct report *report, struct trouble *why)
{
    struct answer answer;
    if (!answer_begin(&answer, why))
        return false;
    bool told = report_write(answer.out, report, why);
    return answer_end(&answer, work->ask, told, why);
}

static bool save(const struct work *work, const char *path, char *bytes, size_t size,
                 struct trouble *why)
{
    bool good = bytes && save_bytes(path, bytes, size, work->ask->given[HELP_FORCE], why);
    free(bytes);
    return good;
}

static bool tell_poster(struct work *work, const struct report *report, struct trouble *why)
{
    const char *dot = strrchr(work->ask->poster, '.');
    enum sketch_kind kind = dot && strcasecmp(dot, ".svg") == 0   ? SKETCH_SVG
                            : dot && strcasecmp(dot, ".pdf") == 0 ? SKETCH_PDF
                                                                  : SKETCH_PNG;
    size_t size = 0;
    char *bytes = poster_draw(&report->tale, &report->plates, kind, &size, why);
    return save(work, work->ask->poster, bytes, size, why);
}

static bool tell_film(struct work *work, const struct report *report, struct trouble *why)
{
    struct record central = {0};
    struct plates plates = report->plates;
    int day[FILM_MOST];
    int days = film_days(day, work->glance.scenario->last_day + 1);
    size_t size = 0;
    char *bytes = NULL;
    if (run_central(work, &central, day, days, why)) {
        plates.central = &central;
        bytes = film_draw(&plates, &size, why);
    }
    record_free(&central);
    return save(work, work->ask->animation, bytes, size, why);
}

static bool tell(struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    int day[DAYS_SHOWN];
    int days = days_of(day, work->glance.scenario->last_day + 1);
    const struct able *able = &work->glance.able;
    work->middle_K = able_middle_K(able, work->glance.scenario->last_day + 1);
    if (!work->middle_K)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for pictures");
    if (!run_central(work, &work->central, day, days, why) ||
        !typical_of(&work->typical, able->record, able->members, &work->central, able->room, why) ||
        !command_of(work, why))
        return false;
    struct report report = report_of(work);
    if ((report.tale.day = choice_day(ask, work->glance.scenario, why)) < 0)
        return false;
    bool page = ask->output || (!ask->animation && !ask->poster);
    return (!ask->animation || tell_film(work, &report, why)) &&
           (!ask->poster || tell_poster(work, &report, why)) &&
           (!page || tell_page(work, &report, why));
}

static bool tell_handover(struct work *work, struct trouble *why)
{
    struct answer answer;
    struct handover handover = {.tale = tale_of(work), .file = work->ask->operand};
    int day = glance_now(&work->glance, work->ask, why);
    if (day < 0 || !answer_begin(&answer, why))
        return false;
    handover.pile = glance_pile(&work->glance, work->ask);
    handover.day = day;
    bool told = handover_write(answer.out, &handover, why);
    return answer_end(&answer, work->ask, told, why);
}

/* ---- the whole ---- */

/* What can be refused before minutes are spent. */
static bool fits(const struct ask *ask, struct trouble *why)
{
    static const char *const ends[] = {".svg", ".pdf", ".png"};
    const char *dot = ask->poster ? strrchr(ask->poster, '.') : NULL;
    bool known = !ask->poster;
    for (int i = 0; dot && i < 3; i++)
        known = known || strcasecmp(dot, ends[i]) == 0;
    if (!known)
        return trouble_set(why, TROUBLE_USAGE, "--poster %.60s must end in .svg, .pdf or .png",
                           ask->poster);
    const char *file[] = {ask->output, ask->animation, ask->poster};
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < i; k++)
            if (file[i] && file[k] && strcmp(file[i], file[k]) == 0)
                return trouble_set(why, TROUBLE_USAGE, "two outputs name the same file, %.60s; choose "
                                   "two", file[i]);
    if (ask->given[HELP_HANDOVER] && (ask->animation || ask->poster))
        return trouble_set(why, TROUBLE_USAGE, "--handover writes one sheet alone; ask for --%s without "
                           "it", ask->animation ? "animation" : "poster");
    return true;
}

static bool run(struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    work->room = calloc((size_t)ask->last, sizeof *work->room);
    if (!work->room)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a report");
    if (!glance_read(&work->glance, ask, 0, why) || !choose(work, why))
        return false;
    if (ask->given[HELP_HANDOVER])
        work->count = 1;
    scenario_look_on(work->glance.scenario);
    work->glance.last_day = work->glance.scenario->last_day;
    if (strcmp(ask->operand, "-") != 0) {
        struct trouble none = {0};
        if (!bytes_read(&work->source, ask->operand, SOURCE_MOST, &none))
            work->source = (struct bytes){0};
    }
    if (!glance_run(&work->glance, ask, work->glance.last_day, 0, work->count, work->stop, why) ||
        !keep(work, 0, &work->glance.done, &work->glance.able, why))
        return false;
    if (ask->given[HELP_HANDOVER])
        return tell_handover(work, why);
    return run_others(work, why) && tell(work, why);
}

bool reporting_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    if (!fits(ask, why))
        return false;
    struct work *work = calloc(1, sizeof *work);
    if (!work)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a report");
    work->ask = ask;
    work->stop = stop;
    bool good = run(work, why);
    for (int i = 0; i < work->count; i++) {
        free(work->contender[i].outcome);
        free(work->contender[i].middle_K);
    }
    typical_free(&work->typical);
    record_free(&work->central);
    bytes_free(&work->source);
    glance_free(&work->glance);
    free(work->middle_K);
    free(work->room);
    free(work);
    return good;
}
