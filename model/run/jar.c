/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/jar.c - see run/jar.h.
 *
 * A step by classical Runge-Kutta [Kutta 1901]: k1 = f(y), k2 = f(y + h k1/2), k3 = f(y + h k2/2),
 * k4 = f(y + h k3), y + h (k1 + 2 k2 + 2 k3 + k4)/6. What it gives for the clocks is folded into
 * the pools by run/closed, which also puts water, heat and nitrogen on the closed form.
 */
#include "run/jar.h"
#include "flow/gas.h"
#include "pile/read.h"

static const double LONGEST_S = SETTING_DAY_S / 64;
/* of the time in which growth takes up mineral nitrogen; Runge-Kutta is stable up to 2.78 */
static const double OF_UPTAKE = 0.4;
static const double OPEN_AIR = 0.209;

struct jar {
    struct setting *setting;
    lane over_K, liquid_share, air; /* air: Monod factor of the oxygen */
    lane water_per_dry;
    lane longest_s;
    struct decay_store store;
};

/* beside the states of pile/amount.h: what has passed since the step's start */
enum { AMMONIA = STATES, FREED, RESPIRED, PLACES };

static lane held_heat(const struct jar *j, lane dry_kg, lane water_kg)
{
    lane ash = j->setting->pile.stock[STOCK_ASH_KG][0];
    return read_enthalpy(j->over_K, dry_kg - ash, ash, water_kg);
}

/* Puts water and temperature of y where they are held, and books what that took. */
static void hold(const struct jar *j, lane *y, lane_mask good, lane flux[FLUXES])
{
    lane water = j->water_per_dry * y[STATE_DRY_KG], gap = water - y[STATE_WATER_KG];
    lane heat = held_heat(j, y[STATE_DRY_KG], water);
    lane warmed = heat - y[STATE_HEAT_J], none = lane_of(0);
    flux[FLUX_poured_water] += lane_if(good, lane_max(gap, none), none);
    flux[FLUX_vapour_water] += lane_if(good, lane_min(gap, none), none);
    flux[FLUX_wall_heat] += lane_if(good, warmed, none);
    y[STATE_WATER_KG] = water;
    y[STATE_HEAT_J] = heat;
}

/* Of the store run/balance keeps of one cell. */
static void take_store(struct jar *j)
{
    const struct balance_store *from = &j->setting->balance.store;
    for (int k = 0; k < POOLS; k++)
        for (int n = 0; n < DECAY_MOMENTS; n++)
            j->store.moment[k][n] = from->moment[k][n][0];
    j->store.protein_oxygen = from->protein_oxygen[0];
    j->store.protein_water = from->protein_water[0];
    j->store.protein_nitrogen = from->protein_nitrogen[0];
    j->store.protein_dry = from->protein_dry[0];
    j->store.enclosed = from->enclosed[0];
    j->store.carbon_kg = from->carbon_kg[0];
    j->store.ph = from->ph[0];
}

static void potential_at(const struct jar *j, const lane *y, struct decay_potential *p)
{
    struct decay_surroundings at = {j->over_K, j->liquid_share, j->water_per_dry * y[STATE_DRY_KG],
                                    y[STATE_DRY_KG]};
    struct decay_state state = {.microbe_kg = y[STATE_MICROBE_KG], .living_kg = y[STATE_LIVING_KG],
                                .humus_kg = y[STATE_HUMUS_KG],
                                .nitrogen_kg = y[STATE_NITROGEN_KG], .sour_kg = y[STATE_SOUR_KG]};
    for (int k = 0; k < POOLS; k++)
        state.clock_d[k] = y[STATE_CLOCK + k];
    decay_potential(&j->setting->balance.decay, &j->store, &at, &state, p);
}

