/* SPDX-License-Identifier: GPL-3.0-or-later */
/* midden.h - what a garden compost pile will do under a plan of turning, asked from a program.
 *
 *     struct midden_error error;
 *     struct midden_scenario *pile = midden_open("pile.yaml", &error);
 *     struct midden_forecast *forecast = pile ? midden_run(pile, NULL, &error) : NULL;
 *     if (forecast) {
 *         struct midden_range middle = midden_day(forecast, MIDDEN_MIDDLE_C, 5);
 *         printf("day 5: %.0f C (%.0f-%.0f)\n", middle.median, middle.low, middle.high);
 *     } else {
 *         fprintf(stderr, "%s\n", error.text);
 *     }
 *     midden_forget(forecast);
 *     midden_close(pile);
 *
 * Meaning. A forecast is a season run for many possible piles: all that is known only roughly takes
 * other values in each. Its numbers are those of `midden run --json` under the same scenario, plan,
 * draw and number of piles, on any machine and with any number of threads. They are forecasts: none
 * of them shows that a rule of hygiene was met or that compost is fit for anything.
 *
 * Units stand at the end of each name (_C, _M3, _KG, _SHARE from 0 to 1, _DAY), and what has none is a
 * count or a ratio. Days, rules, uses and figures that don't exist, and whatever isn't known, are NAN
 * or NULL. Day 1 is the day on which the pile is finished; a day's temperatures are its means, its
 * other numbers those at its end.
 *
 * Ownership. What midden_open, midden_read and midden_run return is the caller's, to be given back to
 * midden_close and midden_forget (NULL is welcome). A forecast doesn't need its scenario any more.
 * Texts that are handed out belong to the handle they were asked of, and go with it.
 *
 * Errors. What can fail returns NULL or false and says why in `error`, unless that is NULL. What asks
 * a forecast can't fail. Nothing here prints, ends the program or takes a signal.
 *
 * Threads. Different handles never touch each other. One handle may be read, and one scenario run, by
 * several threads at once, as long as nobody sets or closes it meanwhile. During a call GSL's error
 * handler, one for the whole program, is switched off; it is put back when the last call has ended.
 * The locale doesn't matter.
 *
 * Versions are semantic: names and meanings here stay within a major version (while it is 0, within a
 * minor one). Enumerations grow at their ends and structs at theirs, so fill a request by name or
 * with {0}. `pkg-config --modversion midden` tells the version when compiling.
 */
