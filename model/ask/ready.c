/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/ready.c - see ask/ready.h. */
#include "ask/ready.h"
#include <math.h>

const char *const ready_why_word[READY_WHYS] = {
    NULL,      "still working",  "too small",           "cold outside", "frozen", "too dry",
    "too wet", "starved of air", "starved of nitrogen", "too woody",    "resting"};
const char *const ready_use_word[READY_USES] = {"mulch", "beds", "pots"};

/* What a use asks for. */
struct line {
    double breath_mg;    /* carbon per g of organic matter and day in the test state, at most */
    double rise_K;       /* in the flask, below */
    double cured_days;   /* since it was last hot, at least */
    double c_to_n;       /* at most, */
    double fed_share;    /* or want of nitrogen slows decay to no less than this; 2 = C:N alone */
    double sticks_share; /* still to be told as what they were, at most */
};

/* Breath: 8 ends "stable" of the US scale (TMECC 05.08-B [memory]; 8 also a stormwater compost
 * specification [seen]); 4 is the Canadian limit (CCME 2005 [memory]) and, at 4.4, the British
 * guideline's [seen]; 2 ends "very stable" of the US scale [memory].
 * Flask: classes III, IV and V of the self-heating test rise by less than 30, 20 and 10 K [memory].
 * Curing: four weeks or more after it no longer reheats (county guide [seen]; at least 21 days in
 * CCME 2005 [memory]), one to three months before it is sown into [trade].
 * Carbon to nitrogen: at most 25 (California index 2001 [memory]); it gates, it proves nothing.
 * Wood keeps it high without robbing a bed, so that more is let pass where decay isn't short of
 * nitrogen. Sticks: what is worth the sieve [trade]. */
static const struct line lines[READY_USES] = {
    [READY_MULCH] = {8, 30, 0, INFINITY, 0, INFINITY},
    [READY_BEDS] = {4, 20, 28, 25, 0.8, 0.5},
    [READY_POTS] = {2, 10, 56, 25, 2, 0.25},
};

static const double HOT_K = 318.15;                         /* 45 C in the middle */
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

/* A pile found standing has mostly been hot for its first two months; what came after was curing,
 * of which eight weeks are the most that anything asks for. [trade] */
static double cured_before(const struct scenario *scenario)
{
    static const double HOT_DAYS = 60;
    if (!scenario->found.is)
        return 0;
    return fmin(fmax(scenario->found.built_days_ago - HOT_DAYS, 0), lines[READY_POTS].cured_days);
}

double ready_cured_days(const struct record *record, const struct scenario *scenario, int day)
{
    double cured = cured_before(scenario);
    for (int d = 0; d < day && d < record->days; d++)
        cured = cure_on(cured, &record->day[d]);
    return cured;
}

/* The mean over places; what isn't known holds nothing back. */
static double over_places(const struct record_day *day, enum record_limit limit)
{
    double sum = 0;
    int places = 0;
    for (int p = 0; p < RECORD_PLACES; p++)
        if (!isnan(day->limit[p][limit])) {
            sum += day->limit[p][limit];
            places++;
        }
    return places ? sum / places : 1;
}

static bool balanced(const struct record_day *day, const struct line *line)
{
    return !(day->carbon_kg / day->nitrogen_kg > line->c_to_n)
           || over_places(day, RECORD_NITROGEN) >= line->fed_share;
}

/* What isn't known (NAN) holds nothing back. */
static bool passes(const struct record_day *day, double cured, const struct line *line)
{
    return !(day->middle_K > HOT_K) && !(day->test_breath_per_s * MG_A_DAY > line->breath_mg)
           && !(day->flask_rise_K >= line->rise_K) && cured >= line->cured_days
           && balanced(day, line) && !(day->sticks_share > line->sticks_share);
}

