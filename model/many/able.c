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

static struct span middle_K(const struct able *able, int day)
{
    for (int i = 0; i < able->members; i++)
        able->room[i] = able->record[i].day[day].middle_K;
    return band_of(able->room, able->members);
}

static struct span air_K(const struct able *able, int day)
{
    for (int i = 0; i < able->members; i++)
        able->room[i] = able->record[i].day[day].air_K;
    return band_of(able->room, able->members);
}

struct span *able_middle_K(const struct able *able, int days)
{
    struct span *range = calloc((size_t)days, sizeof *range);
    for (int d = 0; range && d < days; d++)
        range[d] = middle_K(able, d);
    return range;
}

int able_furthest(const struct able *able, int days)
{
    int furthest = 0;
    double most_K = -INFINITY;
    for (int d = 0; d < days; d++) {
        double above_K = middle_K(able, d).mid - air_K(able, d).mid;
        if (above_K > most_K) {
            most_K = above_K;
            furthest = d;
        }
    }
    return furthest;
}
