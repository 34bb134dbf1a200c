/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/amount.h - what a cell of the pile holds: amounts that add when cells are mixed.
 *
 * Two lists. `state` is what the integrator moves in time; `stock` changes in closed form after a
 * step, or only when somebody works on the pile. Temperature, wetness, free air space and C:N are
 * not here: they are read from amounts (pile/read), because they do not add.
 */
#ifndef PILE_AMOUNT_H
#define PILE_AMOUNT_H

enum state {
    STATE_HEAT_J,       /* enthalpy; liquid water and dry solids at 0 C hold none, ice less */
    STATE_WATER_KG,     /* liquid and ice */
    STATE_FAST_D,       /* biological clocks since the step's start, days: soluble pool, */
    STATE_PROTEIN_D,    /* protein and fat, */
    STATE_SLOW_D,       /* cellulose, */
    STATE_LIGNIN_D,     /* lignin */
    STATE_MICROBE_KG,   /* carbon of microbes, living and dead */
    STATE_HUMUS_KG,     /* carbon of humus */
    STATE_NITROGEN_KG,  /* mineral nitrogen */
    STATE_SOUR_KG,      /* carbon of airless products */
    STATE_LIVING_KG,    /* of microbes' carbon: what lives */
    STATE_DRY_KG,       /* dry mass of all of it */
    STATE_OXYGEN,       /* oxygen of the pore gas per dry air (mol/mol), as lately felt; a reading,
                           kept here because the draught depends on it */
    STATES
};

/* the first clock and how many there are: one a pool */
enum { STATE_CLOCK = STATE_FAST_D, POOLS = 4 };
enum pool { POOL_FAST, POOL_PROTEIN, POOL_SLOW, POOL_LIGNIN };

enum stock {
    STOCK_ASH_KG,
    STOCK_INERT_C_KG,
    STOCK_LOOSE_M3,     /* volume as it lies without its own weight's pressing */
    STOCK_FRESH_M3,     /* the same when it was laid, shrunk only by what was picked out: for lift */
    STOCK_STIFF_J,      /* loose volume times stiffness, Pa m3 */
    STOCK_SETTLED_M3,   /* the volume it settles to in time under about a metre of its own */
    STOCK_SURFACE_M2,   /* surface of its pieces, 6 solid volume/size: what holds air back */
    STOCK_HOLD_KG,      /* water that it holds against drainage */
    STOCK_FAST_LAID_KG, /* soluble carbon when it was laid: tells how ripe it is */
    STOCK_SEED_EASY, STOCK_SEED_MODERATE, STOCK_SEED_HARD, /* live weed seeds */
    STOCK_HARDY_EASY, STOCK_HARDY_MODERATE, STOCK_HARDY_HARD, /* their tail that heat hardly kills */
    STOCK_GERM_GUT, STOCK_GERM_EGG, /* live gut bacteria, worm eggs: one per kg wet manure as laid */
    STOCKS
};
enum { SEEDS = 3, GERMS = 2 };

/* Carbon, oxygen demand, water made on full oxidation and mass, per kg of carbon, by pool or store.
 * Protein and fat differ by ingredient and are kept there. */
#define AMOUNT_FAST_DRY (1.0 / 0.42)
#define AMOUNT_SLOW_DRY (1.0 / 0.45)
#define AMOUNT_LIGNIN_DRY (1.0 / 0.62)
#define AMOUNT_SUGAR_OXYGEN (32.0 / 12.0)       /* any carbohydrate, (CH2O)n */
#define AMOUNT_LIGNIN_OXYGEN (1.926 / 0.650)    /* C9H10O3 */
#define AMOUNT_FAST_WATER 1.38                  /* between glucose 1.50 and starch 1.25 */
#define AMOUNT_SLOW_WATER 1.25                  /* cellulose C6H10O5 */
#define AMOUNT_LIGNIN_WATER (0.542 / 0.650)
#define AMOUNT_PROTEIN_CARBON 0.53
#define AMOUNT_FAT_CARBON 0.76
#define AMOUNT_PROTEIN_OXYGEN (1.498 / 0.545)   /* C16H24O5N4, nitrogen to ammonia */
#define AMOUNT_FAT_OXYGEN (2.875 / 0.765)       /* between C57H110O6 and C50H90O6 */
#define AMOUNT_PROTEIN_WATER (0.307 / 0.545)
#define AMOUNT_FAT_WATER (1.07 / 0.765)
#define AMOUNT_MICROBE_DRY (1.0 / 0.531)        /* C5H7O2N */
#define AMOUNT_MICROBE_OXYGEN (1.414 / 0.531)
#define AMOUNT_MICROBE_WATER (0.319 / 0.531)
#define AMOUNT_HUMUS_DRY (1.0 / 0.56)           /* C .56 H .055 N .047 O .338 */
#define AMOUNT_HUMUS_OXYGEN (1.515 / 0.56)
#define AMOUNT_HUMUS_WATER (0.405 / 0.56)
#define AMOUNT_SOUR_DRY 2.5                     /* acetic acid, CH2O */
#define AMOUNT_SOUR_OXYGEN (32.0 / 12.0)
#define AMOUNT_SOUR_WATER 1.5
#endif
