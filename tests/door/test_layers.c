/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_layers.c - door/layers and door/ingredients: what a pile is made of. */
#include "door/reading.h"

#define ON_GROUND READING_HEAD READING_BIN

static double dry_kg(const struct plan_layer *layer)
{
    double dry = 0.0;
    for (int i = 0; i < layer->portions; i++)
        dry += layer->portion[i].wet_kg.mid * (1.0 - layer->portion[i].water_share.mid);
    return dry;
}

static void a_repeat_is_a_block_again_and_again(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(ON_GROUND "build:\n"
                                                      "  - twigs: 6 buckets loose\n"
                                                      "  - repeat: 3\n"
                                                      "    layers:\n"
                                                      "      - straw: 2 buckets\n"
                                                      "      - repeat: 2\n"
                                                      "        layers:\n"
                                                      "          - grass clippings: 1 bucket\n"
                                                      "            water: 5 L\n"
                                                      "  - soil: 1 bucket\n");
    static const char want[] = "twigs straw grass grass straw grass grass straw grass grass soil";
    char got[200] = "";
    for (int i = 0; i < s->layers; i++) {
        const char *id = s->stuff[s->layer[i].portion[0].stuff].id;
        size_t used = strlen(got);
        snprintf(got + used, sizeof got - used, "%s%.*s", used ? " " : "", (int)strcspn(id, "_"),
                 id);
    }
    assert_string_equal(got, want);
    assert_int_equal(s->stuffs, 4);
    assert_near(s->layer[9].water_kg.mid, 5.0, 1e-12);
    assert_near(s->layer[8].water_kg.mid, 5.0, 1e-12);
    assert_near(s->layer[7].water_kg.mid, 0.0, 0.0);
}

static void names_in_any_order_mean_one_ingredient(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(ON_GROUND "build:\n"
                                                      "  - horse manure: 2 buckets\n"
                                                      "  - manure, horse: 2 buckets\n");
    assert_int_equal(s->stuffs, 1);
    assert_int_equal(s->layer[1].portion[0].stuff, s->layer[0].portion[0].stuff);
}

/* the dry matter stays, the water becomes what the hand felt, whatever was poured */
static void a_squeezed_layer_is_as_wet_as_it_feels(void **state)
{
    (void)state;
    double dry = dry_kg(&reading_good(ON_GROUND "build:\n"
                                                "  - mixed leaves: 2 bags\n"
                                                "    grass clippings: 5 buckets\n"
                                                "    water: 3 buckets\n")
                             ->layer[0]);
    const struct scenario *s = reading_good(ON_GROUND "build:\n"
                                                      "  - mixed leaves: 2 bags\n"
                                                      "    grass clippings: 5 buckets\n"
                                                      "    water: 3 buckets\n"
                                                      "    squeeze: crumbles\n");
    assert_near(dry_kg(&s->layer[0]), dry, 1e-9);
    assert_near(s->layer[0].water_kg.mid, 0.0, 0.0);
    assert_near(s->layer[0].portion[0].water_share.mid, 0.40, 1e-12);
    assert_near(s->layer[0].portion[1].water_share.mid, 0.40, 1e-12);
}

/* 5 kg in 12 L is 416.7 kg/m3; weighed stuff is as wet as it comes */
static void weighing_a_bucket_beats_the_table(void **state)
{
    (void)state;
    const struct scenario *s =
        reading_good(ON_GROUND "ingredients:\n"
                               "  our coffee: {like: coffee grounds, weighs: 5 kg a bucket}\n"
                               "build:\n  - our coffee: 3 buckets wilted\n");
    const struct stuff *stuff = &s->stuff[s->layer[0].portion[0].stuff];
    assert_string_equal(stuff->name, "our coffee");
    assert_string_equal(stuff->id, "our_coffee");
    assert_near(stuff->bulk_kg_per_m3.mid, 5.0 / 0.012, 1e-9);
    assert_int_equal(stuff->bulk_mark, STUFF_GIVEN);
    assert_near(s->layer[0].portion[0].wet_kg.mid, 15.0, 1e-9);
    assert_true(stuff->free_air_share > stuff_find("coffee grounds")->free_air_share);
}

static void an_own_figure_holds_for_every_name_of_its_row(void **state)
{
    (void)state;
    const struct scenario *s =
        reading_good(ON_GROUND "ingredients:\n"
                               "  horse manure: {water: 60 to 64 %, nitrogen: 2 %, carbon: 40 %,"
                               " piece: 2 cm, bulk: 500 kg/m3, ash: 20 %, seeds: some}\n"
                               "build:\n  - manure, horse: 3 buckets\n");
    const struct stuff *stuff = &s->stuff[s->layer[0].portion[0].stuff];
    assert_int_equal(s->stuffs, 1);
    assert_near(stuff->water_share.low, 0.60, 1e-12);
    assert_near(stuff->water_share.mid, 0.62, 1e-12);
    assert_near(stuff->nitrogen_share.mid, 0.02, 1e-12);
    assert_near(stuff->carbon_share, 0.40, 1e-12);
    assert_near(stuff->piece_m, 0.02, 1e-12);
    assert_near(stuff->ash_share, 0.20, 1e-12);
    assert_int_equal(stuff->weed_seeds, 1);
    assert_near(s->layer[0].portion[0].wet_kg.mid, 0.036 * 500.0, 1e-9);
}

