/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_survey.c - what a laboratory and the eye would say of whole seasons, and readiness.
 *
 * Seasons run with the shipped constants: the claims are of the program as it is. The weather is
 * steady where a difference is to be the pile's.
 */
#include "ask/ready.h"
#include "ask/yield.h"
#include "flow/gas.h"
#include "run/season_of.h"

#define PLACE(need) "midden: 1\nstart: 2025-03-20\n" \
    "place: {latitude: 50 N, elevation: 100 m, sun: shade, wind: sheltered}\nsky: mild and wet\n" \
    "bins:\n  one: {size: 1.1 x 1.1 x 1.2 m, walls: boards, lid: boards}\n" \
    "  two: {like: one, now: empty}\nneed: " need "\n"
#define GOOD_MIX "build:\n  - repeat: 8\n    layers:\n      - wheat straw: 45 L\n" \
    "        horse manure: 45 L\n        grass clippings: 30 L\n        water: 3 L\n"
#define TURNS "plans:\n  turned:\n    - {every: 10 days, from: 2025-04-01, until: 2025-07-01,\n" \
    "       turn: outside in, into: next, water: until it drips}\n"
#define ONE(recipe) "midden: 1\nstart: 2025-03-20\nplace: {latitude: 50 N, elevation: 100 m}\n" \
    "sky: mild and wet\nbin: 1 x 1 x 1 m\nneed: by 2025-03-24\nplans: {leave it: []}\n" \
    "build:\n  - repeat: 4\n    layers:\n      - " recipe "\n"

static const struct record_day *day(const struct season_of *s, int number)
{
    return &s->record.day[number - 1];
}

static double breath_mg(const struct record_day *row)
{
    return row->test_breath_per_s * 86400e3;
}

static double rise_of(const char *recipe)
{
    struct season_of *s = season_of_steady(recipe, NULL, 10, 0);
    double rise = day(s, 1)->flask_rise_K;
    season_of_free(s);
    return rise;
}

/* Class I, a rise above 40 K: fresh mixes reach 60 to 70 C in a room of 20 C (a German compost
 * plant's page [seen]). Class V, below 10 K: finished compost (same page [seen]; 10 K from Brinton et
 * al. 1995 [memory]). */
static void a_fresh_green_mix_is_of_the_first_class_and_finished_compost_of_the_last(void **state)
{
    (void)state;
    double fresh = rise_of(ONE("grass clippings: 60 L\n        wheat straw: 60 L"));
    assert_in_range((int)fresh, 40, 50);
    assert_true(rise_of(ONE("vegetable trimmings: 60 L\n        mixed leaves: 90 L")) > 40);
    assert_true(rise_of(ONE("finished compost: 60 L")) < 10);
    assert_true(rise_of(ONE("wood chips: 60 L")) < 10); /* nothing to heat with is no finished compost */
}

/* Both tests rank compost alike: tables set their classes side by side (California index 2001, TMECC
 * [memory]). Of what has passed its peak, week by week, neither rises while the other falls. */
static void breath_and_flask_agree_in_order(void **state)
{
    (void)state;
    struct season_of *s = season_of_steady(PLACE("by 2025-09-20") GOOD_MIX TURNS, NULL, 15, 1);
    int apart = 0, compared = 0;
    for (int d = 29; d + 14 <= 180; d += 7) {
        double breath = breath_mg(day(s, d + 14)) - breath_mg(day(s, d));
        double rise = day(s, d + 14)->flask_rise_K - day(s, d)->flask_rise_K;
        apart += breath * rise < 0;
        compared++;
    }
    assert_true(compared > 18);
    assert_int_equal(apart, 0);
    assert_true(day(s, 29)->flask_rise_K - day(s, 180)->flask_rise_K > 10);
    season_of_free(s);
}

/* A turned, moist pile that warms by 15 K or more has food left, one that stays within 10 K of the air
 * cures [both trade]; the Canadian guideline asks the same of a sample with 8 K (CCME 2005 [memory]).
 * What a pile does after a turn is what a flask says of it before. */
