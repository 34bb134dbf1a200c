/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/lay.c - see run/lay.h.
 *
 * Carbon by pool from the organic matter's shares, with the coefficients by which the table's carbon
 * was computed: 0.42 soluble, 0.53 protein, 0.76 fat, 0.45 cellulose, 0.62 lignin. Protein is 6.25
 * times its nitrogen. Microbes start on a little of the protein's carbon.
 */
#include "run/lay.h"
#include "pile/read.h"

/* by enum stuff_class, all trade: water held against drainage, kg/kg dry (straw 2.2-2.9, leaves
 * 1.6-2.1 measured by Deherain in Whisenand 1918; Zagyvai-Kiss et al. 2019), and stiffness, Pa */
static const double HOLD_KG_PER_KG[] = {1.3, 1.8, 2.2, 2.5, 3.0};
static const double STIFF_PA[] = {50e3, 30e3, 20e3, 12e3, 8e3};
static const double SOIL_HOLD_KG_PER_KG = 0.45;
/* live weed seeds per kg of dry mass for none, some, many; and how they split into classes [trade] */
static const double SEEDS_PER_KG[] = {0, 500, 5000};
static const double SEED_SPLIT[SEEDS] = {0.50, 0.35, 0.15};
static const double USUAL_PIECE_M = 0.02, USUAL_GRAIN_M = 3e-3; /* pieces of 2 cm, grains of 3 mm [trade] */
static const double MINERAL_TRACE = 0.01;
/* a pile found standing has lived at this pace on average [trade] */
static const double FOUND_PACE = 0.15;
static const double KEPT_NITROGEN = 0.5; /* of what was set free and not bound; the rest left [trade] */

static int kind_of(struct lay *lay, int stuff, double piece_m)
{
    int alike = -1;
    for (int i = 0; i < lay->kinds; i++) {
        if (lay->kind[i].stuff != stuff)
            continue;
        alike = i;
        if (fabs(lay->kind[i].piece_m - piece_m) <= 1e-6)
            return i;
    }
    if (lay->kinds == PILE_MOST_STUFFS)
        return alike < 0 ? 0 : alike;
    lay->kind[lay->kinds] = (struct lay_kind){stuff, piece_m};
    return lay->kinds++;
}

static void kinds_of_layer(struct lay *lay, const struct plan_layer *layer)
{
    for (int i = 0; i < layer->portions; i++)
        kind_of(lay, layer->portion[i].stuff, layer->portion[i].piece_m);
}

void lay_kinds(struct lay *lay, const struct scenario *scenario, const struct plan *plan,
               const struct possible *possible)
{
    lay->scenario = scenario;
    lay->possible = possible;
    lay->kinds = 0;
    for (int i = 0; i < scenario->layers; i++)
        kinds_of_layer(lay, &scenario->layer[i]);
    for (int i = 0; i < plan->events; i++)
        kinds_of_layer(lay, &plan->event[i].add);
}

/* what one kilogram of dry ingredient is made of, kg */
struct parts {
    double ash, inert, fast, protein, slow, enclosed, lignin; /* carbon, but for ash */
    double protein_kg, fat_kg, organic_nitrogen, mineral_nitrogen, microbe, humus;
};

/* Compost, leaf mould and old soil have been through it: a share of what analyses call soluble,
 * protein and cellulose that nothing encloses is humus by now, as far as the nitrogen goes. */
static void ripen(struct parts *p, double share, const struct param *param)
{
    double freed = share * p->organic_nitrogen;
    p->humus = share * (p->fast + p->protein + p->slow);
    double bound = p->humus / param->humus_c_to_n;
    if (bound > freed + 0.9 * p->mineral_nitrogen) {
        double fits = (freed + 0.9 * p->mineral_nitrogen) * param->humus_c_to_n;
        p->inert += p->humus - fits; /* humus poorer in nitrogen does not decay here */
        p->ash += (p->humus - fits) * (AMOUNT_HUMUS_DRY - 1);
        p->humus = fits;
        bound = fits / param->humus_c_to_n;
    }
    p->fast *= 1 - share;
    p->protein *= 1 - share;
    p->slow *= 1 - share;
    p->protein_kg *= 1 - share;
    p->fat_kg *= 1 - share;
    p->organic_nitrogen -= freed;
    p->mineral_nitrogen += freed - bound;
}

