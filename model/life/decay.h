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
    lane death, humus, sour;            /* 1/d */
    lane airless, cold_floor, starved, nitrogen_half, lag, oxygen_half;
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
    lane carbon_kg;     /* of everything that can decay, today */
    lane ph;
};

struct decay_surroundings {
    lane over_K, liquid_share, water_kg, dry_kg;
};

struct decay_state {
    lane clock_d[POOLS];
    lane microbe_kg, humus_kg, nitrogen_kg, sour_kg;
};

/* per second at full supply of oxygen; what goes on without is kept apart */
struct decay_potential {
    lane pace[POOLS], carbon[POOLS]; /* clock days per s; carbon decayed, kg/s */
    lane death, humus, sour;        /* carbon, kg/s */
    lane grown, humified;           /* carbon, kg/s */
    lane grown_slope, humified_slope; /* per kg of mineral nitrogen */
    lane oxygen_kg;                 /* uptake, kg/s */
    lane ammonia_kg;                /* nitrogen lost, kg/s; needs no oxygen */
};

struct decay_rates {
    lane pace[POOLS];
    lane microbe_kg, humus_kg, nitrogen_kg, sour_kg, dry_kg;
    lane oxygen_kg, water_kg, carbon_kg, ammonia_kg;
    /* what the primary pools alone gave up, for the correction to their closed form */
    lane pool_oxygen_kg, pool_water_kg, pool_nitrogen_kg, pool_dry_kg;
};

struct decay_law decay_law_of(const struct param param[LANES]);
/* Cardinal temperature response (Rosso et al. 1993): 0 outside coldest to hottest, 1 at best. */
lane decay_cardinal(lane over_K, lane coldest, lane best, lane hottest);
/* Free ammonia's share of mineral nitrogen: pKa = 0.09018 + 2729.92/T [Emerson et al. 1975]. */
lane decay_ammonia_share(lane over_K, lane ph);
void decay_potential(const struct decay_law *law, const struct decay_store *store,
                     const struct decay_surroundings *at, const struct decay_state *state,
                     struct decay_potential *potential);
void decay_rates(const struct decay_law *law, const struct decay_store *store,
                 const struct decay_potential *potential, lane oxygen_factor,
                 struct decay_rates *rates);
#endif
