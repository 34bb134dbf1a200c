/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/flask.c - see run/flask.h. */
#include "run/flask.h"
#include "flow/gas.h"
#include "pile/read.h"

enum { FLASK_DAYS = 10, STEPS_A_DAY = 12 };
static const double ROOM_OVER_K = 20, WET_SHARE = 0.55; /* squeeze test [trade] */
static const double TRACE = 1e-6; /* of what halves growth: mineral nitrogen is never less */

static lane total(const struct pile *pile, enum state which)
{
    return pile_total(pile, pile_state(pile, which));
}

static void fill(struct flask *f, const struct balance *b, lane cools_s)
{
    const struct pile *pile = b->pile;
    f->law = b->decay;
    f->heat_J_per_kg = b->heat_J_per_kg;
    f->cools_s = cools_s;
    for (int i = 0; i < pile->stuffs; i++) {
        f->stuff[i] = pile->stuff[i];
        for (int k = 0; k < POOLS; k++)
            f->left_kg[i][k] = pile_total(pile, pile_pool(pile, i, (enum pool)k));
    }
    for (int k = 0; k < POOLS; k++)
        f->state.clock_d[k] = lane_of(0);
    f->state.microbe_kg = total(pile, STATE_MICROBE_KG);
    f->state.living_kg = total(pile, STATE_LIVING_KG);
    f->state.humus_kg = total(pile, STATE_HUMUS_KG);
    f->state.nitrogen_kg = total(pile, STATE_NITROGEN_KG);
    f->state.sour_kg = total(pile, STATE_SOUR_KG);
    f->dry_kg = total(pile, STATE_DRY_KG);
    f->ash_kg = pile_total(pile, pile->stock[STOCK_ASH_KG]);
    f->fast_laid_kg = pile_total(pile, pile->stock[STOCK_FAST_LAID_KG]);
    f->water_kg = f->dry_kg * (WET_SHARE / (1 - WET_SHARE));
    f->over_K = lane_of(ROOM_OVER_K);
    f->air = GAS_OXYGEN_OUTSIDE / (GAS_OXYGEN_OUTSIDE + decay_half(&f->law, lane_of(WET_SHARE)));
}

/* What a step needs to know of the pools (life/decay.h); they are folded, so no series. */
static void store_of(const struct flask *f, int stuffs, struct decay_store *store)
{
    lane none = lane_of(0), fast = f->state.sour_kg;
    *store = (struct decay_store){.carbon_kg =
                                      f->state.microbe_kg + f->state.humus_kg + f->state.sour_kg};
    for (int k = 0; k < POOLS; k++)
        for (int n = 0; n < DECAY_MOMENTS; n++)
            store->moment[k][n] = none;
    store->protein_oxygen = store->protein_water = none;
    store->protein_nitrogen = store->protein_dry = store->enclosed = none;
    for (int i = 0; i < stuffs; i++) {
        const struct pile_stuff *stuff = &f->stuff[i];
        const lane *left = f->left_kg[i];
        for (int k = 0; k < POOLS; k++) {
            store->moment[k][0] += left[k] * stuff->rate_per_d[k];
            store->carbon_kg += left[k];
        }
        lane m = left[POOL_PROTEIN] * stuff->rate_per_d[POOL_PROTEIN];
        store->protein_oxygen += m * stuff->protein_oxygen;
        store->protein_water += m * stuff->protein_water;
        store->protein_nitrogen += m * stuff->protein_nitrogen;
        store->protein_dry += m * stuff->protein_dry;
        store->enclosed += left[POOL_LIGNIN] * stuff->rate_per_d[POOL_LIGNIN] * stuff->enclosed;
        fast += left[POOL_FAST];
    }
    lane per = 1.0 / lane_max(store->moment[POOL_PROTEIN][0], lane_of(1e-300));
    store->protein_oxygen *= per;
    store->protein_water *= per;
    store->protein_nitrogen *= per;
    store->protein_dry *= per;
    store->enclosed *= 1.0 / lane_max(store->moment[POOL_LIGNIN][0], lane_of(1e-300));
    lane fresh = lane_min(fast / (f->fast_laid_kg + 1e-9 * store->carbon_kg), lane_of(1));
    store->ph = f->law.ripe_ph + (f->law.fresh_ph - f->law.ripe_ph) * fresh;
}

/* Mineral nitrogen at the step's end, N1 = N0 + h (given - wanted N1/(N1 + half)), a quadratic with
 * one positive root; growth in the step is what that leaves room for. */
static lane nitrogen_after(struct flask *f, const struct decay_store *store,
                           struct decay_potential *p, lane step_s)
{
    const struct decay_law *law = &f->law;
    lane half = law->nitrogen_half * store->carbon_kg + 1e-15, before = f->state.nitrogen_kg;
    lane factor = before / (before + half);
    lane wanted =
        (p->grown / law->microbe_c_to_n + p->humified / law->humus_c_to_n) * f->air / factor;
    lane given = (store->protein_nitrogen * p->carbon[POOL_PROTEIN] + p->eaten / law->microbe_c_to_n
                  + p->humus / law->humus_c_to_n)
                     * f->air
                 - p->ammonia_kg;
    lane most = lane_max(before + step_s * given, TRACE * half);
    lane b = half - most + step_s * wanted;
    lane after = 0.5 * (lane_sqrt(b * b + 4.0 * most * half) - b);
    lane share = after / (after + half) / factor;
    p->grown *= share;
    p->humified *= share;
    return after;
}