/* Decay of plants leaves lignin with the cellulose that it encloses: lignin/(lignin + cellulose)
 * rises to an end that is much the same for all, and stays there [Melillo et al. 1989]. */
static void enclose(struct parts *p, double index)
{
    double per_lignin = (1 / index - 1) * (AMOUNT_LIGNIN_DRY / AMOUNT_SLOW_DRY);
    p->enclosed = fmin(per_lignin * p->lignin, p->slow);
    p->slow -= p->enclosed;
}

static struct parts parts_of(const struct stuff *stuff, const struct param *param)
{
    struct parts p = {0};
    double organic = 1 - stuff->ash_share, nitrogen = stuff->nitrogen_share.mid;
    p.ash = stuff->ash_share;
    p.fast = 0.42 * stuff->fast_share * organic;
    p.slow = 0.45 * stuff->slow_share * organic;
    p.lignin = 0.62 * stuff->lignin_share * organic;
    /* a trace of any nitrogen is mineral, or nothing could begin to grow */
    p.organic_nitrogen = nitrogen * (1 - fmax(stuff->mineral_nitrogen_share, MINERAL_TRACE));
    p.protein_kg = fmin(6.25 * p.organic_nitrogen, stuff->protein_fat_share * organic);
    p.fat_kg = stuff->protein_fat_share * organic - p.protein_kg;
    p.organic_nitrogen = p.protein_kg / 6.25;
    p.mineral_nitrogen = nitrogen - p.organic_nitrogen;
    p.protein = AMOUNT_PROTEIN_CARBON * p.protein_kg + AMOUNT_FAT_CARBON * p.fat_kg;
    /* char and old humus were counted as lignin; what is not carbon of it goes with the ash */
    p.inert = fmin(stuff->inert_carbon_share * stuff->carbon_share, 0.98 * p.lignin);
    p.lignin -= p.inert;
    p.ash += p.inert * (AMOUNT_LIGNIN_DRY - 1);
    enclose(&p, param->lignocellulose_index_end);
    ripen(&p, stuff->ripe_share, param);
    double carbon = p.fast + p.protein + p.slow + p.enclosed + p.lignin;
    double spare = p.organic_nitrogen / (p.protein + 1e-12) - 1 / param->microbe_c_to_n;
    p.microbe = fmin(param->start_microbe_share * carbon, 0.3 * p.protein);
    if (spare * p.microbe + 0.5 * p.mineral_nitrogen < 0)
        p.microbe = 0.5 * p.mineral_nitrogen / -spare;
    p.mineral_nitrogen += spare * p.microbe;
    p.protein -= p.microbe;
    return p;
}

static double size_factor(double piece_m, double half_m)
{
    return fmin(1, 1.2 / (1 + piece_m / half_m));
}

