/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/dose.c - see life/dose.h.
 *
 * Within a step the temperature goes evenly from one value to the other, so the share of the step
 * above T is (high - T)/(high - low). The equation's sum of dt/D, D = 131 700 000/10^(0.14 T) days
 * [40 CFR 503.32(a)(3), seen in state copies], is by Simpson's rule, the middle of an exponential
 * being the root of its ends' product.
 *
 * Five days at 40 C with four hours above 55 C have two rows of stages: days of a run so far without
 * those hours (1 to 5), days with them (0 to 4), then the one that meets it.
 */
#include "life/dose.h"

static const double EDGE_K = 1e-6;      /* a jar held at the very temperature counts as there */
static const double FULL = 1 - 1e-9;    /* three days in hours are three days, but for rounding */
static const double HOT_C = 55, HOT_S = 4 * 3600.0 * (1 - 1e-9);
static const double DAY_S = 86400, EQUATION_DAYS = 131700000, EQUATION_PER_K = 0.14;
static const double LN_10 = 2.302585092994046;
enum { COLD_DAYS = 5, HOT_FIRST = COLD_DAYS, HOT_DAYS = 5, WARM_MET = COLD_DAYS + HOT_DAYS };

void dose_take(struct dose *dose, int stride, struct arena *arena)
{
    for (int k = 0; k < RULES_DOSES; k++) {
        dose->carry[k] = arena_take(arena, (size_t)stride, sizeof(lane));
        dose->held[k] = arena_take(arena, (size_t)stride, sizeof(lane));
    }
    dose->hot_s = arena_take(arena, (size_t)stride, sizeof(lane));
}

void dose_clear(struct dose *dose, lane_mask who, int stride)
{
    for (int k = 0; k < RULES_DOSES; k++) {
        lane_clear(who, dose->carry[k], stride);
        lane_clear(who, dose->held[k], stride);
    }
    lane_clear(who, dose->hot_s, stride);
}

/* Share of a step above a temperature; all of it, without rounding, where both ends are. */
static inline lane share_above(lane from_K, lane to_K, double over_C)
{
    lane low = lane_min(from_K, to_K), high = lane_max(from_K, to_K);
    lane share = (high - (over_C - EDGE_K)) / (high - low + 0.5 * EDGE_K);
    return lane_max(lane_min(share, lane_of(1)), lane_of(0));
}

lane dose_equation(lane from_K, lane to_K, lane step_s)
{
    const struct rules_dose *row = &rules_doses[RULES_DOSE_EQUATION];
    lane edge = lane_of(row->over_C - EDGE_K), none = lane_of(0);
    lane from = lane_exp((from_K - row->over_C) * (EQUATION_PER_K * LN_10));
    lane to = lane_exp((to_K - row->over_C) * (EQUATION_PER_K * LN_10));
    lane middle = lane_if(lane_less(0.5 * (from_K + to_K), edge), none, lane_sqrt(from * to));
    from = lane_if(lane_less(from_K, edge), none, from);
    to = lane_if(lane_less(to_K, edge), none, to);
    double per_s = 1e7 * row->stages / (EQUATION_DAYS * DAY_S); /* at 50 C */
    return step_s * per_s * (1.0 / 6.0) * (from + 4.0 * middle + to);
}

/* ---- the mass of one cell at the stages of one dose ---- */

struct stages {
    lane *kg;                   /* [stage * stride] */
    int stride, last;           /* the stage that keeps */
    lane none_kg;               /* what stands at no stage */
};

static struct stages stages_of(const struct pile *pile, int dose, int c)
{
    const struct rules_dose *row = &rules_doses[dose];
    struct stages s = {pile_dose(pile, row->first) + c, pile->stride, row->stages - 1, lane_of(0)};
    for (int i = 0; i < pile->stuffs; i++)
        s.none_kg += pile_laid(pile, i)[c];
    for (int i = 0; i <= s.last; i++)
        s.none_kg -= s.kg[i * s.stride];
    s.none_kg = lane_max(s.none_kg, lane_of(0)); /* what rounding may leave of it */
    return s;
}

