/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/season.c - see run/season.h.
 *
 * A day at a time: to ten o'clock if somebody may come, what they do, then to midnight, when the
 * pile settles, the books are checked and the day's row is written. A step ends at each of these.
 * Members side by side go each at its own pace, through ten o'clocks and midnights of their own:
 * waiting for the slowest of four at every midnight took a third of all steps. Only where a plan
 * takes the pile into a bay of another shape do all wait for each other at ten.
 */
#include "run/season.h"
#include "flow/gas.h"
#include "run/bays.h"
#include "run/calendar.h"
#include "run/eyes.h"
#include "run/jar.h"
#include "run/seen.h"
#include <stdlib.h>

enum { MOST_ATTEMPTS_A_DAY = 20000 };
static const double NEAR_BOILING = 0.85; /* of the air's pressure is vapour: steps won't go there */

/* where each member stands in its season */
struct course {
    int day[LANES];             /* from 0 */
    bool visit[LANES];          /* somebody is still to come this day */
    bool together;              /* all come at once, into a bay of another shape */
};

static bool weigh(struct setting *s, const struct moment *midnight, struct trouble *why)
{
    struct pile_weighed w = pile_weigh(&s->pile, s->balance.decay.microbe_c_to_n,
                                       s->balance.decay.humus_c_to_n);
    return ledger_check(&s->ledger, &w, midnight, why);
}

/* A member's step got too short, or it makes no headway. */
static bool stuck(const struct setting *s, const struct course *course, int i, struct trouble *why)
{
    if (lane_get(s->balance.vapour_share, i) >= NEAR_BOILING)
        return trouble_set(why, TROUBLE_NO, "the pile would boil on day %d; pour cooler water",
                           course->day[i] + 1);
    /* more was to come and didn't: cells of a gram or less, whose water follows the air, are no defect */
    double high_m = lane_get(mesh_height(s->pile.mesh), i);
    if (high_m < SETTING_LOWEST_M)
        return trouble_set(why, TROUBLE_NO, "the pile is only %.2g cm high on day %d, and so thin that its "
                           "water follows the air within seconds; put more in, or take a smaller bin",
                           100 * high_m, course->day[i] + 1);
    return trouble_set(why, TROUBLE_SOLVE, "the season can't advance on day %d: a step of %.3g s is "
                       "still too long; this is a defect of the program", course->day[i] + 1,
                       lane_get(s->step.size_s, i));
}

static bool headway(const struct setting *s, const struct course *course, struct trouble *why)
{
    const struct watch *w = &s->watch;
    lane_mask lost = s->step.failed | lane_less(lane_of(MOST_ATTEMPTS_A_DAY), w->steps + w->refused);
    for (int i = 0; i < LANES && lane_any(lost); i++)
        if (lane_mask_get(lost, i))
            return stuck(s, course, i, why);
    return true;
}

static double stop_s(const struct course *course, int i)
{
    return course->day[i] * SETTING_DAY_S + (course->visit[i] ? SETTING_DEED_S : SETTING_DAY_S);
}

/* One attempt of every member that hasn't come to its next moment yet. */
static bool advance(struct setting *s, const struct course *course, struct record record[LANES],
                    struct trouble *why)
{
    if (s->setup->stop && *s->setup->stop)
        return trouble_set(why, TROUBLE_SOLVE, "interrupted");
    lane from = s->step.time_s, until = from;
    for (int i = 0; i < LANES; i++)
        if (course->day[i] <= s->scenario->last_day)
            lane_put(&until, i, stop_s(course, i));
    hours_before(&s->hours, course->day, &s->watch);
    lane_mask good = step_try(&s->step, until), waiting = lane_less(from, until);
    s->watch.refused += lane_if(waiting & ~good, lane_of(1), lane_of(0));
    lane took = s->step.time_s - from;
    lane air_over_K = around_air(&s->around, from, took);
    watch_step(&s->watch, from, took, good, air_over_K, s->step.flux);
    hours_step(&s->hours, course->day, &s->watch, from, took, air_over_K, s->step.flux);
    ledger_book(&s->ledger, s->step.flux);
    seen_step(&s->watch, s->scenario, from, took, record);
    return headway(s, course, why);
}

/* Who comes to a pile decides on arrival what is to be done, before anything is touched: for each
 * event, to whose. Returns whose will be touched. */
