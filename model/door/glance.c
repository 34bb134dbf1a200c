/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/glance.c - see door/glance.h.
 *
 * A season is run only as far as it is asked of: made-up weather is made day by day from the draw,
 * so the days of a shorter season are those of the longer one.
 */
#include "door/glance.h"
#include "base/date.h"
#include "door/answer.h"
#include "door/choice.h"
#include "door/climate.h"
#include "door/team.h"
#include <stdlib.h>

bool glance_read(struct glance *glance, const struct ask *ask, int file, struct trouble *why)
{
    struct ask one = *ask;
    one.operand = ask->operands[file];
    *glance = (struct glance){.scenario = answer_scenario(&one, why)};
    if (!glance->scenario || (glance->plan = choice_plan(ask, glance->scenario, why)) < 0)
        return false;
    glance->last_day = glance->scenario->last_day;
    return choice_built(glance->scenario, one.operand, why);
}

bool glance_run(struct glance *glance, const struct ask *ask, int until, int part, int parts,
                const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct curve sky;
    const struct crew_done *done = &glance->done;
    glance->scenario->last_day = until;
    if (!climate_curve(&sky, glance->scenario, ask->draw, why))
        return false;
    bool good = team_run(&glance->done, ask, glance->scenario, glance->plan, &sky, part, parts, stop,
                         why);
    curve_free(&sky);
    if (!good || !able_of(&glance->able, done, why))
        return false;
    team_tell_failed(ask, done);
    return !done->defect ||
           trouble_set(why, TROUBLE_SOLVE, "%d of %d possible piles could not be computed; this is a "
                       "defect of the program", done->failures, done->members);
}

struct due_pile glance_pile(const struct glance *glance, const struct ask *ask)
{
    return (struct due_pile){.scenario = glance->scenario,
                             .plan = glance->plan,
                             .param = &ask->param,
                             .record = glance->able.record,
                             .members = glance->able.members,
                             .room = glance->able.room,
                             .last_day = glance->last_day};
}

void glance_free(struct glance *glance)
{
    crew_free(&glance->done);
    able_free(&glance->able);
    free(glance->scenario);
    *glance = (struct glance){0};
}

int glance_now(const struct glance *glance, const struct ask *ask, struct trouble *why)
{
    const struct scenario *scenario = glance->scenario;
    if (ask->given[HELP_DAY])
        return choice_day(ask, scenario, why) - 1;
    date_count day = scenario->last_reading ? scenario->last_reading - scenario->start : 0;
    if (day >= 0 && day <= glance->last_day)
        return (int)day;
    char last[DATE_TEXT], from[DATE_TEXT], to[DATE_TEXT];
    date_write(scenario->start + day, last);
    date_write(scenario->start, from);
    date_write(scenario->start + glance->last_day, to);
    trouble_set(why, TROUBLE_USAGE, "the last reading, of %s, is not within the season, %s to %s; say which day with "
                "--day", last, from, to);
    return -1;
}
