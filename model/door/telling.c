/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/telling.c - see door/telling.h. */
#include "door/telling.h"
#include "door/answer.h"
#include "door/team.h"
#include "many/able.h"
#include "tell/csv.h"
#include "tell/json.h"
#include "tell/text.h"

bool telling_tale(const struct ask *ask, const struct tale *tale, struct trouble *why)
{
    struct answer answer;
    bool told = true;
    struct phrase_style style = answer_style(tale->scenario);
    if (!answer_begin(&answer, why))
        return false;
    if (ask->given[HELP_JSON])
        told = json_season(answer.out, tale, why);
    else if (ask->given[HELP_CSV])
        csv_season(answer.out, tale);
    else
        told = text_season(answer.out, tale, &style, ask->given[HELP_LONG], why);
    return answer_end(&answer, ask, told, why);
}

bool telling_many(const struct ask *ask, struct tale *tale, const struct crew_done *done,
                  struct trouble *why)
{
    struct able able;
    bool good = able_of(&able, done, why);
    if (good) {
        team_tell_failed(ask, done);
        tale->record = able.record;
        tale->members = able.members;
        tale->failed = able.failed;
        tale->failures = able.failures;
        tale->room = able.room;
        good = telling_tale(ask, tale, why);
    }
    if (good && done->defect)
        good = trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed and "
                           "are not in the answer; this is a defect of the program", done->failures,
                           done->members);
    able_free(&able);
    return good;
}
