/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/asked.h - numbers that tellers ask of a record, in the form tell/range takes: a record, which
 * number, and a second number for those that need one.
 */
#ifndef ASK_ASKED_H
#define ASK_ASKED_H
#include "run/record.h"

/* A middle below 40 C is past its hot phase (trade: the usual border of the two heat-loving kinds
 * of life); 45 and 55 C are the marks gardeners ask about. */
#define ASKED_COOL_K 313.15
#define ASKED_WARM_K 318.15
#define ASKED_HOT_K 328.15

struct asked_heat {
    double peak_K;
    int peak_day;           /* 1 is the first; 0 = there are no days */
    int hot_days, warm_days, cool_days; /* with the middle above 55, 45, 40 C */
    int last_day_above_40;  /* 0 = none */
};
struct asked_heat asked_heat_of(const struct record *record);

enum asked_heat_thing { ASKED_PEAK_K, ASKED_PEAK_DAY, ASKED_HOT_DAYS, ASKED_WARM_DAYS, ASKED_COOL_DAYS,
                        ASKED_COOL_AGAIN /* the day; NAN where it is hot to the end */ };
double asked_heat(const struct record *record, int thing, int unused);

enum asked_work { ASKED_PERSON_S, ASKED_LIFTED_KG, ASKED_WATER_L, ASKED_TURNS };
double asked_work(const struct record *record, int which, int unused);

/* the season's greatest of a number of a day */
enum asked_most { ASKED_MOST_HAND_K, ASKED_MOST_30CM_K, ASKED_MOST_OVER_55, ASKED_MOST_STARVED };
double asked_most(const struct record *record, int which, int unused);

/* of the last day, but for the first one's volume; NAN where there are no days */
enum asked_end { ASKED_VOLUME_FIRST, ASKED_VOLUME, ASKED_HEIGHT, ASKED_WET, ASKED_DRY, ASKED_NITROGEN,
                 ASKED_WATER, ASKED_C_TO_N };
double asked_end(const struct record *record, int which, int unused);

/* How deep the innermost of the pile lies at the end of a day (from 0) beneath its top or nearest side:
 * no more than half the narrower side of the bay it stands in then. */
double asked_deep_m(const struct record *record, const struct scenario *scenario, int day);

/* The ways by which heat leaves, in a gardener's words; material added or taken out is none. */
enum { ASKED_WAYS = 7 };
extern const char *const asked_way_words[ASKED_WAYS];
/* Of all the heat that left, the share by one way. */
double asked_way(const struct record *record, int way, int unused);
double asked_decay_J(const struct record *record, int unused, int unused_too);
#endif
