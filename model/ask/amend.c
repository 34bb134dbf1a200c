/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/amend.c - see ask/amend.h. */
#include "ask/amend.h"
#include "run/handful.h"
#include "run/lay.h"
#include <math.h>
#include <string.h>

/* what is out of bounds is brought a little way in, so that it doesn't stand on the edge [trade] */
static const double WOODY_AIM = 0.65;
static const double BROWN_AIM = 34, GREEN_AIM = 26;
/* what is at hand, or must be found: a vessel's weight in the sum, and of fetching one thing more */
static const double OWN_COST = 1, OWN_FETCH = 1, FOUND_COST = 2, FOUND_FETCH = 8; /* trade */
static const double BUCKET_CARRIED = 0.8;   /* of a bucket of water [trade] */
static const double FEW_BUCKETS = 5;        /* less than this isn't measured in buckets */
static const double WATER_KG_PER_M3 = 1000, LITRES_PER_M3 = 1000;
static const double LEAST_LEFT = 0.25;      /* of a stock's dry mass goes in */
static const double MOST_ADDED = 3;         /* times the pile: more is another pile, not this one mended [trade] */
enum { PARTS = 2, MOST_STEPS = 400, STEPS_IN_ALL = 50 };

struct amend_goal amend_best(bool woody, bool found)
{
    return (struct amend_goal){{0.495, woody ? 0.655 : 0.605, 35.5, found ? 14.5 : 24.5, 0.295}};
}

struct amend_goal amend_works(bool found)
{
    return (struct amend_goal){{0.45, 0.65, 40, found ? 10 : 20, 0.25}};
}

double amend_broken(const struct blend *b, const struct amend_goal *goal, enum amend_fault fault)
{
    double bound = goal->bound[fault];
    switch (fault) {
    case AMEND_DRY: return bound * b->dry_kg - (1 - bound) * b->water_kg;
    case AMEND_WET: return (1 - bound) * b->water_kg - bound * b->dry_kg;
    case AMEND_BROWN: return b->carbon_kg - bound * b->nitrogen_kg;
    case AMEND_GREEN: return bound * b->nitrogen_kg - b->carbon_kg;
    case AMEND_AIRLESS:
        return b->solid_m3 + b->water_kg / WATER_KG_PER_M3 - (1 - bound) * b->built_m3;
    case AMEND_FAULTS: break;
    }
    return NAN;
}

/* ---- what might go in ---- */

/* 1, 2 or 5 times a power of ten, at most x */
static double round_step(double x)
{
    double power = pow(10, floor(log10(x))), lead = x / power;
    return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

static void fix(struct span *span, double value)
{
    *span = (struct span){value, value, value};
}

/* One step of an ingredient as a portion has it: the vessel it was counted in, unless that holds more
 * than the whole pile; kilograms off a scale; else buckets, or litres where the whole pile is a few
 * buckets. */
static struct amend_kind kind_of(const struct plan_portion *portion, const struct scenario *scenario,
                                 double whole_m3)
{
    struct amend_kind kind = {.stuff = portion->stuff, .one = *portion, .vessel = portion->vessel,
                              .step = 1};
    struct plan_portion *one = &kind.one;
    double volume_m3 = one->vessel_m3 < whole_m3 ? one->vessel_m3 : 0; /* a bag to a jar is no measure */
    if (one->weighed) {
        kind.vessel = PLAN_BY_MASS;
        kind.step = round_step(whole_m3 * one->bulk_kg_per_m3.mid / STEPS_IN_ALL);
        volume_m3 = kind.step / one->bulk_kg_per_m3.mid;
    } else if (!(volume_m3 > 0) && whole_m3 >= FEW_BUCKETS * scenario->bucket_m3) {
        kind.vessel = PLAN_BUCKET;
        volume_m3 = scenario->bucket_m3;
    } else if (!(volume_m3 > 0)) {
        kind.vessel = PLAN_BY_VOLUME;
        kind.step = round_step(LITRES_PER_M3 * whole_m3 / STEPS_IN_ALL);
        volume_m3 = kind.step / LITRES_PER_M3;
    }
    fix(&one->volume_m3, volume_m3);
    fix(&one->wet_kg, one->weighed ? kind.step : volume_m3 * one->bulk_kg_per_m3.mid);
    kind.most = (int)fmin(MOST_STEPS, fmax(1, whole_m3 / volume_m3));
    return kind;
}

/* Whole steps of a kind in a portion. */
static double steps_in(const struct amend_kind *kind, const struct plan_portion *portion)
{
    return portion->volume_m3.mid / kind->one.volume_m3.mid;
}

static struct amend_kind *find_kind(struct amend_kinds *kinds, int stuff)
{
    for (int i = 0; i < kinds->count; i++)
        if (kinds->kind[i].stuff == stuff)
            return &kinds->kind[i];
    return NULL;
}

static struct amend_kind *add_kind(struct amend_kinds *kinds, struct amend_kind kind)
{
    if (kinds->count == LEAST_KINDS - 1)
        return NULL; /* room for all of a scenario's ingredients and water: never */
    kinds->kind[kinds->count] = kind;
    return &kinds->kind[kinds->count++];
}

static struct amend_kind water_kind(const struct scenario *scenario, double whole_m3)
{
    bool buckets = whole_m3 >= FEW_BUCKETS * scenario->bucket_m3;
    struct amend_kind water = {.stuff = AMEND_WATER, .step = 0.5, .vessel = PLAN_BUCKET};
    water.water_kg = water.step * BUCKET_CARRIED * scenario->bucket_m3 * WATER_KG_PER_M3;
    if (!buckets) {
        water.vessel = PLAN_BY_VOLUME;
        water.step = round_step(LITRES_PER_M3 * whole_m3 / (2 * STEPS_IN_ALL));
        water.water_kg = water.step * WATER_KG_PER_M3 / LITRES_PER_M3;
    }
    water.most = (int)fmin(2 * MOST_STEPS, fmax(1, whole_m3 * WATER_KG_PER_M3 / water.water_kg));
    return water;
}

bool amend_mends(const struct stuff *stuff)
{
    return stuff->group == STUFF_GREEN || stuff->group == STUFF_BROWN;
}

/* What was felt in a handful was that of the whole layer, so more of it would come otherwise. */
static void list_layer(struct amend_kinds *kinds, const struct scenario *scenario,
                       const struct plan_layer *layer, double whole_m3)
{
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        struct amend_kind *kind = find_kind(kinds, portion->stuff);
        if (!amend_mends(&scenario->stuff[portion->stuff]) || portion->felt)
            continue;
        if (!kind)
            kind = add_kind(kinds, kind_of(portion, scenario, whole_m3));
        if (kind && kind->here < MOST_STEPS)
            kind->here += (int)floor(steps_in(kind, portion) + 0.01);
    }
}

