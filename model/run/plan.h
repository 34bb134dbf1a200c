/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/plan.h - a pile as its keeper describes it: place, bins, layers, and what is done to it when.
 *
 * Filled by door/scenario, read by run/season. SI units; spans where the keeper gave one or where
 * the table of ingredients has one. Times are days since 00:00 of the start date, local solar time.
 */
#ifndef RUN_PLAN_H
#define RUN_PLAN_H
#include "base/date.h"
#include "know/stuff.h"
#include <stdbool.h>
#include <stddef.h>

enum { PLAN_NAME = 64, PLAN_STUFF = 24, PLAN_PORTIONS = 12, PLAN_LAYERS = 96, PLAN_BAYS = 12,
       PLAN_EVENTS = 64, PLAN_PLANS = 24, PLAN_HARVESTS = 8, PLAN_READINGS = 400 };

enum plan_shape { PLAN_BIN, PLAN_HEAP, PLAN_WINDROW, PLAN_JAR };
enum plan_bay_now { PLAN_BAY_HERE, PLAN_BAY_EMPTY, PLAN_BAY_FULL };

struct plan_bay {
    char name[PLAN_NAME];
    enum plan_shape shape;
    double length_m, width_m, height_m; /* heap: width is its base diameter; windrow: base width */
    int wall, floor, lid;               /* rows of know/bound */
    enum plan_bay_now now;
    date_count full_until;              /* 0 = for ever, when now is full */
    /* a jar in a laboratory: held at these, water of the wet mass, oxygen of the gas; 0 = not held */
    double held_K, held_water_share, held_oxygen_share;
};

/* what an amount was counted in */
enum plan_vessel { PLAN_BY_VOLUME, PLAN_BY_MASS, PLAN_BUCKET, PLAN_BARROW, PLAN_BAG };

/* some of one ingredient as laid; wet mass and water share as it came */
struct plan_portion {
    int stuff;                  /* row of scenario.stuff */
    struct span wet_kg;
    struct span water_share;
    struct span volume_m3;      /* as it lies after packing, before its own weight presses it */
    struct span bulk_kg_per_m3; /* as packed, at the middle of its water share */
    bool weighed;               /* its mass was measured, not its volume */
    bool felt;                  /* its wetness is that of a squeezed handful */
    double piece_m;
    enum plan_vessel vessel;
    double vessel_m3;           /* one of them as it was filled; 0 where it isn't a vessel */
};

struct plan_layer {
    int portions;
    struct plan_portion portion[PLAN_PORTIONS];
    struct span water_kg;       /* poured on this layer */
    double pour_K;              /* temperature of that water; 0 = air of the day */
    double laid_K;              /* temperature of its ingredients; 0 = a little warmer than the air */
};

enum plan_deed { PLAN_TURN, PLAN_WATER, PLAN_ADD, PLAN_COVER, PLAN_UNCOVER, PLAN_LOOSEN, PLAN_PICK };
enum plan_way { PLAN_LAYER_BY_LAYER, PLAN_MIXED, PLAN_OUTSIDE_IN, PLAN_OUT_AND_BACK };
enum plan_when { PLAN_ON_DAY, PLAN_EVERY, PLAN_RULE };
enum plan_place { PLAN_MIDDLE, PLAN_DEEP_30CM, PLAN_HAND_DEEP };
enum plan_squeeze { PLAN_DUSTY, PLAN_CRUMBLES, PLAN_HOLDS, PLAN_DRIPS, PLAN_RUNS, PLAN_SQUEEZES };
enum { PLAN_SAME_BAY = -1, PLAN_NEXT_BAY = -2 };

struct plan_event {
    enum plan_deed deed;
    enum plan_when when;
    int day;                    /* on this day (0 = the start date); first look or first day otherwise */
    int until;                  /* last day for every and rule */
    int every_days;             /* 7 for a weekday; 1 for daily */
    /* rule: all that applies must hold */
    bool rule_hotter;           /* false: "below"; true: "above" */
    enum plan_place rule_place;
    double rule_K;              /* 0 = no temperature rule */
    bool rule_passes;           /* "falls below", "rises above": the other side was seen since it was last done */
    int rule_squeeze;           /* do it when a handful squeezes like this or drier; -1 = no such rule */
    enum plan_place squeeze_place;
    double unless_air_below_K;  /* 0 = no such condition */
    bool unless_frozen;         /* nor with a crust that rings */
    int at_most_days;           /* least days between two of these; 0 = none */
    /* what is done */
    enum plan_way way;          /* turn */
    int into;                   /* bay, PLAN_SAME_BAY or PLAN_NEXT_BAY */
    double keep_top_m;          /* old bottom soil kept for the top */
    struct span water_kg;       /* shared over the layers of a turn, or poured on top */
    bool until_it_drips;        /* water to holding capacity instead */
    struct plan_layer add;      /* add, or cover with an ingredient such as straw or soil */
    double bury_m;              /* add: this deep; 0 = on top */
    int cover;                  /* cover: row of know/bound of kind cover; -1 = none */
    double cover_m;             /* its thickness */
    bool pick_sticks;           /* pick out pieces that are still sticks or stalks */
};

