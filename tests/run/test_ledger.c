/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_ledger.c - the books close in every season shipped, and a spoiled flux is caught.
 *
 * Conservation needs no source: what was laid in minus what left is what is there [derived]. The
 * program gives up at 1e-9 of a balance's throughput; the rounding of some thousand sums of double
 * numbers stays below 1e-11, which is asked here.
 */
#include "run/ledger.h"
#include "run/season_of.h"
#include <glob.h>

static void check_books(const char *path, const char *plan, const struct record *r)
{
    for (int b = 0; b < RECORD_BALANCES; b++)
        if (!(r->balance[b] <= 1e-11))
            fail_msg("%s, %s: %s is open by %g", path, plan, record_balance_name[b], r->balance[b]);
    /* carbon dioxide two ways: summed step by step and from the closed forms of the pools */
    if (!(r->respiration_gap <= 1e-3))
        fail_msg("%s, %s: respiration differs by %g", path, plan, r->respiration_gap);
    assert_true(r->flux_total[FLUX_co2_carbon] < 0);
    assert_true(r->flux_total[FLUX_decay_heat] > 0);
}

static void run_plans(const char *path)
{
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct curve sky;
    struct trouble why = {0};
    assert_non_null(scenario);
    assert_true(scenario_read(scenario, path, &why));
    assert_true(climate_curve(&sky, scenario, 1, &why));
    struct param param = param_usual();
    struct possible possible;
    possible_usual(&possible, scenario, &param);
    const struct curve *skies[] = {&sky};
    for (int plan = 0; plan < scenario->plans; plan++) {
        struct setup setup = {.scenario = scenario, .sky = skies, .possible = &possible, .plan = plan};
        struct record record;
        if (!season_run_x1(&record, &setup, &why))
            fail_msg("%s, %s: %s", path, scenario->plan[plan].name, why.text);
        check_books(path, scenario->plan[plan].name, &record);
        record_free(&record);
    }
    curve_free(&sky);
    free(scenario);
}

static void all_books_close_in_every_scenario_and_plan_that_is_shipped(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    assert_true(found.gl_pathc >= 4);
    for (size_t i = 0; i < found.gl_pathc; i++)
        run_plans(found.gl_pathv[i]);
    globfree(&found);
}

/* ---- spoiled by hand ---- */

static struct pile_weighed book_one_of_each(struct ledger *ledger)
{
    lane flux[FLUXES] = {0};
    *ledger = (struct ledger){0};
    flux[FLUX_added_carbon] = 40;
    flux[FLUX_co2_carbon] = -15;
    flux[FLUX_added_nitrogen] = 1.5;
    flux[FLUX_ammonia] = -0.25;
    flux[FLUX_added_water] = 150;
    flux[FLUX_rain_water] = 20;
    flux[FLUX_leachate_water] = -30;
    flux[FLUX_decay_heat] = 4e8;
    flux[FLUX_top_heat] = -3.5e8;
    flux[FLUX_added_seeds] = 1000;
    flux[FLUX_killed_seeds] = -600;
    ledger_book(ledger, flux);
    return (struct pile_weighed){
        .carbon_kg = 25, .nitrogen_kg = 1.25, .water_kg = 140, .heat_J = 0.5e8, .seeds = 400};
}

static void right_books_pass_and_each_spoiled_one_is_named(void **state)
{
    (void)state;
    static const char *const largest[RECORD_BALANCES] = {
        "added_carbon", "added_nitrogen", "added_water", "decay_heat", "added_seeds"};
    struct ledger ledger;
    struct trouble why = {0};
    struct pile_weighed right = book_one_of_each(&ledger);
    assert_true(ledger_check(&ledger, &right, &(struct moment){lane_everybody(), {6}}, &why));
    for (int b = 0; b < RECORD_BALANCES; b++) {
        assert_near(ledger.worst[b], 0, 1e-15);
        struct pile_weighed wrong = book_one_of_each(&ledger);
        lane *amount[RECORD_BALANCES] = {&wrong.carbon_kg, &wrong.nitrogen_kg, &wrong.water_kg,
                                         &wrong.heat_J, &wrong.seeds};
        *amount[b] += 1e-8 * ledger.through[b];
        why = (struct trouble){0};
        assert_false(ledger_check(&ledger, &wrong, &(struct moment){lane_everybody(), {6}}, &why));
        assert_int_equal(why.kind, TROUBLE_LEDGER);
        assert_non_null(strstr(why.text, record_balance_name[b]));
        assert_non_null(strstr(why.text, largest[b]));
        assert_non_null(strstr(why.text, "day 7"));
        assert_near(ledger.worst[b], 1e-8, 1e-12);
    }
}

static void an_amount_that_is_no_number_is_caught(void **state)
{
    (void)state;
    struct ledger ledger;
    struct trouble why = {0};
    struct pile_weighed wrong = book_one_of_each(&ledger);
    wrong.heat_J = NAN;
    assert_false(ledger_check(&ledger, &wrong, &(struct moment){lane_everybody(), {0}}, &why));
    assert_int_equal(why.kind, TROUBLE_LEDGER);
}

static void a_flux_booked_twice_is_caught(void **state)
{
    (void)state;
    struct ledger ledger;
    struct trouble why = {0};
    struct pile_weighed right = book_one_of_each(&ledger);
    lane again[FLUXES] = {0};
    again[FLUX_rain_water] = 20;
    ledger_book(&ledger, again);
    assert_false(ledger_check(&ledger, &right, &(struct moment){lane_everybody(), {0}}, &why));
    assert_non_null(strstr(why.text, "water"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_books_close_in_every_scenario_and_plan_that_is_shipped),
        cmocka_unit_test(right_books_pass_and_each_spoiled_one_is_named),
        cmocka_unit_test(an_amount_that_is_no_number_is_caught),
        cmocka_unit_test(a_flux_booked_twice_is_caught),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
