/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/erect.c - see run/erect.h. */
#include "run/erect.h"
#include "flow/gas.h"
#include "pile/read.h"
#include "run/settle.h"

/* Each row of the empty pile takes its share of the volume of the layers, in their order: the
 * layers' batches are poured upward. */
static lane built_volume(struct keeper *h)
{
    const struct scenario *scenario = h->lay.scenario;
    lane whole = lane_of(0);
    for (int l = 0; l < scenario->layers; l++) {
        struct move_batch batch;
        lay_batch(&h->lay, h->pile, &scenario->layer[l], lane_of(0), &batch);
        whole += batch.amount[move_of_stock(STOCK_LOOSE_M3)];
    }
    return whole;
}

static void pour_layers(struct keeper *h)
{
    lane whole_m3 = built_volume(h);
    const struct scenario *scenario = h->lay.scenario;
    struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    int amounts = pile_amounts(pile);
    lane bottom = lane_of(0);
    for (int l = 0; l < scenario->layers; l++) {
        struct move_batch batch;
        keeper_batch(h, &scenario->layer[l], &batch);
        lane volume = batch.amount[move_of_stock(STOCK_LOOSE_M3)], top = bottom + volume;
        lane start = lane_of(0);
        for (int j = 0; j < mesh->rows; j++) {
            lane end = start + mesh->row_share[j] * whole_m3;
            lane meets = lane_max(lane_min(end, top) - lane_max(start, bottom), lane_of(0)) / volume;
            for (int c = mesh->row_first[j]; c < mesh->row_first[j] + mesh->row_cols[j]; c++) {
                lane share = meets * (move_share(mesh, c) / mesh->row_share[j]);
                for (int k = 0; k < amounts; k++)
                    pile_amount(pile, k)[c] += share * batch.amount[k];
            }
            start = end;
        }
        bottom = top;
    }
}

/* A pile found standing: aged, then warmed from the hand-deep reading outside to the middle's. */
static void find(struct keeper *h)
{
    const struct scenario *scenario = h->lay.scenario;
    const struct plan_found *found = &scenario->found;
    struct pile *pile = h->pile;
    const struct mesh *mesh = pile->mesh;
    struct move_batch batch;
    lay_batch(&h->lay, pile, &scenario->layer[0], keeper_air_K(h), &batch);
    lane laid = batch.amount[move_of_state(STATE_DRY_KG)];
    lay_age(&h->lay, pile, &batch, found->built_days_ago);
    /* what has gone has made room: as much volume as is seen once held more than it would fresh */
    lane gone = 1.0 - batch.amount[move_of_state(STATE_DRY_KG)] / laid;
    lane denser = 1.0 / (1.0 - h->balance->shrink_power * gone);
    for (int k = 0; k < pile_amounts(pile); k++)
        if (k != move_of_stock(STOCK_LOOSE_M3) && k != move_of_stock(STOCK_FRESH_M3) &&
            k != move_of_stock(STOCK_SETTLED_M3))
            batch.amount[k] *= denser;
    lane middle = lane_of(0), rim = lane_of(0);
    for (int i = 0; i < LANES; i++) {
        const struct possible *p = &h->lay.possible[i];
        double air = lane_get(keeper_air_K(h), i) + GAS_ICE_POINT_K;
        double in = possible_span(&found->middle_K, p->found_middle_at);
        double out = possible_span(&found->hand_deep_K, p->found_hand_at);
        in = in > 0 ? in : out > 0 ? out : air + 5;
        lane_put(&middle, i, in);
        lane_put(&rim, i, out > 0 ? out : 0.5 * (in + air));
    }
    lane heat = lane_of(0);
    /* it has settled already */
    lane *loose = &batch.amount[move_of_stock(STOCK_LOOSE_M3)];
    lane settled = batch.amount[move_of_stock(STOCK_SETTLED_M3)];
    batch.amount[move_of_stock(STOCK_STIFF_J)] *= settled / *loose;
    *loose = settled;
    for (int c = 0; c < mesh->cells; c++) {
        for (int k = 0; k < pile_amounts(pile); k++)
            pile_amount(pile, k)[c] = move_share(mesh, c) * batch.amount[k];
        int col = mesh->cell_col[c];
        double at = 0.5 * (mesh->col_edge_m[col] + mesh->col_edge_m[col + 1]) / mesh->reach_m;
        double up = (mesh->cell_row[c] + 0.5) / mesh->rows;
        double inner = (1 - at * at) * 4 * up * (1 - up);
        lane over = rim + (middle - rim) * inner - GAS_ICE_POINT_K;
        lane ash = pile->stock[STOCK_ASH_KG][c], dry = pile_state(pile, STATE_DRY_KG)[c];
        lane *cell = &pile_state(pile, STATE_HEAT_J)[c];
        *cell = read_enthalpy(over, dry - ash, ash, pile_state(pile, STATE_WATER_KG)[c]);
        heat += *cell;
    }
    batch.amount[move_of_state(STATE_HEAT_J)] = heat;
    keeper_book(h, &batch, lane_of(0), lane_of(0), false);
}

void erect_pile(struct keeper *h, lane_mask who)
{
    const struct scenario *scenario = h->lay.scenario;
    if (scenario->found.is)
        find(h);
    else
        pour_layers(h);
    keeper_warm_soil(h, who);
    for (int c = 0; c < h->pile->mesh->cells; c++)
        pile_state(h->pile, STATE_OXYGEN)[c] = lane_of(0.2);
    keeper_skin(h);
    settle_pile(h->balance, who, lane_of(0), NULL);
}
