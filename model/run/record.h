/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/record.h - what a season leaves behind for those who tell of it. */
#ifndef RUN_RECORD_H
#define RUN_RECORD_H
#include "base/trouble.h"
#include "know/rules.h"
#include "pile/flux.h"
#include "run/plan.h"

/* Where and by what decay is held back: deeper than 30 cm (in a small pile the innermost third),
 * between, within 15 cm of a surface. */
enum record_place { RECORD_CORE, RECORD_SHOULDER, RECORD_RIM, RECORD_PLACES };
enum record_limit { RECORD_TEMPERATURE, RECORD_WATER, RECORD_OXYGEN, RECORD_NITROGEN, RECORD_FOOD,
                    RECORD_LIMITS };

/* one local day, 00:00 to 24:00; temperatures are means of the day, the rest at its end */
struct record_day {
    double air_K, middle_K, deep_30cm_K, hand_deep_K, mean_K, hottest_K, coldest_tenth_K;
    double water_share, free_air_share, oxygen_lowest_share, starved_share;
    double height_m, volume_m3, wet_kg, dry_kg, laid_kg, carbon_kg, nitrogen_kg, heat_made_W;
    double core_water_share, rim_water_share;   /* deeper than 30 cm, in a small pile the innermost
                                                 * third; within 15 cm of a surface */
    double oxygen_base_share, oxygen_crest_share; /* lowest and highest row, moist gas */
    double test_breath_per_s;                   /* carbon breathed out per organic matter in the test
                                                 * state: 30 C, 55 % water, air; kg/(kg s) */
    double flask_rise_K;                        /* of a sample in the self-heating test */
    double sticks_share;                        /* of dry mass: still to be told as leaf, stalk, stick */
    double limit[RECORD_PLACES][RECORD_LIMITS]; /* decay now over decay with that one at its best:
                                                 * 1 = doesn't hold back; NAN = no such place */
    double met_share[RULES];                    /* of the dry mass as laid: has had the dose of each
                                                 * rule, whatever turns it asks for */
    double over_45C_share, over_55C_share;      /* of dry mass, at the day's end */
    double pool_kg[6];                          /* fast, protein and fat, slow, lignin, microbes, humus and ash */
    double enclosed_kg;                         /* of slow: what goes as slowly as the lignin about it */
    double flux[FLUXES];                        /* of the day: J, kg, or seeds */
    int first_event, events;                    /* rows of record.event */
    int steps, refused;
};

enum { RECORD_HOURS = 24 };
/* one local hour of the day whose hours were asked for; temperatures are means, NAN before the pile
 * was built */
struct record_hour {
    double seen_s;              /* of it: all, or none before the pile was built */
    double air_K, middle_K, deep_30cm_K, hand_deep_K, mean_K;
    double flux[FLUXES];        /* of the hour: J, kg, or seeds */
};

struct record_event {
    int day;
    enum plan_deed deed;
    enum plan_way way;
    int into;                   /* bay, -1 = where it is */
    double water_kg, person_s, lifted_kg, picked_out_kg, added_kg;
    double middle_K;            /* just before it */
};

/* one cell of a cross-section, as a rectangle seen from the side */
struct record_cell {
    float inner_m, outer_m, bottom_m, top_m;
    float temp_K, water_share, oxygen_share, free_air_share;
};

struct record_picture {
    int day;                    /* at the end of this day */
    int cells;
    struct record_cell *cell;
    bool mirror;                /* the axis is at inner_m = 0 */
};

enum { RECORD_BALANCES = 5 };   /* carbon, nitrogen, water, energy, seeds */

struct record {
    bool lent;                  /* days and events are another's memory: a shard's */
    int days;
    struct record_day *day;     /* [days], day[0] is day 1 */
    int events;
    struct record_event *event;
    struct record_hour *hour;   /* [RECORD_HOURS] of the day asked for; NULL = none was */
    int pictures;
    struct record_picture *picture;
    double *seen;               /* [scenario.readings] what was there at a reading's place and moment: K,
                                 * share of water, m; NAN = not within the season. NULL from a shard */
    double balance[RECORD_BALANCES];    /* worst |in - out - change| / throughput */
    double respiration_gap;             /* quadrature of CO2 against the closed form, relative */
    double flux_total[FLUXES];
    double seeds_laid[3], seeds_alive[3]; /* easy, moderate, hard: put in, and left at the end */
    double germs_laid[2], germs_alive[2]; /* gut bacteria, worm eggs: one per kg wet manure put in */
    double pool_laid_kg[4];     /* dry mass put in: fast, protein and fat, slow, lignin */
    double stuff_left_share[PLAN_STUFF];/* dry mass left of each ingredient, of what was laid */
    double person_s, lifted_kg, water_l;
    int turns;
    double ignition_day;                /* middle first passes 40 C; NAN = never */
};

/* Writes names of the balances in the order above. */
extern const char *const record_balance_name[RECORD_BALANCES];
void record_free(struct record *record);
#endif
