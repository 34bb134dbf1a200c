/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/settle.c - see run/settle.h. */
#include "run/settle.h"
#include "flow/gas.h"
#include "pile/read.h"

static inline void keep(lane_mask who, lane *at, lane value)
{
    *at = lane_if(who, value, *at);
}

/* Loose volume shrinks with the dry mass lost and creeps toward its settled volume, which shrinks
 * alike. Pieces crumble as they go, so their surface stays. */
static void shrink(struct balance *b, int c, lane_mask who, lane days, lane dry_before)
{
    struct pile *pile = b->pile;
    lane ratio = lane_if(who, pile_state(pile, STATE_DRY_KG)[c] / dry_before, lane_of(1));
    lane left = 1.0 - b->shrink_power * (1.0 - ratio);
    lane loose = left * pile->stock[STOCK_LOOSE_M3][c];
    lane settled = left * pile->stock[STOCK_SETTLED_M3][c];
    lane crept = lane_max(loose - settled, lane_of(0)) * (1.0 - lane_exp(-days / b->creep_days));
    lane stiffer = (loose - crept) / pile->stock[STOCK_LOOSE_M3][c];
    pile->stock[STOCK_STIFF_J][c] *= lane_if(who, stiffer, lane_of(1));
    keep(who, &pile->stock[STOCK_LOOSE_M3][c], loose - crept);
    keep(who, &pile->stock[STOCK_SETTLED_M3][c], settled);
    pile->stock[STOCK_HOLD_KG][c] *= ratio;
}

static lane solid_volume(const struct pile *pile, int c)
{
    lane ash = pile->stock[STOCK_ASH_KG][c];
    return (pile_state(pile, STATE_DRY_KG)[c] - ash) * (1.0 / READ_ORGANIC_KG_PER_M3) +
           ash * (1.0 / READ_ASH_KG_PER_M3);
}

/* Row by row from the top: a cell is pressed by the rows above and half of its own, V = V0/(1 + s/E),
 * but never closer than its solids and water with 4 % of air. */
static void press(struct balance *b, lane_mask who)
{
    struct pile *pile = b->pile;
    struct mesh *mesh = pile->mesh;
    lane above_kg = lane_of(0);
    for (int j = mesh->rows - 1; j >= 0; j--) {
        double area = mesh_row_area(mesh, j);
        lane row_kg = lane_of(0), row_m3 = lane_of(0);
        int first = mesh->row_first[j], end = first + mesh->row_cols[j];
        for (int c = first; c < end; c++)
            row_kg += pile_state(pile, STATE_DRY_KG)[c] + pile_state(pile, STATE_WATER_KG)[c];
        lane stress = (above_kg + 0.5 * row_kg) * (GAS_GRAVITY / area);
        for (int c = first; c < end; c++) {
            lane loose = pile->stock[STOCK_LOOSE_M3][c];
            lane stiff = b->press * pile->stock[STOCK_STIFF_J][c]; /* E V0 */
            lane full = (solid_volume(pile, c) + pile_state(pile, STATE_WATER_KG)[c] *
                         (1.0 / READ_WATER_KG_PER_M3)) * (1.0 / 0.96);
            row_m3 += lane_max(loose * stiff / (stiff + stress * loose), full);
        }
        above_kg += row_kg;
        keep(who, &mesh->row_height_m[j], row_m3 / area);
    }
}

/* Rows have one height, so that a cell of soil beside one of straw can hold more than fits; its conductivity
 * is then that of solids with 4 % of pores, since with none left it would turn negative. */
static void frame_cell(struct balance *b, int c, lane_mask who)
{
    struct pile *pile = b->pile;
    lane solid = solid_volume(pile, c);
    lane volume = lane_max(pile->mesh->volume_m3[c], solid * (1.0 / 0.96));
    lane porosity = 1.0 - solid / volume;
    lane grain = 6.0 * solid / pile->stock[STOCK_SURFACE_M2][c];
    keep(who, &b->frame.solid_m3[c], solid);
    keep(who, &b->frame.ash_kg[c], pile->stock[STOCK_ASH_KG][c]);
    keep(who, &b->frame.grain_m2[c], b->grain_factor * grain * grain * (1.0 / 180.0));
    keep(who, &b->frame.hold_kg[c], b->hold_factor * pile->stock[STOCK_HOLD_KG][c]);
    lane solid_part = lane_exp((1.0 - porosity) * -1.3862943611198906); /* ln 0.25 */
    lane wet = solid_part * lane_exp(porosity * -0.5621189181535412);   /* ln 0.57 */
    lane ice = solid_part * lane_exp(porosity * 0.7884573603642702);    /* ln 2.2 */
    lane per_kg = 1.0 / (READ_WATER_KG_PER_M3 * volume * porosity);
    keep(who, &b->frame.wet_slope[c], (wet - b->law.dry_conductivity) * per_kg);
    keep(who, &b->frame.ice_slope[c], (ice - b->law.dry_conductivity) * per_kg);
}

/* pH climbs from fresh to ripe as the soluble carbon that was laid disappears. */
static void store_cell_day(struct balance *b, int c, lane_mask who)
{
    struct pile *pile = b->pile;
    lane carbon = pile_state(pile, STATE_MICROBE_KG)[c] + pile_state(pile, STATE_HUMUS_KG)[c] +
                  pile_state(pile, STATE_SOUR_KG)[c];
    lane fast = pile_state(pile, STATE_SOUR_KG)[c];
    for (int i = 0; i < pile->stuffs; i++) {
        for (int k = 0; k < POOLS; k++)
            carbon += pile_pool(pile, i, (enum pool)k)[c];
        fast += pile_pool(pile, i, POOL_FAST)[c];
    }
    lane laid = pile->stock[STOCK_FAST_LAID_KG][c];
    lane fresh = lane_min(fast / (laid + 1e-9 * carbon), lane_of(1));
    keep(who, &b->store.carbon_kg[c], carbon);
    keep(who, &b->store.ph[c], b->decay.ripe_ph + (b->decay.fresh_ph - b->decay.ripe_ph) * fresh);
}

void settle_pile(struct balance *b, lane_mask who, lane days, const lane *dry_before)
{
    struct mesh *mesh = b->pile->mesh;
    if (dry_before)
        for (int c = 0; c < mesh->cells; c++)
            shrink(b, c, who, days, dry_before[c]);
    if (mesh->shape != MESH_POINT) {
        press(b, who);
        mesh_stretch(mesh);
    }
    for (int c = 0; c < mesh->cells; c++) {
        frame_cell(b, c, who);
        store_cell_day(b, c, who);
    }
}