static void a_turned_pile_reheats_as_its_flask_says(void **state)
{
    (void)state;
    const double air_C = 15;
    struct season_of *s = season_of_steady(PLACE("by 2025-09-20") GOOD_MIX
        "plans:\n  turned:\n    - {every: 15 days, from: 2025-04-01, until: 2025-09-10,\n"
        "       turn: mixed, into: next, water: until it drips}\n", NULL, air_C, 1);
    int hot = 0, cured = 0;
    double before = INFINITY;
    for (int e = 0; e < s->record.events; e++) {
        int turned = s->record.event[e].day; /* from 0 */
        double flask = s->record.day[turned].flask_rise_K;
        double warmer = season_of_peak(&s->record, turned + 1, turned + 7) - air_C;
        assert_true(warmer < before); /* so do the flasks: breath_and_flask_agree_in_order */
        before = warmer;
        if (flask > 30)
            hot += warmer > 15;
        if (flask < 8) {
            cured++;
            assert_true(warmer < 10);
        }
    }
    assert_true(hot > 0 && cured > 0);
    season_of_free(s);
}

/* Laid on top first, then dug in, then sown into, within a year; not on its first day. [trade] */
static void a_year_old_well_turned_pile_served_mulch_then_beds_then_pots(void **state)
{
    (void)state;
    struct season_of *s = season_of(PLACE("by 2026-03-20") GOOD_MIX TURNS, NULL);
    double when[READY_USES];
    for (int use = 0; use < READY_USES; use++)
        when[use] = ready_day(&s->record, &s->scenario, use);
    /* piles turned daily are called finished after 2 to 3 weeks (Raabe, University of California
     * [seen]), others turned often after 8 to 12 [trade]; a backyard pile is ready in about six months
     * (a city's guide [seen]) */
    assert_true(when[READY_MULCH] > 14 && when[READY_MULCH] < 84);
    assert_true(when[READY_MULCH] < when[READY_BEDS] && when[READY_BEDS] < 184);
    assert_true(when[READY_BEDS] < when[READY_POTS] && when[READY_POTS] <= 365);
    for (int use = 0; use < READY_USES; use++) {
        assert_int_equal(ready_why(&s->record, &s->scenario, use, 5), READY_WORKING);
        assert_int_equal(ready_why(&s->record, &s->scenario, use, 366), READY_IS);
    }
    season_of_free(s);
}

/* 20 to 50 % of the first volume is left, typically a third (garden guides [seen]; NRAES-54 [memory]:
 * half of the wet weight), and 40 to 60 % of its dry mass is gone. */
static void a_third_to_a_half_of_it_is_left(void **state)
{
    (void)state;
    struct season_of *s = season_of(PLACE("by 2026-03-20") GOOD_MIX TURNS, NULL);
    double left = yield_of(&s->record, YIELD_OF_LAID, 180);
    double dry = yield_of(&s->record, YIELD_DRY_KG, 180) / day(s, 1)->laid_kg;
    assert_true(left > 0.2 && left < 0.5);
    assert_true(dry > 0.4 && dry < 0.6);
    season_of_free(s);
}

/* Cold is not finished: frozen it breathes nothing, and its sample heats like new. [trade; a frozen
 * pile restarts on thaw: garden guides, seen] */
static void a_raw_pile_that_froze_is_not_ready_but_frozen(void **state)
{
    (void)state;
    struct season_of *s = season_of_begin(ONE("mixed leaves: 90 L\n        horse manure: 30 L"), NULL);
    s->scenario.last_day = 60;
    season_of_still(s, -12, 0, 100, -12);
    s->param.laid_warmer_K = 0;
    season_of_run(s);
    assert_true(season_of_C(day(s, 61)->middle_K) < 0);
    for (int use = 0; use < READY_USES; use++) {
        assert_true(isnan(ready_day(&s->record, &s->scenario, use)));
        assert_int_equal(ready_why(&s->record, &s->scenario, use, 61), READY_FROZEN);
    }
    assert_true(day(s, 61)->flask_rise_K > 30);
    assert_true(day(s, 61)->limit[RECORD_CORE][RECORD_TEMPERATURE] < 0.05);
    season_of_free(s);
}

