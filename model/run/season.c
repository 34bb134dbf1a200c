/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/season.c - see run/season.h.
 *
 * A day at a time: to ten o'clock if somebody may come, what they do, then to midnight, when the
 * pile settles, the books are checked and the day's row is written. A step ends at each of these.
 * Over days on which nobody comes members side by side go each at its own pace, through midnights of
 * their own: waiting for the slowest of four at every midnight took a third of all steps.
 */
#include "run/season.h"
#include "flow/gas.h"
#include "run/calendar.h"
#include "run/eyes.h"
#include "run/jar.h"
#include "run/seen.h"
#include <stdlib.h>

enum { MOST_ATTEMPTS_A_DAY = 20000, NO_DAY = -2 }; /* of no day are hours kept */
static const double NEAR_BOILING = 0.85; /* of the air's pressure is vapour: steps won't go there */

static bool weigh(struct setting *s, const struct midnight *midnight, struct trouble *why)
{
    struct pile_weighed w = pile_weigh(&s->pile, s->balance.decay.microbe_c_to_n,
                                       s->balance.decay.humus_c_to_n);
    return ledger_check(&s->ledger, &w, midnight, why);
}

/* A member whose steps got too short, or else the one that is farthest behind. */
static int straggler(const struct step *step)
{
    int last = 0;
    for (int i = 0; i < LANES; i++) {
        if (lane_mask_get(step->failed, i))
            return i;
        if (lane_get(step->time_s, i) < lane_get(step->time_s, last))
            last = i;
    }
    return last;
}

static bool stuck(const struct setting *s, struct trouble *why)
{
    int i = straggler(&s->step), day = (int)(lane_get(s->step.time_s, i) / SETTING_DAY_S);
    if (lane_get(s->balance.vapour_share, i) >= NEAR_BOILING)
        return trouble_set(why, TROUBLE_NO, "the pile would boil on day %d; pour cooler water", day + 1);
    return trouble_set(why, TROUBLE_SOLVE, "the season can't advance on day %d: a step of %.3g s is "
                       "still too long; this is a defect of the program", day + 1,
                       lane_get(s->step.size_s, i));
}

/* One attempt of every member that hasn't come to its moment yet. */
static bool advance(struct setting *s, int day, lane until, struct record record[LANES],
                    struct trouble *why)
{
    if (s->setup->stop && *s->setup->stop)
        return trouble_set(why, TROUBLE_SOLVE, "interrupted");
    lane from = s->step.time_s;
    hours_before(&s->hours, day, &s->watch);
    lane_mask good = step_try(&s->step, until);
    if (lane_any(s->step.failed))
        return stuck(s, why);
    lane_mask waiting = lane_less(from, until);
    s->watch.refused += lane_if(waiting & ~good, lane_of(1), lane_of(0));
    lane took = s->step.time_s - from;
    lane air_over_K = around_air(&s->around, from, took);
    watch_step(&s->watch, from, took, good, air_over_K, s->step.flux);
    hours_step(&s->hours, day, &s->watch, from, took, air_over_K, s->step.flux);
    ledger_book(&s->ledger, s->step.flux);
    seen_step(&s->watch, s->scenario, from, took, record);
    return true;
}

/* Steps until every member has reached a moment. */
static bool go(struct setting *s, int day, double until_s, struct record record[LANES],
               struct trouble *why)
{
    lane until = lane_of(until_s);
    for (int attempt = 0; lane_any(lane_less(s->step.time_s, until)); attempt++)
        if (attempt == MOST_ATTEMPTS_A_DAY ? !stuck(s, why)
                                           : !advance(s, day, until, record, why))
            return false;
    return true;
}

/* Who comes decides on arrival what is to be done, before anything is touched. False when nobody
 * comes round. */
