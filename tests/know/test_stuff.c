/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/know/test_stuff.c - know/stuff against handbooks, its own derivation, and gardeners' words.
 *
 * Gotaas (1956) and Rynk (1992) were read in a reprint of both lists; the USDA-NRCS table in a
 * repost: what is marked [seen] here means that.
 */
#include "know/stuff.h"
#include "lib/near.h"
#include <stdlib.h>

static const struct stuff *row(const char *id)
{
    const struct stuff *stuff = stuff_find(id);
    assert_non_null(stuff);
    assert_string_equal(stuff->id, id);
    return stuff;
}

static double c_to_n(const struct stuff *stuff)
{
    return stuff->carbon_share / stuff->nitrogen_share.mid;
}

/* [derived] The ratio of each row as worked out when the table was drawn up, rounded: guards the
 * 64 rows against a slip in copying. */
static void carbon_over_nitrogen_is_what_was_worked_out_for_each_row(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        double ratio;
    } want[] = {
        {"leaves_oak", 56.6}, {"leaves_maple", 57.5}, {"leaves_mixed", 52.7}, {"leaf_mould", 27.9},
        {"straw_wheat", 108}, {"straw_barley", 72.2}, {"straw_oat", 57.6}, {"hay_grass", 30.9},
        {"hay_alfalfa", 16.7}, {"alfalfa_fresh", 13.5}, {"alfalfa_meal", 15.4},
        {"grass_fresh", 15.3}, {"grass_dry", 17.7}, {"kitchen_scraps", 16.9},
        {"coffee_grounds", 22.6}, {"tea_leaves", 12.9}, {"veg_trimmings", 14.9},
        {"fruit_waste", 37.4}, {"bean_stalks_dry", 34.3}, {"fava_green", 13.8},
        {"pea_vines", 15.7}, {"squash_vines", 15.3}, {"tomato_vines", 18.5}, {"corn_stalks", 60.4},
        {"corn_stalks_green", 35.8}, {"corn_cobs", 90.8}, {"sawdust_softwood", 456},
        {"sawdust_hardwood", 488}, {"wood_chips", 549}, {"ramial_chips", 69.3},
        {"bracken_fern", 40.3}, {"twigs_brush", 56.8}, {"bark", 233}, {"pine_needles", 86.4},
        {"paper_office", 392}, {"newsprint", 530}, {"cardboard", 465}, {"manure_horse", 26.1},
        {"manure_cow", 17.9}, {"manure_sheep", 15.5}, {"manure_goat", 16.2},
        {"manure_chicken", 6.0}, {"litter_chicken", 14.1}, {"manure_rabbit", 17.7},
        {"bedding_straw", 35.4}, {"bedding_shavings", 79.5}, {"weeds_green", 17.0},
        {"weeds_dry", 35.8}, {"prunings_green", 28.8}, {"cover_crop_green", 17.2},
        {"cover_crop_mature", 33.4}, {"comfrey_nettle", 10.9}, {"seaweed", 18.1},
        {"spent_grain", 11.0}, {"sod_turf", 16.4}, {"compost_finished", 17.3},
        {"soil_garden", 13.0}, {"soil_bottom", 15.7}, {"biochar", 125}, {"wood_ash", 26.7},
        {"egg_shells", 14.4}, {"hair", 3.2}, {"feathers", 3.3}, {"blood_meal", 3.5},
    };
    assert_int_equal(stuff_count, sizeof want / sizeof want[0]);
    for (int i = 0; i < stuff_count; i++)
        assert_near(c_to_n(row(want[i].id)), want[i].ratio, 0.02 * want[i].ratio);
}

/* Handbook lists take carbon as (1 - ash)/1.8 of dry mass, so with our ash and nitrogen that rule
 * has to give back the handbook's ratio, 10 % allowed for their ash. [seen] Gotaas 1956 p. 44 with
 * Rynk 1992 pp. 106-113; N = USDA-NRCS, Carbon to nitrogen ratios in cropping systems, table 1.
 * Left out since they lie 15 to 30 % above: coffee 20, fruit 40, seaweed 19, blood 3 (their
 * nitrogen comes from other analyses). */
