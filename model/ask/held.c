/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/held.c - see ask/held.h. */
#include "ask/held.h"
#include "many/band.h"
#include <math.h>

/* The heat-loving bacteria's best, as in know/param's usual value; warmer than this a pile is hot
 * rather than cold. */
static const double BEST_K = 331.15;

/* Where somebody would probe a place: its day's mean. */
static double temp_at(const struct record_day *row, enum record_place place)
{
    return place == RECORD_CORE ? row->middle_K
           : place == RECORD_SHOULDER ? row->deep_30cm_K
                                      : row->hand_deep_K;
}

struct span held_range(const struct record *record, int members, int day, enum record_place place,
                       enum record_limit what, double *room)
{
    int count = 0;
    for (int m = 0; m < members; m++) {
        double factor = record[m].day[day].limit[place][what];
        if (!isnan(factor))
            room[count++] = factor;
    }
    return band_of(room, count);
}

int held_rank_of(struct held rank[RECORD_LIMITS], const struct record *record, int members, int day,
                 enum record_place place, double *room)
{
    int count = 0;
    for (int m = 0; m < members; m++)
        room[m] = temp_at(&record[m].day[day], place);
    bool hot = band_of(room, members).mid > BEST_K;
    for (int k = 0; k < RECORD_LIMITS; k++) {
        struct held held = {.what = (enum record_limit)k, .too_hot = hot && k == RECORD_TEMPERATURE};
        held.factor = held_range(record, members, day, place, held.what, room).mid;
        if (isnan(held.factor))
            continue;
        int at = count++;
        for (; at > 0 && rank[at - 1].factor > held.factor; at--)
            rank[at] = rank[at - 1];
        rank[at] = held;
    }
    return count;
}

int held_rank(struct held rank[RECORD_LIMITS], const struct record *record, int day,
              enum record_place place)
{
    double room[1];
    return held_rank_of(rank, record, 1, day, place, room);
}
