/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/season.c - see run/season.h. */
#include "run/season.h"
#include "flow/gas.h"
#include "run/hands.h"
#include "run/step.h"
#include "run/watch.h"
#include <stdlib.h>

static const double DAY_S = 86400.0;
static const double DEED_S = 36000.0;       /* gardeners work at ten in the morning */
static const double FIRST_STEP_S = 300.0;
static const double SETTLED = 0.85;         /* of the loose volume, as a bin is designed [trade] */
static const double ADDED = 0.3;            /* of what is added later, as a bin is designed [trade] */
enum { MOST_ATTEMPTS_A_DAY = 20000 };

struct season {
    const struct season_setup *setup;
    const struct scenario *scenario;
    const struct plan *plan;
    struct mesh mesh_of_bay[PLAN_BAYS];
    struct pile pile, spare;
    struct balance balance;
    struct around around;
    struct step step;
    struct hands hands;
    struct watch watch;
    struct ledger ledger;
    lane *dry_before;           /* at the last settling */
    double settled_s;
    int last_done[PLAN_EVENTS]; /* day an event on a rule was last done */
    bool standing;
};

static double design_volume(const struct season *s)
{
    double volume = 0;
    for (int l = 0; l < s->scenario->layers; l++)
        volume += lay_volume_m3(&s->scenario->layer[l]);
    for (int e = 0; e < s->plan->events; e++) {
        const struct plan_event *event = &s->plan->event[e];
        int times = event->when == PLAN_ON_DAY ? 1 : 1 + (event->until - event->day) /
                                                         (event->every_days > 0 ? event->every_days : 1);
        volume += ADDED * times * lay_volume_m3(&event->add);
    }
    return volume;
}

/* A bin's hydraulic radius and multiplicity; a heap's or windrow's true cross-section. */
static struct mesh_design design_of(const struct season *s, const struct plan_bay *bay)
{
    const struct param *param = s->setup->param;
    struct mesh_design d = {.rim_m = param->rim_m, .growth = param->mesh_growth};
    double volume = SETTLED * design_volume(s), area = bay->length_m * bay->width_m;
    const double pi = 3.14159265358979323846;
    switch (bay->shape) {
    case PLAN_BIN:
        d.reach_m = area / (bay->length_m + bay->width_m);
        d.times = area / (pi * d.reach_m * d.reach_m);
        d.height_m = volume / area;
        break;
    case PLAN_HEAP:
        d.reach_m = 0.5 * bay->width_m;
        d.times = 1;
        d.height_m = 3 * volume / (pi * d.reach_m * d.reach_m);
        d.sloping = true;
        break;
    case PLAN_WINDROW:
        d.shape = MESH_LONG;
        d.reach_m = 0.5 * bay->width_m;
        d.times = 2 * bay->length_m;
        d.height_m = volume / (bay->length_m * d.reach_m);
        d.sloping = true;
        break;
    case PLAN_JAR:
        d.shape = MESH_POINT;
        d.height_m = d.reach_m = cbrt(volume / pi);
        d.times = 1;
        break;
    }
    return d;
}

static bool bay_used(const struct season *s, int bay)
{
    if (bay == s->scenario->home)
        return true;
    for (int e = 0; e < s->plan->events; e++) {
        int into = s->plan->event[e].into;
        if (s->plan->event[e].deed == PLAN_TURN && (into == bay || into == PLAN_NEXT_BAY))
            return true;
    }
    return false;
}

/* Takes all memory the season needs; run once to count and once to take. */
static bool take_all(struct season *s, struct arena *arena)
{
    int stride = 0, widest = s->scenario->home;
    struct mesh most = {0};
    for (int bay = 0; bay < s->scenario->bays; bay++) {
        if (!bay_used(s, bay))
            continue;
        struct mesh_design design = design_of(s, &s->scenario->bay[bay]);
        struct mesh *mesh = &s->mesh_of_bay[bay];
        if (!mesh_lay(mesh, &design, arena))
            return false;
        int room = mesh->rows * mesh->cols;
        stride = room > stride ? room : stride;
        most.rows = mesh->rows > most.rows ? mesh->rows : most.rows;
        most.cols = mesh->cols > most.cols ? mesh->cols : most.cols;
        most.band = mesh->band > most.band ? mesh->band : most.band;
    }
    stride = most.rows * most.cols > stride ? most.rows * most.cols : stride;
    pile_take(&s->pile, stride, s->hands.lay.kinds, arena);
    pile_take(&s->spare, stride, s->hands.lay.kinds, arena);
    s->pile.mesh = &most; /* room for the largest of each */
    balance_take(&s->balance, &s->pile, arena);
    step_take(&s->step, &s->balance, &s->around, arena);
    watch_take(&s->watch, &s->balance, arena);
    s->dry_before = arena_take(arena, (size_t)stride, sizeof(lane));
    s->pile.mesh = &s->mesh_of_bay[widest];
    return true;
}