/* Dried to a fifth of water it is cool and says so; the same pile wetted heats within days (S8, S18 of
 * any handbook's list of troubles: it crumbles when squeezed [trade]). */
static void a_dry_pile_says_so_and_water_makes_it_work_on(void **state)
{
    (void)state;
    static const char dry[] = PLACE("by 2025-06-20")
        "build:\n  - repeat: 8\n    layers:\n      - wheat straw: 60 L\n        grass hay: 40 L\n"
        "        dry grass clippings: 30 L\n"
        "plans:\n  leave it: []\n  wet it:\n"
        "    - {day: 2025-04-25, turn: mixed, water: until it drips}\n";
    struct season_of *left = season_of_steady(dry, "leave it", 10, 0);
    assert_true(day(left, 36)->water_share < 0.25);
    assert_int_equal(ready_why(&left->record, &left->scenario, READY_BEDS, 36), READY_DRY);
    assert_int_equal(ready_why(&left->record, &left->scenario, READY_BEDS, 93), READY_DRY);
    struct season_of *wetted = season_of_steady(dry, "wet it", 10, 0);
    assert_int_equal(ready_why(&wetted->record, &wetted->scenario, READY_BEDS, 45), READY_WORKING);
    assert_true(season_of_peak(&wetted->record, 37, 60) > season_of_peak(&left->record, 0, 93) + 15);
    season_of_free(left);
    season_of_free(wetted);
}

/* Wood neither breathes nor heats, which laboratories' limits alone would pass; C:N and the sieve tell.
 * [trade: chips are a mulch, and rob a bed of nitrogen] */
static void wood_chips_are_a_mulch_and_no_compost(void **state)
{
    (void)state;
    struct season_of *s = season_of_steady(PLACE("by 2025-09-20") "build:\n  - wood chips: 800 L\n"
                                           "    water: 100 L\n", NULL, 15, 1);
    assert_true(breath_mg(day(s, 185)) < 4 && day(s, 185)->flask_rise_K < 10);
    assert_near(ready_day(&s->record, &s->scenario, READY_MULCH), 1, 0);
    for (int use = READY_BEDS; use <= READY_POTS; use++) {
        assert_true(isnan(ready_day(&s->record, &s->scenario, use)));
        enum ready_why why = ready_why(&s->record, &s->scenario, use, 185);
        assert_true(why == READY_WOODY || why == READY_HUNGRY);
    }
    season_of_free(s);
}

/* ---- what holds decay back ---- */

#define JAR(held) "midden: 1\nstart: 2026-01-01\nplace: {latitude: 50 N, elevation: 100 m}\n" \
    "sky: mild and wet\njar: {across: 20 cm, high: 25 cm, " held "}\nbuild:\n  - kitchen scraps: 1 L\n" \
    "    mixed leaves: 2 L\nplans: {leave it: []}\nneed: by 2026-01-05\n"

static void limits_of(const char *text, double limit[RECORD_LIMITS], struct param *param)
{
    struct season_of *s = season_of_steady(text, NULL, 10, 0);
    memcpy(limit, day(s, 3)->limit[RECORD_CORE], RECORD_LIMITS * sizeof *limit);
    *param = s->param;
    assert_true(isnan(day(s, 3)->limit[RECORD_SHOULDER][0])); /* one cell is all core */
    season_of_free(s);
}

/* Haug's moisture factor 1/(1 + exp(b - a m)) and Monod's of oxygen stand alone in the pace of every
 * pool, so a jar's limits are theirs. [Haug 1993; Richard, Walker and Gossett 2006: forms, memory
 * and seen] */
