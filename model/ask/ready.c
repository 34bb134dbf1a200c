/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/ready.c - see ask/ready.h. */
#include "ask/ready.h"
#include <math.h>

const char *const ready_why_word[READY_WHYS] = {
    NULL, "still working", "too small", "cold outside", "frozen", "too dry", "too wet",
    "starved of air", "starved of nitrogen", "too woody", "resting"};
const char *const ready_use_word[READY_USES] = {"mulch", "beds", "pots"};

/* What a use asks for. */
struct line {
    double breath_mg;       /* carbon per g of organic matter and day in the test state, at most */
    double rise_K;          /* in the flask, below */
    double cured_days;      /* since it was last hot, at least */
    double c_to_n;          /* at most */
    double sticks_share;    /* still to be told as what they were, at most */
};

/* Breath: 8 ends "stable" of the US scale (TMECC 05.08-B [memory]; 8 also a stormwater compost
 * specification [seen]); 4 is the Canadian limit (CCME 2005 [memory]) and, at 4.4, the British
 * guideline's [seen]; 2 ends "very stable" of the US scale [memory].
 * Flask: classes III, IV and V of the self-heating test rise by less than 30, 20 and 10 K [memory].
 * Curing: four weeks or more after it no longer reheats (county guide [seen]; at least 21 days in
 * CCME 2005 [memory]), one to three months before it is sown into [trade].
 * Carbon to nitrogen: at most 25 (California index 2001 [memory]); it gates, it proves nothing.
 * Sticks: what is worth the sieve [trade]. */
static const struct line lines[READY_USES] = {
    [READY_MULCH] = {8, 30, 0, INFINITY, INFINITY},
    [READY_BEDS] = {4, 20, 28, 25, 0.5},
    [READY_POTS] = {2, 10, 56, 25, 0.25},
};

static const double HOT_K = 318.15;         /* 45 C in the middle */
static const double CURES_NOT_K = 273.15, CURES_K = 283.15; /* winter days count little [trade] */
static const double MG_A_DAY = 86400e3;

/* How much of a day curing counts. */
static double cures(const struct record_day *day)
{
    return fmin(fmax((day->mean_K - CURES_NOT_K) / (CURES_K - CURES_NOT_K), 0), 1);
}

static double cure_on(double before, const struct record_day *day)
{
    return day->middle_K > HOT_K ? 0 : before + cures(day);
}

double ready_cured_days(const struct record *record, int day)
{
    double cured = 0;
    for (int d = 0; d < day && d < record->days; d++)
        cured = cure_on(cured, &record->day[d]);
    return cured;
}

/* What isn't known (NAN) holds nothing back. */
static bool passes(const struct record_day *day, double cured, const struct line *line)
{
    return !(day->middle_K > HOT_K) && !(day->test_breath_per_s * MG_A_DAY > line->breath_mg) &&
           !(day->flask_rise_K >= line->rise_K) && cured >= line->cured_days &&
           !(day->carbon_kg / day->nitrogen_kg > line->c_to_n) &&
           !(day->sticks_share > line->sticks_share);
}

double ready_day(const struct record *record, const struct scenario *scenario, int use)
{
    (void)scenario;
    double cured = 0;
    int since = -1; /* first day of the passing ones at hand */
    for (int d = 0; d < record->days; d++) {
        cured = cure_on(cured, &record->day[d]);
        if (!passes(&record->day[d], cured, &lines[use]))
            since = -1;
        else if (since < 0)
            since = d;
    }
    return since < 0 ? (double)NAN : since + 1;
}

enum ready_why ready_why(const struct record *record, const struct scenario *scenario, int use,
                         int day)
{
    double ready = ready_day(record, scenario, use);
    return ready <= day ? READY_IS : READY_WORKING;
}
