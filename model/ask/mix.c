/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/mix.c - see ask/mix.h. */
#include "ask/mix.h"
#include "ask/draft.h"
#include "many/band.h"
#include "many/spell.h"
#include "run/lay.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* of the dry mass: in stiff pieces; soil and the like [trade] */
static const double WOODY_SHARE = 1.0 / 3, IDLE_SHARE = 0.75;
enum { ROUNDS = 8 }; /* of drawing in bounds; two do, most often */

static bool stiff(const struct stuff *stuff)
{
    return stuff->group == STUFF_BROWN && stuff->settles == STUFF_STIFF;
}

/* ---- possible piles ---- */

/* the recipe, and a step of each kind, for one pile or many */
struct table {
    struct blend *base;         /* [members] */
    struct blend *step;         /* [members * kinds] */
};

struct work {
    struct mix *mix;
    const struct mix_ask *ask;
    struct unknowns unknowns;
    double chance[UNKNOWN_MOST];
    struct possible possible;
    struct curve sky;
    struct table table;
    double stiff_kg;            /* of the central pile, dry */
    struct blend usual[LEAST_KINDS];    /* a step of each kind for it */
};

static void find_nature(struct work *w)
{
    struct mix *mix = w->mix;
    double idle_kg = 0;
    for (int i = 0; i < mix->recipe->stuffs; i++) {
        const struct stuff *stuff = &mix->recipe->stuff[i];
        double dry_kg = mix->part[i].dry_kg;
        w->stiff_kg += stiff(stuff) ? dry_kg : 0;
        idle_kg += amend_mends(stuff) ? 0 : dry_kg;
    }
    mix->woody = w->stiff_kg > WOODY_SHARE * mix->central.dry_kg;
    mix->idle = idle_kg > IDLE_SHARE * mix->central.dry_kg;
    for (int l = 0; l < mix->recipe->layers; l++)
        mix->poured |= mix->recipe->layer[l].water_kg.mid > 0;
}

/* Is it woody with what is advised? More room for water is only for mixes that are. */
static bool woody_with(const struct work *w, const struct amend_advice *advice,
                       const struct amend_problem *p)
{
    double stiff_kg = w->stiff_kg, dry_kg = w->mix->central.dry_kg;
    for (int i = 0; i < advice->items; i++) {
        const struct amend_kind *kind = &p->kinds->kind[advice->item[i].kind];
        double more_kg = amend_steps(advice, i, p) * w->usual[advice->item[i].kind].dry_kg;
        dry_kg += more_kg;
        stiff_kg += kind->stuff != AMEND_WATER && stiff(&w->mix->recipe->stuff[kind->stuff]) ? more_kg : 0;
    }
    return stiff_kg > WOODY_SHARE * dry_kg;
}

static void choose(struct work *w)
{
    unknown_choose(&w->possible, &w->unknowns, w->chance, w->mix->recipe, w->ask->param);
}

static bool blend_base(struct work *w, struct blend *base, struct trouble *why)
{
    return blend_pile(base, w->mix->recipe, &w->possible, &w->sky, why);
}

static void blend_steps(const struct work *w, const struct blend *base, struct blend *step)
{
    const struct amend_kinds *kinds = &w->mix->kinds;
    double pressed = blend_pressed(base);
    for (int k = 0; k < kinds->count; k++)
        if (kinds->kind[k].stuff == AMEND_WATER)
            blend_poured(&step[k], &w->possible, kinds->kind[k].water_kg);
        else
            blend_portion(&step[k], w->mix->recipe, &w->possible, &kinds->kind[k].one, pressed);
}

static void draw_member(struct work *w, int row)
{
    for (int i = 0; i < w->unknowns.count; i++)
        w->chance[i] = w->ask->first == 0 ? 0.5
                     : unknown_chance(w->ask->draw, (uint32_t)(w->ask->first + row),
                                      w->unknowns.row[i].name);
    choose(w);
}

