/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/unknown.c - see many/unknown.h.
 *
 * What nobody knows better than within a range is spread evenly over it, half to either side of what
 * is usual: ranges as if they were two standard deviations of a bell left more of the published
 * experiments outside (docs/decisions.md). Errors of measuring are bells, cut at two deviations.
 */
#include "many/unknown.h"
#include "base/draw.h"
#include "run/thermometer.h"
#include <math.h>
#include <string.h>

/* all trade: how far off level buckets and a scale are, and two-sided spreads of what tables give
 * without a range */
static const double FILL_BUCKET = 1.15, FILL_SCALE = 1.03, FILL_WATER = 1.15;
static const double LIGNIN = 1.3, SOLUBLE = 1.5, PIECE = 1.6;
/* batches of a kind decay faster and slower than their analysis says [trade] */
static const double PACE = 2.0;
static const double HANDFUL_SHARE = 0.05;               /* how far off a hand's own feeling is [trade] */
static const double MOSTLY_ASH = 0.95;
static const double CUT = 2.0;                          /* standard deviations */
static const double BELOW_CUT = 0.02275013194817921;    /* of the normal distribution lies below -2 */

static void add(struct unknowns *list, enum unknown_kind kind, int row, const char *what,
                const char *of)
{
    if (list->count == UNKNOWN_MOST)
        return; /* room for every parameter and every unknown of every ingredient: never */
    struct unknown *u = &list->row[list->count++];
    *u = (struct unknown){.kind = kind, .row = row};
    strncat(u->name, what, sizeof u->name - 1);
    strncat(u->name, of, sizeof u->name - 1 - strlen(u->name));
}

/* ---- which there are ---- */

static bool open(const struct span *span)
{
    return span->low < span->high;
}

/* how a recipe and a plan use an ingredient */
struct use {
    bool here, as_it_comes, laid; /* its wetness wasn't felt somewhere; it is in the pile from the start */
};

static void use_layer(struct use use[PLAN_STUFF], const struct plan_layer *layer, bool *poured,
                      bool *felt)
{
    *poured |= layer->water_kg.high > 0;
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        use[portion->stuff].here = true;
        use[portion->stuff].as_it_comes |= !portion->felt;
        *felt |= portion->felt;
    }
}

static void list_stuff(struct unknowns *list, const struct stuff *stuff, int row, bool as_it_comes,
                       bool found)
{
    if (as_it_comes)
        add(list, UNKNOWN_WATER, row, "water of ", stuff->name);
    add(list, UNKNOWN_BULK, row, "density of ", stuff->name);
    if (!found)
        add(list, UNKNOWN_AMOUNT, row, "amount of ", stuff->name);
    if (stuff->ash_share >= MOSTLY_ASH)
        return; /* sand and ash: nothing in it decays */
    add(list, UNKNOWN_NITROGEN, row, "nitrogen of ", stuff->name);
    if (stuff->group == STUFF_SOIL || stuff->group == STUFF_MINERAL)
        return;
    add(list, UNKNOWN_LIGNIN, row, "lignin of ", stuff->name);
    add(list, UNKNOWN_SOLUBLE, row, "sugars of ", stuff->name);
    add(list, UNKNOWN_PIECE, row, "piece size of ", stuff->name);
    add(list, UNKNOWN_PACE, row, "rotting pace of ", stuff->name);
}

/* Where a plan acts by what its keepers see, or they wrote it down: how well they see it. */
static void list_eyes(struct unknowns *list, const struct scenario *scenario,
                      const struct plan *plan)
{
    bool rule = false, temp = false, handful = false;
    for (int i = 0; i < scenario->readings; i++) {
        temp |= scenario->reading[i].what <= PLAN_READ_INSIDE;
        handful |= scenario->reading[i].what == PLAN_READ_SQUEEZE;
    }
    for (int i = 0; i < plan->events; i++) {
        const struct plan_event *event = &plan->event[i];
        rule |= event->when == PLAN_RULE;
        temp |= event->when == PLAN_RULE && event->rule_K > 0;
        handful |= event->when == PLAN_RULE && event->rule_squeeze >= 0;
    }
    if (temp)
        add(list, UNKNOWN_THERMOMETER, 0, "thermometer", "");
    if (handful)
        add(list, UNKNOWN_HANDFUL, 0, "feel of a handful", "");
    if (rule)
        add(list, UNKNOWN_SLIPS, 0, "errors of single readings", "");
}