static bool decide(struct setting *s, int day, bool due[PLAN_EVENTS])
{
    bool any = false;
    for (int e = 0; e < s->plan->events; e++) {
        const struct plan_event *event = &s->plan->event[e];
        due[e] = calendar_comes(s->scenario, event, day) &&
                 (event->when != PLAN_RULE || eyes_look(s, e, day, 0));
        any |= due[e];
    }
    return any;
}

static void keep_event(struct record *record, int day, const struct record_event *event)
{
    record->event[record->events++] = *event;
    record->day[day].events++;
    record->person_s += event->person_s;
    record->lifted_kg += event->lifted_kg;
    record->water_l += event->water_kg;
    record->turns += event->deed == PLAN_TURN;
}

/* Does it put material of one cell into another? */
static bool moves_material(const struct plan_event *event)
{
    return event->deed == PLAN_TURN || event->deed == PLAN_ADD ||
           (event->deed == PLAN_COVER && event->cover < 0);
}

static bool do_events(struct setting *s, int day, struct record record[LANES], struct trouble *why)
{
    bool due[PLAN_EVENTS];
    if (!decide(s, day, due))
        return true;
    for (int e = 0; e < s->plan->events; e++) {
        struct record_event done[LANES];
        if (!due[e])
            continue;
        lane middle_K = s->watch.probe_now[0] + GAS_ICE_POINT_K;
        if (moves_material(&s->plan->event[e]))
            dose_fold(&s->watch.dose, &s->pile);
        if (!hands_do(&s->keeper, &s->plan->event[e], day, done, why))
            return false;
        s->last_done[e] = day;
        s->seen_before[e] = false;
        for (int i = 0; i < LANES; i++) {
            done[i].middle_K = lane_get(middle_K, i);
            keep_event(&record[i], day, &done[i]);
        }
        setting_worked(s, day);
    }
    struct midnight now = midnight_all(day);
    return weigh(s, &now, why);
}

/* Does somebody come this day? */
static bool look_day(const struct setting *s, int day)
{
    for (int e = 0; e < s->plan->events; e++)
        if (calendar_comes(s->scenario, &s->plan->event[e], day))
            return true;
    return false;
}

static bool picture_wanted(const struct setup *setup, int day)
{
    for (int i = 0; i < setup->pictures; i++)
        if (setup->picture_day[i] == day + 1)
            return true;
    return false;
}

/* What is done when some members come to a day's end. */
static bool end_day(struct setting *s, const struct midnight *midnight, struct record record[LANES],
                    struct trouble *why)
{
    setting_settle_some(s, midnight);
    /* what is told of the day's end is of that moment, not of the last step's last stage */
    around_fill(&s->around, s->step.time_s, &s->balance.outside);
    balance_fill(&s->balance, s->pile.y, s->step.rate);
    if (!weigh(s, midnight, why))
        return false;
    watch_day(&s->watch, midnight, record);
    survey_day(&s->survey, midnight, record);
    for (int i = 0; i < LANES; i++)
        if (midnight_has(midnight, i))
            record[i].days = midnight->day[i] + 1;
    return true;
}

static void begin_day(struct setting *s, int day, int member, struct record *record)
{
    around_day_of(&s->around, member, day);
    record->day[day].first_event = record->events;
}

/* A day on which somebody may come, or of which more is kept: all together. */
static bool run_day(struct setting *s, int day, struct record record[LANES], struct trouble *why)
{
    struct midnight midnight = midnight_all(day);
    for (int i = 0; i < LANES; i++)
        begin_day(s, day, i, &record[i]);
    if (!s->standing)
        setting_build(s);
    if (look_day(s, day)) {
        if (!go(s, day, day * SETTING_DAY_S + SETTING_DEED_S, record, why))
            return false;
        around_fill(&s->around, lane_of(day * SETTING_DAY_S + SETTING_DEED_S), &s->balance.outside);
        if (!do_events(s, day, record, why))
            return false;
    }
    if (!go(s, day, (day + 1) * SETTING_DAY_S, record, why) || !end_day(s, &midnight, record, why))
        return false;
    hours_keep(&s->hours, day, record);
    return !picture_wanted(s->setup, day) || watch_picture(&s->watch, day + 1, record, why);
}

