/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/range.c - see tell/range.h. */
#include "tell/range.h"
#include "many/band.h"

struct span range_of(const struct tale *tale, double (*ask)(const struct record *, int, int), int a,
                     int b)
{
    for (int i = 0; i < tale->members; i++)
        tale->room[i] = ask(&tale->record[i], a, b);
    return band_of(tale->room, tale->members);
}

int range_count(const struct tale *tale, bool (*is)(const struct record *, int, int), int a, int b)
{
    int count = 0;
    for (int i = 0; i < tale->members; i++)
        count += is(&tale->record[i], a, b);
    return count;
}
