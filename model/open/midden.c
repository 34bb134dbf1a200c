/* SPDX-License-Identifier: GPL-3.0-or-later */
/* open/midden.c - see open/midden.h. Handles, texts and limits; open/forecast does the work. */
#include "open/midden.h"
#include "base/version.h"
#include "door/choice.h"
#include "door/scenario.h"
#include "open/forecast.h"
#include "open/guest.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { USUAL_MEMBERS = 64, MOST_MEMBERS = 20000, MOST_THREADS = 256, LAST_YEAR_DAYS = 1 << 20 };

struct midden_scenario {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
};

struct midden_forecast {
    struct forecast forecast;
};

_Static_assert((int)MIDDEN_QUANTITIES == (int)FORECAST_QUANTITIES, "quantities of a day");
_Static_assert((int)MIDDEN_FIGURES == (int)FORECAST_FIGURES, "figures of a season");
_Static_assert((int)MIDDEN_CLASSES == (int)FORECAST_CLASSES, "classes of what may live");
_Static_assert((int)MIDDEN_USES == (int)READY_USES, "uses");
_Static_assert((int)MIDDEN_ERROR_TEXT == (int)TROUBLE_TEXT, "room for a reason");

static const struct midden_range UNKNOWN = {NAN, NAN, NAN};

const char *midden_version(void)
{
    return VERSION;
}

/* ---- what went wrong ---- */

static enum midden_trouble kind_of(enum trouble_kind kind)
{
    switch (kind) {
    case TROUBLE_NONE: return MIDDEN_FINE;
    case TROUBLE_NO: return MIDDEN_CANNOT;
    case TROUBLE_USAGE: return MIDDEN_ARGUMENT;
    case TROUBLE_INPUT: return MIDDEN_INPUT;
    case TROUBLE_ABSENT: return MIDDEN_ABSENT;
    case TROUBLE_DEVICE: return MIDDEN_UNREADABLE;
    case TROUBLE_MEMORY: return MIDDEN_MEMORY;
    default: return MIDDEN_DEFECT; /* a balance, a step; what follows isn't done here */
    }
}

static void report(struct midden_error *error, const struct trouble *why)
{
    if (!error)
        return;
    error->trouble = kind_of(why->kind);
    memcpy(error->text, why->text, sizeof error->text);
}

/* ---- a scenario ---- */

static bool read_either(struct midden_scenario *made, const char *text, size_t length, const char *name,
                        struct trouble *why)
{
    struct guest guest;
    if (!name || !*name)
        return trouble_set(why, TROUBLE_USAGE, "a scenario needs a name");
    if (!guest_enter(&guest, why))
        return false;
    bool good = text ? scenario_read_text(&made->scenario, text, length, name, why)
                     : scenario_read(&made->scenario, name, why);
    guest_leave(&guest);
    return good;
}

static struct midden_scenario *make(const char *text, size_t length, const char *name,
                                    struct midden_error *error)
{
    struct trouble why = {0};
    struct midden_scenario *made = calloc(1, sizeof *made);
    bool good = made ? read_either(made, text, length, name, &why)
                     : trouble_set(&why, TROUBLE_MEMORY, "there is not enough memory for a scenario");
    report(error, &why);
    if (good) {
        made->param = param_usual();
        return made;
    }
    free(made);
    return NULL;
}

struct midden_scenario *midden_open(const char *path, struct midden_error *error)
{
    return make(NULL, 0, path, error);
}

struct midden_scenario *midden_read(const char *text, size_t length, const char *name,
                                    struct midden_error *error)
{
    return make(text ? text : "", text ? length : 0, name, error);
}

void midden_close(struct midden_scenario *scenario)
{
    free(scenario);
}

const char *midden_name(const struct midden_scenario *scenario)
{
    return scenario->scenario.name;
}

const char *midden_plan(const struct midden_scenario *scenario, int plan)
{
    bool there = plan >= 0 && plan < scenario->scenario.plans;
    return there ? scenario->scenario.plan[plan].name : NULL;
}

