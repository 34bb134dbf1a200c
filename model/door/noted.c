/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/noted.c - see door/noted.h. */
#include "door/noted.h"

struct noted noted_none(void)
{
    return (struct noted){.hour = -1, .squeeze = -1};
}

void noted_inside(struct noted *noted, double depth_m, struct span temp_K)
{
    if (noted->insides == NOTED_INSIDE)
        return;
    noted->inside[noted->insides].depth_m = depth_m;
    noted->inside[noted->insides++].temp_K = temp_K;
}

int noted_readings(const struct noted *noted)
{
    return (noted->middle_K.mid > 0) + (noted->air_K.mid > 0) + (noted->height_m.mid > 0)
           + noted->insides + (noted->squeeze >= 0);
}

static void keep(struct scenario *scenario, struct plan_reading reading, struct span span)
{
    reading.value = span.mid;
    reading.spread = 0.5 * (span.high - span.low);
    scenario->reading[scenario->readings++] = reading;
}

bool noted_keep(const struct noted *noted, struct scenario *scenario)
{
    int hour = noted->hour >= 0 ? noted->hour : NOTED_USUAL_HOUR;
    struct plan_reading at = {.day = (double)(noted->day - scenario->start) + hour / 24.0};
    if (scenario->readings + noted_readings(noted) > PLAN_READINGS)
        return false;
    scenario->notes++;
    if (noted->day > scenario->last_reading)
        scenario->last_reading = noted->day;
    if (noted->middle_K.mid > 0) {
        at.what = PLAN_READ_MIDDLE;
        keep(scenario, at, noted->middle_K);
    }
    for (int i = 0; i < noted->insides; i++) {
        at.what = PLAN_READ_INSIDE;
        at.depth_m = noted->inside[i].depth_m;
        keep(scenario, at, noted->inside[i].temp_K);
    }
    at.depth_m = 0;
    if (noted->air_K.mid > 0) {
        at.what = PLAN_READ_AIR;
        keep(scenario, at, noted->air_K);
    }
    if (noted->height_m.mid > 0) {
        at.what = PLAN_READ_HEIGHT;
        keep(scenario, at, noted->height_m);
    }
    if (noted->squeeze >= 0) {
        at.what = PLAN_READ_SQUEEZE;
        at.squeeze = (enum plan_squeeze)noted->squeeze;
        keep(scenario, at, (struct span){0, 0, 0});
    }
    return true;
}
