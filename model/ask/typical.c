/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/typical.c - see ask/typical.h. */
#include "ask/typical.h"
#include "many/band.h"
#include <stdlib.h>

static const size_t medians[] = {
    offsetof(struct record_day, air_K),          offsetof(struct record_day, middle_K),
    offsetof(struct record_day, deep_30cm_K),    offsetof(struct record_day, hand_deep_K),
    offsetof(struct record_day, water_share),    offsetof(struct record_day, free_air_share),
    offsetof(struct record_day, oxygen_lowest_share), offsetof(struct record_day, height_m),
    offsetof(struct record_day, volume_m3),
};

static double *number(struct record_day *day, size_t offset)
{
    return (double *)(void *)((char *)day + offset);
}

static void fill_day(struct record_day *day, const struct record *record, int members, int row,
                     double *room)
{
    for (size_t i = 0; i < sizeof medians / sizeof *medians; i++) {
        for (int m = 0; m < members; m++)
            room[m] = *number(&record[m].day[row], medians[i]);
        *number(day, medians[i]) = band_of(room, members).mid;
    }
    for (int f = 0; f < FLUXES; f++) {
        day->flux[f] = 0.0;
        for (int m = 0; m < members; m++)
            day->flux[f] += record[m].day[row].flux[f] / members;
    }
}

bool typical_of(struct record *typical, const struct record *record, int members,
                const struct record *central, double *room, struct trouble *why)
{
    int days = central->days;
    for (int m = 0; m < members; m++)
        days = record[m].days < days ? record[m].days : days;
    *typical = (struct record){.days = days, .events = central->events, .event = central->event,
                               .day = calloc((size_t)days + 1, sizeof *typical->day)};
    if (!typical->day)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a season to draw");
    for (int i = 0; i < days; i++) {
        typical->day[i].first_event = central->day[i].first_event;
        typical->day[i].events = central->day[i].events;
        fill_day(&typical->day[i], record, members, i, room);
    }
    return true;
}

void typical_free(struct record *typical)
{
    free(typical->day);
    typical->day = NULL;
}
