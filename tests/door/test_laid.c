/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_laid.c - door/laid: what an amount means in kilograms, water and litres. */
#include "door/laid.h"
#include "door/reading.h"

/* the only portion of a pile of one layer */
static const struct plan_portion *portion(const char *ingredient, const char *amount)
{
    char text[512];
    snprintf(text, sizeof text, READING_HEAD READING_BIN "build:\n  - %s: %s\n", ingredient,
             amount);
    const struct scenario *scenario = reading_good(text);
    assert_int_equal(scenario->layers, 1);
    assert_int_equal(scenario->layer[0].portions, 1);
    return &scenario->layer[0].portion[0];
}

static double middle_kg(const char *ingredient, const char *amount)
{
    return portion(ingredient, amount)->wet_kg.mid;
}

/* [memory] fresh mass of a bucket of 5 US gallons as listed for gardeners, each within 30 %: leaves
 * loose 0.8-1.5 kg and trodden 2-3, straw loose 0.6-1.2, kitchen scraps 8-12, coffee grounds 7-9,
 * wood chips 4-6. Our middle has to fall into the span as listed. */
static void a_bucket_weighs_what_gardeners_find(void **state)
{
    (void)state;
    static const struct {
        const char *ingredient, *amount;
        double least_kg, most_kg;
    } rows[] = {
        {"mixed leaves", "5 US gallons loose crisp", 0.8, 1.5},
        {"mixed leaves", "5 US gallons pressed crisp", 2.0, 3.0},
        {"straw", "5 US gallons loose", 0.6, 1.2},
        {"kitchen scraps", "5 US gallons", 8.0, 12.0},
        {"coffee grounds", "5 US gallons", 7.0, 9.0},
        {"wood chips", "5 US gallons", 4.0, 6.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double kg = middle_kg(rows[i].ingredient, rows[i].amount);
        if (kg < rows[i].least_kg || kg > rows[i].most_kg)
            fail_msg("%s: %g kg", rows[i].ingredient, kg);
    }
}

/* [derived] 6 buckets of 12 L of grass at the table's density */
static void volume_times_density_is_mass(void **state)
{
    (void)state;
    const struct stuff *grass = stuff_find("grass clippings");
    const struct plan_portion *p = portion("grass clippings", "5 to 7 buckets");
    assert_near(p->volume_m3.low, 0.060, 1e-12);
    assert_near(p->volume_m3.mid, 0.072, 1e-12);
    assert_near(p->volume_m3.high, 0.084, 1e-12);
    assert_near(p->wet_kg.low, 0.060 * grass->bulk_kg_per_m3.low, 1e-9);
    assert_near(p->wet_kg.mid, 0.072 * grass->bulk_kg_per_m3.mid, 1e-9);
    assert_near(p->wet_kg.high, 0.084 * grass->bulk_kg_per_m3.high, 1e-9);
    assert_near(p->water_share.mid, grass->water_share.mid, 0.0);
}

static void mass_over_density_is_volume(void **state)
{
    (void)state;
    const struct stuff *grass = stuff_find("grass clippings");
    const struct plan_portion *p = portion("grass clippings", "10 lb");
    assert_near(p->wet_kg.low, 4.5359237, 1e-12);
    assert_near(p->wet_kg.high, 4.5359237, 1e-12);
    assert_near(p->volume_m3.mid, 4.5359237 / grass->bulk_kg_per_m3.mid, 1e-12);
    assert_near(p->volume_m3.low, 4.5359237 / grass->bulk_kg_per_m3.high, 1e-12);
}

/* trade: loose 0.8, pressed 1.6 of the usual density, heaped 1.2 of the volume */
static void packing_changes_density_or_volume(void **state)
{
    (void)state;
    double usual = middle_kg("straw", "10 buckets");
    assert_near(middle_kg("straw", "10 buckets level"), usual, 1e-12);
    assert_near(middle_kg("straw", "10 buckets loose"), 0.8 * usual, 1e-9);
    assert_near(middle_kg("straw", "10 buckets pressed"), 1.6 * usual, 1e-9);
    assert_near(middle_kg("straw", "10 buckets heaped"), 1.2 * usual, 1e-9);
    assert_near(portion("straw", "10 buckets pressed")->volume_m3.mid, 0.12, 1e-12);
    assert_near(portion("straw", "10 buckets heaped")->volume_m3.mid, 0.144, 1e-12);
}

/* water by the word, and dry matter the same whatever the word [derived] */
static void a_state_changes_water_not_dry_matter(void **state)
{
    (void)state;
    static const char *const words[] = {"crisp", "wilted", "fresh", "soaked"};
    const struct stuff *leaves = stuff_find("mixed leaves");
    double want[] = {leaves->water_share.low,
                     0.5 * (leaves->water_share.low + leaves->water_share.mid),
                     leaves->water_share.mid, fmax(leaves->water_share.high, 0.78)};
    const struct plan_portion *p = portion("mixed leaves", "8 bags loose");
    double dry_kg = p->wet_kg.mid * (1.0 - p->water_share.mid);
    for (size_t i = 0; i < 4; i++) {
        char amount[40];
        snprintf(amount, sizeof amount, "8 bags loose %s", words[i]);
        p = portion("mixed leaves", amount);
        assert_near(p->water_share.mid, want[i], 1e-12);
        assert_near(p->wet_kg.mid * (1.0 - p->water_share.mid), dry_kg, 1e-9);
    }
}

static void size_words_bound_the_pieces(void **state)
{
    (void)state;
    double usual = stuff_find("corn stalks")->piece_m;
    assert_near(portion("corn stalks", "1 bag")->piece_m, usual, 0.0);
    assert_near(portion("corn stalks", "1 bag chopped")->piece_m, fmin(usual, 0.03), 0.0);
    assert_near(portion("green prunings", "1 bag whole")->piece_m,
                fmax(stuff_find("green prunings")->piece_m, 0.06), 0.0);
    assert_near(portion("coffee grounds", "1 bag chopped")->piece_m,
                stuff_find("coffee grounds")->piece_m, 0.0);
}

/* A pressed bucket of what is nearly all water already can't hold more than without air. */
static void nothing_is_pressed_beyond_its_own_matter(void **state)
{
    (void)state;
    for (int i = 0; i < stuff_count; i++) {
        struct laid laid = {.amount = {1.0, 1.0, 1.0}, .packing = LAID_PRESSED};
        struct plan_portion p = {0};
        for (int s = LAID_TYPICAL; s <= LAID_SOAKED; s++) {
            laid.state = (enum laid_state)s;
            laid_portion(&stuff_rows[i], &laid, &p);
            assert_true(p.wet_kg.high <= 0.951 * laid_solid(&stuff_rows[i], p.water_share.mid));
            assert_true(p.wet_kg.low <= p.wet_kg.mid && p.wet_kg.mid <= p.wet_kg.high);
            assert_true(p.wet_kg.low > 0.0);
            assert_true(p.water_share.low <= p.water_share.mid);
            assert_true(p.water_share.mid <= p.water_share.high && p.water_share.high < 1.0);
        }
    }
}

/* The free air worked out again agrees with the table's own figure within its rounding. */
static void free_air_is_that_of_the_table(void **state)
{
    (void)state;
    for (int i = 0; i < stuff_count; i++)
        assert_near(laid_free_air(&stuff_rows[i]), stuff_rows[i].free_air_share, 0.02);
}

static double water_kg(const char *water)
{
    char text[512];
    snprintf(text, sizeof text,
             READING_HEAD READING_BIN "build:\n  - straw: 9 bags\n    water: %s\n", water);
    return reading_good(text)->layer[0].water_kg.mid;
}

/* trade: a bucket of water is carried at four fifths of its brim */
static void water_is_carried_at_four_fifths(void **state)
{
    (void)state;
    assert_near(water_kg("2 buckets"), 19.2, 1e-12);
    assert_near(water_kg("2 buckets level"), 24.0, 1e-12);
    assert_near(water_kg("20 L"), 20.0, 1e-12);
    assert_near(water_kg("20 kg"), 20.0, 1e-12);
    assert_near(water_kg("1 to 3 buckets at 40 C"), 19.2, 1e-12);
    assert_near(READ.layer[0].water_kg.low, 9.6, 1e-12);
    assert_near(READ.layer[0].pour_K, 313.15, 1e-12);
}

/* trade: five words about 30, 40, 48, 55, 65 % of water, each within 7 points */
static void squeeze_words_are_shares_of_water(void **state)
{
    (void)state;
    static const double want[] = {0.30, 0.40, 0.48, 0.55, 0.65};
    for (int i = 0; i < PLAN_SQUEEZES; i++) {
        struct span share = laid_squeeze_share(i);
        assert_near(share.mid, want[i], 1e-12);
        assert_near(share.high - share.mid, 0.07, 1e-12);
        assert_near(share.mid - share.low, 0.07, 1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_bucket_weighs_what_gardeners_find),
        cmocka_unit_test(volume_times_density_is_mass),
        cmocka_unit_test(mass_over_density_is_volume),
        cmocka_unit_test(packing_changes_density_or_volume),
        cmocka_unit_test(a_state_changes_water_not_dry_matter),
        cmocka_unit_test(size_words_bound_the_pieces),
        cmocka_unit_test(nothing_is_pressed_beyond_its_own_matter),
        cmocka_unit_test(free_air_is_that_of_the_table),
        cmocka_unit_test(water_is_carried_at_four_fifths),
        cmocka_unit_test(squeeze_words_are_shares_of_water),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
