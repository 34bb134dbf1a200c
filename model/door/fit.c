/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/fit.c - see door/fit.h. While learning a season is run only up to the last reading. */
#include "door/fit.h"
#include "door/climate.h"
#include "door/team.h"
#include <stdio.h>

int fit_readings(const struct scenario *scenario, int until)
{
    int count = 0;
    for (int i = 0; i < scenario->readings; i++)
        count += scenario->reading[i].what != PLAN_READ_AIR && scenario->reading[i].day < until + 1;
    return count;
}

/* "midden: learning, 240 short seasons so far" */
static void told(void *listener, int done, int of)
{
    int *seasons = listener;
    if (done < of)
        return;
    *seasons += done;
    fprintf(stderr, "\rmidden: learning, %d short seasons so far   ", *seasons);
}

bool fit_learn(struct posterior *posterior, struct learnt *learnt, const struct ask *ask,
               struct scenario *scenario, int plan, int until, const volatile sig_atomic_t *stop,
               struct trouble *why)
{
    struct team_progress progress;
    struct curve sky;
    int seasons = 0, last_day = scenario->last_day;
    *posterior = (struct posterior){.members = 0};
    if (ask->last > FIT_MEMBERS_MOST)
        return trouble_set(why, TROUBLE_USAGE, "learning from readings takes %d possible piles at most; more of "
                           "them don't make your readings say more", (int)FIT_MEMBERS_MOST);
    scenario->last_day = until;
    bool good = climate_curve(&sky, scenario, ask->draw, why);
    if (good) {
        struct crew crew = team_crew(ask, scenario, plan, &sky, stop, &progress);
        if (crew.told) {
            crew.told = told;
            crew.listener = &seasons;
        }
        good = posterior_learn(posterior, &crew, why);
        if (seasons > 0)
            fputs("\r\033[K", stderr);
        good = good && (!learnt || learn_tell(learnt, posterior, &crew, why));
        curve_free(&sky);
    }
    scenario->last_day = last_day;
    return good;
}
