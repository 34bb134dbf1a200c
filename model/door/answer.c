/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/answer.c - see door/answer.h. */
#include "door/answer.h"
#include "base/save.h"
#include "door/log.h"
#include "door/scenario.h"
#include <langinfo.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void answer_note(const struct ask *ask, const char *text, const char *name)
{
    if (!ask->given[HELP_QUIET])
        fprintf(stderr, "midden: %s%s\n", text, name);
}

bool answer_may(const struct ask *ask, struct trouble *why)
{
    const char *const path[] = {ask->output, ask->write, ask->calendar, ask->animation, ask->poster};
    for (size_t i = 0; i < sizeof path / sizeof *path; i++)
        if (path[i] && !save_may(path[i], ask->given[HELP_FORCE], why))
            return false;
    return true;
}

struct phrase_style answer_style(const struct scenario *scenario)
{
    return (struct phrase_style){strcmp(nl_langinfo(CODESET), "UTF-8") == 0, scenario->show,
                                 scenario->bucket_m3};
}

bool answer_begin(struct answer *answer, struct trouble *why)
{
    bool begun = scroll_begin(&answer->scroll);
    answer->out = answer->scroll.out;
    return begun || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
}

bool answer_end(struct answer *answer, const struct ask *ask, bool told, struct trouble *why)
{
    if (!scroll_end(&answer->scroll) && told)
        told = trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    /* a pipe that nobody reads would hold it up; a search tells what it found so far */
    if (told && ask->stop && *ask->stop && ask->command != HELP_SEARCH)
        told = trouble_set(why, TROUBLE_SOLVE, "interrupted");
    if (told)
        told = save_bytes(ask->output ? ask->output : "-", answer->scroll.text, answer->scroll.size,
                          ask->given[HELP_FORCE], why);
    free(answer->scroll.text);
    return told;
}

/* Readings in a file of their own, if there is one yet. */
static bool take_log(struct scenario *scenario, struct trouble *why)
{
    enum { MOST = sizeof scenario->assumption / sizeof scenario->assumption[0] };
    if (!*scenario->log_file || log_read(scenario, scenario->log_file, why))
        return true;
    if (why->kind != TROUBLE_ABSENT)
        return false;
    *why = (struct trouble){0};
    if (scenario->assumed < MOST)
        snprintf(scenario->assumption[scenario->assumed++], sizeof scenario->assumption[0],
                 "readings: none yet, since %.80s isn't there", scenario->log_file);
    return true;
}

struct scenario *answer_scenario(const struct ask *ask, struct trouble *why)
{
    if (strcmp(ask->operand, "-") == 0 && isatty(STDIN_FILENO))
        answer_note(ask, "reading the scenario from the keyboard; Ctrl-D ends it", "");
    struct scenario *scenario = calloc(1, sizeof *scenario);
    if (!scenario) {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a scenario");
        return NULL;
    }
    if (scenario_read(scenario, ask->operand, why) && take_log(scenario, why))
        return scenario;
    free(scenario);
    return NULL;
}