/* Which members stand at the end of the day they are on. */
static bool at_midnight(const struct setting *s, struct midnight *midnight, int end)
{
    lane waits = lane_of(0);
    for (int i = 0; i < LANES; i++)
        if (midnight->day[i] < end &&
            !(lane_get(s->step.time_s, i) < (midnight->day[i] + 1) * SETTING_DAY_S))
            lane_put(&waits, i, 1);
    midnight->who = lane_less(lane_of(0), waits);
    return lane_any(midnight->who);
}

static bool under_way(const struct midnight *midnight, int end)
{
    bool any = false;
    for (int i = 0; i < LANES; i++)
        any |= midnight->day[i] < end;
    return any;
}

/* Days on which nobody comes, up to `end`: each member at its own pace. */
static bool run_quiet(struct setting *s, int first, int end, struct record record[LANES],
                      struct trouble *why)
{
    struct midnight midnight = midnight_all(first);
    long attempts = 0, most = (long)(end - first) * LANES * MOST_ATTEMPTS_A_DAY;
    for (int i = 0; i < LANES; i++)
        begin_day(s, first, i, &record[i]);
    while (under_way(&midnight, end)) {
        lane until = lane_of(0);
        if (at_midnight(s, &midnight, end)) {
            if (!end_day(s, &midnight, record, why))
                return false;
            for (int i = 0; i < LANES; i++)
                if (midnight_has(&midnight, i) && ++midnight.day[i] < end)
                    begin_day(s, midnight.day[i], i, &record[i]);
            continue;
        }
        for (int i = 0; i < LANES; i++)
            lane_put(&until, i, (midnight.day[i] < end ? midnight.day[i] + 1 : end) * SETTING_DAY_S);
        if (attempts++ == most ? !stuck(s, why) : !advance(s, NO_DAY, until, record, why))
            return false;
    }
    return true;
}

/* Must all members begin and end this day together? */
static bool shared_day(const struct setting *s, int day)
{
    return day == 0 || look_day(s, day) || picture_wanted(s->setup, day) ||
           day == s->setup->hours_day - 1;
}

static bool run_days(struct setting *s, struct record record[LANES], struct trouble *why)
{
    int days = s->scenario->last_day + 1;
    for (int day = 0, end; day < days; day = end) {
        bool shared = shared_day(s, day);
        for (end = day + 1; !shared && end < days && !shared_day(s, end);)
            end++;
        if (!(shared ? run_day(s, day, record, why) : run_quiet(s, day, end, record, why)))
            return false;
    }
    return true;
}