static void begin(struct season *s)
{
    const struct season_setup *setup = s->setup;
    balance_param(&s->balance, setup->param, setup->sky->air_Pa);
    around_param(&s->around, setup->param, &s->scenario->place, setup->sky);
    hands_param(&s->hands, setup->param);
    s->watch.death = death_law_of(setup->param);
    s->watch.ignition_s = lane_of(NAN);
    struct outside *out = &s->balance.outside;
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &setup->param[i];
        lane_put(&s->step.tolerance_K, i, p->tolerance_K);
        lane_put(&s->step.longest_s, i, p->longest_step_s);
        lane_put(&out->soil_W_per_mK, i, p->soil_W_per_mK);
        lane_put(&out->soil_J_per_m3K, i, p->soil_J_per_m3K);
        lane_put(&out->capillary_m2_per_s, i, p->capillary_m2_per_s);
        lane_put(&out->drain_kg_per_m2s, i, 1000.0 * p->drain_m_per_s);
    }
    s->hands.balance = &s->balance;
    s->hands.pile = &s->pile;
    s->hands.spare = &s->spare;
    s->hands.mesh_of_bay = s->mesh_of_bay;
    s->hands.bay = s->scenario->home;
    s->around.across_m = 2 * s->pile.mesh->reach_m;
    lay_stuffs(&s->hands.lay, &s->pile);
    lay_stuffs(&s->hands.lay, &s->spare);
    s->step.time_s = lane_of(DEED_S);
    s->step.size_s = lane_of(FIRST_STEP_S);
    s->step.error_before = lane_of(1);
}

/* Somebody has worked on the pile: books it, looks again, starts with small steps. */
static void worked(struct season *s, int day)
{
    ledger_book(&s->ledger, s->hands.flux);
    for (int k = 0; k < FLUXES; k++) {
        s->watch.day_flux[k] += s->hands.flux[k];
        s->hands.flux[k] = lane_of(0);
    }
    for (int c = 0; c < s->pile.mesh->cells; c++)
        s->dry_before[c] = pile_state(&s->pile, STATE_DRY_KG)[c];
    s->settled_s = day * DAY_S + DEED_S;
    s->around.across_m = 2 * s->pile.mesh->reach_m;
    balance_store(&s->balance);
    watch_look(&s->watch);
    s->step.size_s = lane_min(s->step.size_s, lane_of(FIRST_STEP_S));
}

static bool weigh(struct season *s, int day, struct trouble *why)
{
    struct pile_weighed w = pile_weigh(&s->pile, s->balance.decay.microbe_c_to_n,
                                       s->balance.decay.humus_c_to_n);
    return ledger_check(&s->ledger, &w, day, why);
}

static bool stuck(const struct season *s, int day, struct trouble *why)
{
    return trouble_set(why, TROUBLE_SOLVE, "the season can't advance on day %d: a step of %.3g s is "
                       "still too long; this is a defect of the program", day + 1,
                       lane_get(s->step.size_s, 0));
}

/* Steps until every member has reached a moment. */
static bool go(struct season *s, int day, double until_s, struct trouble *why)
{
    lane until = lane_of(until_s);
    for (int attempt = 0; lane_any(lane_less(s->step.time_s, until)); attempt++) {
        if (s->setup->stop && *s->setup->stop)
            return trouble_set(why, TROUBLE_SOLVE, "interrupted");
        lane from = s->step.time_s;
        lane_mask good = step_try(&s->step, until);
        if (lane_any(s->step.failed) || attempt == MOST_ATTEMPTS_A_DAY)
            return stuck(s, day, why);
        lane_mask waiting = lane_less(from, until);
        s->watch.refused += lane_if(waiting & ~good, lane_of(1), lane_of(0));
        watch_step(&s->watch, from, s->step.time_s - from, good, s->balance.outside.over_K,
                   s->step.flux);
        ledger_book(&s->ledger, s->step.flux);
    }
    return true;
}