const char *midden_assumed(const struct midden_scenario *scenario, int assumption)
{
    bool there = assumption >= 0 && assumption < scenario->scenario.assumed;
    return there ? scenario->scenario.assumption[assumption] : NULL;
}

bool midden_set(struct midden_scenario *scenario, const char *parameter, double value,
                struct midden_error *error)
{
    struct trouble why = {0};
    bool good = param_set(&scenario->param, parameter ? parameter : "", value, &why);
    if (good)
        scenario->fixed[param_find(parameter) - param_rows] = true;
    report(error, &why);
    return good;
}

/* ---- a season ---- */

struct watch {
    const struct midden_request *request;
    volatile sig_atomic_t stop;
};

static void told(void *listener, int done, int of)
{
    struct watch *watch = listener;
    if (watch->request->progress(watch->request->context, done, of) != 0)
        watch->stop = 1;
}

static bool within_limits(const struct midden_request *request, struct trouble *why)
{
    if (request->members < 0 || request->members > MOST_MEMBERS)
        return trouble_set(why, TROUBLE_USAGE, "%d possible piles were asked for; it may be 1 to %d",
                           request->members, MOST_MEMBERS);
    if (request->draw > 9007199254740992ULL) /* 2^53, as the program */
        return trouble_set(why, TROUBLE_USAGE, "draw %llu is beyond 2^53", request->draw);
    return (request->threads >= 0 && request->threads <= MOST_THREADS) ||
           trouble_set(why, TROUBLE_USAGE, "%d threads were asked for; it may be 1 to %d",
                       request->threads, MOST_THREADS);
}

static bool run(struct forecast *forecast, const struct midden_scenario *scenario,
                const struct midden_request *request, bool *stopped, struct trouble *why)
{
    struct guest guest;
    struct watch watch = {request, 0};
    const struct scenario *pile = &scenario->scenario;
    int plan = request->plan ? choice_named(pile, request->plan, why) : 0;
    if (plan < 0 || !within_limits(request, why) || !choice_built(pile, pile->name, why) ||
        !guest_enter(&guest, why))
        return false;
    struct forecast_order order = {
        .plan = plan, .members = request->members ? request->members : USUAL_MEMBERS,
        .threads = request->threads ? request->threads : crew_threads(),
        .draw = request->draw ? (long long)request->draw : 1, .param = &scenario->param,
        .fixed = scenario->fixed, .stop = &watch.stop, .listener = &watch,
        .told = request->progress ? told : NULL};
    bool good = forecast_make(forecast, pile, &order, why);
    guest_leave(&guest);
    *stopped = !good && watch.stop;
    return good;
}

struct midden_forecast *midden_run(const struct midden_scenario *scenario,
                                   const struct midden_request *request, struct midden_error *error)
{
    static const struct midden_request usual;
    struct trouble why = {0};
    bool stopped = false;
    struct midden_forecast *made = calloc(1, sizeof *made);
    bool good = made ? run(&made->forecast, scenario, request ? request : &usual, &stopped, &why)
                     : trouble_set(&why, TROUBLE_MEMORY, "there is not enough memory for a season");
    report(error, &why);
    if (error && stopped)
        error->trouble = MIDDEN_STOPPED;
    if (good)
        return made;
    midden_forget(made);
    return NULL;
}

void midden_forget(struct midden_forecast *forecast)
{
    if (forecast)
        forecast_free(&forecast->forecast);
    free(forecast);
}

int midden_days(const struct midden_forecast *forecast)
{
    return forecast->forecast.days;
}

int midden_members(const struct midden_forecast *forecast)
{
    return forecast->forecast.able.members;
}

int midden_left_out(const struct midden_forecast *forecast)
{
    return forecast->forecast.able.failures;
}

struct midden_date midden_date(const struct midden_forecast *forecast, double day)
{
    struct midden_date date = {""};
    char text[DATE_TEXT];
    if (!(fabs(day) < LAST_YEAR_DAYS))
        return date;
    date_write(forecast->forecast.scenario->start + (date_count)lround(day) - 1, text);
    strncat(date.text, text, sizeof date.text - 1);
    return date;
}

/* ---- numbers ---- */

