/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/budget.c - see ask/budget.h. */
#include "ask/budget.h"
#include "many/band.h"
#include "run/setting.h"
#include <math.h>
#include <string.h>

const char *const budget_name[BUDGET_LINES] = {"decay",  "vapour",      "air",            "walls",
                                               "top",    "ground",      "sun_and_sky",    "rain_and_water",
                                               "added",  "stored"};
static const double HOUR_S = 3600, ICE_POINT_K = 273.15;

double budget_latent(double temp_K)
{
    return 2.501e6 - 2361 * (temp_K - ICE_POINT_K);
}

static int line_of(const char *group)
{
    int line = 0;
    while (line < BUDGET_STORED && strcmp(budget_name[line], group) != 0)
        line++;
    return line;
}

struct budget budget_of(const double flux[FLUXES], double time_s, double mean_K)
{
    static const enum flux vapour[] = {FLUX_air_water, FLUX_vapour_water, FLUX_turn_water};
    struct budget b = {.dried_kg_per_s = 0};
    for (int k = 0; k < FLUXES; k++) {
        int line = line_of(flux_rows[k].group);
        if (flux_rows[k].of == FLUX_OF_ENERGY && line < BUDGET_STORED)
            b.line_W[line] += flux[k] / time_s;
    }
    for (int i = 0; i < BUDGET_STORED; i++)
        b.line_W[BUDGET_STORED] += b.line_W[i];
    for (size_t i = 0; i < sizeof vapour / sizeof *vapour; i++)
        b.dried_kg_per_s -= flux[vapour[i]] / time_s;
    b.steam_W = b.dried_kg_per_s * budget_latent(mean_K);
    return b;
}

struct budget budget_day(const struct record *record, int day)
{
    const struct record_day *row = &record->day[day];
    return budget_of(row->flux, SETTING_DAY_S - (day == 0 ? SETTING_DEED_S : 0), row->mean_K);
}

struct budget budget_hour(const struct record *record, int hour)
{
    const struct record_hour *row = &record->hour[hour];
    return budget_of(row->flux, row->seen_s > 0 ? HOUR_S : NAN, row->mean_K);
}

struct budget budget_at(const struct record *record, int day, int hour)
{
    return hour < 0 ? budget_day(record, day) : budget_hour(record, hour);
}

double budget_way_W(const struct budget *b, enum budget_way way)
{
    const double *line = b->line_W;
    switch (way) {
    case BUDGET_STEAM_AND_AIR: return -(line[BUDGET_AIR] + line[BUDGET_VAPOUR]);
    case BUDGET_BY_WALLS: return -line[BUDGET_WALLS];
    case BUDGET_BY_TOP: return -(line[BUDGET_TOP] + line[BUDGET_SUN_AND_SKY]);
    case BUDGET_BY_GROUND: return -line[BUDGET_GROUND];
    default: return -line[BUDGET_RAIN_AND_WATER];
    }
}

/* what is asked of a budget: its lines, then the ways, then water and steam */
enum { WAY = BUDGET_LINES, DRIED = WAY + BUDGET_WAYS, STEAM, THINGS };

static double thing_of(const struct budget *b, int thing)
{
    if (thing < WAY)
        return b->line_W[thing];
    if (thing < DRIED)
        return budget_way_W(b, (enum budget_way)(thing - WAY));
    return thing == DRIED ? b->dried_kg_per_s : b->steam_W;
}

struct budget_range budget_range_of(const struct record *record, int members, int day, int hour,
                                    double *room)
{
    struct budget_range range;
    for (int thing = 0; thing < THINGS; thing++) {
        double sum = 0;
        for (int m = 0; m < members; m++) {
            struct budget b = budget_at(&record[m], day, hour);
            room[m] = thing_of(&b, thing);
            sum += room[m];
        }
        struct span said = band_of(room, members);
        said.mid = sum / members;
        if (thing < WAY)
            range.line_W[thing] = said;
        else if (thing < DRIED)
            range.way_W[thing - WAY] = said;
        else
            *(thing == DRIED ? &range.dried_kg_per_s : &range.steam_W) = said;
    }
    return range;
}

int budget_most(const struct budget_range *range)
{
    int most = -1;
    for (int way = 0; way < BUDGET_WAYS; way++)
        if (range->way_W[way].mid > (most < 0 ? 0 : range->way_W[most].mid))
            most = way;
    return most;
}