/* Does an event apply today? Rules see what the probes see at that hour. */
static bool due(const struct season *s, int index, int day)
{
    const struct plan_event *e = &s->plan->event[index];
    if (e->when == PLAN_ON_DAY)
        return day == e->day;
    if (day < e->day || day > e->until || (day - e->day) % (e->every_days > 0 ? e->every_days : 1))
        return false;
    if (e->when == PLAN_EVERY)
        return true;
    if (s->last_done[index] >= 0 && day - s->last_done[index] < e->at_most_days)
        return false;
    double air = lane_get(s->balance.outside.over_K, 0) + GAS_ICE_POINT_K;
    if (e->unless_air_below_K > 0 && air < e->unless_air_below_K)
        return false;
    double seen = lane_get(s->watch.probe_now[e->rule_place], 0) + GAS_ICE_POINT_K;
    if (e->rule_K > 0 && (e->rule_hotter ? seen <= e->rule_K : seen >= e->rule_K))
        return false;
    /* a handful squeezed: 35, 44, 51 and 60 % water part the five words [trade] */
    static const double wettest[] = {0.35, 0.44, 0.51, 0.60, 1.0};
    if (e->rule_squeeze >= 0) {
        double water = lane_get(pile_total(&s->pile, pile_state(&s->pile, STATE_WATER_KG)), 0);
        double dry = lane_get(pile_total(&s->pile, pile_state(&s->pile, STATE_DRY_KG)), 0);
        if (water / (water + dry) > wettest[e->rule_squeeze])
            return false;
    }
    return true;
}

static bool keep_event(struct record *record, int day, const struct record_event *event,
                       struct trouble *why)
{
    struct record_event *more =
        realloc(record->event, (size_t)(record->events + 1) * sizeof *more);
    if (!more)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for another event");
    record->event = more;
    more[record->events++] = *event;
    record->day[day].events++;
    record->person_s += event->person_s;
    record->lifted_kg += event->lifted_kg;
    record->water_l += event->water_kg;
    record->turns += event->deed == PLAN_TURN;
    return true;
}

static bool do_events(struct season *s, int day, bool *any, struct record record[LANES],
                      struct trouble *why)
{
    for (int e = 0; e < s->plan->events; e++) {
        struct record_event done[LANES];
        if (!due(s, e, day))
            continue;
        if (!hands_do(&s->hands, &s->plan->event[e], day, done, why))
            return false;
        s->last_done[e] = day;
        *any = true;
        for (int i = 0; i < LANES; i++)
            if (!keep_event(&record[i], day, &done[i], why))
                return false;
        worked(s, day);
    }
    return true;
}

/* Could anything be done this day? */
static bool look_day(const struct season *s, int day)
{
    for (int e = 0; e < s->plan->events; e++) {
        const struct plan_event *event = &s->plan->event[e];
        int every = event->every_days > 0 ? event->every_days : 1;
        if (event->when == PLAN_ON_DAY ? day == event->day
                                       : day >= event->day && day <= event->until &&
                                             (day - event->day) % every == 0)
            return true;
    }
    return false;
}

static void build(struct season *s, struct record record[LANES])
{
    around_fill(&s->around, lane_of(DEED_S), &s->balance.outside);
    hands_build(&s->hands);
    worked(s, 0);
    s->standing = true;
    for (int i = 0; i < LANES; i++) {
        static const int seed[] = {STOCK_SEED_EASY, STOCK_SEED_MODERATE, STOCK_SEED_HARD};
        for (int k = 0; k < SEEDS; k++)
            record[i].seeds_at_start[k] =
                lane_get(pile_total(&s->pile, s->pile.stock[seed[k]]), i);
    }
}

static void settle(struct season *s, double now_s)
{
    balance_settle(&s->balance, lane_of((now_s - s->settled_s) / DAY_S), s->dry_before);
    for (int c = 0; c < s->pile.mesh->cells; c++)
        s->dry_before[c] = pile_state(&s->pile, STATE_DRY_KG)[c];
    s->settled_s = now_s;
    watch_look(&s->watch);
}

static bool picture_wanted(const struct season_setup *setup, int day)
{
    for (int i = 0; i < setup->pictures; i++)
        if (setup->picture_day[i] == day + 1)
            return true;
    return false;
}

static bool run_day(struct season *s, int day, struct record record[LANES], struct trouble *why)
{
    around_day(&s->around, day);
    for (int i = 0; i < LANES; i++)
        record[i].day[day].first_event = record[i].events;
    if (!s->standing)
        build(s, record);
    if (look_day(s, day)) {
        bool any = false;
        if (!go(s, day, day * DAY_S + DEED_S, why))
            return false;
        around_fill(&s->around, lane_of(day * DAY_S + DEED_S), &s->balance.outside);
        if (!do_events(s, day, &any, record, why))
            return false;
        if (any && !weigh(s, day, why))
            return false;
    }
    if (!go(s, day, (day + 1) * DAY_S, why))
        return false;
    settle(s, (day + 1) * DAY_S);
    if (!weigh(s, day, why))
        return false;
    if (picture_wanted(s->setup, day) && !watch_picture(&s->watch, day + 1, record, why))
        return false;
    watch_day(&s->watch, day, record);
    for (int i = 0; i < LANES; i++)
        record[i].days = day + 1;
    return true;
}