static void nitrogen_and_ash_give_the_handbook_ratios(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        double least, most;
    } want[] = {
        {"wood_chips", 560, 641},      /* hardwoods, softwoods */
        {"sawdust_softwood", 511, 641},
        {"sawdust_hardwood", 560, 560},
        {"bark", 223, 496},            /* hardwood, softwood */
        {"cardboard", 400, 563},
        {"newsprint", 398, 852},
        {"straw_wheat", 80, 127},
        {"straw_barley", 80, 80},      /* straw in general */
        {"straw_oat", 48, 70},         /* N 70 */
        {"corn_stalks", 57, 73},       /* N 57 */
        {"corn_cobs", 56, 123},
        {"bracken_fern", 43, 43},
        {"hay_alfalfa", 16, 25},       /* N 25 */
        {"grass_fresh", 12, 19},
        {"kitchen_scraps", 15, 25},
        {"veg_trimmings", 12, 19},     /* cabbage, produce */
        {"manure_cow", 17, 19},        /* N 17 */
        {"manure_horse", 25, 30},
        {"manure_sheep", 16, 16},
        {"manure_chicken", 6, 15},
    };
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        const struct stuff *stuff = row(want[i].id);
        double ratio = (1.0 - stuff->ash_share) / 1.8 / stuff->nitrogen_share.mid;
        double middle = (want[i].least + want[i].most) / 2.0;
        assert_near(ratio, middle, (want[i].most - want[i].least) / 2.0 + 0.1 * want[i].most);
    }
}

/* The ratio for teaching and the one for the balance may differ by a fifth (1.8 above is too little
 * for plants); three rows are known to differ by more, and docs/ingredients.md says why. */
static void ratio_for_teaching_is_near_but_for_three_rows(void **state)
{
    (void)state;
    int beyond = 0;
    for (int i = 0; i < stuff_count; i++) {
        double taught = stuff_rows[i].carbon_to_nitrogen_ref;
        if (taught > 0.0 && !(fabs(c_to_n(&stuff_rows[i]) / taught - 1.0) <= 0.2))
            beyond++;
    }
    assert_int_equal(beyond, 3);
    assert_true(c_to_n(row("leaves_maple")) > 1.2 * row("leaves_maple")->carbon_to_nitrogen_ref);
    assert_true(c_to_n(row("veg_trimmings")) < 0.8 * row("veg_trimmings")->carbon_to_nitrogen_ref);
    assert_true(c_to_n(row("weeds_green")) < 0.8 * row("weeds_green")->carbon_to_nitrogen_ref);
}

/* [derived] 1 kg of fresh grass (80 % water, C 42.7, N 2.8 % of dry) and 1 kg of leaves (30 %,
 * 44.8, 0.85), by hand: (0.2 42.7 + 0.7 44.8)/(0.2 2.8 + 0.7 0.85) = 34.5 and 1.1/2 = 55.0 %. */
static void grass_and_leaves_mix_as_reckoned_by_hand(void **state)
{
    (void)state;
    const struct stuff *part[] = {row("grass_fresh"), row("leaves_mixed")};
    double water = 0.0, carbon = 0.0, nitrogen = 0.0;
    for (int i = 0; i < 2; i++) {
        double dry = 1.0 - part[i]->water_share.mid;
        water += part[i]->water_share.mid;
        carbon += dry * part[i]->carbon_share;
        nitrogen += dry * part[i]->nitrogen_share.mid;
    }
    assert_near(carbon / nitrogen, 34.5, 0.1);
    assert_near(water / 2.0, 0.550, 0.0005);
}

static void ordered(struct span span, double most)
{
    assert_true(span.low > 0.0 && span.low <= span.mid && span.mid <= span.high);
    assert_true(span.high <= most);
}

