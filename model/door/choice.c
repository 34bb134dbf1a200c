/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/choice.c - what the command line picks out of a scenario: a plan, a day, days to draw. */
#include "door/choice.h"
#include "base/near.h"
#include <stdlib.h>
#include <string.h>

int choice_named(const struct scenario *scenario, const char *name, struct trouble *why)
{
    const char *names[PLAN_PLANS];
    for (int i = 0; i < scenario->plans; i++) {
        names[i] = scenario->plan[i].name;
        if (strcmp(names[i], name) == 0)
            return i;
    }
    const char *nearest = near_name(name, names, scenario->plans);
    trouble_set(why, TROUBLE_USAGE, "the scenario has no plan '%.60s'; %s '%s'", name,
                nearest ? "did you mean" : "its first is", nearest ? nearest : names[0]);
    return -1;
}

int choice_plan(const struct ask *ask, const struct scenario *scenario, struct trouble *why)
{
    return ask->plan ? choice_named(scenario, ask->plan, why) : 0;
}

bool choice_built(const struct scenario *scenario, const char *file, struct trouble *why)
{
    return scenario->layers > 0 ||
           trouble_set(why, TROUBLE_NO, "%s: nothing is built yet; say under `build` what goes in, "
                       "from the bottom up", file);
}

/* --day as a number from 1 within the season; 0 when none was asked, -1 when it is outside. */
int choice_day(const struct ask *ask, const struct scenario *scenario, struct trouble *why)
{
    char first[DATE_TEXT], last[DATE_TEXT];
    int days = scenario->last_day + 1;
    if (!ask->given[HELP_DAY])
        return 0;
    date_count day = ask->dated ? ask->date - scenario->start + 1 : ask->day;
    if (day >= 1 && day <= days)
        return (int)day;
    date_write(scenario->start, first);
    date_write(scenario->start + scenario->last_day, last);
    trouble_set(why, TROUBLE_USAGE, "--day is outside the season, which is %s to %s, day 1 to %d",
                first, last, days);
    return -1;
}

/* Days whose cross-section is drawn: thick where a pile changes fast, and the day asked for in
 * place of the nearest. */
int choice_pictures(int picture_day[CHOICE_PICTURES], int asked, int days)
{
    static const int usual[CHOICE_PICTURES - 1] = {2, 5, 12, 30, 90};
    int count = 0, nearest = 0;
    for (int i = 0; i < CHOICE_PICTURES - 1 && usual[i] < days; i++)
        picture_day[count++] = usual[i];
    picture_day[count++] = days;
    for (int i = 1; i < count; i++)
        if (abs(picture_day[i] - asked) < abs(picture_day[nearest] - asked))
            nearest = i;
    if (asked > 0)
        picture_day[nearest] = asked;
    return count;
}
