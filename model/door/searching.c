/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/searching.c - see door/searching.h.
 *
 * A plan that was found is written by putting it, as the first, into the text the keeper wrote, so
 * that notes and all else stay; then the text is read again, as any scenario, before it is saved.
 */
#include "door/searching.h"
#include "base/scroll.h"
#include "ask/search.h"
#include "base/save.h"
#include "door/answer.h"
#include "door/bytes.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/graft.h"
#include "door/scenario.h"
#include "door/team.h"
#include "tell/search.h"
#include "tell/work.h"
#include <stdlib.h>
#include <string.h>

enum { SCENARIO_MOST = 4 << 20 };

/* ---- progress ---- */

static void told(void *listener, const struct search *search)
{
    bool *shown = listener;
    double most = 0;
    for (int i = 0; i < search->trials; i++)
        if (search->trial[i].members == search->members && search->trial[i].chance > most)
            most = search->trial[i].chance;
    fprintf(stderr, "\rmidden: %d plans tried, %d seasons; likeliest so far %.0f in 10; Ctrl-C ends it ",
            search->trials, search->seasons, 10 * most);
    *shown = true;
}

/* ---- the plan into the keeper's text ---- */

/* A name no plan of the file has yet. */
static void fresh_name(char name[PLAN_NAME], const struct scenario *scenario)
{
    struct trouble none = {0};
    snprintf(name, PLAN_NAME, "found");
    for (int n = 2; choice_named(scenario, name, &none) >= 0; n++) {
        none = (struct trouble){0};
        snprintf(name, PLAN_NAME, "found %d", n);
    }
}

/* The plan, or an empty one before the search has any. */
static void insert_plan(FILE *out, const char *text, const struct graft *graft,
                        const struct search *search, const char *name)
{
    const struct candidate none = {0};
    const struct candidate *plan = search ? &search->trial[search->best].candidate : &none;
    int indent = graft->indent + (graft->first && !graft->flow ? 2 : 0);
    fprintf(out, "%.*s%s", (int)graft->offset, text, graft->line_end ? "\n" : "");
    if (graft->first)
        fprintf(out, "%*splans:%s", graft->flow ? 0 : graft->indent, "", graft->flow ? " {" : "\n");
    fprintf(out, "%*s%s:", graft->flow ? 0 : indent, "", name);
    if (plan->turns == 0 && !plan->covered)
        fputs(" []", out);
    else
        search_yaml(out, search, plan, graft->flow ? SEARCH_IN_LINE : indent + 2);
    fputs(!graft->flow ? "\n" : graft->first ? "}, " : ", ", out);
    fputs(text + graft->offset, out);
}

static bool is_read(const char *text, size_t size, const struct ask *ask, const char *name)
{
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct trouble *own = calloc(1, sizeof *own);
    bool good = scenario && own && scenario_read_text(scenario, text, size, ask->operand, own) &&
                choice_named(scenario, name, own) >= 0;
    free(scenario);
    free(own);
    return good;
}

/* The scenario with the plan, or with an empty one before the search, as text in memory; NULL with a
 * trouble. The caller frees it. */
static char *planned(const struct ask *ask, const struct bytes *text, const struct scenario *scenario,
                     const struct search *search, size_t *size, struct trouble *why)
{
    struct graft graft;
    struct scroll scroll;
    char name[PLAN_NAME];
    bool begun = scroll_begin(&scroll);
    bool found = graft_find(&graft, text->text, text->length);
    fresh_name(name, scenario);
    if (begun && found)
        insert_plan(scroll.out, text->text, &graft, search, name);
    if (!begun || !scroll_end(&scroll))
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the scenario");
    else if (found && is_read(scroll.text, *size = scroll.size, ask, name))
        return scroll.text;
    else
        trouble_set(why, TROUBLE_NO, "the plan can't be put into %s as its `plans` stand; write them with "
                    "one plan a line, or take the plan from --json", ask->operand);
    free(scroll.text);
    return NULL;
}

/* A search takes minutes: whether its plan can be written is known before. */
static bool can_plan(const struct ask *ask, const struct bytes *text, const struct scenario *scenario,
                     struct trouble *why)
{
    size_t size = 0;
    if (scenario->plans == PLAN_PLANS)
        return trouble_set(why, TROUBLE_NO, "%s has %d plans, and there can't be more; take one out to make "
                           "room for the plan that is found", ask->operand, PLAN_PLANS);
    char *made = planned(ask, text, scenario, NULL, &size, why);
    free(made);
    return made != NULL;
}

static bool write_scenario(const struct ask *ask, const struct bytes *text,
                           const struct scenario *scenario, const struct search *search,
                           struct trouble *why)
{
    size_t size = 0;
    char *made = planned(ask, text, scenario, search, &size, why);
    bool saved = made && save_bytes(ask->write, made, size, ask->given[HELP_FORCE], why);
    free(made);
    return saved;
}

/* ---- the command ---- */

static bool tell(const struct ask *ask, const struct search *search, struct trouble *why)
{
    struct answer answer;
    bool good = true;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        good = search_json(answer.out, search, why);
    else
        search_text(answer.out, search, ask->write, ask->given[HELP_LONG]);
    return answer_end(&answer, ask, good, why);
}

static bool search_it(const struct ask *ask, const struct scenario *scenario, const struct curve *sky,
                      const struct bytes *text, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct team_progress progress;
    bool shown = false;
    struct search *search = calloc(1, sizeof *search);
    if (!search)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to search");
    search->crew = team_crew(ask, scenario, 0, sky, stop, &progress);
    if (search->crew.told) {
        search->told = told;
        search->listener = &shown;
    }
    search->crew.told = NULL;
    search->fresh = true;
    int day = choice_day(ask, scenario, why); /* from 1 */
    bool good = day >= 0 && search_open(search, scenario, day - 1, why);
    if (good && ask->last < search->members)
        search->members = ask->last;
    good = good && search_run(search, why);
    if (shown)
        fputs("\r\033[K", stderr);
    good = good && (!ask->write || write_scenario(ask, text, scenario, search, why)) &&
           (!ask->plot || work_draw(ask->plot, ask->given[HELP_FORCE], search, why)) &&
           tell(ask, search, why);
    bool found = search->found;
    search_free(search);
    free(search);
    return good && (found || !trouble_set(why, TROUBLE_NO, "%s", ""));
}

bool searching_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct curve sky;
    struct bytes text = {0};
    if (ask->write && strcmp(ask->operand, "-") == 0)
        return trouble_set(why, TROUBLE_USAGE, "--write needs the scenario in a file, into a copy of which "
                           "the plan is put");
    if (ask->plot && !work_may(ask->plot, ask->given[HELP_FORCE], why))
        return false;
    struct scenario *scenario = answer_scenario(ask, why);
    bool good = scenario != NULL;
    if (good)
        scenario_look_on(scenario);
    if (good && !scenario->need.is)
        good = trouble_set(why, TROUBLE_NO, "%s: search needs a `need`, such as `need: by 2026-04-18`",
                           ask->operand);
    good = good && choice_built(scenario, ask->operand, why) &&
           (!ask->write || (bytes_read(&text, ask->operand, SCENARIO_MOST, why) &&
                            can_plan(ask, &text, scenario, why))) &&
           climate_curve(&sky, scenario, ask->draw, why);
    if (good) {
        good = search_it(ask, scenario, &sky, &text, stop, why);
        curve_free(&sky);
    }
    bytes_free(&text);
    free(scenario);
    return good;
}