static void stuff_of(const struct lay *lay, int kind, int member, struct pile_stuff *to)
{
    const struct possible *possible = &lay->possible[member];
    const struct param *param = &possible->param;
    int row = lay->kind[kind].stuff;
    const struct stuff *stuff = &possible->stuff[row];
    struct parts p = parts_of(stuff, param);
    double size = size_factor(possible->piece[row] * lay->kind[kind].piece_m, param->size_half_m);
    double shield = stuff->lignin_share / fmax(stuff->lignin_share + stuff->slow_share, 1e-12);
    double protein_c = AMOUNT_PROTEIN_CARBON * p.protein_kg, fat_c = AMOUNT_FAT_CARBON * p.fat_kg;
    double all = protein_c + fat_c > 0 ? protein_c + fat_c : 1, pace = possible->pace[row];
    lane_put(&to->rate_per_d[POOL_FAST], member, pace * param->fast_per_day);
    lane_put(&to->rate_per_d[POOL_PROTEIN], member,
             pace * param->protein_per_day * (stuff->keratin ? param->keratin_factor : 1));
    /* own exp: the same digits on every machine */
    lane slow = pace * param->slow_per_day * size * lane_exp(lane_of(-param->lignin_shield * shield));
    lane_put(&to->rate_per_d[POOL_SLOW], member, lane_get(slow, 0));
    lane_put(&to->rate_per_d[POOL_LIGNIN], member, pace * param->lignin_per_day * size);
    lane_put(&to->protein_oxygen, member,
             (AMOUNT_PROTEIN_OXYGEN * protein_c + AMOUNT_FAT_OXYGEN * fat_c) / all);
    lane_put(&to->protein_water, member,
             (AMOUNT_PROTEIN_WATER * protein_c + AMOUNT_FAT_WATER * fat_c) / all);
    lane_put(&to->protein_nitrogen, member, p.organic_nitrogen / all);
    lane_put(&to->protein_dry, member, (p.protein_kg + p.fat_kg) / all);
    lane_put(&to->enclosed, member, p.enclosed / fmax(p.enclosed + p.lignin, 1e-12));
}

void lay_stuffs(const struct lay *lay, struct pile *pile)
{
    for (int kind = 0; kind < lay->kinds; kind++)
        for (int member = 0; member < LANES; member++)
            stuff_of(lay, kind, member, &pile->stuff[kind]);
}

static void add(struct move_batch *batch, int which, int member, double value)
{
    lane_put(&batch->amount[which], member, lane_get(batch->amount[which], member) + value);
}

/* Pores are made by pieces, but fine ones clump and coarse ones have fine stuff between, so grains
 * differ less than pieces do; blades and leaves that lie flat make finer pores than chips of their
 * length [trade; the power is fitted]. */
static double grain_m(const struct stuff *stuff, double piece_m, double power)
{
    static const double FLAT[] = {1.0, 0.85, 0.7, 0.7, 0.6}; /* by enum stuff_class */
    lane as_piece = lane_exp(lane_log(lane_of(piece_m / USUAL_PIECE_M)) * power);
    return FLAT[stuff->settles] * USUAL_GRAIN_M * lane_get(as_piece, 0);
}

static void add_bed(const struct lay *lay, struct move_batch *batch, int member,
                    const struct plan_portion *portion, double volume, double dry_kg, double fast_kg)
{
    const struct possible *possible = &lay->possible[member];
    const struct stuff *stuff = &possible->stuff[portion->stuff];
    double piece_m = possible->piece[portion->stuff] * portion->piece_m;
    double hold = stuff->group == STUFF_SOIL || stuff->group == STUFF_MINERAL
                      ? SOIL_HOLD_KG_PER_KG : HOLD_KG_PER_KG[stuff->settles];
    double settled = volume * possible_settled(stuff, dry_kg / volume);
    double built = volume + possible->param.trodden_share * (settled - volume);
    double solid = dry_kg * ((1 - stuff->ash_share) / READ_ORGANIC_KG_PER_M3 +
                             stuff->ash_share / READ_ASH_KG_PER_M3);
    add(batch, move_of_stock(STOCK_LOOSE_M3), member, built);
    add(batch, move_of_stock(STOCK_FRESH_M3), member, volume);
    add(batch, move_of_stock(STOCK_SETTLED_M3), member, settled);
    add(batch, move_of_stock(STOCK_STIFF_J), member, built * STIFF_PA[stuff->settles]);
    add(batch, move_of_stock(STOCK_SURFACE_M2), member, 6 * solid / grain_m(stuff, piece_m, possible->param.grain_power));
    add(batch, move_of_stock(STOCK_HOLD_KG), member, hold * dry_kg);
    add(batch, move_of_stock(STOCK_FAST_LAID_KG), member, fast_kg);
}