void unknown_list(struct unknowns *list, const struct scenario *scenario, int plan_row,
                  const bool fixed[PARAM_ROWS])
{
    struct use use[PLAN_STUFF] = {{false, false, false}};
    bool poured = false, felt = false;
    const struct plan *plan = &scenario->plan[plan_row];
    list->count = 0;
    list->plan = plan_row;
    for (int i = 0; i < PARAM_ROWS; i++)
        if (param_rows[i].spread != PARAM_EXACT && !fixed[i])
            add(list, UNKNOWN_PARAM, i, param_rows[i].name, "");
    for (int i = 0; i < scenario->layers; i++)
        use_layer(use, &scenario->layer[i], &poured, &felt);
    for (int i = 0; i < PLAN_STUFF; i++)
        use[i].laid = use[i].here;
    for (int i = 0; i < plan->events; i++) {
        use_layer(use, &plan->event[i].add, &poured, &felt);
        poured |= plan->event[i].water_kg.high > 0;
    }
    for (int i = 0; i < scenario->stuffs; i++)
        if (use[i].here)
            list_stuff(list, &scenario->stuff[i], i, use[i].as_it_comes,
                       scenario->found.is && use[i].laid);
    if (poured)
        add(list, UNKNOWN_POUR, 0, "water poured", "");
    if (felt)
        add(list, UNKNOWN_FELT, 0, "wetness as felt", "");
    if (scenario->found.is) {
        add(list, UNKNOWN_HEIGHT, 0, "height as found", "");
        if (open(&scenario->found.middle_K))
            add(list, UNKNOWN_FOUND_MIDDLE, 0, "middle as found", "");
        if (open(&scenario->found.hand_deep_K))
            add(list, UNKNOWN_FOUND_HAND, 0, "hand deep as found", "");
    }
    list_eyes(list, scenario, plan);
    if (scenario->sky != PLAN_SKY_FILE)
        add(list, UNKNOWN_WEATHER, 0, "weather", "");
}

/* ---- chances ---- */

/* FNV-1a of 32 bits (Fowler, Noll, Vo) [memory: constants]: the key of a name. */
static uint32_t key_of(const char *name)
{
    uint32_t key = 2166136261u;
    for (; *name; name++)
        key = (key ^ (uint8_t)*name) * 16777619u;
    return key;
}

double unknown_chance(uint64_t draw, uint32_t member, const char *name)
{
    enum { ORDER, WITHIN };
    uint32_t key = key_of(name), block = (member - 1) / UNKNOWN_BLOCK;
    uint32_t slot = (member - 1) % UNKNOWN_BLOCK, sort[UNKNOWN_BLOCK];
    const uint32_t keys[2] = {(uint32_t)draw, (uint32_t)(draw >> 32)};
    for (uint32_t i = 0; i < UNKNOWN_BLOCK / 4; i++)
        draw_words((uint32_t[4]){block, key, i, 1 + ORDER}, keys, &sort[4 * i]);
    int rank = 0; /* of the slot's number among all 64, ties in order */
    for (uint32_t i = 0; i < UNKNOWN_BLOCK; i++)
        rank += sort[i] < sort[slot] || (sort[i] == sort[slot] && i < slot);
    double chance = (rank + draw_uniform(draw, member, key, 1 + WITHIN)) / UNKNOWN_BLOCK;
    return fmin(chance, 1 - 0x1p-53); /* a sum that rounds up to 1 */
}

/* A chance as a seed. */
static uint64_t seed_of(double chance)
{
    return 1 + (uint64_t)(chance * 0x1p53);
}

uint64_t unknown_weather(const struct unknowns *list, const double chance[])
{
    for (int i = 0; i < list->count; i++)
        if (list->row[i].kind == UNKNOWN_WEATHER)
            return seed_of(chance[i]);
    return 0;
}

/* ---- values ---- */

/* Standard deviations from the usual, never more than two; 0 at a half. */
static double deviation(double chance)
{
    if (chance == 0.5)
        return 0;
    double z = draw_quantile(BELOW_CUT + chance * (1 - 2 * BELOW_CUT));
    return fmax(-CUT, fmin(CUT, z));
}

/* A factor from 1/most to most. */
static double factor(double most, double chance)
{
    return exp(log(most) * deviation(chance) / CUT);
}

double unknown_param(const struct param_row *row, double usual, double chance)
{
    struct span span = {row->least, usual, row->most};
    if (row->spread == PARAM_EXACT)
        return usual;
    if (row->spread == PARAM_EVEN)
        return possible_span(&span, chance);
    span = (struct span){log(row->least / usual), 0, log(row->most / usual)};
    if (row->within > 0) {
        span.low = fmax(span.low, -log(row->within));
        span.high = fmin(span.high, log(row->within));
    }
    return fmax(row->least, fmin(row->most, usual * exp(possible_span(&span, chance))));
}

