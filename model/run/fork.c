/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/fork.c - see run/fork.h. */
#include "run/fork.h"
#include "flow/gas.h"
#include "pile/read.h"

static const double PICKED_SHARE = 0.7; /* of what is still a stick, found and taken out [trade] */
static const double DRIPS_SHARE = 0.58; /* squeeze test in five words [trade] */
enum { HALVINGS = 28 };                 /* of some 30 K: to a ten millionth; what is booked is exact */
static const double STICK_M = 0.04;     /* stiff pieces from this size are sticks and stalks, */
static const double STALK_M = 0.18;     /* and springy ones from this: not straw [trade] */

/* One cell breathes `air_kg` of dry air while it lies open: its own saturated (by its water
 * activity) for the outside's. The temperature after solves
 *     H - M (h(T) - h_out) = H(T, W - M (x(T) - x_out)),
 * whose sides cross once; by bisection, the same number of halvings for all. */
static void breathe(struct keeper *h, int c, lane air_kg)
{
    struct pile *pile = h->pile;
    const struct outside *out = &h->balance->outside;
    lane *heat = &pile_state(pile, STATE_HEAT_J)[c], *water = &pile_state(pile, STATE_WATER_KG)[c];
    lane dry = pile_state(pile, STATE_DRY_KG)[c], ash = pile->stock[STOCK_ASH_KG][c];
    lane here = read_heat(*heat, dry - ash, ash, *water).over_K, slope;
    lane activity = read_activity(*water, dry, h->balance->law.activity_half);
    lane low = lane_min(here, out->over_K) - 25.0, high = lane_max(here, out->over_K) + 1.0;
    lane enthalpy_out = gas_enthalpy(out->over_K, out->humid), x, lost, given;
    for (int halving = 0; halving < HALVINGS; halving++) {
        lane t = 0.5 * (low + high);
        x = gas_humidity(activity * gas_pressure_Pa(t, &slope), out->air_Pa);
        lost = lane_min(air_kg * (x - out->humid), 0.5 * *water);
        given = air_kg * (gas_enthalpy(t, x) - enthalpy_out);
        lane_mask too_warm = lane_less(*heat - given, read_enthalpy(t, dry - ash, ash, *water - lost));
        high = lane_if(too_warm, t, high);
        low = lane_if(too_warm, low, t);
    }
    *heat -= given;
    *water -= lost;
    h->notes.flux[FLUX_turn_heat] -= given;
    h->notes.flux[FLUX_turn_water] -= lost;
}

/* Forking gives back a share of the volume lost beyond what the mass lost explains. */
static void lift(struct keeper *h, int c)
{
    struct pile *pile = h->pile;
    lane laid = lane_of(0), dry = pile_state(pile, STATE_DRY_KG)[c];
    for (int i = 0; i < pile->stuffs; i++)
        laid += pile_laid(pile, i)[c];
    lane left = lane_min(dry / laid, lane_of(1));
    lane could = pile->stock[STOCK_FRESH_M3][c] * lane_exp(h->balance->shrink_power * lane_log(left));
    lane loose = pile->stock[STOCK_LOOSE_M3][c];
    lane lifted = loose + h->turn_lift * lane_max(could - loose, lane_of(0));
    pile->stock[STOCK_STIFF_J][c] *= lifted / loose;
    pile->stock[STOCK_LOOSE_M3][c] = lifted;
}

void fork_open(struct keeper *h)
{
    struct pile *pile = h->pile;
    for (int c = 0; c < pile->mesh->cells; c++) {
        breathe(h, c, h->turn_air * pile->stock[STOCK_LOOSE_M3][c]);
        lift(h, c);
        pile_state(pile, STATE_OXYGEN)[c] = lane_of(0.2);
    }
}

static void pour(struct keeper *h, int c, lane water_kg, lane over_K)
{
    lane heat = water_kg * read_water_enthalpy(over_K);
    pile_state(h->pile, STATE_WATER_KG)[c] += water_kg;
    pile_state(h->pile, STATE_HEAT_J)[c] += heat;
    h->notes.flux[FLUX_poured_water] += water_kg;
    h->notes.flux[FLUX_poured_heat] += heat;
}

static lane held(const struct keeper *h, int c)
{
    return h->balance->hold_factor * h->pile->stock[STOCK_HOLD_KG][c];
}