static void a_held_jar_is_held_back_by_what_it_is_held_at(void **state)
{
    (void)state;
    double best[RECORD_LIMITS], dry[RECORD_LIMITS], airless[RECORD_LIMITS], cool[RECORD_LIMITS];
    struct param p;
    limits_of(JAR("held at: 58 C, held water: 60 %"), best, &p);
    assert_near(best[RECORD_TEMPERATURE], 1, 1e-6); /* its best, Suler and Finstein 1977 [seen] */
    assert_near(best[RECORD_OXYGEN], 1, 1e-2);
    limits_of(JAR("held at: 58 C, held water: 35 %"), dry, &p);
    assert_near(dry[RECORD_WATER], 1 / (1 + exp(p.wet_offset - 0.35 * p.wet_slope)), 1e-9);
    assert_true(dry[RECORD_WATER] < best[RECORD_WATER]);
    limits_of(JAR("held at: 58 C, held water: 60 %, held oxygen: 1 %"), airless, &p);
    double half = p.oxygen_half_share * exp(p.film_slope * 0.05);
    assert_near(airless[RECORD_OXYGEN],
                0.01 / (0.01 + half) * (GAS_OXYGEN_OUTSIDE + half) / GAS_OXYGEN_OUTSIDE, 1e-9);
    limits_of(JAR("held at: 15 C, held water: 60 %"), cool, &p);
    assert_true(cool[RECORD_TEMPERATURE] > 0.05 && cool[RECORD_TEMPERATURE] < 0.5);
    for (int n = 0; n < RECORD_LIMITS; n++)
        assert_true(best[n] >= 0 && best[n] <= 1 && airless[n] >= 0 && cool[n] <= 1);
    assert_true(cool[RECORD_FOOD] > best[RECORD_FOOD]); /* less of it is gone in the cold */
}

static void limits_are_shares_and_food_runs_out(void **state)
{
    (void)state;
    struct season_of *s = season_of(PLACE("by 2025-07-20") GOOD_MIX TURNS, NULL);
    for (int d = 1; d <= s->record.days; d++)
        for (int p = 0; p < RECORD_PLACES; p++)
            for (int n = 0; n < RECORD_LIMITS; n++)
                assert_true(day(s, d)->limit[p][n] >= 0 && day(s, d)->limit[p][n] <= 1);
    assert_true(day(s, 1)->limit[RECORD_CORE][RECORD_FOOD] > 0.9);
    assert_true(day(s, 90)->limit[RECORD_CORE][RECORD_FOOD] < 0.2);
    season_of_free(s);
}

/* ---- the eye ---- */

/* Whole leaves and straw are to be told at first, coffee grounds and sawdust pass a sieve from the
 * start, and after a year of turning little is left to be told as what it was. [trade] */
static void leaves_are_told_at_first_and_hardly_in_the_end(void **state)
{
    (void)state;
    struct season_of *coarse = season_of_steady(ONE("mixed leaves: 90 L\n        wheat straw: 60 L"),
                                                NULL, 10, 0);
    struct season_of *fine = season_of_steady(ONE("coffee grounds: 60 L\n        hardwood sawdust: 60 L"),
                                              NULL, 10, 0);
    assert_true(day(coarse, 1)->sticks_share > 0.8);
    assert_true(day(fine, 1)->sticks_share < 0.05);
    season_of_free(coarse);
    season_of_free(fine);
    struct season_of *s = season_of(PLACE("by 2026-03-20") GOOD_MIX TURNS, NULL);
    for (int d = 31; d <= s->record.days; d += 30)
        assert_true(day(s, d)->sticks_share <= day(s, d - 30)->sticks_share + 1e-9);
    assert_true(day(s, 366)->sticks_share < 0.1);
    season_of_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fresh_green_mix_is_of_the_first_class_and_finished_compost_of_the_last),
        cmocka_unit_test(breath_and_flask_agree_in_order),
        cmocka_unit_test(a_turned_pile_reheats_as_its_flask_says),
        cmocka_unit_test(a_year_old_well_turned_pile_served_mulch_then_beds_then_pots),
        cmocka_unit_test(a_third_to_a_half_of_it_is_left),
        cmocka_unit_test(a_raw_pile_that_froze_is_not_ready_but_frozen),
        cmocka_unit_test(a_dry_pile_says_so_and_water_makes_it_work_on),
        cmocka_unit_test(wood_chips_are_a_mulch_and_no_compost),
        cmocka_unit_test(a_held_jar_is_held_back_by_what_it_is_held_at),
        cmocka_unit_test(limits_are_shares_and_food_runs_out),
        cmocka_unit_test(leaves_are_told_at_first_and_hardly_in_the_end),
    };
    return cmocka_run_group_tests_name("run/survey", tests, NULL, NULL);
}