/* Nitrogen comes and goes with protein; what is gained or lost is taken from cellulose. */
static void set_nitrogen(struct stuff *stuff, double chance)
{
    double more = possible_span(&stuff->nitrogen_share, chance) - stuff->nitrogen_share.mid;
    double organic = 1 - stuff->ash_share;
    double protein = 6.25 * more * (1 - stuff->mineral_nitrogen_share) / organic;
    protein = fmax(protein, -0.9 * stuff->protein_fat_share);
    protein = fmin(protein, 0.8 * stuff->slow_share);
    stuff->nitrogen_share.mid += more;
    stuff->protein_fat_share += protein;
    stuff->slow_share -= protein;
}

/* So much more of one pool, at most nine tenths of cellulose's expense. */
static void set_pool(struct stuff *stuff, double *share, double times)
{
    double more = fmin((times - 1) * *share, 0.9 * stuff->slow_share);
    *share += more;
    stuff->slow_share -= more;
}

static bool ranged(const struct plan_layer *layer, int stuff)
{
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        if (portion->stuff == stuff && open(portion->weighed ? &portion->wet_kg : &portion->volume_m3))
            return true;
    }
    return false;
}

static bool weighed(const struct plan_layer *layer, int stuff)
{
    for (int i = 0; i < layer->portions; i++)
        if (layer->portion[i].stuff == stuff && layer->portion[i].weighed)
            return true;
    return false;
}

/* What is laid, and then what the plan's events add. */
static const struct plan_layer *layer_at(const struct scenario *scenario, const struct plan *plan, int i)
{
    return i < scenario->layers ? &scenario->layer[i] : &plan->event[i - scenario->layers].add;
}

/* How far off an amount is that was said by one number. */
static double fill(const struct scenario *scenario, const struct plan *plan, int stuff, double chance)
{
    bool scale = false;
    for (int i = 0; i < scenario->layers + plan->events; i++)
        scale |= weighed(layer_at(scenario, plan, i), stuff);
    return factor(scale ? FILL_SCALE : FILL_BUCKET, chance);
}

/* How an ingredient's amount was said, wherever it is laid or added under the plan. A range that the
 * keeper gave holds the error of measuring; a single number doesn't. */
static void set_amount(struct possible *p, const struct scenario *scenario, const struct plan *plan,
                       int stuff, double chance)
{
    bool range = false;
    for (int i = 0; i < scenario->layers + plan->events; i++)
        range |= ranged(layer_at(scenario, plan, i), stuff);
    p->amount_at[stuff] = chance;
    p->fill[stuff] = range ? 1 : fill(scenario, plan, stuff, chance);
}

/* A pile found standing: its height is the amount of all that it is made of. */
static void set_height(struct possible *p, const struct scenario *scenario, double chance)
{
    for (int i = 0; i < scenario->layer[0].portions; i++)
        p->amount_at[scenario->layer[0].portion[i].stuff] = chance;
}

static double off_K(const struct scenario *scenario, double chance)
{
    return thermometer_unsure_K(&scenario->thermometer) * deviation(chance) / CUT;
}

static void set(struct possible *p, const struct unknown *u, double chance,
                const struct scenario *scenario, const struct plan *plan)
{
    struct stuff *stuff = u->kind == UNKNOWN_PARAM ? NULL : &p->stuff[u->row];
    switch (u->kind) {
    case UNKNOWN_PARAM: {
        const struct param_row *row = &param_rows[u->row];
        param_put(&p->param, row, unknown_param(row, param_get(&p->param, row), chance));
        break;
    }
    case UNKNOWN_WATER: p->water_at[u->row] = chance; break;
    case UNKNOWN_BULK: p->bulk_at[u->row] = chance; break;
    case UNKNOWN_AMOUNT: set_amount(p, scenario, plan, u->row, chance); break;
    case UNKNOWN_NITROGEN: set_nitrogen(stuff, chance); break;
    case UNKNOWN_LIGNIN: set_pool(stuff, &stuff->lignin_share, factor(LIGNIN, chance)); break;
    case UNKNOWN_SOLUBLE: set_pool(stuff, &stuff->fast_share, factor(SOLUBLE, chance)); break;
    case UNKNOWN_PIECE: p->piece[u->row] = factor(PIECE, chance); break;
    case UNKNOWN_PACE: p->pace[u->row] = factor(PACE, chance); break;
    case UNKNOWN_POUR:
        p->pour_at = chance;
        p->pour = factor(FILL_WATER, chance);
        break;
    case UNKNOWN_FELT: p->felt_at = chance; break;
    case UNKNOWN_HEIGHT: set_height(p, scenario, chance); break;
    case UNKNOWN_FOUND_MIDDLE: p->found_middle_at = chance; break;
    case UNKNOWN_FOUND_HAND: p->found_hand_at = chance; break;
    case UNKNOWN_THERMOMETER: p->thermometer_K += off_K(scenario, chance); break;
    case UNKNOWN_HANDFUL: p->handful_share = HANDFUL_SHARE * deviation(chance) / CUT; break;
    case UNKNOWN_SLIPS: p->slips = chance == 0.5 ? 0 : seed_of(chance); break;
    case UNKNOWN_WEATHER: break;
    }
}