/* A share of one stage goes to another. */
static void pass(struct stages *s, int from, int to, lane share)
{
    lane *source = from < 0 ? &s->none_kg : &s->kg[from * s->stride];
    lane moved = share * *source;
    *source -= moved;
    s->kg[to * s->stride] += moved;
}

/* A share of every stage goes on by one. */
static void advance(struct stages *s, enum rules_count count, lane share)
{
    if (count != RULES_COUNT_WARM) {
        for (int i = s->last - 1; i >= -1; i--)
            pass(s, i, i + 1, share);
        return;
    }
    for (int i = HOT_FIRST + HOT_DAYS - 1; i >= HOT_FIRST; i--)
        pass(s, i, i + 1, share);
    for (int i = COLD_DAYS - 2; i >= -1; i--)
        pass(s, i, i + 1, share);
}

/* The run so far has had its hot hours. */
static void pass_hot(struct stages *s, lane share)
{
    for (int i = -1; i < COLD_DAYS; i++)
        pass(s, i, HOT_FIRST + 1 + i, share);
}

static void fall_back(struct stages *s, lane_mask broken)
{
    for (int i = 0; i < s->last; i++)
        s->kg[i * s->stride] = lane_if(broken, lane_of(0), s->kg[i * s->stride]);
}

/* ---- time ---- */

/* Books the full stages of a cell's carry. */
static void book(struct dose *dose, struct pile *pile, int k, int c)
{
    const struct rules_dose *row = &rules_doses[k];
    lane *carry = &dose->carry[k][c], one = lane_of(1), none = lane_of(0), least = lane_of(FULL);
    struct stages s = stages_of(pile, k, c);
    for (int i = 0; i < row->stages && lane_any(lane_at_most(least, *carry)); i++) {
        lane_mask full = lane_at_most(least, *carry);
        advance(&s, row->count, lane_if(full, one, none));
        *carry -= lane_if(full, one, none);
        dose->held[k][c] = lane_if(full, one, dose->held[k][c]);
    }
    *carry = lane_if(lane_less(*carry, least), lane_max(*carry, none), none); /* all has met it by now */
}

static void book_hot(struct dose *dose, struct pile *pile, int k, int c)
{
    lane_mask hot = lane_at_most(lane_of(HOT_S), dose->hot_s[c]);
    struct stages s = stages_of(pile, k, c);
    pass_hot(&s, lane_if(hot, lane_of(1), lane_of(0)));
    dose->hot_s[c] = lane_if(hot, lane_of(-1e12), dose->hot_s[c]); /* once in a run */
    dose->held[k][c] = lane_if(hot, lane_of(1), dose->held[k][c]);
}

static void step_sum(struct dose *dose, struct pile *pile, int k, const lane *from_K,
                     const lane *to_K, const lane *wet_share, lane step_s)
{
    const struct rules_dose *row = &rules_doses[k];
    const bool equation = row->count == RULES_COUNT_EQUATION;
    const lane stages = step_s * (1 / fmax(row->stage_h * 3600, 1));
    lane *carry = dose->carry[k];
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane gain = equation ? dose_equation(from_K[c], to_K[c], step_s)
                             : stages * share_above(from_K[c], to_K[c], row->over_C);
        carry[c] += lane_if(lane_less(wet_share[c], lane_of(row->water_share)), lane_of(0), gain);
        if (lane_any(lane_at_most(lane_of(FULL), carry[c])))
            book(dose, pile, k, c);
    }
}

