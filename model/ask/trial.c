/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/trial.c - see ask/trial.h. */
#include "ask/trial.h"
#include "ask/asked.h"
#include "many/band.h"
#include <math.h>

enum { COLD_FROM = 10, AFTER_COLD = 60 };

/* ---- numbers of one pile ---- */

int trial_coldest(const struct record *record)
{
    int coldest = record->days > COLD_FROM ? COLD_FROM : record->days - 1;
    for (int i = coldest + 1; i < record->days; i++)
        if (record->day[i].air_K < record->day[coldest].air_K)
            coldest = i;
    return coldest;
}

/* Dry matter used up since the pile was built or found, where nothing was added. What went on day 1
 * isn't recorded: it is to the rest as the carbon breathed out is. */
static double used_kg(const struct record *record)
{
    double rest_kg = record->day[0].dry_kg - record->day[record->days - 1].dry_kg;
    double all = record->flux_total[FLUX_co2_carbon], first = record->day[0].flux[FLUX_co2_carbon];
    return rest_kg * (1 + first / (all - first));
}

static double start_kg(const struct record *record)
{
    return record->day[record->days - 1].dry_kg + used_kg(record);
}

static double most_after(const struct record *record, int day)
{
    double most = -INFINITY;
    for (int i = day + 1; i < record->days && i <= day + AFTER_COLD; i++)
        most = fmax(most, record->day[i].heat_made_W);
    return isinf(most) ? NAN : most;
}

static double least_oxygen(const struct record *record)
{
    double least = INFINITY;
    for (int i = 0; i < record->days; i++)
        least = fmin(least, record->day[i].oxygen_lowest_share);
    return least;
}

/* The warmest day of the ten after a turn, from 0. */
static int warmest_after(const struct record *record, int day)
{
    int warmest = day + 1 < record->days ? day + 1 : day;
    for (int i = warmest + 1; i < record->days && i <= day + TRIAL_AFTER_TURN; i++)
        if (record->day[i].middle_K > record->day[warmest].middle_K)
            warmest = i;
    return warmest;
}

static double dried_kg(const struct record *record)
{
    return -(record->flux_total[FLUX_air_water] + record->flux_total[FLUX_vapour_water]
             + record->flux_total[FLUX_turn_water]);
}

static double of_season(const struct record *record, enum trial_thing thing, int day)
{
    switch (thing) {
    case TRIAL_USED_KG:
        return used_kg(record);
    case TRIAL_HEAT_PER_KG:
        return record->flux_total[FLUX_decay_heat] / used_kg(record);
    case TRIAL_DRIED_PER_KG:
        return dried_kg(record) / used_kg(record);
    case TRIAL_PEAK_K:
        return asked_heat(record, ASKED_PEAK_K, 0);
    case TRIAL_WARM_DAYS:
        return asked_heat(record, ASKED_WARM_DAYS, 0);
    case TRIAL_USED_SHARE:
        return used_kg(record) / start_kg(record);
    case TRIAL_OXYGEN_LEAST:
        return least_oxygen(record);
    case TRIAL_OVER_55:
        return asked_most(record, ASKED_MOST_OVER_55, 0);
    case TRIAL_COLD_DAY:
        return trial_coldest(record);
    case TRIAL_COLD_AIR_K:
        return record->day[trial_coldest(record)].air_K;
    case TRIAL_COLD_MIDDLE_K:
        return record->day[trial_coldest(record)].middle_K;
    case TRIAL_COLD_HAND_K:
        return record->day[trial_coldest(record)].hand_deep_K;
    case TRIAL_COLD_MADE_W:
        return record->day[trial_coldest(record)].heat_made_W;
    case TRIAL_LATER_MADE_W:
        return most_after(record, trial_coldest(record));
    case TRIAL_TURN_LOW_K:
        return fmin(record->day[day].middle_K,
                    record->day[day + (day + 1 < record->days)].middle_K);
    case TRIAL_TURN_TOP_K:
        return record->day[warmest_after(record, day)].middle_K;
    case TRIAL_TURN_TOP_AFTER:
        return warmest_after(record, day) - day;
    default:
        return NAN;
    }
}

double trial_number(const struct record *record, enum trial_thing thing, int at)
{
    const struct record_day *day = &record->day[at];
    switch (thing) {
    case TRIAL_DRY_KG:
        return day->dry_kg;
    case TRIAL_QUICK_KG:
        return day->pool_kg[0] + day->pool_kg[1] + day->pool_kg[2] - day->enclosed_kg;
    case TRIAL_WATER_KG:
        return day->wet_kg - day->dry_kg;
    case TRIAL_FREE_AIR:
        return day->free_air_share;
    case TRIAL_WATER_SHARE:
        return day->water_share;
    case TRIAL_MIDDLE_K:
        return day->middle_K;
    case TRIAL_DEEP_30CM_K:
        return day->deep_30cm_K;
    case TRIAL_HAND_DEEP_K:
        return day->hand_deep_K;
    case TRIAL_AIR_K:
        return day->air_K;
    case TRIAL_OXYGEN:
        return day->oxygen_lowest_share;
    case TRIAL_MADE_W:
        return day->heat_made_W;
    default:
        return of_season(record, thing, at);
    }
}

struct span trial_span(const struct trial *run, enum trial_thing thing, int day, double *room)
{
    for (int m = 0; m < run->able.members; m++)
        room[m] = trial_number(&run->able.record[m], thing, day);
    return band_of(room, run->able.members);
}

/* ---- two or three runs of the same pile ---- */

/* The same pile in both, NULL where one of them failed. */
static const struct record *both(const struct trial *a, const struct trial *b, int member,
                                 const struct record **other)
{
    if (a->done.failed[member] || b->done.failed[member])
        return NULL;
    *other = &b->done.record[member];
    return &a->done.record[member];
}

/* Of how many piles is it more in a than in b, by more than so much? */
int trial_more(const struct trial *a, enum trial_thing in_a, int day_a, const struct trial *b,
               enum trial_thing in_b, int day_b, double more, int *pairs)
{
    int count = 0;
    *pairs = 0;
    for (int m = 0; m < a->done.members; m++) {
        const struct record *other, *one = both(a, b, m, &other);
        if (!one)
            continue;
        ++*pairs;
        count += trial_number(one, in_a, day_a) - trial_number(other, in_b, day_b) >= more;
    }
    return count;
}

struct span trial_gain_cold(const struct trial *a, const struct trial *b, enum trial_thing thing,
                            double *room)
{
    int pairs = 0;
    for (int m = 0; m < a->done.members; m++) {
        const struct record *other, *one = both(a, b, m, &other);
        if (!one)
            continue;
        int day = trial_coldest(other);
        room[pairs++] = trial_number(one, thing, day) - trial_number(other, thing, day);
    }
    return band_of(room, pairs);
}