void unknown_choose(struct possible *possible, const struct unknowns *list, const double chance[],
                    const struct scenario *scenario, const struct param *param)
{
    possible_usual(possible, scenario, param);
    for (int i = 0; i < list->count; i++)
        set(possible, &list->row[i], chance[i], scenario, &scenario->plan[list->plan]);
}

void unknown_eyes(const struct unknowns *list, const double chance[],
                  const struct scenario *scenario, double *thermometer_K, double *handful_share)
{
    *thermometer_K = scenario->thermometer.ice_K;
    *handful_share = 0;
    for (int i = 0; i < list->count; i++)
        if (list->row[i].kind == UNKNOWN_THERMOMETER)
            *thermometer_K += off_K(scenario, chance[i]);
        else if (list->row[i].kind == UNKNOWN_HANDFUL)
            *handful_share = HANDFUL_SHARE * deviation(chance[i]) / CUT;
}

/* Of an amount that was given as a range, where in it; else how full the vessels were. */
static double amount_value(const struct scenario *scenario, const struct plan *plan, int stuff,
                           double chance)
{
    for (int i = 0; i < scenario->layers + plan->events; i++) {
        const struct plan_layer *layer = layer_at(scenario, plan, i);
        for (int k = 0; k < layer->portions; k++) {
            const struct plan_portion *p = &layer->portion[k];
            const struct span *said = p->weighed ? &p->wet_kg : &p->volume_m3;
            if (p->stuff == stuff && open(said))
                return possible_span(said, chance) / said->mid;
        }
    }
    return fill(scenario, plan, stuff, chance);
}

double unknown_value(const struct unknowns *list, int row, double chance,
                     const struct scenario *scenario, const struct param *param, const char **unit)
{
    const struct unknown *u = &list->row[row];
    const struct stuff *stuff = &scenario->stuff[u->kind == UNKNOWN_PARAM ? 0 : u->row];
    const struct plan_found *found = &scenario->found;
    *unit = "times as said";
    switch (u->kind) {
    case UNKNOWN_PARAM:
        *unit = param_rows[u->row].unit;
        return unknown_param(&param_rows[u->row], param_get(param, &param_rows[u->row]), chance);
    case UNKNOWN_WATER: *unit = "share"; return possible_span(&stuff->water_share, chance);
    case UNKNOWN_BULK: *unit = "kg/m3"; return possible_span(&stuff->bulk_kg_per_m3, chance);
    case UNKNOWN_AMOUNT: return amount_value(scenario, &scenario->plan[list->plan], u->row, chance);
    case UNKNOWN_NITROGEN: *unit = "share"; return possible_span(&stuff->nitrogen_share, chance);
    case UNKNOWN_LIGNIN: *unit = "times as usual"; return factor(LIGNIN, chance);
    case UNKNOWN_SOLUBLE: *unit = "times as usual"; return factor(SOLUBLE, chance);
    case UNKNOWN_PIECE: *unit = "times as usual"; return factor(PIECE, chance);
    case UNKNOWN_PACE: *unit = "times as usual"; return factor(PACE, chance);
    case UNKNOWN_POUR: return factor(FILL_WATER, chance);
    case UNKNOWN_FELT: *unit = "share of its range"; return chance;
    case UNKNOWN_HEIGHT: *unit = "m"; return possible_span(&found->height_m, chance);
    case UNKNOWN_FOUND_MIDDLE: *unit = "K"; return possible_span(&found->middle_K, chance);
    case UNKNOWN_FOUND_HAND: *unit = "K"; return possible_span(&found->hand_deep_K, chance);
    case UNKNOWN_THERMOMETER:
        *unit = "K";
        return scenario->thermometer.ice_K + off_K(scenario, chance);
    case UNKNOWN_HANDFUL: *unit = "share"; return HANDFUL_SHARE * deviation(chance) / CUT;
    case UNKNOWN_SLIPS:
    case UNKNOWN_WEATHER: break;
    }
    return NAN;
}