static void spans_are_ordered_and_shares_add_up(void **state)
{
    (void)state;
    for (int i = 0; i < stuff_count; i++) {
        const struct stuff *stuff = &stuff_rows[i];
        ordered(stuff->water_share, 0.95);
        ordered(stuff->nitrogen_share, 0.16);
        ordered(stuff->bulk_kg_per_m3, 1500.0);
        assert_true(stuff->fast_share >= 0.0 && stuff->protein_fat_share >= 0.0);
        assert_true(stuff->slow_share >= 0.0 && stuff->lignin_share >= 0.0);
        assert_near(stuff->fast_share + stuff->protein_fat_share + stuff->slow_share +
                        stuff->lignin_share, 1.0, 1e-12);
        assert_true(stuff->inert_carbon_share >= 0.0 && stuff->inert_carbon_share <= 1.0);
        /* carbonate of shells and wood ash is part of the ash */
        double live_carbon = stuff->carbon_share * (1.0 - stuff->inert_carbon_share);
        assert_true(stuff->ash_share >= 0.0 && live_carbon <= 0.62 * (1.0 - stuff->ash_share));
        assert_true(stuff->mineral_nitrogen_share >= 0.0 && stuff->mineral_nitrogen_share <= 0.5);
        assert_true(stuff->weed_seeds >= 0 && stuff->weed_seeds <= 2);
        assert_true(stuff->piece_m > 0.0 && stuff->piece_m <= 0.2);
    }
}

/* [memory] Carbon of glucose and starch 0.42, mean protein 0.53, fat 0.76, cellulose and xylan
 * 0.45, lignin 0.62; protein is 6.25 times the nitrogen that isn't mineral, the rest of its pool
 * fat. Soil, compost, char, ash, shell, keratin and blood have measured carbon and stand outside. */
static void carbon_follows_from_the_pools_of_plants_and_manures(void **state)
{
    (void)state;
    int plants = 0;
    for (int i = 0; i < stuff_count; i++) {
        const struct stuff *stuff = &stuff_rows[i];
        bool plant = stuff->group == STUFF_GREEN || stuff->group == STUFF_BROWN;
        if (!plant || stuff->protein_fat_share == 1.0)
            continue;
        double organic = 1.0 - stuff->ash_share;
        double pool = stuff->protein_fat_share * organic;
        double bound_nitrogen = stuff->nitrogen_share.mid * (1.0 - stuff->mineral_nitrogen_share);
        double protein = fmin(6.25 * bound_nitrogen, pool); /* tea: some of it is caffeine */
        double carbon = organic * (0.42 * stuff->fast_share + 0.45 * stuff->slow_share +
                                   0.62 * stuff->lignin_share) +
                        0.53 * protein + 0.76 * (pool - protein);
        assert_near(carbon, stuff->carbon_share, 0.02 * stuff->carbon_share);
        plants++;
    }
    assert_int_equal(plants, 54);
}

/* [memory] Solids of organic matter 1550 and of mineral 2650 kg/m3 (soil and peat physics), so free
 * air = 1 - bulk (m/1000 + (1 - m)(OM/1550 + ash/2650)); the table rounds to 0.01. */
static void free_air_follows_from_bulk_and_water(void **state)
{
    (void)state;
    for (int i = 0; i < stuff_count; i++) {
        const struct stuff *stuff = &stuff_rows[i];
        double water = stuff->water_share.mid, ash = stuff->ash_share;
        double solids = (1.0 - ash) / 1550.0 + ash / 2650.0;
        double filled = stuff->bulk_kg_per_m3.mid * (water / 1000.0 + (1.0 - water) * solids);
        assert_near(stuff->free_air_share, 1.0 - filled, 0.006);
    }
}

/* [trade] Stiff settles at most 10 % under a metre of itself, firm 20, springy 35, soft 45. */
static void class_of_settling_fits_its_height(void **state)
{
    (void)state;
    static const double most[] = {0.10, 0.20, 0.35, 0.45, 0.99};
    for (int i = 0; i < stuff_count; i++) {
        enum stuff_class settles = stuff_rows[i].settles;
        assert_true(stuff_rows[i].settle_share <= most[settles]);
        assert_true(settles == STUFF_STIFF || stuff_rows[i].settle_share > most[settles - 1]);
    }
}