struct plan {
    char name[PLAN_NAME];
    int events;
    struct plan_event event[PLAN_EVENTS];
};

enum plan_sun { PLAN_FULL_SUN, PLAN_HALF_SUN, PLAN_SHADE };
enum plan_wind { PLAN_OPEN_WIND, PLAN_SOME_WIND, PLAN_SHELTERED };

struct plan_place_on_earth {
    double latitude_rad, elevation_m;
    enum plan_sun sun;
    enum plan_wind wind;
};

/* a pile that already stood on the start date */
struct plan_found {
    bool is;
    struct span height_m;
    int squeeze;                /* enum plan_squeeze, -1 = not said */
    struct span middle_K, hand_deep_K; /* 0 = not said */
    double built_days_ago;
};

struct plan_need {
    bool is;
    date_count by;
    int what;                   /* 0 mulch, 1 beds, 2 pots */
    double chance;
    double bed_area_m2, bed_depth_m;
    int harvests;
    struct { char crop[PLAN_NAME]; date_count day; } harvest[PLAN_HARVESTS];
};

struct plan_people {
    struct span helpers;
    unsigned weekdays;          /* bit 0 Monday */
    bool days_said;             /* they bind a plan; what is only assumed doesn't */
    date_count away[16];
    int aways;
    double visit_s, heaviest_load_kg;
};

/* what the keeper's readings come from; nobody knows a "plus or minus" */
enum plan_kind { PLAN_DIAL, PLAN_GLASS, PLAN_DIGITAL, PLAN_PROBE };
struct plan_thermometer {
    bool said;                  /* false: a dial is assumed */
    enum plan_kind kind;
    bool in_ice;                /* it was held in ice water, */
    double ice_K;               /* where it showed so much above the ice point */
};

/* one thing that was read or felt at the pile */
enum plan_read { PLAN_READ_MIDDLE, PLAN_READ_INSIDE, PLAN_READ_AIR, PLAN_READ_SQUEEZE,
                 PLAN_READ_HEIGHT };
struct plan_reading {
    double day;                 /* since 00:00 of the start date, with its share of a day */
    enum plan_read what;
    double depth_m;             /* inside: from the nearest side, at half the height */
    double value;               /* K as the thermometer showed it; m */
    double spread;              /* half the span that was given in place of a number */
    enum plan_squeeze squeeze;
};

/* Units of answers. Thermometers in gardens may be of either kind, so that usually degrees are told in
 * both and all else in metric units; who asks for `metric` is told of Celsius alone. */
enum plan_show { PLAN_SHOW_METRIC, PLAN_SHOW_US, PLAN_SHOW_BOTH, PLAN_SHOW_USUAL };
enum plan_sky { PLAN_SKY_NAMED, PLAN_SKY_NORMALS, PLAN_SKY_FILE };

struct scenario {
    char name[PLAN_NAME];
    date_count start;
    double start_span_days;     /* days over which the first layers were laid; 0 = in one day */
    int show;                   /* enum plan_show */
    double bucket_m3, barrow_m3, bag_m3;
    struct plan_place_on_earth place;
    enum plan_sky sky;
    int sky_row;                /* PLAN_SKY_NAMED: row of know/skies */
    double normals[4][12];      /* PLAN_SKY_NORMALS: low K, high K, rain m, wet days */
    char sky_file[512];         /* PLAN_SKY_FILE: path as it can be opened */
    int bays;
    struct plan_bay bay[PLAN_BAYS]; /* the pile stands in bay[home] */
    int home;
    int stuffs;
    struct stuff stuff[PLAN_STUFF]; /* copies of table rows and the scenario's own */
    int takens;                 /* other words of the keeper's for an ingredient, each once */
    struct plan_taken { char word[PLAN_NAME]; int stuff; } taken[PLAN_STUFF];
    int layers;
    struct plan_layer layer[PLAN_LAYERS]; /* bottom first */
    struct plan_found found;
    int haves;
    struct plan_portion have[PLAN_STUFF]; /* in stock: in place of layers, or left over beside them */
    int plans;
    struct plan plan[PLAN_PLANS];   /* "leave it" is always there when the file names no plans */
    struct plan_need need;
    struct plan_people people;
    struct plan_thermometer thermometer;
    char log_file[512];         /* readings in a file of their own, as it can be opened; "" = none */
    int notes;                  /* on so many occasions something was written down */
    int readings;
    struct plan_reading reading[PLAN_READINGS];
    date_count last_reading;    /* the day of the last note; 0 = none */
    int last_day;               /* the season runs until the end of this day (0 = the start date) */
    int assumed;                /* default values taken, each said once */
    char assumption[48][128];
};
#endif