#ifndef MIDDEN_H
#define MIDDEN_H
#include <stdbool.h>
#include <stddef.h>
#ifdef __cplusplus
extern "C" {
#endif

const char *midden_version(void);               /* such as "1.2.3" */

/* ---- what went wrong ---- */

enum midden_trouble {
    MIDDEN_FINE,
    MIDDEN_CANNOT,      /* understood, but it can't be done: no free bay, nothing to build */
    MIDDEN_ARGUMENT,    /* no such plan or parameter, or a number beyond its limits */
    MIDDEN_INPUT,       /* a scenario or weather file isn't understood */
    MIDDEN_ABSENT,      /* a file isn't there */
    MIDDEN_UNREADABLE,  /* a file is there and can't be read */
    MIDDEN_STOPPED,     /* by midden_request.progress */
    MIDDEN_MEMORY,      /* there isn't enough */
    MIDDEN_DEFECT       /* a balance didn't close or a season can't be computed: ours to mend */
};

enum { MIDDEN_ERROR_TEXT = 8192 };

struct midden_error {
    enum midden_trouble trouble;
    char text[MIDDEN_ERROR_TEXT];   /* for people, without a newline at its end; of a file up to
                                     * twenty lines FILE:LINE:COLUMN: what is wrong; what was expected */
};

/* ---- a scenario: one pile and its plans ---- */

struct midden_scenario;

/* Reads a scenario file; "-" is standard input. */
struct midden_scenario *midden_open(const char *path, struct midden_error *error);
/* The same from memory. `name` stands in messages; weather files are looked for in its folder. */
struct midden_scenario *midden_read(const char *text, size_t length, const char *name,
                                    struct midden_error *error);
void midden_close(struct midden_scenario *scenario);

const char *midden_name(const struct midden_scenario *scenario);
/* Plans by their place in the file, from 0; NULL past the last. */
const char *midden_plan(const struct midden_scenario *scenario, int plan);
/* What the file leaves open, as "quantity: value taken", from 0; NULL past the last. */
const char *midden_assumed(const struct midden_scenario *scenario, int assumption);
/* Gives a number of the model another value (`midden list parameters`); possible piles share it. */
bool midden_set(struct midden_scenario *scenario, const char *parameter, double value,
                struct midden_error *error);

/* ---- a season of possible piles ---- */

struct midden_request {
    const char *plan;           /* by name; NULL = the first of the file */
    int members;                /* how many possible piles, up to 20000; 0 = 64; 1 is the central pile, with
                                 * every unknown at its middle and therefore without ranges */
    unsigned long long draw;    /* which set of them, and of weather; 0 = 1, as in the program */
    int threads;                /* 0 = as many as there are processors; no digit depends on it */
    /* Called now and then, by one thread at a time but not always the same; anything but 0 stops the
     * run. Not called for the central pile. NULL = nobody asks. */
    int (*progress)(void *context, int done, int of);
    void *context;              /* handed to it */
};

struct midden_forecast;

/* Runs it; from less than a second to minutes. NULL as a request asks for 64 piles under the first plan. */
struct midden_forecast *midden_run(const struct midden_scenario *scenario,
                                   const struct midden_request *request,
                                   struct midden_error *error);
void midden_forget(struct midden_forecast *forecast);

int midden_days(const struct midden_forecast *forecast);
/* Possible piles in the numbers below, and those that couldn't be run and are in none of them. */
int midden_members(const struct midden_forecast *forecast);
int midden_left_out(const struct midden_forecast *forecast);
/* The date of a day, as YYYY-MM-DD; an empty text where it is NAN or beyond the calendar. */
struct midden_date { char text[16]; };
struct midden_date midden_date(const struct midden_forecast *forecast, double day);

/* Of all members: the median, and where 8 in 10 of them lie. What never comes within the season is
 * NAN, as are both ends where there is one member. */
struct midden_range { double low, median, high; };

/* ---- day by day ---- */

enum midden_quantity {
    MIDDEN_AIR_C,
    MIDDEN_MIDDLE_C,            /* on the axis, at half the height */
    MIDDEN_DEEP30CM_C,          /* 30 cm in from the nearest surface, */
    MIDDEN_HAND_DEEP_C,         /* 10 cm in; both at half the height */
    MIDDEN_MEAN_C,
    MIDDEN_HOTTEST_C,
    MIDDEN_COLDEST_TENTH_C,     /* mean of the tenth that is coldest */
    MIDDEN_WATER_SHARE,         /* of wet mass */
    MIDDEN_FREE_AIR_SHARE,      /* of volume */
    MIDDEN_OXYGEN_LOWEST_SHARE, /* of the moist pore gas, where it is lowest */
    MIDDEN_HEIGHT_M,
    MIDDEN_VOLUME_M3,
    MIDDEN_DRY_KG,
    MIDDEN_CARBON_KG,
    MIDDEN_NITROGEN_KG,
    MIDDEN_HEAT_MADE_W,         /* by decay */
    MIDDEN_QUANTITIES           /* how many there are */
};

/* The name it has in the program's CSV and JSON, such as "middle_c". */
const char *midden_quantity_name(enum midden_quantity quantity);
/* Days from 1 to midden_days. */
struct midden_range midden_day(const struct midden_forecast *forecast, enum midden_quantity quantity,
                               int day);
/* The same of one possible pile, from 1 to midden_members. */
double midden_day_of(const struct midden_forecast *forecast, enum midden_quantity quantity, int day,
                     int member);

/* ---- the season in figures ---- */

enum midden_figure {
    MIDDEN_YIELD_M3,            /* what there is on the day of need, else at the end: as it lies, */
    MIDDEN_YIELD_WET_KG,
    MIDDEN_YIELD_DRY_KG,
    MIDDEN_YIELD_NITROGEN_KG,
    MIDDEN_YIELD_C_TO_N,
    MIDDEN_YIELD_BED_M2,        /* beds it covers at the depth that the need names */
    MIDDEN_WORK_PERSON_MINUTES,
    MIDDEN_WORK_LIFTED_KG,
    MIDDEN_WORK_TURNS,
    MIDDEN_WORK_WATER_L,        /* poured by hand */
    MIDDEN_PEAK_C,              /* greatest daily mean of the middle, */
    MIDDEN_PEAK_DAY,            /* and its day */
    MIDDEN_DAYS_OVER_55C,       /* of the middle's daily mean */
    MIDDEN_FIGURES              /* how many there are */
};

struct midden_range midden_season(const struct midden_forecast *forecast, enum midden_figure figure);
double midden_season_of(const struct midden_forecast *forecast, enum midden_figure figure, int member);

/* ---- verdicts ---- */

enum midden_use { MIDDEN_MULCH, MIDDEN_BEDS, MIDDEN_POTS, MIDDEN_USES };

struct midden_ready {
    struct midden_range day;            /* from which it serves until the season's end */
    struct midden_range chance_by_need; /* with its sampling error; NAN where nobody needs it by a day */
    struct midden_range never_share;    /* of possible piles, not within the season; likewise */
    const char *why_not;                /* what holds most of those back that aren't ready on the day of
                                         * need, else at the end: one of `still working`, `too small`,
                                         * `cold outside`, `frozen`, `too dry`, `too wet`, `starved of
                                         * air`, `starved of nitrogen`, `too woody`, `resting`; NULL
                                         * where all are ready */
};

struct midden_ready midden_ready(const struct midden_forecast *forecast, enum midden_use use);
/* The day for one possible pile. */
double midden_ready_of(const struct midden_forecast *forecast, enum midden_use use, int member);

struct midden_hygiene {
    const char *rule, *where, *source;  /* a published rule of time and temperature; NULL past the last */
    struct midden_range mass_share_met; /* material that has had the rule's time at its temperature, once
                                         * the turns it asks for were made; of dry mass as laid */
    double first_met_day;               /* by which half of it has, median; NAN = never */
};

/* Rules from 0. A rule asks for days measured with a thermometer; a forecast can't meet one. */
struct midden_hygiene midden_hygiene(const struct midden_forecast *forecast, int rule);

enum midden_class {
    MIDDEN_SEEDS_EASY, MIDDEN_SEEDS_MODERATE, MIDDEN_SEEDS_HARD,    /* to kill by heat */
    MIDDEN_GUT_BACTERIA, MIDDEN_WORM_EGGS,
    MIDDEN_CLASSES
};

/* The share of a class that lives at the season's end, of what went in; NAN where none did. */
struct midden_range midden_alive(const struct midden_forecast *forecast, enum midden_class kind);

/* Sentences on what can hurt in this pile, from 0; NULL past the last. Show them with an answer. */
const char *midden_caution(const struct midden_forecast *forecast, int caution);

#ifdef __cplusplus
}
#endif
#endif