/* [trade] Dry plants hold none; chicken manure about half of its nitrogen, as uric acid and
 * ammonium; other manures an eighth. */
static void mineral_nitrogen_follows_from_what_the_stuff_is(void **state)
{
    (void)state;
    for (int i = 0; i < stuff_count; i++) {
        const struct stuff *stuff = &stuff_rows[i];
        double share = stuff->mineral_nitrogen_share;
        if (stuff->group == STUFF_GREEN && stuff->water_share.mid < 0.16)
            assert_near(share, 0.0, 0.0);
        if (strncmp(stuff->id, "manure_", 7) == 0)
            assert_near(share, strstr(stuff->id, "chicken") ? 0.5 : 0.12, 1e-12);
        else if (strstr(stuff->id, "bedding"))
            assert_near(share, 0.15, 1e-12);
        else if (!strstr(stuff->id, "litter"))
            assert_true(share <= 0.1);
    }
    assert_near(row("straw_wheat")->mineral_nitrogen_share, 0.0, 0.0);
    assert_near(row("leaves_mixed")->mineral_nitrogen_share, 0.0, 0.0);
    assert_near(row("grass_fresh")->mineral_nitrogen_share, 0.05, 1e-12);
    assert_near(row("litter_chicken")->mineral_nitrogen_share, 0.4, 1e-12);
    assert_near(row("blood_meal")->mineral_nitrogen_share, 0.0, 0.0);
}

static double lb_per_yd3(double bulk)
{
    return bulk * 0.45359237 / 0.764554857984;
}

/* [seen] Published volume-to-weight lists: Oregon DEQ 2005 (leaves 250-500, dry chips 243),
 * Massachusetts (grass 667, brush 500, finished compost 1350), EPA 1993 and 2016 (loose corrugated
 * 50, food scraps 396), all lb/yd3. */
static void bulk_spans_reach_the_published_lists(void **state)
{
    (void)state;
    assert_near(row("leaves_mixed")->bulk_kg_per_m3.high, lb_per_yd3(500), 0.5);
    assert_true(row("leaves_mixed")->bulk_kg_per_m3.low < lb_per_yd3(250));
    assert_near(row("wood_chips")->bulk_kg_per_m3.low, lb_per_yd3(243), 0.5);
    assert_near(row("grass_fresh")->bulk_kg_per_m3.high, lb_per_yd3(667), 5.0);
    assert_near(row("twigs_brush")->bulk_kg_per_m3.high, lb_per_yd3(500), 0.5);
    assert_near(row("compost_finished")->bulk_kg_per_m3.high, lb_per_yd3(1350), 1.5);
    assert_near(row("cardboard")->bulk_kg_per_m3.low, lb_per_yd3(50), 0.5);
    assert_near(row("kitchen_scraps")->bulk_kg_per_m3.low, lb_per_yd3(396), 0.5);
}

/* [seen] INRAE-CIRAD-AFZ feed tables: wheat straw 90.3 % dry matter, NDF less lignin 70.5 % of
 * dry; Cruz et al. 2012: espresso grounds N 2.3 %. The straw's fibre may differ by 3 points. */
static void straw_and_coffee_agree_with_analyses(void **state)
{
    (void)state;
    const struct stuff *straw = row("straw_wheat");
    assert_near(straw->water_share.mid, 1.0 - 0.903, 0.005);
    assert_near(straw->slow_share * (1.0 - straw->ash_share), 0.780 - 0.075, 0.03);
    assert_near(row("coffee_grounds")->nitrogen_share.mid, 0.023, 1e-9);
}

static void every_row_has_its_sources_and_marks(void **state)
{
    (void)state;
    for (int i = 0; i < stuff_count; i++) {
        const struct stuff *stuff = &stuff_rows[i];
        enum stuff_mark mark[] = {stuff->nitrogen_mark, stuff->water_mark, stuff->bulk_mark,
                                  stuff->pools_mark};
        const char *source[] = {stuff->nitrogen_source, stuff->water_source, stuff->bulk_source,
                                stuff->pools_source};
        for (int j = 0; j < 4; j++) {
            bool trade = strncmp(source[j], "common practice", 15) == 0;
            assert_true(strlen(source[j]) > 3);
            assert_true(mark[j] == STUFF_SEEN || mark[j] == STUFF_MEMORY || mark[j] == STUFF_TRADE);
            assert_int_equal(trade, mark[j] == STUFF_TRADE);
        }
        assert_true(strlen(stuff->id) < sizeof stuff->id);
        assert_true(strlen(stuff->name) < sizeof stuff->name);
    }
}