static void finish(struct season *s, struct record record[LANES])
{
    static const int seed[] = {STOCK_SEED_EASY, STOCK_SEED_MODERATE, STOCK_SEED_HARD};
    for (int i = 0; i < LANES; i++) {
        struct record *r = &record[i];
        double laid[PLAN_STUFF] = {0}, left[PLAN_STUFF] = {0};
        for (int b = 0; b < RECORD_BALANCES; b++)
            r->balance[b] = lane_get(s->ledger.worst[b], i);
        for (int k = 0; k < FLUXES; k++)
            r->flux_total[k] = lane_get(s->ledger.total[k], i);
        for (int k = 0; k < SEEDS; k++)
            r->seeds_alive[k] = lane_get(pile_total(&s->pile, s->pile.stock[seed[k]]), i);
        double exact = lane_get(s->step.respired_exact, i);
        r->respiration_gap = fabs(lane_get(s->step.respired_sum, i) - exact) / fmax(exact, 1e-12);
        r->ignition_day = lane_get(s->watch.ignition_s, i) / DAY_S;
        for (int k = 0; k < s->pile.stuffs; k++) {
            static const double dry[POOLS] = {AMOUNT_FAST_DRY, 0, AMOUNT_SLOW_DRY, AMOUNT_LIGNIN_DRY};
            int stuff = s->hands.lay.kind[k].stuff;
            laid[stuff] += lane_get(pile_total(&s->pile, pile_laid(&s->pile, k)), i) *
                           (1 - s->scenario->stuff[stuff].ash_share);
            for (int p = 0; p < POOLS; p++)
                left[stuff] += lane_get(pile_total(&s->pile, pile_pool(&s->pile, k, (enum pool)p)), i) *
                               (p == POOL_PROTEIN ? lane_get(s->pile.stuff[k].protein_dry, i) : dry[p]);
        }
        for (int k = 0; k < PLAN_STUFF; k++)
            r->stuff_left_share[k] = laid[k] > 0 ? fmin(left[k] / laid[k], 1) : 0;
    }
}

static bool prepare(struct season *s, struct arena *arena, struct record record[LANES],
                    struct trouble *why)
{
    lay_kinds(&s->hands.lay, s->scenario, s->plan, s->setup->param);
    if (!take_all(s, arena))
        return trouble_set(why, TROUBLE_NO, "the mesh would have more than %d cells; take a thicker "
                           "rim_m or a larger mesh_growth", MESH_MOST_CELLS);
    arena->block = calloc(1, arena->size = arena->used);
    arena->used = 0;
    if (!arena->block || !take_all(s, arena))
        return trouble_set(why, TROUBLE_MEMORY, "no memory for a season");
    size_t days = (size_t)s->scenario->last_day + 1;
    for (int i = 0; i < LANES; i++) {
        record[i] = (struct record){0};
        record[i].day = calloc(days, sizeof *record[i].day);
        record[i].picture = calloc((size_t)s->setup->pictures + 1, sizeof *record[i].picture);
        if (!record[i].day || !record[i].picture)
            return trouble_set(why, TROUBLE_MEMORY, "no memory for a season's record");
    }
    return true;
}

bool LANE_NAME(season_run)(struct record record[LANES], const struct season_setup *setup,
                           struct trouble *why)
{
    struct season *s = calloc(1, sizeof *s);
    struct arena arena = {0};
    for (int i = 0; i < LANES; i++)
        record[i] = (struct record){0};
    if (!s)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for a season");
    s->setup = setup;
    s->scenario = setup->scenario;
    s->plan = &setup->scenario->plan[setup->plan];
    for (int e = 0; e < PLAN_EVENTS; e++)
        s->last_done[e] = -1;
    bool done = s->scenario->layers > 0 ||
                trouble_set(why, TROUBLE_NO, "nothing has been built; write what the pile is made "
                            "of under `build` or `found`");
    done = done && prepare(s, &arena, record, why);
    if (done)
        begin(s);
    for (int day = 0; done && day <= s->scenario->last_day; day++)
        done = run_day(s, day, record, why);
    if (done)
        finish(s, record);
    free(arena.block);
    free(s);
    return done;
}