static void rates_at(const struct jar *j, const lane *y, lane rate[PLACES])
{
    struct decay_potential p;
    struct decay_rates r;
    potential_at(j, y, &p);
    decay_rates(&j->setting->balance.decay, &j->store, &p, j->air, &r);
    rate[STATE_HEAT_J] = rate[STATE_WATER_KG] = rate[STATE_OXYGEN] = lane_of(0);
    for (int k = 0; k < POOLS; k++)
        rate[STATE_CLOCK + k] = r.pace[k];
    rate[STATE_MICROBE_KG] = r.microbe_kg;
    rate[STATE_LIVING_KG] = r.living_kg;
    rate[STATE_HUMUS_KG] = r.humus_kg;
    rate[STATE_NITROGEN_KG] = r.nitrogen_kg;
    rate[STATE_SOUR_KG] = r.sour_kg;
    rate[STATE_DRY_KG] = r.dry_kg;
    rate[AMMONIA] = r.ammonia_kg;
    rate[FREED] = r.pool_nitrogen_kg;
    rate[RESPIRED] = r.carbon_kg;
}

/* Growth takes up nitrogen fastest when there is next to none of it: the slope at nothing. */
static lane step_size(const struct jar *j, const lane *y, lane left_s)
{
    const struct decay_law *law = &j->setting->balance.decay;
    struct decay_potential p;
    potential_at(j, y, &p);
    lane half = law->nitrogen_half * j->store.carbon_kg + 1e-15;
    lane rise = (y[STATE_NITROGEN_KG] + half) / half;
    lane uptake = j->air * rise * rise *
                  (p.grown_slope / law->microbe_c_to_n + p.humified_slope / law->humus_c_to_n);
    lane share = OF_UPTAKE / lane_max(uptake * LONGEST_S, lane_of(OF_UPTAKE));
    return lane_min(j->longest_s * share, left_s);
}

/* y0 + h f(...) of the four stages; y has the pile's places, then the sums. */
static void runge_kutta(const struct jar *j, const lane *y0, lane h, lane y1[PLACES])
{
    static const double AHEAD[4] = {0, 0.5, 0.5, 1};
    static const double WEIGHT[4] = {1.0 / 6, 1.0 / 3, 1.0 / 3, 1.0 / 6};
    lane rate[PLACES] = {lane_of(0)}, stage[STATES];
    for (int n = 0; n < PLACES; n++)
        y1[n] = n < STATES ? y0[n] : lane_of(0);
    for (int i = 0; i < 4; i++) {
        for (int n = 0; n < STATES; n++)
            stage[n] = y0[n] + AHEAD[i] * h * rate[n];
        rates_at(j, stage, rate);
        for (int n = 0; n < PLACES; n++)
            y1[n] += WEIGHT[i] * h * rate[n];
    }
}

/* One step of every member that has not reached the moment. */
static void step(struct jar *j, lane until_s)
{
    struct setting *s = j->setting;
    struct closed *closed = &s->step.closed;
    lane y[PLACES], flux[FLUXES], none = lane_of(0);
    lane from_s = s->step.time_s, left = until_s - from_s;
    lane_mask good = lane_less(none, left);
    take_store(j);
    lane h = lane_if(good, step_size(j, s->pile.y, left), none);
    runge_kutta(j, s->pile.y, h, y);
    for (int k = 0; k < FLUXES; k++)
        flux[k] = none;
    flux[FLUX_ammonia] = -y[AMMONIA];
    closed_clear(closed); /* of water and oxygen nothing was summed: all comes by closed form */
    closed->nitrogen_sum[0] = y[FREED];
    closed->carbon_sum = y[RESPIRED];
    closed_fold(closed, y, good, flux);
    hold(j, y, good, flux);
    for (int n = 0; n < STATES; n++)
        s->pile.y[n] = lane_if(good, y[n], s->pile.y[n]);
    s->step.time_s = from_s + h;
    balance_store(&s->balance);
    watch_step(&s->watch, from_s, h, good, j->over_K, flux);
    ledger_book(&s->ledger, flux);
}

