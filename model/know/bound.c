/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/bound.c - what closes a pile off, as its keeper names it.
 *
 * A resistance is that of the material alone; films of air, wind and sky are added outside it.
 * Slatted things are two ways side by side, board and gap, so with h = 10 W/(m2 K) for both
 *
 *   1/(R + 1/h) = (1 - g)/(d/k + 1/h) + g h,    g the open share, d the thickness     [derived]
 *
 * Conductivities, W/(m K): wood 0.157 at 10 % moisture (Forest Products Laboratory, Wood Handbook:
 * seen), straw and carpet 0.06 (memory), brick 0.77 and foam 0.037 (memory); a still gap of air
 * 0.15 m2K/W (memory). Open, rain and sun shares are common practice except where a row says more.
 * For a wall the rain share is that of driven rain; for a floor, of the water that drains.
 */
#include "know/bound.h"
#include "base/near.h"
#include <stdbool.h>
#include <stddef.h>

const struct bound bound_rows[] = {
    /* name, kind, open, m2K/W, rain, sun, source, meaning */
    {"pallets", BOUND_WALL, 0.35, 0.06, 0.35, 0.70,
     "derived: 20 mm of wood (Wood Handbook, seen), 35 % gaps (trade)",
     "wooden pallets on edge; a third of the face is gaps"},
    {"slats", BOUND_WALL, 0.15, 0.11, 0.15, 0.70,
     "derived: 25 mm of wood (Wood Handbook, seen), 15 % gaps (trade)",
     "boards with a finger's width between them"},
    {"boards", BOUND_WALL, 0.03, 0.15, 0.03, 0.70,
     "derived: 25 mm of wood (Wood Handbook, seen), 3 % cracks (trade)",
     "boards edge to edge, with cracks only"},
    {"wire", BOUND_WALL, 0.90, 0.0, 0.90, 0.85,
     "trade; sun as on the pile itself",
     "a ring or cage of wire mesh"},
    {"blocks", BOUND_WALL, 0.02, 0.14, 0.02, 0.65,
     "memory: hollow concrete blocks of 10 cm; shares trade",
     "hollow concrete blocks"},
    {"brick", BOUND_WALL, 0.02, 0.13, 0.02, 0.65,
     "memory: 10 cm of brick at 0.77 W/(m K); shares trade",
     "a wall one brick thick"},
    {"plastic", BOUND_WALL, 0.03, 0.01, 0.0, 0.90,
     "trade: 3 mm of dark plastic with slots",
     "a moulded bin of thin plastic"},
    {"insulated", BOUND_WALL, 0.02, 1.5, 0.0, 0.70,
     "memory: 5 cm of foam at 0.037 W/(m K) between thin boards; shares trade",
     "foam between boards, with small air holes"},
    {"straw bales", BOUND_WALL, 0.08, 3.5, 0.05, 0.65,
     "trade: half of 0.45 m at 0.06 W/(m K) (memory), for damp and leaky joints",
     "bales laid as a wall"},
    {"none", BOUND_WALL, 1.0, 0.0, 1.0, 0.85,
     "trade; sun as on the pile itself",
     "no wall: a heap or a windrow"},

    {"soil", BOUND_FLOOR, 0.0, 0.0, 1.0, 0.0,
     "trade",
     "the bare ground"},
    {"slab", BOUND_FLOOR, 0.0, 0.07, 1.0, 0.0,
     "memory: 10 cm of concrete at 1.4 W/(m K)",
     "paving or a concrete slab; water runs off it"},
    {"slats", BOUND_FLOOR, 0.25, 0.085, 1.0, 0.0,
     "derived: 25 mm of wood (Wood Handbook, seen), 25 % gaps (trade)",
     "wooden slats laid over the ground"},
    {"pallet", BOUND_FLOOR, 0.35, 0.06, 1.0, 0.0,
     "derived: 20 mm of wood (Wood Handbook, seen), 35 % gaps (trade)",
     "a pallet, so that air can come from below"},

    {"none", BOUND_LID, 1.0, 0.0, 1.0, 0.85,
     "trade; sun as on the pile itself",
     "open to the sky"},
    {"boards", BOUND_LID, 0.05, 0.25, 0.15, 0.70,
     "derived: 25 mm of wood (Wood Handbook, seen), a gap of air 0.15 (memory), 5 % cracks (trade)",
     "boards over the bin"},
    {"tin", BOUND_LID, 0.10, 0.12, 0.02, 0.70,
     "derived: a gap of air 0.15 under the sheet (memory), 10 % open at the folds (trade)",
     "corrugated iron laid on top"},
    {"tarp", BOUND_LID, 0.05, 0.02, 0.02, 0.85,
     "trade: a thin dark sheet that lies close",
     "a sheet tied down over the bin"},
    {"insulated", BOUND_LID, 0.02, 1.5, 0.0, 0.70,
     "memory: 5 cm of foam at 0.037 W/(m K) between thin boards; shares trade",
     "foam between boards"},

    /* covers: resistance per metre of thickness, that is 1/k */
    {"straw", BOUND_COVER, 0.90, 16.7, 0.60, 0.65,
     "memory: 0.06 W/(m K); shares trade",
     "loose straw; sheds part of the rain"},
    {"leaves", BOUND_COVER, 0.80, 14.3, 0.70, 0.75,
     "trade: 0.07 W/(m K), between dry 0.06 (memory) and damp",
     "dry leaves"},
    {"soil", BOUND_COVER, 0.40, 1.0, 1.0, 0.85,
     "memory: moist loam 1 W/(m K); shares trade",
     "garden soil or old bottom soil: seals more than it warms"},
    {"finished compost", BOUND_COVER, 0.60, 2.5, 1.0, 0.90,
     "memory: moist compost 0.4 W/(m K); shares trade",
     "compost that is ready: holds smells and ammonia back"},
    {"carpet", BOUND_COVER, 0.30, 16.7, 0.70, 0.80,
     "memory: 0.06 W/(m K); shares trade",
     "old carpet of wool or jute"},
    {"cardboard", BOUND_COVER, 0.10, 16.7, 0.50, 0.70,
     "memory: corrugated board 0.06 W/(m K); shares trade",
     "flattened boxes"},
    {"fleece", BOUND_COVER, 0.70, 25.0, 0.80, 0.30,
     "memory: light fibre 0.04 W/(m K); shares trade",
     "white compost fleece: breathes and sheds some rain"},
    {"tarp", BOUND_COVER, 0.05, 3.0, 0.02, 0.85,
     "trade: plastic 0.3 W/(m K), a fraction of a millimetre",
     "a sheet laid on the pile: keeps rain and air out, warms little"},
};

