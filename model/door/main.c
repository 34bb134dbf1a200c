/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/main.c - asks, runs, tells; the only exit.
 *
 * An answer is made whole in memory and written at the end, so that a failure leaves nothing.
 * Standard output is closed and checked before the exit status is given: a full disk shows only
 * then. The program's letters come from the locale (LC_CTYPE); its numbers never do.
 */
#include "door/answer.h"
#include "door/climate.h"
#include "door/comparing.h"
#include "door/learning.h"
#include "door/lessoning.h"
#include "door/mixing.h"
#include "door/paper.h"
#include "door/reporting.h"
#include "door/scenario.h"
#include "door/searching.h"
#include "door/seasons.h"
#include "door/outing.h"
#include "door/whying.h"
#include "tell/allot.h"
#include "tell/cells.h"
#include "tell/check.h"
#include "tell/json.h"
#include "tell/lists.h"
#include "tell/starter.h"
#include <errno.h>
#include <fcntl.h>
#include <gsl/gsl_errno.h>
#include <locale.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>
#include <unistd.h>

/* the signal that asked the season to end, 0 = none */
static volatile sig_atomic_t stopped_by;

static void stop(int signal_number)
{
    stopped_by = signal_number;
}

/* A page of a mapped shard that isn't there any more (door/bytes): there is nothing left to go on with. */
static void gone(int signal_number)
{
    static const char SAYS[] = "midden: a shard was cut short while it was read, or can't be read any more\n";
    (void)signal_number;
    ssize_t told = write(STDERR_FILENO, SAYS, sizeof SAYS - 1);
    (void)told;
    _exit(EX_IOERR);
}

/* The first interrupt asks a season to stop, the second ends at once. What was ignored by whoever
 * started the program stays ignored. A limit on file size comes back as a failed write. */
static void watch_signals(void)
{
    static const int signals[] = {SIGINT, SIGTERM};
    for (int i = 0; i < 2; i++) {
        struct sigaction now, was;
        memset(&now, 0, sizeof now);
        now.sa_handler = stop;
        now.sa_flags = (int)SA_RESETHAND;
        sigemptyset(&now.sa_mask);
        if (sigaction(signals[i], NULL, &was) == 0 && was.sa_handler != SIG_IGN)
            sigaction(signals[i], &now, NULL);
    }
    signal(SIGXFSZ, SIG_IGN);
    signal(SIGBUS, gone);
}

/* A program started without standard input, output or error must not give their numbers to the next
 * file it opens. Output that can't be written fails as it should: this /dev/null is open for
 * reading only. */
static void hold_standard_files(void)
{
    static const int modes[] = {O_WRONLY, O_RDONLY, O_RDWR};
    for (int fd = 0; fd < 3; fd++)
        if (fcntl(fd, F_GETFD) == -1)
            (void)open("/dev/null", modes[fd]); /* takes the lowest number free, which is fd */
}

/* ---- the commands ---- */

static bool do_new(const struct ask *ask, struct trouble *why)
{
    struct answer answer;
    if (!answer_begin(&answer, why))
        return false;
    starter_write(answer.out);
    return answer_end(&answer, ask, true, why);
}

static bool do_list(const struct ask *ask, struct trouble *why)
{
    struct answer answer;
    bool told = true;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->operand)
        told = lists_write(answer.out, ask->operand, ask->given[HELP_JSON], ask->given[HELP_LONG],
                           why);
    else
        for (int i = 0; i < cells_count; i++)
            fprintf(answer.out, "%s\n", cells_names[i]);
    return answer_end(&answer, ask, told, why);
}

/* The weather is read too, so that a file with days missing is found here and not by `run`. The
 * answer is written in any case; "can't be done" is its exit status, said again on standard error
 * only where the answer isn't read by eye. */
static bool check_told(const struct ask *ask, const struct scenario *scenario, struct trouble *why)
{
    struct curve sky;
    struct answer answer;
    if (!climate_curve(&sky, scenario, ask->draw, why))
        return false;
    curve_free(&sky);
    struct phrase_style style = answer_style(scenario);
    struct check check = check_scenario(scenario, &style);
    check.last_looked = scenario_last_looked(scenario);
    if (!answer_begin(&answer, why))
        return false;
    bool told = true;
    if (ask->given[HELP_JSON])
        told = check_json(answer.out, &check, scenario, help_version, why);
    else
        check_text(answer.out, &check, scenario, &style);
    if (!answer_end(&answer, ask, told, why))
        return false;
    bool seen = !ask->output && !ask->given[HELP_JSON];
    return !*check.reason || trouble_set(why, TROUBLE_NO, "%s", seen ? "" : check.reason);
}

static bool do_check(const struct ask *ask, struct trouble *why)
{
    struct scenario *scenario = answer_scenario(ask, why);
    bool done = scenario && check_told(ask, scenario, why);
    free(scenario);
    return done;
}

