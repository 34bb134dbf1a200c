/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/decay.h - decay, growth and nitrogen in one cell, from its contents and surroundings.
 *
 * Every pool of every ingredient decays first order on its pool's biological clock th (days):
 * dC/dth = -k C, so between two moments it is exactly C0 exp(-k th). A clock's pace is the product
 * of the responses to temperature, wetness, oxygen, free ammonia, nitrogen and the number of
 * microbes. Decayed carbon is respired, built into microbes, or left as humus; when mineral
 * nitrogen runs short microbes respire the surplus (overflow) instead of growing, so that nitrogen
 * slows decay without ever being made of nothing. Without air, sugars and cellulose go on at a
 * fraction of the pace into sour products that hold all their heat until air returns.
 *
 * Oxygen, water and nitrogen follow from element balances (pile/amount.h). Everything that uses
 * oxygen is proportional to its Monod factor, so decay_potential gives the uptake at full supply,
 * flow/oxygen finds what arrives, and decay_rates does the rest.
 */
#ifndef LIFE_DECAY_H
#define LIFE_DECAY_H
#include "base/lane.h"
#include "know/param.h"
#include "pile/amount.h"

/* the numbers of know/param.def that decay reads, lane by lane */
struct decay_law {
    lane death, necromass, humus, sour; /* 1/d */
    lane airless, cold_floor, slow_mild, starved, nitrogen_half, lag, oxygen_half, film_slope;
    lane coldest, best, hottest, lignin_best, lignin_hottest; /* K over the ice point */
    lane wet_slope, wet_offset;
    lane grow, grow_slow, humus_slow, grow_lignin, humus_lignin, grow_microbe, humus_microbe;
    lane microbe_c_to_n, humus_c_to_n;
    lane ammonia, ammonia_hinders;
    lane fresh_ph, ripe_ph;
};

enum { DECAY_MOMENTS = 4 };

/* What a step needs to know of a cell's pools: of each pool, sum over ingredients of C k^j at the
 * step's start, j = 1 to 4, so that sum C k exp(-k th) is a short series (error (k th)^4/24, a few
 * 1e-6; corrected to the closed form after the step). Protein's oxygen, water, nitrogen and dry
 * mass per carbon are those of its mean decaying part. */
struct decay_store {
    lane moment[POOLS][DECAY_MOMENTS];
    lane protein_oxygen, protein_water, protein_nitrogen, protein_dry;
    lane enclosed;      /* of what decays with lignin: cellulose */
    lane carbon_kg;     /* of everything that can decay, today */
    lane ph;
};

struct decay_surroundings {
    lane over_K, liquid_share, water_kg, dry_kg;
};

struct decay_state {
    lane clock_d[POOLS];
    lane microbe_kg, living_kg, humus_kg, nitrogen_kg, sour_kg;
};

/* per second at full supply of oxygen; what goes on without is kept apart */
struct decay_potential {
    lane pace[POOLS], carbon[POOLS]; /* clock days per s; carbon decayed, kg/s */
    lane dying;                     /* carbon of living microbes, kg/s */
    lane eaten, humus, sour;        /* carbon of dead ones and the rest, kg/s */
    lane grown, humified;           /* carbon, kg/s */
    lane grown_slope, humified_slope; /* per kg of mineral nitrogen */
    lane oxygen_kg;                 /* uptake, kg/s */
    lane ammonia_kg;                /* nitrogen lost, kg/s; needs no oxygen */
    lane warming_per_K;             /* by what share bacteria's paces rise per kelvin */
};

struct decay_rates {
    lane pace[POOLS];
    lane microbe_kg, living_kg, humus_kg, nitrogen_kg, sour_kg, dry_kg;
    lane oxygen_kg, water_kg, carbon_kg, ammonia_kg;
    /* what the primary pools alone gave up, for the correction to their closed form */
    lane pool_oxygen_kg, pool_water_kg, pool_nitrogen_kg, pool_dry_kg;
};

struct decay_law decay_law_of(const struct param param[LANES]);

#define DECAY_DAY_S 86400.0

/* What follows is in the header so that a loop over cells can take several at once. */

/* Cardinal temperature response (Rosso et al. 1993): 0 outside coldest to hottest, 1 at best. */
static inline lane decay_cardinal(lane over_K, lane coldest, lane best, lane hottest)
{
    lane up = over_K - coldest, span = best - coldest;
    lane below = span * (over_K - best) - (best - hottest) * (best + coldest - 2.0 * over_K);
    lane f = (over_K - hottest) * up * up / (span * below);
    /* two choices, not one by both masks: baseline processors can't test a joined mask at once */
    return lane_if(lane_less(coldest, over_K), lane_if(lane_less(over_K, hottest), f, lane_of(0)),
                   lane_of(0));
}

