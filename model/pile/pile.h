/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/pile.h - all cells of a pile, their amounts, and the soil beneath.
 *
 * `y` is the vector the integrator moves: STATES blocks of `stride` cells (pile/amount.h), then the
 * heat of the soil nodes. Pools are kg of carbon by ingredient; all else is in pile/amount.h.
 */
#ifndef PILE_PILE_H
#define PILE_PILE_H
#include "know/rules.h"
#include "pile/amount.h"
#include "pile/mesh.h"

enum { PILE_MOST_STUFFS = 24 };

/* what an ingredient's carbon is and how fast it goes; per clock day and per kg of carbon */
struct pile_stuff {
    lane rate_per_d[POOLS];
    lane protein_oxygen, protein_water, protein_nitrogen, protein_dry;
    lane enclosed; /* of the carbon in the pool of lignin: cellulose, which lignin encloses */
};

struct pile {
    struct mesh *mesh;
    int stride;             /* cells there is room for */
    int stuffs;
    struct pile_stuff stuff[PILE_MOST_STUFFS];
    lane *y;                /* [STATES * stride + MESH_SOILS] */
    lane *stock[STOCKS];    /* [stride] */
    lane *pool_kg;          /* [(stuff * POOLS + pool) * stride + cell] */
    lane *laid_kg;          /* [stuff * stride + cell] dry mass when laid; does not decay */
    lane *dose_kg;          /* [stage * stride + cell] of it, what stands at a stage of a dose; what
                               stands at none isn't kept */
};

static inline lane *pile_state(const struct pile *pile, enum state which)
{
    return pile->y + (int)which * pile->stride;
}

static inline lane *pile_soil(const struct pile *pile)
{
    return pile->y + STATES * pile->stride;
}

static inline lane *pile_pool(const struct pile *pile, int stuff, enum pool pool)
{
    return pile->pool_kg + (stuff * POOLS + (int)pool) * pile->stride;
}

static inline lane *pile_laid(const struct pile *pile, int stuff)
{
    return pile->laid_kg + stuff * pile->stride;
}

static inline lane *pile_dose(const struct pile *pile, int stage)
{
    return pile->dose_kg + stage * pile->stride;
}

/* Length of y. */
static inline int pile_length(const struct pile *pile)
{
    return STATES * pile->stride + MESH_SOILS;
}

void pile_take(struct pile *pile, int stride, int stuffs, struct arena *arena);

/* Those members have nothing. */
void pile_clear(struct pile *pile, lane_mask who);
/* Those members' amounts from one pile into another of the same room. */
void pile_copy(lane_mask who, struct pile *to, const struct pile *from);

/* All amounts of a cell as a list of places, so that mixing and moving can go through them alike:
 * states that add (not the clocks, which are zero whenever somebody works on the pile, nor the
 * oxygen reading), stocks, pools, laid masses, and those at stages of doses. */
int pile_amounts(const struct pile *pile);
lane *pile_amount(const struct pile *pile, int which); /* [stride] */

lane pile_total(const struct pile *pile, const lane *amount);
/* Everything the ledger weighs, by balance: carbon, nitrogen, water, energy, seeds. */
struct pile_weighed {
    lane carbon_kg, nitrogen_kg, water_kg, heat_J, seeds;
};
struct pile_weighed pile_weigh(const struct pile *pile, lane microbe_c_to_n, lane humus_c_to_n);
/* What a kilogram of carbon in a pool of an ingredient takes and leaves when it is oxidised, and the
 * dry mass it is part of. Protein and fat differ by ingredient, and what lignin encloses. */
struct pile_carbon {
    lane oxygen, water, nitrogen, dry;
};
struct pile_carbon pile_carbon_of(const struct pile_stuff *stuff, enum pool pool);
/* Dry mass of the cellulose in so much carbon of the pool that decays with lignin. */
lane pile_enclosed_dry(const struct pile_stuff *stuff, lane lignin_kg);
/* Dry mass of a cell summed from its stores (STATE_DRY_KG follows it in time). */
lane pile_dry(const struct pile *pile, int cell);
#endif