static void finish(struct setting *s, struct record record[LANES])
{
    for (int i = 0; i < LANES; i++) {
        struct record *r = &record[i];
        double laid[PLAN_STUFF] = {0}, left[PLAN_STUFF] = {0};
        for (int b = 0; b < RECORD_BALANCES; b++)
            r->balance[b] = lane_get(s->ledger.worst[b], i);
        for (int k = 0; k < FLUXES; k++)
            r->flux_total[k] = lane_get(s->ledger.total[k], i);
        for (int k = 0; k < POOLS; k++)
            r->pool_laid_kg[k] = lane_get(s->keeper.pool_laid_kg[k], i);
        for (int k = 0; k < SEEDS; k++)
            r->seeds_laid[k] = lane_get(s->keeper.seeds_laid[k], i);
        for (int k = 0; k < SEEDS; k++)
            r->seeds_alive[k] = lane_get(pile_total(&s->pile, s->pile.stock[STOCK_SEED_EASY + k]) +
                                         pile_total(&s->pile, s->pile.stock[STOCK_HARDY_EASY + k]), i);
        for (int k = 0; k < GERMS; k++) {
            r->germs_laid[k] = lane_get(s->keeper.germs_laid[k], i);
            r->germs_alive[k] = lane_get(pile_total(&s->pile, s->pile.stock[STOCK_GERM_GUT + k]), i);
        }
        double exact = lane_get(s->step.closed.respired_exact, i);
        r->respiration_gap = fabs(lane_get(s->step.closed.respired_sum, i) - exact) / fmax(exact, 1e-12);
        r->ignition_day = lane_get(s->watch.ignition_s, i) / SETTING_DAY_S;
        for (int k = 0; k < s->pile.stuffs; k++) {
            int stuff = s->keeper.lay.kind[k].stuff;
            laid[stuff] += lane_get(pile_total(&s->pile, pile_laid(&s->pile, k)), i) *
                           lay_decayable_share(&s->keeper.lay, k, i);
            for (int p = 0; p < POOLS; p++)
                left[stuff] += lane_get(pile_total(&s->pile, pile_pool(&s->pile, k, (enum pool)p)), i) *
                               lane_get(pile_pool_dry(&s->pile, k, (enum pool)p), i);
        }
        for (int k = 0; k < PLAN_STUFF; k++)
            r->stuff_left_share[k] = laid[k] > 0 ? fmin(left[k] / laid[k], 1) : 0;
    }
}

/* How often a plan's events can happen at most. */
static size_t most_events(const struct scenario *scenario, const struct plan *plan)
{
    size_t most = 0;
    for (int e = 0; e < plan->events; e++)
        most += (size_t)calendar_times(scenario, &plan->event[e]);
    return most;
}

/* Members side by side do the same things on the same days; a rule could part them. */
static bool dated_only(const struct plan *plan)
{
    for (int e = 0; e < plan->events; e++)
        if (plan->event[e].when == PLAN_RULE)
            return false;
    return true;
}

static bool make_records(const struct setting *s, struct record record[LANES], struct trouble *why)
{
    size_t days = (size_t)s->scenario->last_day + 1, most = most_events(s->scenario, s->plan);
    for (int i = 0; i < LANES; i++) {
        record[i].day = calloc(days, sizeof *record[i].day);
        record[i].picture = calloc((size_t)s->setup->pictures + 1, sizeof *record[i].picture);
        record[i].event = calloc(most + 1, sizeof *record[i].event);
        record[i].seen = malloc(((size_t)s->scenario->readings + 1) * sizeof *record[i].seen);
        if (s->setup->hours_day > 0)
            record[i].hour = calloc(RECORD_HOURS, sizeof *record[i].hour);
        if (!record[i].day || !record[i].picture || !record[i].event || !record[i].seen ||
            (s->setup->hours_day > 0 && !record[i].hour))
            return trouble_set(why, TROUBLE_MEMORY, "no memory for a season's record");
        for (int k = 0; k < s->scenario->readings; k++)
            record[i].seen[k] = NAN;
    }
    return true;
}

bool LANE_NAME(season_run)(struct record record[LANES], const struct setup *setup,
                           struct trouble *why)
{
    for (int i = 0; i < LANES; i++)
        record[i] = (struct record){0};
    /* aligned for vectors, which calloc need not be */
    size_t size = (sizeof(struct setting) + 63) / 64 * 64;
    struct setting *s = aligned_alloc(64, size);
    if (!s)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for a season");
    bool done = (LANES == 1 || dated_only(&setup->scenario->plan[setup->plan]) ||
                 trouble_set(why, TROUBLE_NO, "a plan with rules is run one member at a time"));
    *s = (struct setting){0};
    done = done && setting_make(s, setup, why) && make_records(s, record, why);
    if (done && jar_is_held(setup->scenario))
        done = jar_run(s, record, why);
    else
        done = done && run_days(s, record, why);
    if (done)
        finish(s, record);
    setting_free(s);
    free(s);
    return done;
}