/* Its slope over its value: how fast decay answers to warming; steeply down below the hottest. */
static inline lane decay_cardinal_slope(lane over_K, lane coldest, lane best, lane hottest, lane f)
{
    lane up = over_K - coldest, span = best - coldest;
    lane below = span * (over_K - best) - (best - hottest) * (best + coldest - 2.0 * over_K);
    lane slope = (up * up + 2.0 * up * (over_K - hottest)) / (span * below) -
                 f * (span + 2.0 * (best - hottest)) / below;
    return lane_if(lane_less(lane_of(0), f), slope / (f + 1e-6), lane_of(0));
}

/* Oxygen share of the pore gas at which decay runs at half rate: the wetter, the thicker the films of
 * water it has to cross. */
static inline lane decay_half(const struct decay_law *law, lane wet)
{
    return law->oxygen_half * lane_exp(law->film_slope * (wet - 0.55));
}

/* Free ammonia's share of mineral nitrogen: pKa = 0.09018 + 2729.92/T [Emerson et al. 1975]. */
static inline lane decay_ammonia_share(lane over_K, lane ph)
{
    lane pka = 0.09018 + 2729.92 / (over_K + 273.15);
    return 1.0 / (1.0 + lane_exp((pka - ph) * 2.302585092994046));
}

/* Carbon decaying per clock day: sum C k exp(-k th) by its series. */
static inline lane decay_now(const lane moment[DECAY_MOMENTS], lane th)
{
    return moment[0] - th * (moment[1] - th * (0.5 * moment[2] - th * (1.0 / 6.0) * moment[3]));
}

/* Paces of the four clocks in full air, and of what microbes do on none of them. */
static inline lane decay_paces(const struct decay_law *law, const struct decay_store *store,
                  const struct decay_surroundings *at, const struct decay_state *state,
                  lane nitrogen_factor, lane free_ammonia_kg, struct decay_potential *p)
{
    lane warm = decay_cardinal(at->over_K, law->coldest, law->best, law->hottest);
    lane mild = decay_cardinal(at->over_K, law->coldest, law->lignin_best, law->lignin_hottest);
    /* the soluble pool keeps a floor in the cold that fades, smoothly, toward the best temperature */
    lane cool = lane_if(lane_less(at->over_K, law->best), law->cold_floor * (1.0 - warm), lane_of(0));
    lane wet = at->water_kg / (at->water_kg + at->dry_kg);
    lane moist = 1.0 / (1.0 + lane_exp(law->wet_offset - law->wet_slope * wet));
    lane common = moist * at->liquid_share * (1.0 / DECAY_DAY_S);
    lane crowd = state->living_kg / (state->living_kg + law->lag * store->carbon_kg + 1e-15);
    lane fed = law->starved + (1.0 - law->starved) * nitrogen_factor;
    lane hindered = at->water_kg * law->ammonia_hinders /
                    (at->water_kg * law->ammonia_hinders + free_ammonia_kg);
    lane work = common * crowd * fed * hindered;
    p->pace[POOL_FAST] = work * (warm + cool);
    p->pace[POOL_PROTEIN] = work * warm;
    p->pace[POOL_SLOW] = work * (warm + law->slow_mild * (mild - warm));
    p->pace[POOL_LIGNIN] = common * fed * mild;
    p->warming_per_K =
        decay_cardinal_slope(at->over_K, law->coldest, law->best, law->hottest, warm);
    return common * (warm + law->slow_mild * (mild - warm));
}

