/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/mixing.c - see door/mixing.h. */
#include "door/mixing.h"
#include "ask/mix.h"
#include "door/answer.h"
#include "door/laid.h"
#include "door/team.h"
#include "tell/recipe_json.h"
#include <stdlib.h>
#include <string.h>

/* what most gardens can find, the easier first */
static const char *const COMMON[] = {"grass clippings", "coffee grounds", "horse manure",
                                     "mixed leaves", "straw", "cardboard",
                                     "arborist chips"};

/* The row of a table's ingredient among the scenario's, put there if there is room; or -1. */
static int row_of(struct scenario *scenario, const struct stuff *stuff)
{
    for (int i = 0; i < scenario->stuffs; i++)
        if (strcmp(scenario->stuff[i].id, stuff->id) == 0)
            return i;
    if (scenario->stuffs == PLAN_STUFF)
        return -1;
    scenario->stuff[scenario->stuffs] = *stuff;
    return scenario->stuffs++;
}

/* Common ingredients by the bucket, as they come. */
static void make_offer(struct plan_layer *offer, struct scenario *scenario)
{
    struct laid laid = {.amount = {scenario->bucket_m3, scenario->bucket_m3, scenario->bucket_m3},
                        .by = LAID_VOLUME, .vessel = PLAN_BUCKET, .vessel_m3 = scenario->bucket_m3};
    *offer = (struct plan_layer){0};
    for (size_t i = 0; i < sizeof COMMON / sizeof *COMMON; i++) {
        const struct stuff *stuff = stuff_find(COMMON[i]);
        int row = stuff ? row_of(scenario, stuff) : -1;
        if (row < 0)
            continue;
        struct plan_portion *portion = &offer->portion[offer->portions++];
        portion->stuff = row;
        laid_portion(&scenario->stuff[row], &laid, portion);
    }
}

static bool is_wrong(const struct mix *mix)
{
    for (int i = 0; i < AMEND_FAULTS; i++)
        if (mix->wrong[i])
            return true;
    return false;
}

static bool tell(const struct ask *ask, const struct mix *mix, const struct left *left,
                 const struct scenario *scenario, struct trouble *why)
{
    struct answer answer;
    struct recipe_tale tale = {mix, left, ask->draw, help_version};
    struct phrase_style style = answer_style(scenario);
    bool told = true;
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        told = recipe_json(answer.out, &tale, why);
    else
        recipe_text(answer.out, &tale, &style, ask->given[HELP_LONG]);
    return answer_end(&answer, ask, told, why);
}

static bool mix_scenario(const struct ask *ask, struct scenario *scenario, struct trouble *why)
{
    struct plan_layer offer;
    struct mix mix;
    make_offer(&offer, scenario);
    struct mix_ask question = {.scenario = scenario, .offer = &offer, .param = &ask->param,
                               .fixed = ask->fixed, .draw = (uint64_t)ask->draw,
                               .first = ask->first, .last = ask->last};
    struct left left;
    struct team_progress progress;
    struct crew crew = team_crew(ask, scenario, 0, NULL, NULL, &progress);
    bool done = mix_run(&mix, &question, why);
    bool follow = done && ask->first > 0 && is_wrong(&mix) && !scenario->found.is;
    done = done && (!follow || left_run(&left, &mix, scenario, crew, why));
    team_end(&progress);
    done = done && tell(ask, &mix, follow ? &left : NULL, scenario, why);
    mix_free(&mix);
    return done;
}

bool mixing_answer(const struct ask *ask, struct trouble *why)
{
    struct scenario *scenario = answer_scenario(ask, why);
    bool done = scenario && mix_scenario(ask, scenario, why);
    free(scenario);
    return done;
}
