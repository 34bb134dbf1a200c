/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/able.c - see many/able.h. */
#include "many/able.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>

bool able_of(struct able *able, const struct crew_done *done, struct trouble *why)
{
    size_t most = (size_t)done->members;
    *able = (struct able){.record = calloc(most, sizeof *able->record),
                          .failed = calloc(most, sizeof *able->failed),
                          .room = calloc(most, sizeof *able->room)};
    if (!able->record || !able->failed || !able->room)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    for (int i = 0; i < done->members; i++)
        if (done->failed[i])
            able->failed[able->failures++] = done->first + i;
        else
            able->record[able->members++] = done->record[i];
    return true;
}

void able_free(struct able *able)
{
    free(able->record);
    free(able->failed);
    free(able->room);
    *able = (struct able){0};
}

struct span able_span(const struct able *able, double (*of)(const struct record_day *), int day)
{
    for (int i = 0; i < able->members; i++)
        able->room[i] = of(&able->record[i].day[day]);
    return band_of(able->room, able->members);
}

static double middle_of(const struct record_day *row) { return row->middle_K; }
static double air_of(const struct record_day *row) { return row->air_K; }

struct span *able_middle_K(const struct able *able, int days)
{
    struct span *range = calloc((size_t)days, sizeof *range);
    for (int d = 0; range && d < days; d++)
        range[d] = able_span(able, middle_of, d);
    return range;
}

int able_furthest(const struct able *able, int days)
{
    int furthest = 0;
    double most_K = -INFINITY;
    for (int d = 0; d < days; d++) {
        double above_K = able_span(able, middle_of, d).mid - able_span(able, air_of, d).mid;
        if (above_K > most_K) {
            most_K = above_K;
            furthest = d;
        }
    }
    return furthest;
}