void amend_list(struct amend_kinds *kinds, const struct scenario *scenario, bool stock,
                const struct plan_layer *offer)
{
    double whole_m3 = 0;
    *kinds = (struct amend_kinds){0};
    for (int l = 0; l < scenario->layers; l++)
        whole_m3 += lay_volume_m3(&scenario->layer[l]);
    for (int i = 0; !stock && i < scenario->haves; i++) {
        const struct plan_portion *have = &scenario->have[i];
        if (!amend_mends(&scenario->stuff[have->stuff]) || find_kind(kinds, have->stuff))
            continue;
        struct amend_kind *kind = add_kind(kinds, kind_of(have, scenario, whole_m3));
        if (kind)
            kind->most = (int)fmin(MOST_STEPS, floor(steps_in(kind, have) + 0.01));
    }
    int in_stock = kinds->count;
    for (int l = 0; l < scenario->layers && !scenario->found.is; l++)
        list_layer(kinds, scenario, &scenario->layer[l], whole_m3);
    for (int i = in_stock; stock && i < kinds->count; i++)
        kinds->kind[i].elsewhere = true;
    for (int i = 0; i < offer->portions; i++) {
        if (find_kind(kinds, offer->portion[i].stuff))
            continue;
        struct amend_kind *kind = add_kind(kinds, kind_of(&offer->portion[i], scenario, whole_m3));
        if (kind)
            kind->elsewhere = true;
    }
    kinds->kind[kinds->count++] = water_kind(scenario, whole_m3);
}

/* ---- the least that does ---- */

/* The best, and a little more of it where the mix lies outside. */
static struct amend_goal aim_of(const struct amend_problem *p)
{
    struct amend_goal goal = amend_best(p->woody, p->found), best = goal;
    if (amend_broken(p->base, &best, AMEND_DRY) > 0)
        goal.bound[AMEND_DRY] = handful_wanted_share;
    if (amend_broken(p->base, &best, AMEND_WET) > 0)
        goal.bound[AMEND_WET] = p->woody ? WOODY_AIM : handful_wet_share;
    if (amend_broken(p->base, &best, AMEND_BROWN) > 0)
        goal.bound[AMEND_BROWN] = BROWN_AIM;
    if (amend_broken(p->base, &best, AMEND_GREEN) > 0)
        goal.bound[AMEND_GREEN] = GREEN_AIM;
    return goal;
}

enum use { USE_OWN, USE_ALL, USE_LESS };

