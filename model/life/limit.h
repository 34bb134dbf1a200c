/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/limit.h - what holds decay back in one cell: its pace now and with one thing at its best.
 *
 * Turnover is all carbon that pools, dead microbes, humus and sour products give up. Its factors
 * are those of life/decay; each is set to its best in turn while the others stay: temperature (best for
 * the bacteria, for the fungi, half way or as it is, whichever does most; and thawed), water (wet
 * enough), oxygen (open air), nitrogen (plenty, and no ammonia that hinders). What goes on without
 * air is left out: it is a tenth of it and ends in acids.
 */
#ifndef LIFE_LIMIT_H
#define LIFE_LIMIT_H
#include "life/decay.h"

/* carbon turned over, per day; one has only to compare them */
struct limit_rates {
    lane now, warm, watered, aired, fed;
};

/* how the clocks answer to one temperature */
struct limit_warmth {
    lane warm, cool, mild;
};

static inline struct limit_warmth limit_warmth(const struct decay_law *law, lane over_K)
{
    struct limit_warmth w;
    w.warm = decay_cardinal(over_K, law->coldest, law->best, law->hottest);
    w.mild = decay_cardinal(over_K, law->coldest, law->lignin_best, law->lignin_hottest);
    w.cool = lane_if(lane_less(over_K, law->best), law->cold_floor * (1.0 - w.warm), lane_of(0));
    return w;
}

/* Of the bacteria's pools and of the rest: nitrogen and microbes pace them differently. */
static inline lane limit_turnover(const struct decay_law *law, const struct limit_warmth *w,
                                  const lane pool[POOLS], lane others, lane fed, lane work)
{
    lane slow = w->warm + law->slow_mild * (w->mild - w->warm);
    return fed
               * (work
                      * (pool[POOL_FAST] * (w->warm + w->cool) + pool[POOL_PROTEIN] * w->warm
                         + pool[POOL_SLOW] * slow)
                  + pool[POOL_LIGNIN] * w->mild)
           + others * slow;
}

/* `air` is the Monod factor of the oxygen that arrives, `open` that of open air. */
LANE_INLINE struct limit_rates limit_rates(const struct decay_law *law,
                                           const struct decay_store *store,
                                           const struct decay_surroundings *at,
                                           const struct decay_state *state, lane air, lane open)
{
    lane half = law->nitrogen_half * store->carbon_kg + 1e-15;
    lane mineral = lane_max(state->nitrogen_kg, lane_of(0));
    lane fed = law->starved + (1.0 - law->starved) * mineral / (mineral + half);
    lane free = mineral * decay_ammonia_share(at->over_K, store->ph);
    lane bearable = at->water_kg * law->ammonia_hinders;
    lane hindered = bearable / (bearable + free);
    lane crowd = state->living_kg / (state->living_kg + law->lag * store->carbon_kg + 1e-15);
    lane wet = at->water_kg / (at->water_kg + at->dry_kg);
    lane moist = 1.0 / (1.0 + lane_exp(law->wet_offset - law->wet_slope * wet));
    lane pool[POOLS];
    for (int k = 0; k < POOLS; k++)
        pool[k] = decay_now(store->moment[k], state->clock_d[k]);
    lane others =
        law->necromass * (state->microbe_kg - state->living_kg) + law->humus * state->humus_kg +
        law->sour * state->sour_kg;
    struct limit_warmth here = limit_warmth(law, at->over_K);
    const lane best[] = {law->best, law->lignin_best, 0.5 * (law->best + law->lignin_best)};
    lane one = lane_of(1), thawed = moist * air, all = thawed * at->liquid_share;
    lane turnover = limit_turnover(law, &here, pool, others, fed, crowd * hindered);
    lane warmest = turnover;
    for (int i = 0; i < 3; i++) {
        struct limit_warmth there = limit_warmth(law, best[i]);
        warmest = lane_max(warmest, limit_turnover(law, &there, pool, others, fed, crowd * hindered));
    }
    struct limit_rates r;
    r.now = all * turnover;
    r.warm = thawed * warmest;
    r.watered = air * at->liquid_share * turnover;
    r.aired = moist * open * at->liquid_share * turnover;
    r.fed = all * limit_turnover(law, &here, pool, others, one, crowd);
    return r;
}
#endif