/* the further names of each row, as the table has them */
#define WORDS(...) {__VA_ARGS__, NULL}
static const struct {
    const char *id, *also[24];
} called[] = {
#define STUFF(id, name, group, water_low, water, water_high, carbon, n_low, n, n_high, c_to_n,    \
              bulk_low, bulk, bulk_high, fast, protein_fat, slow, lignin, ash, inert, piece, air, \
              settle, settles, seeds, keratin, mineral, ripe, n_mark, water_mark, bulk_mark, pools_mark,\
              ash_mark, size_mark, n_source, water_source, bulk_source, pools_source, note, words)\
    {#id, words},
#include "know/stuff.def"
};

/* A name that two rows share would be found at the first of them only; one row has it once. */
static void every_name_finds_its_own_row(void **state)
{
    (void)state;
    int further = 0;
    for (int i = 0; i < stuff_count; i++) {
        assert_ptr_equal(stuff_find(stuff_rows[i].id), &stuff_rows[i]);
        assert_ptr_equal(stuff_find(stuff_rows[i].name), &stuff_rows[i]);
        for (const char *const *name = called[i].also; *name; name++, further++) {
            assert_string_equal(stuff_find(*name) ? stuff_find(*name)->id : *name, called[i].id);
            for (const char *const *other = called[i].also; other < name; other++)
                assert_string_not_equal(*other, *name);
        }
    }
    assert_true(further > 200);
}

static void found(const char *words, const char *id)
{
    const struct stuff *stuff = stuff_find(words);
    assert_string_equal(stuff ? stuff->id : words, id);
}

static void order_case_number_and_punctuation_are_ignored(void **state)
{
    (void)state;
    found("horse manure", "manure_horse");
    found("Manure, horse", "manure_horse");
    found("manure_horse", "manure_horse");
    found("HORSE-MANURES", "manure_horse");
    found("clippings of grass", "grass_fresh");
    found("leaf", "leaves_mixed");
    found("twig", "twigs_brush");
    found("brewers' grains", "spent_grain");
    found("finely chopped straw", "finely chopped straw"); /* "finely" is not a word we know */
    found("chopped straw", "straw_wheat");
    found("some torn cardboard", "cardboard");
}

static void both_dialects_are_understood(void **state)
{
    (void)state;
    found("autumn leaves", "leaves_mixed");
    found("fall leaves", "leaves_mixed");
    found("maize stalks", "corn_stalks");
    found("corn stalks", "corn_stalks");
    found("lucerne hay", "hay_alfalfa");
    found("leaf mold", "leaf_mould");
    found("zucchini vines", "squash_vines");
    found("lawn mowings", "grass_fresh");
    found("yard soil", "soil_garden");
    found("cow dung", "manure_cow");
    found("sheep faeces", "manure_sheep");
    found("hen droppings", "manure_chicken");
    found("newspapers", "newsprint");
}

static void words_of_condition_tell_rows_apart(void **state)
{
    (void)state;
    found("dry grass", "grass_dry");
    found("fresh grass", "grass_fresh");
    found("green corn stalks", "corn_stalks_green");
    found("dried weeds", "weeds_dry");
    found("green manure", "cover_crop_green");
    found("dried blood", "blood_meal");
}

/* What has no row is reckoned as the row that is nearest in kind. [trade] */
static void things_without_a_row_go_to_their_kind(void **state)
{
    (void)state;
    found("banana skins", "fruit_waste");
    found("banana peels", "fruit_waste");
    found("fruit peel", "fruit_waste");
    found("egg boxes", "cardboard");
    found("egg cartons", "cardboard");
    found("egg shells", "egg_shells");
}