/* 1 - e^-q of a step's small q: at most 2.4 a day in two hours, to 1e-5. */
static lane lost_share(lane q)
{
    return q * (1.0 - q * (1.0 / 2) * (1.0 - q * (1.0 / 3) * (1.0 - q * (1.0 / 4))));
}

static lane pace_at(const struct flask *f, lane over_K)
{
    return decay_cardinal(over_K, f->law.coldest, f->law.best, f->law.hottest);
}

/* Decay falls steeply toward the hottest it bears. A step that would end where it is slower takes
 * its pace there, T1 = T0 + h (heat(T1) - loss(T1)), which has one root below the plain step's end;
 * by bisection, to a hundredth of a kelvin. */
static void warm(struct flask *f, lane warming_K_per_s, lane step_s)
{
    enum { HALVINGS = 12 };
    lane from = f->over_K, here = lane_max(pace_at(f, from), lane_of(1e-9));
    lane to = from + step_s * (warming_K_per_s - (from - ROOM_OVER_K) / f->cools_s);
    lane_mask slower = lane_less(from, to) & lane_less(pace_at(f, to), here);
    f->over_K = to;
    if (!lane_any(slower))
        return;
    lane low = from, high = to;
    for (int n = 0; n < HALVINGS; n++) {
        lane t = 0.5 * (low + high);
        lane gain = warming_K_per_s * pace_at(f, t) / here - (t - ROOM_OVER_K) / f->cools_s;
        lane_mask beyond = lane_less(step_s * gain, t - from);
        high = lane_if(beyond, t, high);
        low = lane_if(beyond, low, t);
    }
    f->over_K = lane_if(slower, low, to);
}

static void step(struct flask *f, int stuffs, lane step_s)
{
    struct decay_store store;
    struct decay_potential p;
    struct decay_rates r;
    struct decay_surroundings at = {f->over_K, lane_of(1), f->water_kg, f->dry_kg};
    store_of(f, stuffs, &store);
    lane half = f->law.nitrogen_half * store.carbon_kg + 1e-15;
    f->state.nitrogen_kg = lane_max(f->state.nitrogen_kg, TRACE * half);
    decay_potential(&f->law, &store, &at, &f->state, &p);
    f->state.nitrogen_kg = nitrogen_after(f, &store, &p, step_s);
    decay_rates(&f->law, &store, &p, f->air, &r);
    for (int i = 0; i < stuffs; i++)
        for (int k = 0; k < POOLS; k++)
            f->left_kg[i][k] *= 1.0 - lost_share(f->stuff[i].rate_per_d[k] * r.pace[k] * step_s);
    lane organic = f->dry_kg - f->ash_kg;
    lane capacity = organic * (READ_ORGANIC_J_PER_KGK + 2 * READ_ORGANIC_J_PER_KGK2 * f->over_K)
                    + READ_ASH_J_PER_KGK * f->ash_kg + READ_WATER_J_PER_KGK * f->water_kg;
    warm(f, r.oxygen_kg * f->heat_J_per_kg / capacity, step_s);
    f->state.microbe_kg += step_s * r.microbe_kg;
    f->state.living_kg += step_s * r.living_kg;
    f->state.humus_kg += step_s * r.humus_kg;
    f->state.sour_kg += step_s * r.sour_kg;
    f->dry_kg += step_s * r.dry_kg;
}

/* Ten days; what the flask holds is used up. */
static lane best_rise(struct flask *f, int stuffs)
{
    lane warmest = lane_of(ROOM_OVER_K), step_s = lane_of(DECAY_DAY_S / STEPS_A_DAY);
    for (int n = 0; n < FLASK_DAYS * STEPS_A_DAY; n++) {
        step(f, stuffs, step_s);
        warmest = lane_max(warmest, f->over_K);
    }
    return warmest - ROOM_OVER_K;
}

lane flask_rise(const struct balance *b, lane cools_s)
{
    struct flask flask = {0};
    fill(&flask, b, cools_s);
    return best_rise(&flask, b->pile->stuffs);
}

/* One member's sample from one place among the lanes to another. */
static void move(struct flask *to, int at, const struct flask *from, int member)
{
    for (int n = 0; n < LANES_IN(*to); n++)
        lane_put((lane *)to + n, at, lane_get(((const lane *)from)[n], member));
}

void flask_put(struct flask_shelf *shelf, const struct balance *b, lane cools_s,
               const struct moment *midnight, double *const rise_K[LANES])
{
    struct flask flask = {0};
    shelf->stuffs = b->pile->stuffs;
    fill(&flask, b, cools_s);
    for (int i = 0; i < LANES; i++) {
        if (!moment_has(midnight, i))
            continue;
        move(&shelf->flask, shelf->count, &flask, i);
        shelf->rise_K[shelf->count++] = rise_K[i];
        if (shelf->count == LANES)
            flask_test(shelf);
    }
}

void flask_test(struct flask_shelf *shelf)
{
    if (shelf->count == 0)
        return;
    lane rise = best_rise(&shelf->flask, shelf->stuffs);
    for (int i = 0; i < shelf->count; i++)
        *shelf->rise_K[i] = lane_get(rise, i);
    shelf->count = 0;
}
