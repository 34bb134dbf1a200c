/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/survey.c - see run/survey.h. */
#include "run/survey.h"
#include "flow/gas.h"
#include "life/limit.h"
#include "pile/read.h"

static const double SIEVE_M = 0.01, COARSE_M = 0.05, COARSE_POWER = 0.3;
static const double FOOD_OVER_K = 30;

static double fresh_share(const struct stuff *stuff, double piece_m)
{
    if (stuff->group == STUFF_SOIL || stuff->group == STUFF_MINERAL)
        return 0;
    double square = piece_m * piece_m;
    return (1 - stuff->ripe_share) * square / (square + SIEVE_M * SIEVE_M);
}

static void kind_param(struct survey *v, const struct lay *lay, int kind, int member)
{
    const struct possible *possible = &lay->possible[member];
    int row = lay->kind[kind].stuff;
    double piece_m = possible->piece[row] * lay->kind[kind].piece_m;
    lane coarse = lane_exp(lane_log(lane_of(piece_m / COARSE_M)) * COARSE_POWER);
    double half = possible->param.crumble_share * lane_get(coarse, 0);
    double carbon[POOLS], food = 0;
    lay_pools(lay, kind, member, carbon);
    for (int k = 0; k < POOLS; k++)
        food += carbon[k] * lane_get(v->pace[k], member)
                * lane_get(v->watch->balance->pile->stuff[kind].rate_per_d[k], member);
    lane_put(&v->fresh[kind], member, fresh_share(&possible->stuff[row], piece_m));
    lane_put(&v->per_half[kind], member, 1 / half);
    lane_put(&v->decayable[kind], member, lay_decayable_share(lay, kind, member));
    lane_put(&v->food_laid[kind], member, food);
}

void survey_param(struct survey *v, const struct watch *watch, const struct lay *lay,
                  const struct param param[LANES])
{
    const struct decay_law *law = &watch->balance->decay;
    struct limit_warmth w = limit_warmth(law, lane_of(FOOD_OVER_K));
    v->watch = watch;
    v->pace[POOL_FAST] = w.warm + w.cool;
    v->pace[POOL_PROTEIN] = w.warm;
    v->pace[POOL_SLOW] = w.warm + law->slow_mild * (w.mild - w.warm);
    v->pace[POOL_LIGNIN] = w.mild;
    for (int i = 0; i < LANES; i++) {
        lane_put(&v->cools_s, i, param[i].flask_hours * 3600);
        for (int kind = 0; kind < lay->kinds; kind++)
            kind_param(v, lay, kind, i);
    }
}

/* ---- the eye ---- */

static lane dry_left(const struct pile *pile, int kind, int c)
{
    lane left = lane_of(0);
    for (int k = 0; k < POOLS; k++)
        left += pile_carbon_of(&pile->stuff[kind], (enum pool)k).dry * pile_pool(pile, kind, (enum pool)k)[c];
    return left;
}

/* Dry mass that can still be told as what it was. */
static lane sticks_kg(const struct survey *v)
{
    const struct pile *pile = v->watch->balance->pile;
    lane sum = lane_of(0);
    for (int kind = 0; kind < pile->stuffs; kind++)
        for (int c = 0; c < pile->mesh->cells; c++) {
            lane left = dry_left(pile, kind, c);
            lane laid = v->decayable[kind] * pile_laid(pile, kind)[c];
            lane gone = lane_max(laid - left, lane_of(0)) / lane_max(laid, lane_of(1e-12));
            lane x = gone * v->per_half[kind], square = x * x;
            sum += left * v->fresh[kind] / (1.0 + square * square);
        }
    return sum;
}

/* ---- what holds decay back ---- */

enum { NOW = RECORD_LIMITS, FOOD_LAID, SUMS };
struct limit_sums {
    lane of[RECORD_PLACES][SUMS]; /* rates with one thing at its best, by enum record_limit; now */
};

