/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/decay.c - see life/decay.h. */
#include "life/decay.h"

struct decay_law decay_law_of(const struct param param[LANES])
{
    struct decay_law law;
#define TAKE(field, name) \
    for (int i = 0; i < LANES; i++) \
        lane_put(&law.field, i, param[i].name)
    TAKE(death, microbe_death_per_day);
    TAKE(necromass, necromass_per_day);
    TAKE(humus, humus_per_day);
    TAKE(sour, sour_per_day);
    TAKE(airless, airless_share);
    TAKE(cold_floor, cold_floor);
    TAKE(slow_mild, slow_mild_share);
    TAKE(starved, starved_share);
    TAKE(nitrogen_half, nitrogen_half);
    TAKE(lag, lag_share);
    TAKE(oxygen_half, oxygen_half_share);
    TAKE(film_slope, film_slope);
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