LANE_INLINE void decay_potential(const struct decay_law *law, const struct decay_store *store,
                     const struct decay_surroundings *at, const struct decay_state *state,
                     struct decay_potential *p)
{
    lane half = law->nitrogen_half * store->carbon_kg + 1e-15; /* char and ash alone have none */
    lane factor = state->nitrogen_kg / (state->nitrogen_kg + half);
    lane free = state->nitrogen_kg * decay_ammonia_share(at->over_K, store->ph);
    lane pace = decay_paces(law, store, at, state, factor, free, p);
    for (int k = 0; k < POOLS; k++)
        p->carbon[k] = p->pace[k] * decay_now(store->moment[k], state->clock_d[k]);
    lane enclosed = store->enclosed * p->carbon[POOL_LIGNIN];
    lane slow = p->carbon[POOL_SLOW] + enclosed, lignin = p->carbon[POOL_LIGNIN] - enclosed;
    p->dying = pace * law->death * state->living_kg;
    p->eaten = pace * law->necromass * (state->microbe_kg - state->living_kg);
    p->humus = pace * law->humus * state->humus_kg;
    p->sour = pace * law->sour * state->sour_kg;
    lane grow = law->grow * (p->carbon[POOL_FAST] + p->carbon[POOL_PROTEIN] + p->sour) +
                law->grow_slow * slow + law->grow_lignin * lignin + law->grow_microbe * p->eaten;
    lane humify = law->humus_slow * slow + law->humus_lignin * lignin + law->humus_microbe * p->eaten;
    lane slope = half / ((state->nitrogen_kg + half) * (state->nitrogen_kg + half));
    p->grown = factor * grow;
    p->humified = factor * humify;
    p->grown_slope = slope * grow;
    p->humified_slope = slope * humify;
    p->oxygen_kg = AMOUNT_SUGAR_OXYGEN * (p->carbon[POOL_FAST] + slow + p->sour) +
                   store->protein_oxygen * p->carbon[POOL_PROTEIN] +
                   AMOUNT_LIGNIN_OXYGEN * lignin +
                   AMOUNT_MICROBE_OXYGEN * (p->eaten - p->grown) +
                   AMOUNT_HUMUS_OXYGEN * (p->humus - p->humified);
    p->ammonia_kg = law->ammonia * free * at->liquid_share * (1.0 / DECAY_DAY_S);
}

static inline void decay_rates(const struct decay_law *law, const struct decay_store *store,
                 const struct decay_potential *p, lane air, struct decay_rates *r)
{
    lane sour_share = law->airless * (1.0 - air);
    lane fast = p->carbon[POOL_FAST], protein = p->carbon[POOL_PROTEIN] * air;
    lane slow = p->carbon[POOL_SLOW], lignin = p->carbon[POOL_LIGNIN] * air;
    lane souring = sour_share * (fast + slow);
    lane eaten = p->eaten * air, humus = p->humus * air, sour = p->sour * air;
    lane grown = p->grown * air, humified = p->humified * air;
    fast = fast * (air + sour_share);
    slow = slow * (air + sour_share);
    r->pace[POOL_FAST] = p->pace[POOL_FAST] * (air + sour_share);
    r->pace[POOL_SLOW] = p->pace[POOL_SLOW] * (air + sour_share);
    r->pace[POOL_PROTEIN] = p->pace[POOL_PROTEIN] * air;
    r->pace[POOL_LIGNIN] = p->pace[POOL_LIGNIN] * air;
    lane enclosed = store->enclosed * lignin;
    slow += enclosed;
    lignin -= enclosed;

    r->pool_oxygen_kg = AMOUNT_SUGAR_OXYGEN * (fast + slow) + store->protein_oxygen * protein +
                        AMOUNT_LIGNIN_OXYGEN * lignin;
    r->pool_water_kg = AMOUNT_FAST_WATER * fast + AMOUNT_SLOW_WATER * slow +
                       store->protein_water * protein + AMOUNT_LIGNIN_WATER * lignin;
    r->pool_nitrogen_kg = store->protein_nitrogen * protein;
    r->pool_dry_kg = AMOUNT_FAST_DRY * fast + AMOUNT_SLOW_DRY * slow + store->protein_dry * protein +
                     AMOUNT_LIGNIN_DRY * lignin;

    r->microbe_kg = grown - eaten;
    r->living_kg = grown - p->dying * air;
    r->humus_kg = humified - humus;
    r->sour_kg = souring - sour;
    r->ammonia_kg = p->ammonia_kg;
    r->nitrogen_kg = r->pool_nitrogen_kg - r->microbe_kg / law->microbe_c_to_n -
                     r->humus_kg / law->humus_c_to_n - r->ammonia_kg;
    r->carbon_kg = fast + protein + slow + lignin - r->microbe_kg - r->humus_kg - r->sour_kg;
    r->oxygen_kg = r->pool_oxygen_kg - AMOUNT_MICROBE_OXYGEN * r->microbe_kg -
                   AMOUNT_HUMUS_OXYGEN * r->humus_kg - AMOUNT_SOUR_OXYGEN * r->sour_kg;
    r->water_kg = r->pool_water_kg - AMOUNT_MICROBE_WATER * r->microbe_kg -
                  AMOUNT_HUMUS_WATER * r->humus_kg - AMOUNT_SOUR_WATER * r->sour_kg;
    r->dry_kg = -r->pool_dry_kg + AMOUNT_MICROBE_DRY * r->microbe_kg +
                AMOUNT_HUMUS_DRY * r->humus_kg + AMOUNT_SOUR_DRY * r->sour_kg;
}
#endif
