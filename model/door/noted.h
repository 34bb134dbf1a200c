/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/noted.h - what somebody wrote down on one visit, as single readings of a scenario. */
#ifndef DOOR_NOTED_H
#define DOOR_NOTED_H
#include "run/plan.h"

enum { NOTED_INSIDE = 12, NOTED_USUAL_HOUR = 10 };

/* Temperatures in K, heights in m; a mid of 0 is a reading that wasn't taken. */
struct noted {
    date_count day;
    int hour;           /* 0 to 23; -1 = not said: ten, before anything is done */
    struct span middle_K, air_K, height_m;
    int insides;
    struct {
        double depth_m; /* from the nearest side, at half the height */
        struct span temp_K;
    } inside[NOTED_INSIDE];
    int squeeze;        /* enum plan_squeeze; -1 = none */
};

/* A visit on which nothing was noted yet. */
struct noted noted_none(void);
void noted_inside(struct noted *noted, double depth_m, struct span temp_K);
/* How many readings it holds. */
int noted_readings(const struct noted *noted);
/* Adds them to the scenario's. False, and nothing added, when there is no room for so many. */
bool noted_keep(const struct noted *noted, struct scenario *scenario);
#endif