static bool fill_table(struct work *w, struct trouble *why)
{
    size_t members = (size_t)w->mix->members, kinds = (size_t)w->mix->kinds.count;
    w->table.base = calloc(members, sizeof *w->table.base);
    w->table.step = calloc(members * kinds, sizeof *w->table.step);
    if (!w->table.base || !w->table.step)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for so many piles");
    for (int i = 0; i < w->mix->members; i++) {
        draw_member(w, i);
        if (!blend_base(w, &w->table.base[i], why))
            return false;
        blend_steps(w, &w->table.base[i], &w->table.step[(size_t)i * kinds]);
    }
    return true;
}

static void bands(struct span to[BLEND_FIGURES], const struct blend *blend, int members, double *room)
{
    for (int f = 0; f < BLEND_FIGURES; f++) {
        for (int i = 0; i < members; i++)
            room[i] = blend_figure(&blend[i], (enum blend_figure)f);
        to[f] = band_of(room, members);
    }
}

/* ---- a typical pile ---- */

/* The mean of many, as heavy as their median: means are drawn out by the few that are very dense. */
static struct blend mean_of(const struct blend *blend, int members, int stride, double *room)
{
    struct blend mean = {0}, typical = {0};
    for (int i = 0; i < members; i++) {
        const struct blend *one = &blend[(size_t)i * (size_t)stride];
        room[i] = blend_figure(one, BLEND_WET_KG);
        blend_add(&mean, one, 1.0 / members);
    }
    double wet_kg = blend_figure(&mean, BLEND_WET_KG);
    blend_add(&typical, &mean, wet_kg > 0 ? band_of(room, members).mid / wet_kg : 1);
    return typical;
}

/* Moved so that its ratios are the medians that are told. */
static struct blend typical_of(const struct span now[BLEND_FIGURES], const struct blend *base,
                               int members, double *room)
{
    struct blend typical = mean_of(base, members, 1, room);
    double water = now[BLEND_WATER_SHARE].mid, wet_kg = now[BLEND_WET_KG].mid;
    double dry_kg = typical.dry_kg;
    typical.water_kg = water * wet_kg;
    typical.dry_kg = (1 - water) * wet_kg;
    typical.carbon_kg *= typical.dry_kg / dry_kg;
    typical.nitrogen_kg *= typical.dry_kg / dry_kg;
    if (typical.nitrogen_kg > 0)
        typical.nitrogen_kg = typical.carbon_kg / now[BLEND_C_TO_N].mid;
    return typical;
}

static void find_faults(struct mix *mix)
{
    bool found = mix->recipe->found.is;
    struct amend_goal best = amend_best(mix->woody, found), works = amend_works(found);
    for (int f = 0; f < AMEND_FAULTS; f++) {
        mix->wrong[f] = amend_broken(&mix->typical, &best, (enum amend_fault)f) > 0;
        mix->fails[f] = amend_broken(&mix->typical, &works, (enum amend_fault)f) > 0;
    }
}

static bool works(const struct blend *blend, bool found)
{
    struct amend_goal goal = amend_works(found);
    for (int f = 0; f < AMEND_AIRLESS; f++)
        if (amend_broken(blend, &goal, (enum amend_fault)f) > 0)
            return false;
    return true;
}

/* ---- advice, asked of all ---- */

/* What is advised, for every member: how much of it each wants, and what comes of it. */
static void spread(struct work *w, struct mix_advice *told, struct blend *then, double *room)
{
    const struct mix *mix = w->mix;
    struct amend_problem p = {.kinds = &mix->kinds, .woody = mix->woody,
                              .found = mix->recipe->found.is};
    told->works = 0;
    for (int i = 0; i < mix->members; i++) {
        p.base = &w->table.base[i];
        p.step = &w->table.step[i * mix->kinds.count];
        then[i] = amend_done(&told->advice, &p);
        told->works += works(&then[i], mix->recipe->found.is);
    }
    bands(told->then, then, mix->members, room);
    for (int k = 0; k < told->advice.items; k++) {
        for (int i = 0; i < mix->members; i++) {
            p.base = &w->table.base[i];
            p.step = &w->table.step[i * mix->kinds.count];
            room[i] = amend_need(&told->advice, k, &p) *
                      mix->kinds.kind[told->advice.item[k].kind].step;
        }
        told->need[k] = band_of(room, mix->members);
    }
}

/* Would it be called right? Bounds that the medians of all piles break are drawn in by what these differ
 * from the typical pile, for which the advice was found. */
