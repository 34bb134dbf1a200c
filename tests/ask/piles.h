/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/piles.h - a pile of a scenario in a few lines, with seasons made up for its possible piles.
 *
 * Nothing about compost is tested with it.
 */
#ifndef ASK_PILES_H
#define ASK_PILES_H
#include "ask/due.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

enum { PILES_MEMBERS = 5, PILES_DAYS = 60, PILES_EVENTS = 40 };

struct piles {
    struct scenario scenario;
    struct param param;
    struct record record[PILES_MEMBERS];
    struct record_day day[PILES_MEMBERS][PILES_DAYS];
    struct record_event event[PILES_MEMBERS][PILES_EVENTS];
    double room[PILES_MEMBERS];
    struct due_pile pile;
};

/* 18 October 2025 is a Saturday [derived: 11 days after Tuesday 7 October; any almanac] */
#define PILES_HEAD                                                                                  \
    "midden: 1\nname: Sorrel Bank\nstart: 2025-10-18\nplace: {latitude: 47.2 N, elevation: 430 m}\n" \
    "sky: cold winters\nmeasures: {bucket: 12 L, bag: 110 L}\n"                                     \
    "people: {helpers: 2 to 4, days: Saturday, away: 2025-11-08, visit: 90 min,\n"                  \
    "         heaviest load: 12 kg}\n"                                                              \
    "bins:\n  bay 1: {size: 1.2 x 1.2 x 1 m}\n  bay 2: {like: bay 1, now: empty}\n"                 \
    "  bay 3: {like: bay 1, now: empty}\n"
#define PILES_BUILD                                                                                 \
    "build:\n  - repeat: 4\n    layers:\n      - mixed leaves: 2 bags pressed\n"                    \
    "        grass clippings: 7 buckets\n        water: 1 bucket\n"

/* The middle of member m on day d is 20 + m C on every day, d / 2 more for each that has passed. */
static inline double piles_middle_K(int member, int day)
{
    return 293.15 + member + 0.5 * day;
}

/* A pile, its seasons without events. free() it. */
static inline struct piles *piles_new(const char *text, int plan)
{
    struct piles *p = calloc(1, sizeof *p);
    struct trouble why = {0};
    assert_non_null(p);
    if (!scenario_read_text(&p->scenario, text, strlen(text), "test.yaml", &why))
        fail_msg("%s", why.text);
    p->param = param_usual();
    for (int m = 0; m < PILES_MEMBERS; m++) {
        p->record[m] = (struct record){.days = PILES_DAYS, .day = p->day[m], .event = p->event[m]};
        for (int d = 0; d < PILES_DAYS; d++)
            p->day[m][d] = (struct record_day){.middle_K = piles_middle_K(m, d), .air_K = 283.15,
                                               .deep_30cm_K = 290, .hand_deep_K = 285,
                                               .hottest_K = 300, .height_m = 0.9};
    }
    p->pile = (struct due_pile){.scenario = &p->scenario, .plan = plan, .param = &p->param,
                                .record = p->record, .members = PILES_MEMBERS, .room = p->room,
                                .last_day = PILES_DAYS - 1};
    return p;
}

/* A member does something on a day from 0; deeds of one member come in the order of their days. */
static inline void piles_do(struct piles *p, int member, int day, struct record_event event)
{
    struct record *record = &p->record[member];
    event.day = day + 1;
    if (record->day[day].events++ == 0)
        record->day[day].first_event = record->events;
    record->event[record->events++] = event;
}
#endif