static bool assumes(const struct scenario *s, const char *words)
{
    for (int i = 0; i < s->assumed; i++)
        if (!strncmp(s->assumption[i], words, strlen(words)))
            return true;
    return false;
}

/* [derived] 1.2 x 1.1 m, 0.8 m high, two thirds and one third of it, settled already */
static void a_standing_pile_fills_its_bin_to_the_height_seen(void **state)
{
    (void)state;
    const struct scenario *s =
        reading_good(ON_GROUND "found:\n"
                               "  height: 0.7 to 0.9 m\n  squeeze: crumbles\n  middle: 20 to 24 C\n"
                               "  hand deep: 12 C\n  built: 40 to 60 days ago\n"
                               "  of: {horse manure: 2 parts, straw: 1 part}\n");
    double seen = 0.0;
    assert_true(s->found.is);
    assert_int_equal(s->layers, 1);
    for (int i = 0; i < s->layer[0].portions; i++) {
        const struct plan_portion *p = &s->layer[0].portion[i];
        double settled = 1.0 - s->stuff[p->stuff].settle_share;
        seen += p->volume_m3.mid * settled;
        assert_near(p->volume_m3.mid * settled, 1.2 * 1.1 * 0.8 * (2 - i) / 3.0, 1e-12);
        assert_near(p->water_share.mid, 0.40, 1e-12);
    }
    assert_near(seen, 1.2 * 1.1 * 0.8, 1e-12);
    assert_near(s->found.built_days_ago, 50.0, 1e-12);
    assert_near(s->found.middle_K.mid, 295.15, 1e-12);
    assert_near(s->found.hand_deep_K.low, 285.15, 1e-12);
    assert_int_equal(s->found.squeeze, PLAN_CRUMBLES);
    assert_false(assumes(s, "found: built"));
    assert_false(assumes(s, "found: the middle"));
}

/* A pile found without an age or a temperature is taken for new and cool: who didn't say is told. */
static void what_is_not_said_of_a_standing_pile_is_assumed_and_told(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(ON_GROUND "found: {height: 90 cm, of: {straw: 1 part}}\n");
    assert_near(s->found.built_days_ago, 0.0, 0);
    assert_true(assumes(s, "found: built that day, nothing used up yet"));
    assert_true(assumes(s, "found: the middle 5 C warmer than the air"));
    s = reading_good(ON_GROUND "found: {height: 90 cm, hand deep: 20 C, of: {straw: 1 part}}\n");
    assert_true(assumes(s, "found: built that day"));
    assert_false(assumes(s, "found: the middle"));
}

/* [derived] a paraboloid holds half of its cylinder */
static void a_standing_heap_is_half_its_cylinder(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(
        READING_HEAD "heap: 2 m across\n"
                     "found: {height: 90 cm, built: 2025-08-29, of: {straw: 1 part}}\n");
    const struct plan_portion *p = &s->layer[0].portion[0];
    assert_near(p->volume_m3.mid * (1.0 - s->stuff[p->stuff].settle_share),
                0.5 * 3.14159265358979 * 0.9, 1e-9);
    assert_near(s->found.built_days_ago, 50.0, 1e-12);
}

static void stock_is_kept_but_makes_no_pile(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(
        ON_GROUND "measures: {bag: 100 L}\nhave: {mixed leaves: 10 bags pressed crisp, straw: 5 kg}\n");
    assert_int_equal(s->layers, 0);
    assert_int_equal(s->haves, 2);
    assert_near(s->have[0].volume_m3.mid, 1.0, 1e-12);
    assert_int_equal(s->have[0].vessel, PLAN_BAG);
    assert_near(s->have[0].vessel_m3, 0.1, 1e-12);
    assert_int_equal(s->have[1].vessel, PLAN_BY_MASS);
    assert_near(s->have[1].wet_kg.mid, 5.0, 1e-12);
    reading_bad(ON_GROUND "have: {mixed leaves: 10}\n", "a number without its unit");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_repeat_is_a_block_again_and_again),
        cmocka_unit_test(names_in_any_order_mean_one_ingredient),
        cmocka_unit_test(a_squeezed_layer_is_as_wet_as_it_feels),
        cmocka_unit_test(weighing_a_bucket_beats_the_table),
        cmocka_unit_test(an_own_figure_holds_for_every_name_of_its_row),
        cmocka_unit_test(a_standing_pile_fills_its_bin_to_the_height_seen),
        cmocka_unit_test(what_is_not_said_of_a_standing_pile_is_assumed_and_told),
        cmocka_unit_test(a_standing_heap_is_half_its_cylinder),
        cmocka_unit_test(stock_is_kept_but_makes_no_pile),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
