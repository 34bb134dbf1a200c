/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/decay.c - see life/decay.h. */
#include "life/decay.h"

static const double DAY_S = 86400.0;

struct decay_law decay_law_of(const struct param param[LANES])
{
    struct decay_law law;
#define TAKE(field, name) \
    for (int i = 0; i < LANES; i++) \
        lane_put(&law.field, i, param[i].name)
    TAKE(death, microbe_death_per_day);
    TAKE(humus, humus_per_day);
    TAKE(sour, sour_per_day);
    TAKE(airless, airless_share);
    TAKE(cold_floor, cold_floor);
    TAKE(starved, starved_share);
    TAKE(nitrogen_half, nitrogen_half);
    TAKE(lag, lag_share);
    TAKE(oxygen_half, oxygen_half_share);
    TAKE(coldest, coldest_C);
    TAKE(best, best_C);
    TAKE(hottest, hottest_C);
    TAKE(lignin_best, lignin_best_C);
    TAKE(lignin_hottest, lignin_hottest_C);
    TAKE(wet_slope, wet_slope);
    TAKE(wet_offset, wet_offset);
    TAKE(grow, grow_share);
    TAKE(grow_slow, grow_slow_share);
    TAKE(humus_slow, humus_slow_share);
    TAKE(grow_lignin, grow_lignin_share);
    TAKE(humus_lignin, humus_lignin_share);
    TAKE(grow_microbe, grow_microbe_share);
    TAKE(humus_microbe, humus_microbe_share);
    TAKE(microbe_c_to_n, microbe_c_to_n);
    TAKE(humus_c_to_n, humus_c_to_n);
    TAKE(ammonia, ammonia_per_day);
    TAKE(ammonia_hinders, ammonia_hinders_kg_per_kg);
    TAKE(fresh_ph, fresh_ph);
    TAKE(ripe_ph, ripe_ph);
#undef TAKE
    return law;
}

lane decay_cardinal(lane over_K, lane coldest, lane best, lane hottest)
{
    lane up = over_K - coldest, span = best - coldest;
    lane below = span * (over_K - best) - (best - hottest) * (best + coldest - 2.0 * over_K);
    lane f = (over_K - hottest) * up * up / (span * below);
    lane_mask inside = lane_less(coldest, over_K) & lane_less(over_K, hottest);
    return lane_if(inside, f, lane_of(0));
}

lane decay_ammonia_share(lane over_K, lane ph)
{
    lane pka = 0.09018 + 2729.92 / (over_K + 273.15);
    return 1.0 / (1.0 + lane_exp((pka - ph) * 2.302585092994046));
}

/* Carbon decaying per clock day: sum C k exp(-k th) by its series. */
static lane decaying(const lane moment[DECAY_MOMENTS], lane th)
{
    return moment[0] - th * (moment[1] - th * (0.5 * moment[2] - th * (1.0 / 6.0) * moment[3]));
}

/* Paces of the four clocks in full air, and of what microbes do on none of them. */
static lane paces(const struct decay_law *law, const struct decay_store *store,
                  const struct decay_surroundings *at, const struct decay_state *state,
                  lane nitrogen_factor, lane free_ammonia_kg, lane pace[POOLS])
{
    lane warm = decay_cardinal(at->over_K, law->coldest, law->best, law->hottest);
    lane mild = decay_cardinal(at->over_K, law->coldest, law->lignin_best, law->lignin_hottest);
    /* the soluble pool keeps a floor in the cold that fades, smoothly, toward the best temperature */
    lane cool = lane_if(lane_less(at->over_K, law->best), law->cold_floor * (1.0 - warm), lane_of(0));
    lane wet = at->water_kg / (at->water_kg + at->dry_kg);
    lane moist = 1.0 / (1.0 + lane_exp(law->wet_offset - law->wet_slope * wet));
    lane common = moist * at->liquid_share * (1.0 / DAY_S);
    lane crowd = state->microbe_kg / (state->microbe_kg + law->lag * store->carbon_kg);
    lane fed = law->starved + (1.0 - law->starved) * nitrogen_factor;
    lane hindered = at->water_kg * law->ammonia_hinders /
                    (at->water_kg * law->ammonia_hinders + free_ammonia_kg);
    lane work = common * crowd * fed * hindered;
    pace[POOL_FAST] = work * (warm + cool);
    pace[POOL_PROTEIN] = pace[POOL_SLOW] = work * warm;
    pace[POOL_LIGNIN] = common * fed * mild;
    return common * warm;
}