static lane share_in_gas(const struct plan_bay *bay)
{
    return lane_of(bay->held_oxygen_share > 0 ? bay->held_oxygen_share : OPEN_AIR);
}

/* Builds it at the air's temperature, as any pile, then puts it where it is held. */
static void begin(struct jar *j)
{
    struct setting *s = j->setting;
    const struct plan_bay *bay = &s->scenario->bay[s->scenario->home];
    lane *y = s->pile.y, oxygen = share_in_gas(bay);
    around_day(&s->around, 0);
    setting_build(s);
    s->step.time_s = lane_of(0);
    s->settled_s = lane_of(0);
    j->over_K = lane_of(bay->held_K - GAS_ICE_POINT_K);
    j->longest_s = lane_min(s->step.longest_s, lane_of(LONGEST_S));
    double share = bay->held_water_share;
    j->water_per_dry =
        share > 0 ? lane_of(share / (1 - share)) : y[STATE_WATER_KG] / y[STATE_DRY_KG];
    lane wet = j->water_per_dry / (1.0 + j->water_per_dry);
    j->air = oxygen / (oxygen + decay_half(&s->balance.decay, wet));
    lane flux[FLUXES];
    for (int k = 0; k < FLUXES; k++)
        flux[k] = lane_of(0);
    hold(j, y, lane_less(lane_of(0), lane_of(1)), flux);
    lane ash = s->pile.stock[STOCK_ASH_KG][0];
    j->liquid_share =
        read_heat(y[STATE_HEAT_J], y[STATE_DRY_KG] - ash, ash, y[STATE_WATER_KG]).liquid_share;
    for (int k = 0; k < FLUXES; k++)
        s->watch.day_flux[k] += flux[k];
    ledger_book(&s->ledger, flux);
    setting_settle(s, 0);
}

static bool end_day(const struct jar *j, int day, struct record record[LANES], struct trouble *why)
{
    struct setting *s = j->setting;
    struct balance *b = &s->balance;
    setting_settle(s, (day + 1) * SETTING_DAY_S);
    struct moment midnight = moment_all(day);
    struct pile_weighed w = pile_weigh(&s->pile, b->decay.microbe_c_to_n, b->decay.humus_c_to_n);
    if (!ledger_check(&s->ledger, &w, &midnight, why))
        return false;
    balance_fill(b, s->pile.y, s->step.z[0]); /* for what is read; its flows are of no held jar */
    lane moist = 1.0 - b->medium.vapour_Pa[0] / b->outside.air_Pa;
    b->oxygen.share[0] = share_in_gas(&s->scenario->bay[s->scenario->home]) / moist;
    b->oxygen.factor[0] = j->air;
    for (int i = 0; i < s->setup->pictures * LANES; i++)
        if (s->setup->picture_day[i / LANES] == day + 1 &&
            !watch_picture(&s->watch, day + 1, i % LANES, &record[i % LANES], why))
            return false;
    watch_day(&s->watch, &midnight, record);
    survey_day(&s->survey, &midnight, record);
    for (int i = 0; i < LANES; i++)
        record[i].days = day + 1;
    return true;
}

bool jar_run(struct setting *s, struct record record[LANES], struct trouble *why)
{
    struct jar jar = {.setting = s};
    if (s->plan->events > 0)
        return trouble_set(why, TROUBLE_NO, "plan \"%s\" has visits, but a jar that is held stays "
                           "shut; take a plan without any", s->plan->name);
    begin(&jar);
    for (int day = 0; day <= s->scenario->last_day; day++) {
        lane until = lane_of((day + 1) * SETTING_DAY_S);
        while (lane_any(lane_less(s->step.time_s, until))) {
            if (s->setup->stop && *s->setup->stop)
                return trouble_set(why, TROUBLE_SOLVE, "interrupted");
            step(&jar, until);
        }
        if (!end_day(&jar, day, record, why))
            return false;
    }
    return true;
}