static lane_mask decide(struct setting *s, const struct moment *ten, lane_mask due[PLAN_EVENTS])
{
    lane_mask any = lane_nobody();
    for (int e = 0; e < s->plan->events; e++) {
        const struct plan_event *event = &s->plan->event[e];
        due[e] = lane_nobody();
        for (int i = 0; i < LANES; i++)
            if (moment_has(ten, i) && calendar_comes(s->scenario, event, ten->day[i]) &&
                (event->when != PLAN_RULE || eyes_look(s, e, ten->day[i], i)))
                lane_join(&due[e], i);
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

static bool do_event(struct setting *s, int e, const struct moment *ten, struct record record[LANES],
                     struct trouble *why)
{
    struct record_event done[LANES];
    lane middle_K = s->watch.probe_now[0] + GAS_ICE_POINT_K;
    if (moves_material(&s->plan->event[e]))
        dose_fold(&s->watch.dose, &s->pile, ten->who);
    if (!hands_do(&s->keeper, &s->plan->event[e], ten, done, why))
        return false;
    for (int i = 0; i < LANES; i++) {
        if (!moment_has(ten, i))
            continue;
        s->last_done[e][i] = ten->day[i];
        s->seen_before[e][i] = false;
        done[i].middle_K = lane_get(middle_K, i);
        keep_event(&record[i], ten->day[i], &done[i]);
    }
    setting_worked(s, ten);
    return true;
}

/* Ten o'clock of some members, where somebody may come. */
static bool visit(struct setting *s, const struct moment *ten, struct record record[LANES],
                  struct trouble *why)
{
    lane_mask due[PLAN_EVENTS];
    around_fill(&s->around, s->step.time_s, &s->balance.outside);
    struct moment touched = *ten, some = *ten;
    touched.who = decide(s, ten, due);
    for (int e = 0; e < s->plan->events; e++) {
        some.who = due[e];
        if (lane_any(due[e]) && !do_event(s, e, &some, record, why))
            return false;
    }
    return !lane_any(touched.who) || weigh(s, &touched, why);
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

/* Some members come to a day's end. */
static bool end_day(struct setting *s, const struct moment *midnight, struct record record[LANES],
                    struct trouble *why)
{
    setting_settle_some(s, midnight);
    /* what is told of the day's end is of that moment, not of the last step's last stage; the next
     * step begins with the same, so its ground is that of the day to come */
    for (int i = 0; i < LANES; i++)
        if (moment_has(midnight, i) && midnight->day[i] < s->scenario->last_day)
            around_day_of(&s->around, i, midnight->day[i] + 1);
    step_look(&s->step);
    if (!weigh(s, midnight, why))
        return false;
    watch_day(&s->watch, midnight, record);
    survey_day(&s->survey, midnight, record);
    hours_keep(&s->hours, midnight, record);
    for (int i = 0; i < LANES; i++) {
        int day = midnight->day[i];
        if (!moment_has(midnight, i))
            continue;
        record[i].days = day + 1;
        if (picture_wanted(s->setup, day) &&
            !watch_picture(&s->watch, day + 1, i, &record[i], why))
            return false;
    }
    return true;
}

static void begin_day(struct setting *s, struct course *course, int member, int day,
                      struct record record[LANES])
{
    course->day[member] = day;
    course->visit[member] = look_day(s, day);
    if (day > s->scenario->last_day)
        return;
    around_day_of(&s->around, member, day);
    record[member].day[day].first_event = record[member].events;
}

/* What a member's whole season came to. */
static void finish(struct setting *s, int i, struct record *r)
{
    double laid[PLAN_STUFF] = {0}, left[PLAN_STUFF] = {0};
    survey_end(&s->survey);
    for (int b = 0; b < RECORD_BALANCES; b++)
        r->balance[b] = lane_get(s->ledger.worst[b], i);
    for (int k = 0; k < FLUXES; k++)
        r->flux_total[k] = lane_get(s->ledger.total[k], i);
    for (int k = 0; k < POOLS; k++)
        r->pool_laid_kg[k] = lane_get(s->keeper.notes.pool_laid_kg[k], i);
    for (int k = 0; k < SEEDS; k++)
        r->seeds_laid[k] = lane_get(s->keeper.notes.seeds_laid[k], i);
    for (int k = 0; k < SEEDS; k++)
        r->seeds_alive[k] = lane_get(pile_total(&s->pile, s->pile.stock[STOCK_SEED_EASY + k]) +
                                     pile_total(&s->pile, s->pile.stock[STOCK_HARDY_EASY + k]), i);
    for (int k = 0; k < GERMS; k++) {
        r->germs_laid[k] = lane_get(s->keeper.notes.germs_laid[k], i);
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
                           lane_get(pile_carbon_of(&s->pile.stuff[k], (enum pool)p).dry, i);
    }
    for (int k = 0; k < PLAN_STUFF; k++)
        r->stuff_left_share[k] = laid[k] > 0 ? fmin(left[k] / laid[k], 1) : 0;
}

/* How often a plan's events can happen at most. */
static size_t most_events(const struct scenario *scenario, const struct plan *plan)
{
    size_t most = 0;
    for (int e = 0; e < plan->events; e++)
        most += (size_t)calendar_times(scenario, &plan->event[e]);
    return most;
}

/* A record with room for all that may be written. */
static bool make_record(const struct setting *s, struct record *r, struct trouble *why)
{
    size_t days = (size_t)s->scenario->last_day + 1, most = most_events(s->scenario, s->plan);
    r->day = calloc(days, sizeof *r->day);
    r->picture = calloc((size_t)s->setup->pictures + 1, sizeof *r->picture);
    r->event = calloc(most + 1, sizeof *r->event);
    r->seen = malloc(((size_t)s->scenario->readings + 1) * sizeof *r->seen);
    if (s->setup->hours_day > 0)
        r->hour = calloc(RECORD_HOURS, sizeof *r->hour);
    if (!r->day || !r->picture || !r->event || !r->seen || (s->setup->hours_day > 0 && !r->hour))
        return trouble_set(why, TROUBLE_MEMORY, "no memory for a season's record");
    for (int k = 0; k < s->scenario->readings; k++)
        r->seen[k] = NAN;
    return true;
}

/* A member's season is over: perhaps another's begins in its place. */
static bool hand_over(struct setting *s, struct course *course, int member,
                      struct record record[LANES], struct trouble *why)
{
    const struct setup *setup = s->setup;
    lane_mask who = lane_nobody();
    finish(s, member, &record[member]);
    if (course->together || !setup->next || !setup->next(setup->asker, member, &record[member]))
        return true;
    record[member] = (struct record){0};
    if (!make_record(s, &record[member], why))
        return false;
    setting_replace(s, member);
    begin_day(s, course, member, 0, record);
    lane_join(&who, member);
    setting_build_some(s, who);
    return true;
}

/* Which members stand at ten with somebody to come, or at midnight. */
static bool stand(const struct setting *s, const struct course *course, bool ten, struct moment *at)
{
    at->who = lane_nobody();
    for (int i = 0; i < LANES; i++) {
        at->day[i] = course->day[i];
        if (course->day[i] <= s->scenario->last_day && course->visit[i] == ten &&
            !(lane_get(s->step.time_s, i) < stop_s(course, i)))
            lane_join(&at->who, i);
    }
    return ten && course->together ? !lane_any(~at->who) : lane_any(at->who);
}

static bool under_way(const struct setting *s, const struct course *course)
{
    bool any = false;
    for (int i = 0; i < LANES; i++)
        any |= course->day[i] <= s->scenario->last_day;
    return any;
}

/* The next thing that happens to anybody. */
static bool go_on(struct setting *s, struct course *course, struct record record[LANES],
                  struct trouble *why)
{
    struct moment at;
    if (stand(s, course, true, &at)) {
        for (int i = 0; i < LANES; i++)
            course->visit[i] &= !moment_has(&at, i);
        return visit(s, &at, record, why);
    }
    if (!stand(s, course, false, &at))
        return advance(s, course, record, why);
    if (!end_day(s, &at, record, why))
        return false;
    for (int i = 0; i < LANES; i++) {
        if (!moment_has(&at, i))
            continue;
        begin_day(s, course, i, at.day[i] + 1, record);
        if (at.day[i] == s->scenario->last_day && !hand_over(s, course, i, record, why))
            return false;
    }
    return true;
}

static bool run_days(struct setting *s, struct record record[LANES], struct trouble *why)
{
    struct course course = {.together = !bays_alike(s->scenario, s->plan)};
    for (int i = 0; i < LANES; i++)
        begin_day(s, &course, i, 0, record);
    setting_build(s);
    while (under_way(s, &course))
        if (!go_on(s, &course, record, why))
            return false;
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
    bool done = (LANES == 1 || season_goes_wide(setup->scenario, setup->plan) ||
                 trouble_set(why, TROUBLE_NO, "such a plan is run one member at a time"));
    *s = (struct setting){0};
    done = done && setting_make(s, setup, why);
    for (int i = 0; i < LANES; i++)
        done = done && make_record(s, &record[i], why);
    bool held = done && jar_is_held(setup->scenario);
    done = done && (held ? jar_run(s, record, why) : run_days(s, record, why));
    for (int i = 0; i < LANES && done && held; i++)
        finish(s, i, &record[i]);
    setting_free(s);
    free(s);
    return done;
}