void decay_potential(const struct decay_law *law, const struct decay_store *store,
                     const struct decay_surroundings *at, const struct decay_state *state,
                     struct decay_potential *p)
{
    lane half = law->nitrogen_half * store->carbon_kg;
    lane factor = state->nitrogen_kg / (state->nitrogen_kg + half);
    lane free = state->nitrogen_kg * decay_ammonia_share(at->over_K, store->ph);
    lane pace = paces(law, store, at, state, factor, free, p->pace);
    for (int k = 0; k < POOLS; k++)
        p->carbon[k] = p->pace[k] * decaying(store->moment[k], state->clock_d[k]);
    p->death = pace * law->death * state->microbe_kg;
    p->humus = pace * law->humus * state->humus_kg;
    p->sour = pace * law->sour * state->sour_kg;
    lane grow = law->grow * (p->carbon[POOL_FAST] + p->carbon[POOL_PROTEIN] + p->sour) +
                law->grow_slow * p->carbon[POOL_SLOW] + law->grow_lignin * p->carbon[POOL_LIGNIN] +
                law->grow_microbe * p->death;
    lane humify = law->humus_slow * p->carbon[POOL_SLOW] +
                  law->humus_lignin * p->carbon[POOL_LIGNIN] + law->humus_microbe * p->death;
    lane slope = half / ((state->nitrogen_kg + half) * (state->nitrogen_kg + half));
    p->grown = factor * grow;
    p->humified = factor * humify;
    p->grown_slope = slope * grow;
    p->humified_slope = slope * humify;
    p->oxygen_kg = AMOUNT_SUGAR_OXYGEN * (p->carbon[POOL_FAST] + p->carbon[POOL_SLOW] + p->sour) +
                   store->protein_oxygen * p->carbon[POOL_PROTEIN] +
                   AMOUNT_LIGNIN_OXYGEN * p->carbon[POOL_LIGNIN] +
                   AMOUNT_MICROBE_OXYGEN * (p->death - p->grown) +
                   AMOUNT_HUMUS_OXYGEN * (p->humus - p->humified);
    p->ammonia_kg = law->ammonia * free * at->liquid_share * (1.0 / DAY_S);
}

void decay_rates(const struct decay_law *law, const struct decay_store *store,
                 const struct decay_potential *p, lane air, struct decay_rates *r)
{
    lane sour_share = law->airless * (1.0 - air);
    lane fast = p->carbon[POOL_FAST], protein = p->carbon[POOL_PROTEIN] * air;
    lane slow = p->carbon[POOL_SLOW], lignin = p->carbon[POOL_LIGNIN] * air;
    lane souring = sour_share * (fast + slow);
    lane death = p->death * air, humus = p->humus * air, sour = p->sour * air;
    lane grown = p->grown * air, humified = p->humified * air;
    fast = fast * (air + sour_share);
    slow = slow * (air + sour_share);
    r->pace[POOL_FAST] = p->pace[POOL_FAST] * (air + sour_share);
    r->pace[POOL_SLOW] = p->pace[POOL_SLOW] * (air + sour_share);
    r->pace[POOL_PROTEIN] = p->pace[POOL_PROTEIN] * air;
    r->pace[POOL_LIGNIN] = p->pace[POOL_LIGNIN] * air;

    r->pool_oxygen_kg = AMOUNT_SUGAR_OXYGEN * (fast + slow) + store->protein_oxygen * protein +
                        AMOUNT_LIGNIN_OXYGEN * lignin;
    r->pool_water_kg = AMOUNT_FAST_WATER * fast + AMOUNT_SLOW_WATER * slow +
                       store->protein_water * protein + AMOUNT_LIGNIN_WATER * lignin;
    r->pool_nitrogen_kg = store->protein_nitrogen * protein;
    r->pool_dry_kg = AMOUNT_FAST_DRY * fast + AMOUNT_SLOW_DRY * slow + store->protein_dry * protein +
                     AMOUNT_LIGNIN_DRY * lignin;

    r->microbe_kg = grown - death;
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
