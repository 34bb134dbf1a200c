/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/fixed.h - constants for tests whose claims must not depend on what a fit chose. */
#ifndef RUN_FIXED_H
#define RUN_FIXED_H
#include "know/param.h"
#include "lib/near.h"

/* Everything that a fit of the constants moves, near the middle of its range [trade], so that
 * piles heat and ignite whatever was fitted; every law takes part. */
static const struct {
    const char *name;
    double value;
} fixed_values[] = {
    {"fast_per_day", 0.5}, {"protein_per_day", 0.25}, {"slow_per_day", 0.12}, {"lignin_shield", 3},
    {"lignin_per_day", 0.003}, {"lignocellulose_index_end", 0.7}, {"microbe_death_per_day", 0.4},
    {"necromass_per_day", 0.03}, {"humus_per_day", 0.0015}, {"airless_share", 0.2},
    {"size_half_m", 0.05}, {"coldest_C", -5}, {"best_C", 58}, {"hottest_C", 67},
    {"lignin_best_C", 45}, {"lignin_hottest_C", 65}, {"slow_mild_share", 1}, {"cold_floor", 0.15},
    {"wet_slope", 17.684}, {"wet_offset", 7.0622}, {"oxygen_half_share", 0.010}, {"film_slope", 5},
    {"lag_share", 0.02}, {"start_microbe_share", 0.01}, {"grow_share", 0.40},
    {"grow_slow_share", 0.32}, {"humus_slow_share", 0.08}, {"humus_microbe_share", 0.15},
    {"starved_share", 0.3}, {"ammonia_per_day", 0.54}, {"ammonia_hinders_kg_per_kg", 0.004},
    {"ripe_ph", 8}, {"rot_seed_per_day", 0.015}, {"activity_half", 0.10},
    {"capillary_m2_per_s", 3e-9}, {"drain_m_per_s", 1e-8}, {"hold_factor", 1},
    {"heap_rain_share", 0.7}, {"permeability_factor", 0.3}, {"grain_power", 0.3},
    {"permeability_least_m2", 1e-10}, {"permeability_most_m2", 5e-8}, {"diffusion_factor", 1},
    {"wind_through", 1}, {"film_W_per_m2K", 2.8}, {"dry_conductivity_W_per_mK", 0.05},
    {"wall_gaps_factor", 1}, {"press_Pa", 1}, {"shrink_power", 0.9}, {"creep_days", 6},
    {"trodden_share", 0.4}, {"laid_warmer_K", 5}, {"turn_air_kg_per_m3", 50}, {"turn_lift", 0.7}};

static inline void fixed(struct param *param)
{
    for (size_t i = 0; i < sizeof fixed_values / sizeof *fixed_values; i++) {
        assert_non_null(param_find(fixed_values[i].name));
        param_put(param, param_find(fixed_values[i].name), fixed_values[i].value);
    }
}
#endif