static void judge(const struct work *w, struct mix_advice *told, struct amend_problem *p,
                  const struct blend *then, double *room)
{
    static const enum blend_figure figure[AMEND_FAULTS] = {BLEND_WATER_SHARE, BLEND_WATER_SHARE, BLEND_C_TO_N,
                                                           BLEND_C_TO_N, BLEND_FREE_AIR};
    struct blend typical = amend_done(&told->advice, p);
    struct blend median = typical_of(told->then, then, w->mix->members, room);
    bool woody = woody_with(w, &told->advice, p);
    struct amend_goal best = amend_best(woody, p->found);
    told->right = true;
    for (int f = 0; f < AMEND_FAULTS; f++)
        if (amend_broken(&median, &best, (enum amend_fault)f) > 0) {
            told->right = false;
            p->lean.bound[f] = blend_figure(&typical, figure[f]) - blend_figure(&median, figure[f]);
        }
    p->woody = p->woody && woody;
}

/* Found again until the mix would be right with it, or the best is out of reach. */
static void reach(struct work *w, struct mix_advice *told, struct amend_problem p, bool less, int without,
                  struct blend *then, double *room)
{
    for (int round = 0; round < ROUNDS && !told->right; round++) {
        struct mix_advice tried = {0};
        if (less)
            amend_leave_out(&tried.advice, &p);
        else
            amend_find(&tried.advice, &p, without);
        bool none = !tried.advice.is || (round && tried.advice.merely_works);
        if (none && round == 0)
            return;
        for (int f = 0; none && f < AMEND_FAULTS; f++)
            p.lean.bound[f] /= 2; /* too far in: another mix differs otherwise */
        if (none)
            continue;
        spread(w, &tried, then, room);
        judge(w, &tried, &p, then, room);
        *told = tried;
    }
}

/* A found thing may not be had: another way without it; of a stock, leaving some out. */
static void find_instead(struct work *w, const struct amend_problem *p, struct blend *then, double *room)
{
    struct mix *mix = w->mix;
    const struct amend_advice *first = &mix->advice.advice;
    int found = -1;
    for (int k = 0; k < first->items; k++)
        if (mix->kinds.kind[first->item[k].kind].elsewhere)
            found = first->item[k].kind;
    if (first->is && found < 0)
        return;
    if (mix->stock)
        reach(w, &mix->instead, *p, true, -1, then, room);
    if (!mix->instead.advice.is && found >= 0)
        reach(w, &mix->instead, *p, false, found, then, room);
    if (!mix->advice.right && mix->instead.right && !mix->instead.advice.leave_out)
        mix->advice = mix->instead;
    else if (!mix->advice.right || mix->instead.right)
        return;
    mix->instead = (struct mix_advice){0};
}

static bool advise(struct work *w, struct trouble *why)
{
    struct mix *mix = w->mix;
    size_t members = (size_t)mix->members;
    struct blend step[LEAST_KINDS], *then = calloc(members, sizeof *then);
    double *room = calloc(members, sizeof *room);
    bool good = then && room;
    if (!good)
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for so many piles");
    for (int k = 0; good && k < mix->kinds.count; k++)
        step[k] = mean_of(&w->table.step[k], mix->members, mix->kinds.count, room);
    if (good) {
        bands(mix->now, w->table.base, mix->members, room);
        mix->typical = typical_of(mix->now, w->table.base, mix->members, room);
        for (int i = 0; i < mix->members; i++)
            mix->works += works(&w->table.base[i], mix->recipe->found.is);
        find_faults(mix);
        struct amend_problem p = {.kinds = &mix->kinds, .base = &mix->typical, .step = step,
                                  .woody = mix->woody, .found = mix->recipe->found.is};
        if (!mix->idle) {
            reach(w, &mix->advice, p, false, -1, then, room);
            find_instead(w, &p, then, room);
        }
    }
    free(then);
    free(room);
    return good;
}

/* ---- what is least known ---- */