/* Weed seeds, of each class a hardy tail, and the germs of droppings. */
static void add_lives(const struct lay *lay, struct move_batch *batch, int member,
                      const struct plan_portion *portion, double wet_kg, double dry_kg)
{
    const struct stuff *stuff = &lay->possible[member].stuff[portion->stuff];
    double hardy = lay->possible[member].param.hardy_seed_share;
    for (int k = 0; k < SEEDS; k++) {
        double seeds = dry_kg * SEEDS_PER_KG[stuff->weed_seeds] * SEED_SPLIT[k];
        add(batch, move_of_stock((enum stock)(STOCK_SEED_EASY + k)), member, (1 - hardy) * seeds);
        add(batch, move_of_stock((enum stock)(STOCK_HARDY_EASY + k)), member, hardy * seeds);
    }
    for (int k = 0; stuff->dung && k < GERMS; k++)
        add(batch, move_of_stock((enum stock)(STOCK_GERM_GUT + k)), member, wet_kg);
}

static void add_portion(const struct lay *lay, const struct pile *pile, int member,
                        const struct plan_portion *portion, struct move_batch *batch)
{
    const struct possible *possible = &lay->possible[member];
    int kind = kind_of((struct lay *)lay, portion->stuff, portion->piece_m);
    struct possible_portion lies = possible_portion(possible, portion);
    double water = lies.wet_kg * lies.water_share, dry = lies.wet_kg - water;
    struct parts p = parts_of(&possible->stuff[portion->stuff], &possible->param);
    add(batch, move_of_state(STATE_WATER_KG), member, water);
    add(batch, move_of_state(STATE_MICROBE_KG), member, p.microbe * dry);
    add(batch, move_of_state(STATE_LIVING_KG), member, p.microbe * dry);
    add(batch, move_of_state(STATE_HUMUS_KG), member, p.humus * dry);
    add(batch, move_of_state(STATE_NITROGEN_KG), member, p.mineral_nitrogen * dry);
    add(batch, move_of_stock(STOCK_ASH_KG), member, p.ash * dry);
    add(batch, move_of_stock(STOCK_INERT_C_KG), member, p.inert * dry);
    add(batch, move_of_pool(kind, POOL_FAST), member, p.fast * dry);
    add(batch, move_of_pool(kind, POOL_PROTEIN), member, p.protein * dry);
    add(batch, move_of_pool(kind, POOL_SLOW), member, p.slow * dry);
    add(batch, move_of_pool(kind, POOL_LIGNIN), member, (p.lignin + p.enclosed) * dry);
    add(batch, move_of_laid(pile, kind), member, dry);
    add_bed(lay, batch, member, portion, lies.volume_m3, dry, p.fast * dry);
    add_lives(lay, batch, member, portion, lies.wet_kg, dry);
}

/* Dry mass of a batch, by the same sum as pile_dry. */
static lane batch_dry(const struct pile *pile, const struct move_batch *batch)
{
    lane dry = batch->amount[move_of_stock(STOCK_ASH_KG)] +
               batch->amount[move_of_stock(STOCK_INERT_C_KG)] +
               AMOUNT_MICROBE_DRY * batch->amount[move_of_state(STATE_MICROBE_KG)] +
               AMOUNT_HUMUS_DRY * batch->amount[move_of_state(STATE_HUMUS_KG)] +
               AMOUNT_SOUR_DRY * batch->amount[move_of_state(STATE_SOUR_KG)];
    for (int i = 0; i < pile->stuffs; i++)
        for (int k = 0; k < POOLS; k++)
            dry += pile_carbon_of(&pile->stuff[i], (enum pool)k).dry *
                   batch->amount[move_of_pool(i, (enum pool)k)];
    return dry;
}

lane lay_poured(const struct lay *lay, const struct span *water_kg)
{
    lane poured = lane_of(0);
    for (int i = 0; i < LANES; i++)
        lane_put(&poured, i, possible_poured_kg(&lay->possible[i], water_kg));
    return poured;
}