static bool do_run(const struct ask *ask, struct trouble *why)
{
    return seasons_answer(ask, &stopped_by, why);
}

static bool do_compare(const struct ask *ask, struct trouble *why)
{
    return comparing_answer(ask, &stopped_by, why);
}

/* Interrupted, it still tells of what it found so far. */
static bool do_search(const struct ask *ask, struct trouble *why)
{
    return searching_answer(ask, &stopped_by, why);
}

static bool do_next(const struct ask *ask, struct trouble *why)
{
    return outing_answer(ask, &stopped_by, why);
}

static bool do_why(const struct ask *ask, struct trouble *why)
{
    return whying_answer(ask, &stopped_by, why);
}

static bool do_sheet(const struct ask *ask, struct trouble *why)
{
    return paper_answer(ask, &stopped_by, why);
}

static bool do_learn(const struct ask *ask, struct trouble *why)
{
    return learning_answer(ask, &stopped_by, why);
}

static bool do_report(const struct ask *ask, struct trouble *why)
{
    return reporting_answer(ask, &stopped_by, why);
}

static bool do_lesson(const struct ask *ask, struct trouble *why)
{
    return lessoning_answer(ask, &stopped_by, why);
}

static bool do_help(const struct ask *ask, struct trouble *why)
{
    struct answer answer;
    if (!answer_begin(&answer, why))
        return false;
    if (!ask->given[HELP_HELP])
        help_about(answer.out);
    else if (ask->commanded)
        help_of(answer.out, ask->command);
    else
        help_program(answer.out);
    return answer_end(&answer, &(struct ask){0}, true, why);
}

static bool obey(const struct ask *ask, struct trouble *why)
{
    static bool (*const commands[HELP_COMMANDS])(const struct ask *, struct trouble *) = {
        [HELP_NEW] = do_new, [HELP_CHECK] = do_check, [HELP_MIX] = mixing_answer,
        [HELP_RUN] = do_run, [HELP_COMPARE] = do_compare, [HELP_SEARCH] = do_search,
        [HELP_NEXT] = do_next, [HELP_SHEET] = do_sheet, [HELP_LEARN] = do_learn,
        [HELP_WHY] = do_why, [HELP_LESSON] = do_lesson, [HELP_REPORT] = do_report,
        [HELP_LIST] = do_list};
    if (ask->given[HELP_HELP] || ask->given[HELP_VERSION])
        return do_help(ask, why);
    return answer_may(ask, why) && commands[ask->command](ask, why);
}

/* ---- the end ---- */

/* A result that never reached its reader is a failure, however late it shows. */
static void close_output(struct trouble *why)
{
    bool failed = ferror(stdout) != 0;
    errno = 0;
    if (fclose(stdout) != 0 || failed)
        trouble_set(why, TROUBLE_DEVICE, "standard output can't be written: %s",
                    errno ? strerror(errno) : "an earlier write failed");
}

/* Messages about a file begin with its name; the others with the program's. */
static void complain(const struct ask *ask, const struct trouble *why)
{
    fprintf(stderr, "%s%s\n", why->kind == TROUBLE_INPUT ? "" : "midden: ", why->text);
    if (why->kind == TROUBLE_USAGE)
        fprintf(stderr, "midden: 'midden%s%s --help' shows what can be asked\n",
                ask->commanded ? " " : "", ask->commanded ? help_commands[ask->command].name : "");
}

/* Ends as the signal would have ended the program, so that a shell sees 130 or 143 and a loop of runs ends
 * with it; what was written by then is whole. */
static void end_by_signal(int signal_number, bool told)
{
    fprintf(stderr, "midden: interrupted; %s\n", told ? "the answer was finished all the same" : "nothing written");
    signal(signal_number, SIG_DFL);
    raise(signal_number);
    _exit(128 + signal_number);
}

int main(int argc, char **argv)
{
    struct ask ask;
    static struct trouble why; /* 8 KB, too much for a small stack */
    setlocale(LC_CTYPE, "");
    gsl_set_error_handler_off(); /* its own ends the program; every call of it is checked */
    allot_watch();
    hold_standard_files();
    watch_signals();
    bool understood = ask_read(&ask, argc, argv, &why);
    ask.stop = &stopped_by;
    bool done = understood && obey(&ask, &why);
    bool told = done || (ask.command == HELP_SEARCH && why.kind == TROUBLE_NO);
    if (stopped_by && !told)
        end_by_signal(stopped_by, false);
    close_output(&why);
    if (stopped_by && ask.command != HELP_SEARCH && !*why.text)
        end_by_signal(stopped_by, true);
    if (*why.text)
        complain(&ask, &why);
    ask_free(&ask);
    if (stopped_by && (ask.command == HELP_SEARCH || ask.command == HELP_LESSON) && !*why.text)
        return 128 + stopped_by; /* told, but cut short */
    return trouble_status(why.kind);
}
