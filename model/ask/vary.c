/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/vary.c - see ask/vary.h. */
#include "ask/vary.h"
#include "know/skies.h"
#include <math.h>

enum { MID_MONTH = 15, MONTHS = 12, JULY = 6, LAST_WINTER = 2199 }; /* base/date ends with 2200 */

void vary_alone(struct scenario *varied, int plan, int last_day)
{
    varied->plan[plan].events = 0;
    if (last_day < varied->last_day)
        varied->last_day = last_day;
}

void vary_scale(struct span *span, double times)
{
    *span = (struct span){times * span->low, times * span->mid, times * span->high};
}

static void scale_layer(struct plan_layer *layer, double times)
{
    for (int i = 0; i < layer->portions; i++) {
        vary_scale(&layer->portion[i].wet_kg, times);
        vary_scale(&layer->portion[i].volume_m3, times);
    }
    vary_scale(&layer->water_kg, times);
}

static void scale_all(struct scenario *varied, double times)
{
    for (int l = 0; l < varied->layers; l++)
        scale_layer(&varied->layer[l], times);
    for (int p = 0; p < varied->plans; p++)
        for (int e = 0; e < varied->plan[p].events; e++) {
            vary_scale(&varied->plan[p].event[e].water_kg, times);
            scale_layer(&varied->plan[p].event[e].add, times);
        }
}

void vary_cube(struct scenario *varied, double side_m, double built_m3)
{
    for (int b = 0; b < varied->bays; b++) {
        struct plan_bay *bay = &varied->bay[b];
        bay->shape = PLAN_BIN;
        bay->length_m = bay->width_m = bay->height_m = side_m;
    }
    scale_all(varied, side_m * side_m * side_m / built_m3);
}

/* A heap or a windrow grows with its base; both sides of a bin grow alike. */
void vary_size(struct scenario *varied, double ground, double amounts)
{
    for (int b = 0; b < varied->bays; b++) {
        struct plan_bay *bay = &varied->bay[b];
        bay->width_m *= sqrt(ground);
        if (bay->shape != PLAN_HEAP)
            bay->length_m *= sqrt(ground);
    }
    scale_all(varied, amounts);
}

/* What a bucket holds of dry matter stays: water fills pores. */
static void wet_portion(struct plan_portion *portion, double water_share)
{
    double times = (1 - portion->water_share.mid) / (1 - water_share);
    vary_scale(&portion->wet_kg, times);
    vary_scale(&portion->bulk_kg_per_m3, times);
    portion->water_share = (struct span){water_share, water_share, water_share};
    portion->felt = false;
}

void vary_wet(struct scenario *varied, double water_share)
{
    for (int l = 0; l < varied->layers; l++) {
        struct plan_layer *layer = &varied->layer[l];
        for (int i = 0; i < layer->portions; i++)
            wet_portion(&layer->portion[i], water_share);
        layer->water_kg = (struct span){0, 0, 0};
    }
}

struct plan_event *vary_event(struct plan *plan, enum plan_deed deed, int day)
{
    if (plan->events == PLAN_EVENTS)
        return NULL;
    struct plan_event *event = &plan->event[plan->events++];
    *event = (struct plan_event){.deed = deed,
                                 .when = PLAN_ON_DAY,
                                 .day = day,
                                 .until = day,
                                 .rule_squeeze = -1,
                                 .cover = -1,
                                 .into = PLAN_SAME_BAY};
    return event;
}

bool vary_turn(struct plan *plan, int day, enum plan_way way, int into)
{
    struct plan_event *event = vary_event(plan, PLAN_TURN, day);
    if (event) {
        event->way = way;
        event->into = into;
    }
    return event != NULL;
}

bool vary_cover(struct plan *plan, int day, int cover, double thick_m)
{
    struct plan_event *event = vary_event(plan, PLAN_COVER, day);
    if (event) {
        event->cover = cover;
        event->cover_m = thick_m;
    }
    return event != NULL;
}

/* From 0, by the mean of the nights' lows and the days' highs. Shipped skies are of the north. */
static int coldest_month(const struct scenario *scenario)
{
    int coldest = 0;
    double least = INFINITY;
    for (int month = 0; month < MONTHS; month++) {
        const struct skies *sky = &skies_rows[scenario->sky_row];
        double sum = scenario->sky == PLAN_SKY_NAMED
                         ? sky->low_C[month] + sky->high_C[month]
                         : scenario->normals[0][month] + scenario->normals[1][month];
        if (sum < least) {
            least = sum;
            coldest = month;
        }
    }
    bool mirrored = scenario->sky == PLAN_SKY_NAMED && scenario->place.latitude_rad < 0;
    return mirrored ? (coldest + JULY) % MONTHS : coldest;
}

bool vary_winter(struct scenario *varied, int day)
{
    if (varied->sky == PLAN_SKY_FILE)
        return false;
    struct date start = date_of(varied->start);
    struct date middle = {start.year, coldest_month(varied) + 1, MID_MONTH};
    if (date_number(middle) - day < varied->start)
        middle.year++;
    if (middle.year > LAST_WINTER)
        return false;
    varied->start = date_number(middle) - day;
    return true;
}

double vary_cube_surface(double side_m)
{
    return 6 / side_m;
}