static void pose(struct least *least, const struct amend_problem *p, const struct amend_goal *goal,
                 enum use use, int without)
{
    const struct amend_kinds *kinds = p->kinds;
    *least = (struct least){.kinds = kinds->count, .rows = AMEND_FAULTS, .parts = PARTS};
    for (int r = 0; r < AMEND_FAULTS; r++) {
        least->limit[r] = -amend_broken(p->base, goal, (enum amend_fault)r);
        for (int k = 0; k < kinds->count; k++) {
            double sign = use == USE_LESS && k < kinds->count - 1 ? -1 : 1;
            least->use[r][k] = sign * amend_broken(&p->step[k], goal, (enum amend_fault)r);
        }
    }
    for (int k = 0; k < kinds->count; k++) {
        const struct amend_kind *kind = &kinds->kind[k];
        bool water = kind->stuff == AMEND_WATER;
        bool allowed = k != without && (use != USE_OWN || !kind->elsewhere);
        bool find = kind->elsewhere && use != USE_LESS;
        least->cost[k] = water && kind->vessel == PLAN_BUCKET ? kind->step * OWN_COST
                       : find ? FOUND_COST : OWN_COST;
        least->fetch[k] = find ? FOUND_FETCH : OWN_FETCH;
        least->most[k] = use == USE_LESS && !water ? kind->here : allowed ? kind->most : 0;
    }
    if (use != USE_LESS) {
        least->limit[least->rows] = MOST_ADDED * p->base->built_m3;
        for (int k = 0; k < kinds->count - 1; k++)
            least->use[least->rows][k] = p->step[k].built_m3;
        least->rows++;
        return;
    }
    least->limit[least->rows] = (1 - LEAST_LEFT) * p->base->dry_kg;
    for (int k = 0; k < kinds->count - 1; k++)
        least->use[least->rows][k] = p->step[k].dry_kg;
    least->rows++;
}

/* What so many steps are for: the fault that they relieve most. Water is for want of water, if only
 * for what the dry straw beside it will drink. */
static enum amend_fault mended(const struct amend_problem *p, int kind, double steps)
{
    if (p->kinds->kind[kind].stuff == AMEND_WATER)
        return AMEND_DRY;
    struct amend_goal best = amend_best(p->woody, p->found);
    int most = 0;
    double most_share = -INFINITY;
    for (int f = 0; f < AMEND_FAULTS; f++) {
        double broken = amend_broken(p->base, &best, (enum amend_fault)f);
        double share = -steps * amend_broken(&p->step[kind], &best, (enum amend_fault)f) / broken;
        if (broken > 0 && share > most_share) {
            most_share = share;
            most = f;
        }
    }
    return (enum amend_fault)most;
}

static bool solve(struct amend_advice *advice, const struct amend_problem *p,
                  const struct amend_goal *goal, enum use use, int without)
{
    struct least least;
    struct amend_goal leant = *goal;
    int count[LEAST_KINDS];
    for (int f = 0; f < AMEND_FAULTS; f++)
        leant.bound[f] += p->lean.bound[f];
    pose(&least, p, &leant, use, without);
    if (!least_find(&least, count))
        return false;
    *advice = (struct amend_advice){.is = true, .leave_out = use == USE_LESS, .goal = *goal};
    for (int k = 0; k < least.kinds; k++) {
        if (!count[k])
            continue;
        bool less = use == USE_LESS && k < least.kinds - 1;
        advice->item[advice->items++] =
            (struct amend_item){k, count[k], mended(p, k, less ? -count[k] : count[k])};
    }
    return true;
}

static bool solve_best(struct amend_advice *advice, const struct amend_problem *p, enum use use,
                       int without)
{
    struct amend_goal aim = aim_of(p), best = amend_best(p->woody, p->found);
    return solve(advice, p, &aim, use, without) || solve(advice, p, &best, use, without);
}

void amend_find(struct amend_advice *advice, const struct amend_problem *p, int without)
{
    *advice = (struct amend_advice){0};
    if (solve_best(advice, p, USE_OWN, without) || solve_best(advice, p, USE_ALL, without))
        return;
    struct amend_goal works = amend_works(p->found);
    if (solve(advice, p, &works, USE_OWN, without) || solve(advice, p, &works, USE_ALL, without))
        advice->merely_works = true;
}

void amend_leave_out(struct amend_advice *advice, const struct amend_problem *p)
{
    *advice = (struct amend_advice){0};
    solve_best(advice, p, USE_LESS, -1);
}

/* ---- of one possible pile ---- */

double amend_steps(const struct amend_advice *advice, int item, const struct amend_problem *p)
{
    const struct amend_item *one = &advice->item[item];
    bool water = p->kinds->kind[one->kind].stuff == AMEND_WATER;
    return advice->leave_out && !water ? -one->steps : one->steps;
}

struct blend amend_done(const struct amend_advice *advice, const struct amend_problem *p)
{
    struct blend sum = *p->base;
    for (int i = 0; i < advice->items; i++)
        blend_add(&sum, &p->step[advice->item[i].kind], amend_steps(advice, i, p));
    return sum;
}

double amend_need(const struct amend_advice *advice, int item, const struct amend_problem *p)
{
    const struct amend_item *one = &advice->item[item];
    const struct amend_kind *kind = &p->kinds->kind[one->kind];
    struct blend rest = amend_done(advice, p);
    blend_add(&rest, &p->step[one->kind], -amend_steps(advice, item, p));
    double sign = amend_steps(advice, item, p) < 0 ? -1 : 1;
    double relief = -sign * amend_broken(&p->step[one->kind], &advice->goal, one->mends);
    double broken = amend_broken(&rest, &advice->goal, one->mends);
    double most = sign < 0 ? kind->here : kind->most;
    if (broken <= 0)
        return 0;
    return relief > 0 ? fmin(most, broken / relief) : most;
}
