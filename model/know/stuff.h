/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/stuff.h - ingredients: what greens, browns, manures and soils are made of. */
#ifndef KNOW_STUFF_H
#define KNOW_STUFF_H
#include <stdbool.h>

enum stuff_group { STUFF_GREEN, STUFF_BROWN, STUFF_SOIL, STUFF_MINERAL, STUFF_OTHER };
/* how a bed of it settles under about a metre of its own weight */
enum stuff_class { STUFF_STIFF, STUFF_FIRM, STUFF_SPRINGY, STUFF_SOFT, STUFF_SLUMPS };
/* seen = read in a text; memory = recalled, to be confirmed; trade = common practice, no source;
 * derived = follows from what is stated; given = a scenario's own figure */
enum stuff_mark { STUFF_SEEN, STUFF_MEMORY, STUFF_TRADE, STUFF_DERIVED, STUFF_GIVEN };

/* a quantity known as a span; low <= mid <= high */
struct span {
    double low, mid, high;
};

struct stuff {
    char id[32];   /* stable key, words joined by underscores */
    char name[64]; /* as shown */
    enum stuff_group group;
    struct span water_share;       /* of wet mass, as it comes to the bin */
    double carbon_share;           /* of dry mass, all of it, inert carbon included */
    struct span nitrogen_share;    /* of dry mass */
    double carbon_to_nitrogen_ref; /* handbook C:N for teaching; 0 = none */
    struct span bulk_kg_per_m3;    /* wet, loose and lightly settled */
    double fast_share, protein_fat_share, slow_share, lignin_share; /* of dry organic matter, sum 1 */
    double ash_share;              /* of dry mass */
    double inert_carbon_share;     /* of carbon: char, carbonate, old humus */
    double piece_m;                /* thickness-controlling size as added */
    double free_air_share;         /* at mid bulk density and water */
    double settle_share;           /* loss of height under about a metre of its own material */
    enum stuff_class settles;
    int weed_seeds;                /* 0 none, 1 some, 2 many */
    bool keratin;                  /* hair, feather: protein that decays slowly */
    double mineral_nitrogen_share; /* of nitrogen: ammonium, urea, uric acid at the start */
    double ripe_share;             /* of its soluble, protein and cellulose pools: humus already */
    const char *note;
    enum stuff_mark nitrogen_mark, water_mark, bulk_mark, pools_mark, ash_mark, size_mark;
    const char *nitrogen_source, *water_source, *bulk_source, *pools_source;
    double like_dry_kg_per_m3;     /* dry density of the row it was made from; 0 = its own */
    bool dung;                     /* droppings, alone or with bedding: may carry germs */
};

extern const struct stuff stuff_rows[];
extern const int stuff_count;

/* The row of a name in ordinary words: any order, either dialect, singular or plural, punctuation
 * ignored ("horse manure", "manure, horse", "manure_horse"); NULL when there is none. */
const struct stuff *stuff_find(const char *words);
/* Are these the words of that name, in any order, dialect or number? */
bool stuff_called(const char *name, const char *words);
/* The name nearest to a misspelt one, or NULL when none is near. */
const char *stuff_nearest(const char *words);
const char *stuff_group_word(enum stuff_group group);
const char *stuff_class_word(enum stuff_class settles);
const char *stuff_mark_word(enum stuff_mark mark);
#endif