static struct limit_rates rates_at(const struct survey *v, int c)
{
    const struct balance *b = v->watch->balance;
    const struct pile *pile = b->pile;
    lane water = pile_state(pile, STATE_WATER_KG)[c], dry = pile_state(pile, STATE_DRY_KG)[c];
    struct decay_surroundings at = {b->medium.over_K[c], b->medium.liquid[c], water, dry};
    struct decay_state state = {.microbe_kg = pile_state(pile, STATE_MICROBE_KG)[c],
                                .living_kg = pile_state(pile, STATE_LIVING_KG)[c],
                                .humus_kg = pile_state(pile, STATE_HUMUS_KG)[c],
                                .nitrogen_kg = pile_state(pile, STATE_NITROGEN_KG)[c],
                                .sour_kg = pile_state(pile, STATE_SOUR_KG)[c]};
    struct decay_store store = {.carbon_kg = b->store.carbon_kg[c], .ph = b->store.ph[c]};
    for (int k = 0; k < POOLS; k++) {
        state.clock_d[k] = pile_state(pile, (enum state)(STATE_CLOCK + k))[c];
        for (int n = 0; n < DECAY_MOMENTS; n++)
            store.moment[k][n] = b->store.moment[k][n][c];
    }
    lane open = GAS_OXYGEN_OUTSIDE / (GAS_OXYGEN_OUTSIDE + b->half_share[c]);
    return limit_rates(&b->decay, &store, &at, &state, b->oxygen.factor[c], open);
}

static void add_cell(const struct survey *v, struct limit_sums *sums, int c)
{
    const struct pile *pile = v->watch->balance->pile;
    struct limit_rates r = rates_at(v, c);
    lane food = lane_of(0), laid = lane_of(0), none = lane_of(0);
    for (int k = 0; k < POOLS; k++)
        food += v->pace[k] * v->watch->balance->store.moment[k][0][c];
    for (int kind = 0; kind < pile->stuffs; kind++)
        laid += v->food_laid[kind] * pile_laid(pile, kind)[c];
    lane of[SUMS] = {[RECORD_TEMPERATURE] = r.warm,
                     [RECORD_WATER] = r.watered,
                     [RECORD_OXYGEN] = r.aired,
                     [RECORD_NITROGEN] = r.fed,
                     [RECORD_FOOD] = food,
                     [NOW] = r.now,
                     [FOOD_LAID] = laid};
    lane depth = v->watch->depth_m[c];
    lane_mask core = lane_at_most(v->watch->core_m, depth);
    lane_mask rim = lane_at_most(depth, lane_of(PLACE_RIM_M)) & ~core;
    lane_mask in[RECORD_PLACES] = {core, ~(core | rim), rim};
    for (int p = 0; p < RECORD_PLACES; p++)
        for (int n = 0; n < SUMS; n++)
            sums->of[p][n] += lane_if(in[p], of[n], none);
}

/* A share, 1 where a rate is a rounding above its best; NAN where there is nothing of the kind. */
static double ratio(lane part, lane whole, int member)
{
    double of = lane_get(whole, member);
    return of > 0 ? fmin(lane_get(part, member) / of, 1) : (double)NAN;
}

static void put_limits(const struct limit_sums *sums, int member, struct record_day *row)
{
    for (int p = 0; p < RECORD_PLACES; p++)
        for (int n = 0; n < RECORD_LIMITS; n++)
            row->limit[p][n] = n == RECORD_FOOD
                                   ? ratio(sums->of[p][n], sums->of[p][FOOD_LAID], member)
                                   : ratio(sums->of[p][NOW], sums->of[p][n], member);
}

void survey_day(struct survey *v, const struct moment *midnight, struct record record[LANES])
{
    double *rise_K[LANES] = {NULL};
    const struct pile *pile = v->watch->balance->pile;
    struct limit_sums sums;
    for (int p = 0; p < RECORD_PLACES; p++)
        for (int n = 0; n < SUMS; n++)
            sums.of[p][n] = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++)
        add_cell(v, &sums, c);
    lane sticks = sticks_kg(v) / pile_total(pile, pile_state(pile, STATE_DRY_KG));
    for (int i = 0; i < LANES; i++) {
        if (!moment_has(midnight, i))
            continue;
        struct record_day *row = &record[i].day[midnight->day[i]];
        rise_K[i] = &row->flask_rise_K;
        row->sticks_share = lane_get(sticks, i);
        put_limits(&sums, i, row);
    }
    flask_put(&v->shelf, v->watch->balance, v->cools_s, midnight, rise_K);
}

void survey_end(struct survey *v)
{
    flask_test(&v->shelf);
}