const int bound_count = sizeof bound_rows / sizeof bound_rows[0];

/* further words; the kinds a word doesn't belong to simply don't have the row */
static const char *const same[][2] = {
    {"pallet", "pallets"},       {"pallets", "pallet"},        {"wood slats", "slats"},
    {"wooden slats", "slats"},   {"slatted", "slats"},         {"board", "boards"},
    {"wood", "boards"},          {"planks", "boards"},         {"wire mesh", "wire"},
    {"chicken wire", "wire"},    {"mesh", "wire"},             {"block", "blocks"},
    {"concrete blocks", "blocks"}, {"bricks", "brick"},        {"straw bale", "straw bales"},
    {"bales", "straw bales"},    {"open", "none"},             {"ground", "soil"},
    {"earth", "soil"},           {"bare soil", "soil"},        {"concrete", "slab"},
    {"paving", "slab"},          {"concrete slab", "slab"},    {"raised", "pallet"},
    {"raised pallet", "pallet"}, {"metal", "tin"},             {"corrugated iron", "tin"},
    {"tarpaulin", "tarp"},       {"sheet", "tarp"},            {"plastic sheet", "tarp"},
    {"dry leaves", "leaves"},    {"mixed leaves", "leaves"},   {"garden soil", "soil"},
    {"old bottom soil", "soil"}, {"compost", "finished compost"}, {"card", "cardboard"},
    {"compost fleece", "fleece"}, {"insulation", "insulated"}, {"old carpet", "carpet"},
};

static int row_of(const char *name, enum bound_kind kind)
{
    for (int row = 0; row < bound_count; row++)
        if (bound_rows[row].kind == kind && near_same(name, bound_rows[row].name))
            return row;
    return -1;
}

int bound_find(const char *name, enum bound_kind kind)
{
    int row = row_of(name, kind);
    for (size_t i = 0; row < 0 && i < sizeof same / sizeof same[0]; i++)
        if (near_same(name, same[i][0]))
            row = row_of(same[i][1], kind);
    return row;
}