/* Of one pile alone no range is known. */
static struct midden_range ranged(const struct midden_forecast *forecast, struct span span)
{
    bool many = forecast->forecast.able.members > 1;
    return (struct midden_range){many && isfinite(span.low) ? span.low : NAN,
                                 isfinite(span.mid) ? span.mid : NAN,
                                 many && isfinite(span.high) ? span.high : NAN};
}

static bool has_member(const struct midden_forecast *forecast, int member)
{
    return member >= 1 && member <= forecast->forecast.able.members;
}

static bool has_day(const struct midden_forecast *forecast, int quantity, int day)
{
    return quantity >= 0 && quantity < FORECAST_QUANTITIES && day >= 1 &&
           day <= forecast->forecast.days;
}

const char *midden_quantity_name(enum midden_quantity quantity)
{
    return forecast_quantity((int)quantity);
}

struct midden_range midden_day(const struct midden_forecast *forecast, enum midden_quantity quantity,
                               int day)
{
    if (!has_day(forecast, (int)quantity, day))
        return UNKNOWN;
    return ranged(forecast, forecast->forecast.day[(day - 1) * FORECAST_QUANTITIES + (int)quantity]);
}

double midden_day_of(const struct midden_forecast *forecast, enum midden_quantity quantity, int day,
                     int member)
{
    if (!has_day(forecast, (int)quantity, day) || !has_member(forecast, member))
        return NAN;
    return forecast_day(&forecast->forecast, (int)quantity, day - 1, member - 1);
}

struct midden_range midden_season(const struct midden_forecast *forecast, enum midden_figure figure)
{
    bool there = (int)figure >= 0 && (int)figure < FORECAST_FIGURES;
    return there ? ranged(forecast, forecast->forecast.season[figure]) : UNKNOWN;
}

double midden_season_of(const struct midden_forecast *forecast, enum midden_figure figure, int member)
{
    bool there = (int)figure >= 0 && (int)figure < FORECAST_FIGURES && has_member(forecast, member);
    return there ? forecast_season(&forecast->forecast, (int)figure, member - 1) : (double)NAN;
}

/* ---- verdicts ---- */

struct midden_ready midden_ready(const struct midden_forecast *forecast, enum midden_use use)
{
    if ((int)use < 0 || (int)use >= READY_USES)
        return (struct midden_ready){UNKNOWN, UNKNOWN, UNKNOWN, NULL};
    const struct ready_summary *ready = &forecast->forecast.ready[use];
    bool many = forecast->forecast.able.members > 1;
    return (struct midden_ready){
        ranged(forecast, ready->day), many ? ranged(forecast, ready->chance) : UNKNOWN,
        many ? ranged(forecast, band_chance(ready->never, ready->members)) : UNKNOWN,
        ready_why_word[ready->why]};
}

double midden_ready_of(const struct midden_forecast *forecast, enum midden_use use, int member)
{
    if ((int)use < 0 || (int)use >= READY_USES || !has_member(forecast, member))
        return NAN;
    return ready_day(&forecast->forecast.able.record[member - 1], forecast->forecast.scenario, (int)use);
}

struct midden_hygiene midden_hygiene(const struct midden_forecast *forecast, int rule)
{
    if (rule < 0 || rule >= RULES)
        return (struct midden_hygiene){NULL, NULL, NULL, UNKNOWN, NAN};
    const struct rules_row *row = &rules_rows[rule];
    return (struct midden_hygiene){row->name, row->where, row->source,
                                   ranged(forecast, forecast->forecast.met[rule]),
                                   ranged(forecast, forecast->forecast.first_met[rule]).median};
}

struct midden_range midden_alive(const struct midden_forecast *forecast, enum midden_class kind)
{
    bool there = (int)kind >= 0 && (int)kind < FORECAST_CLASSES;
    return there ? ranged(forecast, forecast->forecast.alive[kind]) : UNKNOWN;
}

const char *midden_caution(const struct midden_forecast *forecast, int caution)
{
    bool there = caution >= 0 && caution < forecast->forecast.cautions;
    return there ? forecast->forecast.caution[caution] : NULL;
}