void lay_batch(const struct lay *lay, const struct pile *pile, const struct plan_layer *layer,
               lane over_K, struct move_batch *batch)
{
    *batch = (struct move_batch){{lane_of(0)}};
    for (int i = 0; i < layer->portions; i++)
        for (int member = 0; member < LANES; member++)
            add_portion(lay, pile, member, &layer->portion[i], batch);
    lane *water = &batch->amount[move_of_state(STATE_WATER_KG)];
    *water += lay_poured(lay, &layer->water_kg);
    lane dry = batch_dry(pile, batch), ash = batch->amount[move_of_stock(STOCK_ASH_KG)];
    batch->amount[move_of_state(STATE_DRY_KG)] = dry;
    batch->amount[move_of_state(STATE_HEAT_J)] = read_enthalpy(over_K, dry - ash, ash, *water);
}

void lay_age(const struct lay *lay, const struct pile *pile, struct move_batch *batch, double days)
{
    lane *microbe = &batch->amount[move_of_state(STATE_MICROBE_KG)];
    lane *humus = &batch->amount[move_of_state(STATE_HUMUS_KG)];
    lane *nitrogen = &batch->amount[move_of_state(STATE_NITROGEN_KG)];
    /* what has grown since is counted as dead: as many live as in fresh material */
    lane grown = lane_of(0), humified = lane_of(0), freed = lane_of(0);
    for (int i = 0; i < pile->stuffs; i++)
        for (int k = 0; k < POOLS; k++) {
            lane *pool = &batch->amount[move_of_pool(i, (enum pool)k)];
            lane lost = *pool * (1.0 - lane_exp(pile->stuff[i].rate_per_d[k] * (-FOUND_PACE * days)));
            *pool -= lost;
            if (k == POOL_PROTEIN)
                freed += lost * pile->stuff[i].protein_nitrogen;
            grown += 0.12 * lost;
            humified += 0.08 * lost;
        }
    /* no more is built than the nitrogen set free allows */
    lane want = lane_of(0); /* each member's own */
    for (int i = 0; i < LANES; i++)
        lane_put(&want, i, lane_get(grown, i) / lay->possible[i].param.microbe_c_to_n +
                               lane_get(humified, i) / lay->possible[i].param.humus_c_to_n);
    lane share = lane_min(lane_of(1), 0.9 * (freed + *nitrogen) / lane_max(want, lane_of(1e-12)));
    *microbe += share * grown;
    *humus += share * humified;
    lane spare = freed - share * want; /* below nothing: bound from what was mineral, all of it */
    *nitrogen += lane_if(lane_less(spare, lane_of(0)), spare, KEPT_NITROGEN * spare);
    lane *dry = &batch->amount[move_of_state(STATE_DRY_KG)], before = *dry;
    *dry = batch_dry(pile, batch);
    /* as wet as it was felt to be today, and holding water by what is left */
    batch->amount[move_of_state(STATE_WATER_KG)] *= *dry / before;
    batch->amount[move_of_stock(STOCK_HOLD_KG)] *= *dry / before;
}

double lay_volume_m3(const struct plan_layer *layer)
{
    double sum = 0;
    for (int i = 0; i < layer->portions; i++)
        sum += layer->portion[i].volume_m3.mid;
    return sum;
}

double lay_decayable_share(const struct lay *lay, int kind, int member)
{
    const struct possible *possible = &lay->possible[member];
    struct parts p = parts_of(&possible->stuff[lay->kind[kind].stuff], &possible->param);
    return p.fast * AMOUNT_FAST_DRY + p.protein_kg + p.fat_kg + (p.slow + p.enclosed) * AMOUNT_SLOW_DRY +
           p.lignin * AMOUNT_LIGNIN_DRY;
}

void lay_pools(const struct lay *lay, int kind, int member, double carbon[POOLS])
{
    const struct possible *possible = &lay->possible[member];
    struct parts p = parts_of(&possible->stuff[lay->kind[kind].stuff], &possible->param);
    const double pools[POOLS] = {p.fast, p.protein, p.slow, p.lignin + p.enclosed};
    for (int k = 0; k < POOLS; k++)
        carbon[k] = pools[k];
}