static void a_name_is_the_rows_own_in_any_order_but_not_another_one(void **state)
{
    (void)state;
    assert_true(stuff_called("mixed leaves", "leaves, mixed"));
    assert_true(stuff_called("mixed leaves", "Mixed leaf"));
    assert_true(stuff_called("\xff", "\xff"));
    assert_false(stuff_called("mixed leaves", "dry leaves"));
    assert_false(stuff_called("cardboard", "shredded cardboard"));
    assert_false(stuff_called("fresh grass clippings", "grass clippings"));
}

static void what_is_unclear_is_not_guessed(void **state)
{
    (void)state;
    assert_null(stuff_find("manure"));
    assert_null(stuff_find("fresh leaves"));
    assert_null(stuff_find("horse"));
    assert_null(stuff_find(""));
    assert_null(stuff_find(" ,-_' "));
    assert_null(stuff_find("of the"));
    assert_null(stuff_find("\xff\xfe"));
}

static void near_misses_are_offered(void **state)
{
    (void)state;
    assert_string_equal(stuff_nearest("mixd leaves"), "mixed leaves");
    assert_string_equal(stuff_nearest("manure, hrose"), "horse manure");
    assert_string_equal(stuff_nearest("coffe grounds"), "coffee grounds");
    assert_string_equal(stuff_nearest("manure"), "horse manure with some bedding");
    assert_string_equal(stuff_nearest("old hay"), "hay");
    assert_string_equal(stuff_nearest("old leaves"), "leaves"); /* not leafmold */
    assert_string_equal(stuff_nearest("very old horse manure"), "horse manure");
    assert_null(stuff_nearest("garden waste")); /* letter by letter not far from waste paper */
    assert_null(stuff_nearest("zzz"));
    assert_null(stuff_nearest(""));
}

static void endless_names_are_refused(void **state)
{
    (void)state;
    enum { LONG = 100000 };
    char *text = malloc(LONG + 1);
    assert_non_null(text);
    memset(text, 'a', LONG);
    text[LONG] = '\0';
    assert_null(stuff_find(text));
    assert_null(stuff_nearest(text));
    for (int i = 0; i + 4 < LONG; i += 4) { /* many different short words */
        text[i] = ' ';
        text[i + 1] = (char)('a' + i / 4 % 26);
        text[i + 2] = (char)('a' + i / 104 % 26);
    }
    assert_null(stuff_find(text));
    assert_null(stuff_nearest(text));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(carbon_over_nitrogen_is_what_was_worked_out_for_each_row),
        cmocka_unit_test(nitrogen_and_ash_give_the_handbook_ratios),
        cmocka_unit_test(ratio_for_teaching_is_near_but_for_three_rows),
        cmocka_unit_test(grass_and_leaves_mix_as_reckoned_by_hand),
        cmocka_unit_test(spans_are_ordered_and_shares_add_up),
        cmocka_unit_test(carbon_follows_from_the_pools_of_plants_and_manures),
        cmocka_unit_test(free_air_follows_from_bulk_and_water),
        cmocka_unit_test(class_of_settling_fits_its_height),
        cmocka_unit_test(mineral_nitrogen_follows_from_what_the_stuff_is),
        cmocka_unit_test(bulk_spans_reach_the_published_lists),
        cmocka_unit_test(straw_and_coffee_agree_with_analyses),
        cmocka_unit_test(every_row_has_its_sources_and_marks),
        cmocka_unit_test(every_name_finds_its_own_row),
        cmocka_unit_test(order_case_number_and_punctuation_are_ignored),
        cmocka_unit_test(both_dialects_are_understood),
        cmocka_unit_test(words_of_condition_tell_rows_apart),
        cmocka_unit_test(things_without_a_row_go_to_their_kind),
        cmocka_unit_test(a_name_is_the_rows_own_in_any_order_but_not_another_one),
        cmocka_unit_test(what_is_unclear_is_not_guessed),
        cmocka_unit_test(near_misses_are_offered),
        cmocka_unit_test(endless_names_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