double ready_day(const struct record *record, const struct scenario *scenario, int use)
{
    double cured = cured_before(scenario);
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

/* ---- why not ---- */

/* Half the pace it could have: putting that right would double it. */
static const double HOLDS = 0.5;
enum { WEEK = 7 };
static const double FREEZES_K = 273.65, STOPS = 0.1; /* ice melts over half a kelvin */
static const double COLD_AIR_K = 278.15;             /* 5 C: a garden rests [trade] */
static const double SODDEN_SHARE = 0.65;             /* a handful runs [trade] */
/* A turned, moist pile that warms by less than 8 to 10 K over the air cures; by more, it works
 * (CCME 2005: 8 K [memory]); and in frost what is warm is only what isn't frozen yet [trade]. */
static const double WARMER_K = 10, MILD_K = 288.15;

/* What the last week was like, over the whole pile. */
struct week {
    double limit[RECORD_LIMITS];
    double middle_K, air_K, water_share, rise_K;
};

static struct week week_of(const struct record *record, int day)
{
    struct week w = {{0}, 0, 0, 0, record->day[day - 1].flask_rise_K};
    int from = day > WEEK ? day - WEEK : 0, days = day - from;
    for (int d = from; d < day; d++) {
        const struct record_day *row = &record->day[d];
        for (int n = 0; n < RECORD_LIMITS; n++)
            w.limit[n] += over_places(row, (enum record_limit)n) / days;
        w.middle_K += row->middle_K / days;
        w.air_K += row->air_K / days;
        w.water_share += row->water_share / days;
    }
    return w;
}

/* The one thing besides warmth whose best would raise decay most, if that at least doubled it. A
 * cool pile is asked for water first, since want of it is the commonest and shows in the others. */
static enum ready_why holding(const struct week *w)
{
    static const enum record_limit asked[] = {RECORD_WATER, RECORD_OXYGEN, RECORD_NITROGEN};
    enum record_limit least = RECORD_WATER;
    for (int i = 1; i < 3; i++)
        if (w->limit[asked[i]] < w->limit[least])
            least = asked[i];
    if (w->limit[least] >= HOLDS)
        return READY_IS;
    if (least == RECORD_WATER)
        return READY_DRY;
    if (least == RECORD_NITROGEN)
        return READY_HUNGRY;
    return w->water_share >= SODDEN_SHARE ? READY_WET : READY_AIRLESS;
}

/* Cool, moist, aired and fed: is it the cold, its size, or has it little left to burn? */
static enum ready_why cool_why(const struct week *w, const struct line *line,
                               const struct record_day *day)
{
    bool woody = !balanced(day, line) || day->sticks_share > line->sticks_share;
    bool breathes = day->test_breath_per_s * MG_A_DAY > line->breath_mg;
    bool heats = w->rise_K >= lines[READY_BEDS].rise_K; /* a good flask warms it past curing */
    if (w->air_K < COLD_AIR_K)
        return READY_COLD;
    if (heats)
        return READY_SMALL;
    return woody && !breathes ? READY_WOODY : READY_RESTING;
}

static enum ready_why why_on(const struct record *record, const struct line *line, int day)
{
    const struct record_day *row = &record->day[day - 1];
    struct week w = week_of(record, day);
    bool cooled = row->middle_K <= HOT_K,
         quiet = !(row->test_breath_per_s * MG_A_DAY > line->breath_mg)
                 && !(row->flask_rise_K >= line->rise_K);
    if (w.middle_K < FREEZES_K && w.limit[RECORD_TEMPERATURE] < STOPS)
        return READY_FROZEN;
    enum ready_why held = holding(&w);
    if (held != READY_IS && !quiet)
        return held;
    if (!cooled || (w.middle_K - w.air_K > WARMER_K && w.middle_K > MILD_K))
        return READY_WORKING;
    return cool_why(&w, line, row);
}

enum ready_why ready_why(const struct record *record, const struct scenario *scenario, int use,
                         int day)
{
    double ready = ready_day(record, scenario, use);
    if (ready <= day || record->days == 0)
        return READY_IS;
    return why_on(record, &lines[use], day < record->days ? day : record->days);
}

/* ---- many ---- */

int ready_told_day(const struct record *record, const struct scenario *scenario)
{
    long day = scenario->need.is ? scenario->need.by - scenario->start + 1 : record->days;
    return day >= 1 && day < record->days ? (int)day : record->days;
}

static enum ready_why commonest(const int count[READY_WHYS])
{
    enum ready_why most = READY_IS;
    for (int i = READY_IS + 1; i < READY_WHYS; i++)
        if (count[i] > (most == READY_IS ? 0 : count[most]))
            most = (enum ready_why)i;
    return most;
}

struct ready_summary ready_summary(const struct record *record, int members,
                                   const struct scenario *scenario, int use, double *room)
{
    struct ready_summary s = {.members = members};
    int count[READY_WHYS] = {0};
    for (int i = 0; i < members; i++) {
        enum ready_why why =
            ready_why(&record[i], scenario, use, ready_told_day(&record[i], scenario));
        room[i] = ready_day(&record[i], scenario, use);
        s.never += isnan(room[i]);
        s.not_ready += why != READY_IS;
        count[why]++;
    }
    s.why = commonest(count);
    s.chance = scenario->need.is ? band_chance(members - s.not_ready, members)
                                 : (struct span){NAN, NAN, NAN};
    s.day = band_of(room, members);
    return s;
}