/* The part of a step before a run breaks belongs to it, the part after it begins another. */
static void run_cell(struct dose *dose, struct pile *pile, int k, int c, lane from_K, lane to_K,
                     lane_mask dry, lane step_s)
{
    const struct rules_dose *row = &rules_doses[k];
    const bool warm = row->count == RULES_COUNT_WARM;
    lane edge = lane_of(row->over_C - EDGE_K), none = lane_of(0);
    lane gain = lane_if(dry, none, share_above(from_K, to_K, row->over_C) * step_s);
    lane hot = warm ? lane_if(dry, none, share_above(from_K, to_K, HOT_C) * step_s) : none;
    lane_mask late = lane_less(from_K, edge); /* what there is of it is the step's end */
    lane_mask broken = (dry | late | lane_less(to_K, edge)) & lane_less(none, step_s);
    lane *carry = &dose->carry[k][c], *held = &dose->held[k][c], per_stage = lane_of(1 / (row->stage_h * 3600));
    *carry += lane_if(late, none, gain * per_stage);
    dose->hot_s[c] += warm ? lane_if(late, none, hot) : none;
    if (lane_any(lane_at_most(lane_of(FULL), *carry)))
        book(dose, pile, k, c);
    if (warm && lane_any(lane_at_most(lane_of(HOT_S), dose->hot_s[c])))
        book_hot(dose, pile, k, c);
    if (lane_any(broken & lane_less(none, *held))) {
        struct stages s = stages_of(pile, k, c);
        fall_back(&s, broken);
    }
    *held = lane_if(broken, none, *held);
    *carry = lane_if(broken, lane_if(late, gain * per_stage, none), *carry);
    if (warm)
        dose->hot_s[c] = lane_if(broken, lane_if(late, hot, none), dose->hot_s[c]);
}

static void step_run(struct dose *dose, struct pile *pile, int k, const lane *from_K,
                     const lane *to_K, const lane *wet_share, lane step_s)
{
    const struct rules_dose *row = &rules_doses[k];
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane_mask busy = lane_less(lane_of(0), dose->held[k][c] + dose->carry[k][c]) |
                         lane_less(lane_of(row->over_C - 1), lane_max(from_K[c], to_K[c]));
        if (lane_any(busy))
            run_cell(dose, pile, k, c, from_K[c], to_K[c],
                     lane_less(wet_share[c], lane_of(row->water_share)), step_s);
    }
}

void dose_step(struct dose *dose, struct pile *pile, const lane *from_K, const lane *to_K,
               const lane *wet_share, lane step_s)
{
    lane hottest = lane_of(-300);
    for (int c = 0; c < pile->mesh->cells; c++)
        hottest = lane_max(hottest, lane_max(from_K[c], to_K[c]));
    for (int k = 0; k < RULES_DOSES; k++) {
        const struct rules_dose *row = &rules_doses[k];
        if (row->count == RULES_COUNT_RUN || row->count == RULES_COUNT_WARM)
            step_run(dose, pile, k, from_K, to_K, wet_share, step_s);
        else if (lane_any(lane_less(lane_of(row->over_C - 1), hottest)))
            step_sum(dose, pile, k, from_K, to_K, wet_share, step_s);
    }
}

void dose_fold(struct dose *dose, struct pile *pile, lane_mask who)
{
    const lane one = lane_of(1), none = lane_of(0);
    for (int k = 0; k < RULES_DOSES; k++)
        for (int c = 0; c < pile->stride; c++) {
            lane *carry = &dose->carry[k][c], *held = &dose->held[k][c];
            lane folded = lane_if(who, *carry, none);
            if (c < pile->mesh->cells && lane_any(lane_less(none, folded))) {
                struct stages s = stages_of(pile, k, c);
                advance(&s, rules_doses[k].count, folded);
            }
            *carry = lane_if(who, none, *carry);
            *held = lane_if(who, one, *held);
        }
    lane_clear(who, dose->hot_s, pile->stride);
}

lane dose_met(const struct pile *pile, int dose, int stage)
{
    const struct rules_dose *row = &rules_doses[dose];
    lane met = lane_of(0);
    for (int i = stage - 1; i < row->stages; i++)
        met += pile_total(pile, pile_dose(pile, row->first + i));
    return met;
}