/* A handful drips when squeezed at about 58 % water, well below what the material would hold. */
static lane dripping(const struct keeper *h, int c)
{
    lane drips = pile_state(h->pile, STATE_DRY_KG)[c] * (DRIPS_SHARE / (1 - DRIPS_SHARE));
    return lane_min(drips, held(h, c));
}

/* Water given to each layer while the pile is open. Returns how much. */
lane fork_wet(struct keeper *h, const struct plan_event *event)
{
    struct pile *pile = h->pile;
    lane dry = pile_total(pile, pile_state(pile, STATE_DRY_KG)), sum = lane_of(0);
    lane given = lay_poured(&h->lay, &event->water_kg);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane water = event->until_it_drips
            ? lane_max(dripping(h, c) - pile_state(pile, STATE_WATER_KG)[c], lane_of(0))
            : given * pile_state(pile, STATE_DRY_KG)[c] / dry;
        pour(h, c, water, keeper_pour_K(h, &event->add));
        sum += water;
    }
    return sum;
}

/* Water on the top runs down its column: each cell keeps what it can hold, the rest runs through. */
lane fork_pour(struct keeper *h, const struct plan_event *event)
{
    struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    lane over = keeper_pour_K(h, &event->add), sum = lane_of(0);
    lane given = lay_poured(&h->lay, &event->water_kg);
    for (int i = 0; i < mesh->cols; i++) {
        int top = mesh->rows - 1;
        while (i >= mesh->row_cols[top])
            top--;
        lane left = given * (mesh->col_area_m2[i] / mesh_row_area(mesh, 0));
        for (int j = top; j >= 0; j--) {
            int c = mesh->row_first[j] + i;
            lane most = event->until_it_drips ? dripping(h, c) : held(h, c);
            lane room = lane_max(most - pile_state(pile, STATE_WATER_KG)[c], lane_of(0));
            lane kept = event->until_it_drips ? room : lane_min(room, left);
            pour(h, c, kept, over);
            left -= kept;
            sum += kept;
        }
        if (event->until_it_drips)
            continue;
        lane heat = left * read_water_enthalpy(over);
        h->notes.flux[FLUX_poured_water] += left;
        h->notes.flux[FLUX_poured_heat] += heat;
        h->notes.flux[FLUX_leachate_water] -= left;
        h->notes.flux[FLUX_leachate_heat] -= heat;
        sum += left;
    }
    return sum;
}

static bool is_stick(const struct lay *lay, int kind)
{
    enum stuff_class settles = lay->scenario->stuff[lay->kind[kind].stuff].settles;
    bool stiff = settles == STUFF_STIFF || settles == STUFF_FIRM;
    return lay->kind[kind].piece_m >= (stiff ? STICK_M : STALK_M) && settles <= STUFF_SPRINGY;
}

/* Sticks and stalks picked out: a share of every ingredient in pieces, with its water and warmth. */
lane fork_pick(struct keeper *h)
{
    struct pile *pile = h->pile;
    struct move_batch out = {{lane_of(0)}};
    lane before = keeper_wet_kg(pile);
    for (int c = 0; c < pile->mesh->cells; c++) {
        lane dry = pile_state(pile, STATE_DRY_KG)[c], taken = lane_of(0);
        for (int i = 0; i < pile->stuffs; i++) {
            if (!is_stick(&h->lay, i))
                continue;
            for (int k = 0; k < POOLS; k++) {
                lane *pool = &pile_pool(pile, i, (enum pool)k)[c];
                /* only what is still tough: leaves and grass have no sticks */
                lane moved = PICKED_SHARE * *pool;
                *pool -= moved;
                out.amount[move_of_pool(i, (enum pool)k)] += moved;
                taken += moved * pile_carbon_of(&pile->stuff[i], (enum pool)k).dry;
            }
        }
        lane share = taken / dry;
        static const enum state goes[] = {STATE_HEAT_J, STATE_WATER_KG};
        for (int k = 0; k < 2; k++) {
            lane moved = share * pile_state(pile, goes[k])[c];
            pile_state(pile, goes[k])[c] -= moved;
            out.amount[move_of_state(goes[k])] += moved;
        }
        for (int k = STOCK_LOOSE_M3; k <= STOCK_HOLD_KG; k++)
            pile->stock[k][c] *= 1.0 - share;
        pile_state(pile, STATE_DRY_KG)[c] = dry - taken;
    }
    keeper_book(h, &out, lane_of(0), lane_of(0), true);
    return before - keeper_wet_kg(pile);
}
