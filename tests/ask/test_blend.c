/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_blend.c - ask/blend: sums that agree with a season's books and with the handbook. */
#include "ask/blend.h"
#include "run/season_of.h"

#define HEAD "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47 N}\nsky: cold winters\n" \
    "bin: 1.2 x 1.2 x 1 m\nneed: by 2025-10-20\n"
#define BUILT HEAD "build:\n" \
    "  - straw: 20 buckets loose\n    horse manure: 50 kg\n    water: 2 buckets\n" \
    "  - grass clippings: 5 to 7 buckets\n    old bottom soil: 1 bucket\n" \
    "  - mixed leaves: 2 bags pressed\n    squeeze: drips\n"
#define FOUND HEAD "found:\n  height: 60 to 80 cm\n  squeeze: crumbles\n  built: 45 days ago\n" \
    "  of: {horse manure: 4 parts, straw: 3 parts}\n"

static double flux(const struct record_day *day, enum flux_of of)
{
    double sum = 0;
    for (int i = 0; i < FLUXES; i++)
        if (flux_rows[i].of == of && strcmp(flux_rows[i].group, "added") != 0 && i != FLUX_poured_water)
            sum += day->flux[i];
    return sum;
}

/* The first day of a season began with this blend: what the day's named fluxes took is added back.
 * 1e-9 is far above the rounding of a day's steps and far below a gram. */
static void check_day_one(const char *text)
{
    struct season_of *s = season_of_begin(text, NULL);
    struct blend blend;
    assert_true(climate_curve(&s->sky, &s->scenario, 0, &s->why));
    assert_true(blend_pile(&blend, &s->scenario, &s->possible, &s->sky, &s->why));
    season_of_run(s);
    const struct record_day *day = &s->record.day[0];
    assert_near(blend.carbon_kg, day->carbon_kg - flux(day, FLUX_OF_CARBON), 1e-9 * day->carbon_kg);
    assert_near(blend.nitrogen_kg, day->nitrogen_kg - flux(day, FLUX_OF_NITROGEN),
                1e-9 * day->nitrogen_kg);
    assert_near(blend.water_kg, day->wet_kg - day->dry_kg - flux(day, FLUX_OF_WATER),
                1e-9 * day->wet_kg);
    /* fourteen hours of decay and settling: less than 4 % of the volume, and only downward */
    double left = day->volume_m3 / blend_figure(&blend, BLEND_BUILT);
    assert_true(left > 0.96 && left < 1);
    assert_near(day->free_air_share, blend_figure(&blend, BLEND_FREE_AIR), 0.015);
    assert_near(day->water_share, blend_figure(&blend, BLEND_WATER_SHARE), 0.02);
    season_of_free(s);
}

static void a_season_begins_with_what_was_mixed(void **state)
{
    (void)state;
    check_day_one(BUILT);
}

static void and_with_what_was_found(void **state)
{
    (void)state;
    check_day_one(FOUND);
}

/* Layer by layer, portion by portion, it is the same as the whole. */
static void parts_add_up_to_the_pile(void **state)
{
    (void)state;
    struct season_of *s = season_of_begin(BUILT, NULL);
    struct blend pile, one, sum = {0};
    double settled = 0;
    assert_true(climate_curve(&s->sky, &s->scenario, 0, &s->why));
    assert_true(blend_pile(&pile, &s->scenario, &s->possible, &s->sky, &s->why));
    for (int l = 0; l < s->scenario.layers; l++) {
        const struct plan_layer *layer = &s->scenario.layer[l];
        for (int i = 0; i < layer->portions; i++) {
            blend_portion(&one, &s->scenario, &s->possible, &layer->portion[i], blend_pressed(&pile));
            blend_add(&sum, &one, 1);
            struct possible_portion lies = possible_portion(&s->possible, &layer->portion[i]);
            settled += lies.volume_m3 *
                       possible_settled(&s->possible.stuff[layer->portion[i].stuff],
                                        lies.wet_kg * (1 - lies.water_share) / lies.volume_m3);
        }
        blend_poured(&one, &s->possible, layer->water_kg.mid);
        blend_add(&sum, &one, 1);
    }
    assert_near(sum.carbon_kg, pile.carbon_kg, 1e-9);
    assert_near(sum.nitrogen_kg, pile.nitrogen_kg, 1e-9);
    assert_near(sum.dry_kg, pile.dry_kg, 1e-9);
    assert_near(sum.water_kg, pile.water_kg, 1e-9);
    assert_near(sum.solid_m3, pile.solid_m3, 1e-12);
    assert_near(sum.carried_m3, pile.carried_m3, 1e-12);
    assert_near(sum.loose_m3, pile.loose_m3, 1e-12);
    assert_near(sum.built_m3, pile.built_m3, 1e-9);
    assert_near(pile.settled_m3, settled, 1e-9);
    assert_true(pile.settled_m3 < pile.built_m3 && pile.built_m3 < pile.carried_m3);
    season_of_free(s);
}