/* The figure that a fault is about; without one, that whose range is widest for its best band. */
static enum blend_figure open_figure(const struct mix *mix)
{
    const struct span *c_to_n = &mix->now[BLEND_C_TO_N], *water = &mix->now[BLEND_WATER_SHARE];
    if (mix->wrong[AMEND_BROWN] || mix->wrong[AMEND_GREEN])
        return BLEND_C_TO_N;
    if (mix->wrong[AMEND_DRY] || mix->wrong[AMEND_WET])
        return BLEND_WATER_SHARE;
    if (mix->wrong[AMEND_AIRLESS])
        return BLEND_FREE_AIR;
    return (c_to_n->high - c_to_n->low) / 10 >= (water->high - water->low) / 0.1 ? BLEND_C_TO_N
                                                                                 : BLEND_WATER_SHARE;
}

static bool testable(enum unknown_kind kind)
{
    return kind == UNKNOWN_WATER || kind == UNKNOWN_BULK || kind == UNKNOWN_AMOUNT ||
           kind == UNKNOWN_POUR || kind == UNKNOWN_FELT || kind == UNKNOWN_HEIGHT;
}

static bool figure_at(struct work *w, int row, double chance, double *value, struct trouble *why)
{
    struct blend blend;
    double was = w->chance[row];
    w->chance[row] = chance;
    choose(w);
    bool made = blend_base(w, &blend, why);
    *value = blend_figure(&blend, w->mix->open);
    w->chance[row] = was;
    return made;
}

/* One at a time from the central pile. */
static bool find_least_known(struct work *w, struct trouble *why)
{
    struct mix *mix = w->mix;
    mix->open = open_figure(mix);
    for (int i = 0; i < w->unknowns.count; i++)
        w->chance[i] = 0.5;
    for (int i = 0; i < w->unknowns.count; i++) {
        const struct unknown *unknown = &w->unknowns.row[i];
        double low, high;
        if (unknown->kind == UNKNOWN_WEATHER || unknown->kind == UNKNOWN_PARAM)
            continue; /* nobody can look at a constant */
        if (!figure_at(w, i, 0.1, &low, why) || !figure_at(w, i, 0.9, &high, why))
            return false;
        double swing = fabs(high - low);
        if (swing > mix->least_known.swing)
            mix->least_known = (struct mix_unknown){*unknown, swing};
        if (testable(unknown->kind) && swing > mix->testable.swing)
            mix->testable = (struct mix_unknown){*unknown, swing};
    }
    return true;
}

/* ---- all of it ---- */

/* Each ingredient by itself, of the usual pile. */
static void find_parts(struct mix *mix, const struct possible *usual)
{
    struct blend one;
    for (int l = 0; l < mix->recipe->layers; l++)
        for (int i = 0; i < mix->recipe->layer[l].portions; i++) {
            const struct plan_portion *portion = &mix->recipe->layer[l].portion[i];
            blend_portion(&one, mix->recipe, usual, portion, blend_pressed(&mix->central));
            blend_add(&mix->part[portion->stuff], &one, 1);
        }
}

static bool run(struct work *w, struct trouble *why)
{
    struct mix *mix = w->mix;
    draft_unknowns(&w->unknowns, mix->recipe, w->ask->offer, w->ask->fixed);
    possible_usual(&w->possible, mix->recipe, w->ask->param);
    if (!blend_base(w, &mix->central, why))
        return false;
    find_parts(mix, &w->possible);
    find_nature(w);
    blend_steps(w, &mix->central, w->usual);
    return fill_table(w, why) && advise(w, why) &&
           (mix->members == 1 || find_least_known(w, why));
}

bool mix_run(struct mix *mix, const struct mix_ask *ask, struct trouble *why)
{
    struct work *w = calloc(1, sizeof *w);
    *mix = (struct mix){.members = ask->first ? ask->last - ask->first + 1 : 1};
    mix->recipe = draft_of(ask->scenario, &mix->stock);
    if (!w || !mix->recipe) {
        free(w);
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a recipe");
    }
    w->mix = mix;
    w->ask = ask;
    amend_list(&mix->kinds, mix->recipe, mix->stock, ask->offer);
    bool done = spell_made(&w->sky, mix->recipe, 0, 0, why);
    if (done) {
        done = run(w, why);
        curve_free(&w->sky);
    }
    free(w->table.base);
    free(w->table.step);
    free(w);
    return done;
}

void mix_free(struct mix *mix)
{
    free(mix->recipe);
    mix->recipe = NULL;
}