struct half {
    double kg, water, carbon, nitrogen; /* of the wet mass; of the dry mass */
};

static struct blend blend_of(const struct half *half)
{
    double dry = half->kg * (1 - half->water);
    return (struct blend){.dry_kg = dry, .water_kg = half->kg * half->water,
                          .carbon_kg = dry * half->carbon, .nitrogen_kg = dry * half->nitrogen};
}

/* Rynk (ed.) 1992, On-Farm Composting Handbook, NRAES-54, formulas for a mix of two [memory]:
 *   moisture = (a Ma + b Mb)/(a + b)
 *   C:N = (a Ca (1 - Ma) + b Cb (1 - Mb)) / (a Na (1 - Ma) + b Nb (1 - Mb))
 * with the worked example of Cornell's course on composting [memory]: 10 kg of grass, 77 % water,
 * 45 % carbon, 2.4 % nitrogen; with 3.5 kg of leaves, 35 %, 50 %, 0.75 %: C:N 30, 66 % water. */
static void two_ingredients_mix_as_the_handbook_says(void **state)
{
    (void)state;
    struct half a = {10, 0.77, 0.45, 0.024}, b = {3.5, 0.35, 0.50, 0.0075};
    struct blend sum = blend_of(&a), leaves = blend_of(&b);
    blend_add(&sum, &leaves, 1);
    assert_near(blend_figure(&sum, BLEND_C_TO_N), 30, 0.5);
    assert_near(blend_figure(&sum, BLEND_WATER_SHARE), 0.66, 0.005);
    double moisture = (a.kg * a.water + b.kg * b.water) / (a.kg + b.kg);
    double ratio = (a.kg * a.carbon * (1 - a.water) + b.kg * b.carbon * (1 - b.water)) /
                   (a.kg * a.nitrogen * (1 - a.water) + b.kg * b.nitrogen * (1 - b.water));
    assert_near(blend_figure(&sum, BLEND_WATER_SHARE), moisture, 1e-12);
    assert_near(blend_figure(&sum, BLEND_C_TO_N), ratio, 1e-12);
}

/* W = M (m2 - m1)/(1 - m2) [derived]: 300 kg from 40 to 55 % take 100 L, 5.3 buckets of 18.93 L. */
static void water_to_pour_follows_from_the_dry_matter(void **state)
{
    (void)state;
    struct blend blend = {.dry_kg = 180, .water_kg = 120};
    assert_near(blend_water_wanted(&blend, 0.55), 300 * (0.55 - 0.40) / (1 - 0.55), 1e-9);
    assert_near(blend_water_wanted(&blend, 0.55), 100, 1e-9);
    assert_near(blend_water_wanted(&blend, 0.55) / 18.93, 5.3, 0.1);
    assert_true(blend_water_wanted(&blend, 0.30) < 0);
}

static void nothing_has_no_ratio(void **state)
{
    (void)state;
    struct blend none = {0};
    assert_true(isnan(blend_figure(&none, BLEND_C_TO_N)));
    assert_true(isnan(blend_figure(&none, BLEND_WATER_SHARE)));
    assert_true(isnan(blend_figure(&none, BLEND_FREE_AIR)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_season_begins_with_what_was_mixed),
        cmocka_unit_test(and_with_what_was_found),
        cmocka_unit_test(parts_add_up_to_the_pile),
        cmocka_unit_test(two_ingredients_mix_as_the_handbook_says),
        cmocka_unit_test(water_to_pour_follows_from_the_dry_matter),
        cmocka_unit_test(nothing_has_no_ratio),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
