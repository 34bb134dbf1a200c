/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_flask.c - the self-heating test against an integrator of another library.
 *
 * The same laws of decay with the pools of two ingredients and mineral nitrogen as plain unknowns,
 * by the Runge-Kutta-Prince-Dormand method of order 8 of the GNU Scientific Library (rk8pd; its
 * reference manual, chapter Ordinary Differential Equations, memory).
 */
#include "run/flask.h"
#include "flow/gas.h"
#include "pile/read.h"
#include "run/season_of.h"
#include "run/setting.h"
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#define PILE(recipe) "midden: 1\nstart: 2026-05-01\nplace: {latitude: 50 N, elevation: 100 m}\n" \
    "sky: mild and wet\nbin: 1 x 1 x 1 m\nbuild:\n  - repeat: 4\n    layers:\n      - " recipe \
    "\nplans: {leave it: []}\nneed: by 2026-05-05\n"

enum { KINDS = 2, MICROBE = KINDS * POOLS, HUMUS, NITROGEN, SOUR, LIVING, DRY, OVER_K, UNKNOWNS };

struct opinion {
    const struct setting *setting;
    double ash, water, fast_laid, air, cools_s, scale_kg;
};

static void store_of(const struct opinion *o, const double y[], struct decay_store *store)
{
    const struct decay_law *law = &o->setting->balance.decay;
    double per[5] = {0}, fast = y[SOUR];
    *store = (struct decay_store){.carbon_kg = y[MICROBE] + y[HUMUS] + y[SOUR]};
    for (int i = 0; i < KINDS; i++) {
        const struct pile_stuff *stuff = &o->setting->pile.stuff[i];
        for (int k = 0; k < POOLS; k++) {
            store->moment[k][0] += y[i * POOLS + k] * stuff->rate_per_d[k];
            store->carbon_kg += y[i * POOLS + k];
        }
        double m = y[i * POOLS + POOL_PROTEIN] * stuff->rate_per_d[POOL_PROTEIN];
        per[0] += m * stuff->protein_oxygen;
        per[1] += m * stuff->protein_water;
        per[2] += m * stuff->protein_nitrogen;
        per[3] += m * stuff->protein_dry;
        per[4] += y[i * POOLS + POOL_LIGNIN] * stuff->rate_per_d[POOL_LIGNIN] * stuff->enclosed;
        fast += y[i * POOLS + POOL_FAST];
    }
    double whole = store->moment[POOL_PROTEIN][0];
    store->protein_oxygen = per[0] / whole;
    store->protein_water = per[1] / whole;
    store->protein_nitrogen = per[2] / whole;
    store->protein_dry = per[3] / whole;
    store->enclosed = per[4] / store->moment[POOL_LIGNIN][0];
    store->ph = law->ripe_ph + (law->fresh_ph - law->ripe_ph) * fmin(fast / o->fast_laid, 1);
}

static int rates(double time_s, const double x[], double rate[], void *of)
{
    const struct opinion *o = of;
    const struct balance *b = &o->setting->balance;
    double y[UNKNOWNS];
    (void)time_s;
    for (int n = 0; n < UNKNOWNS; n++)
        y[n] = n == OVER_K ? x[n] : x[n] * o->scale_kg;
    struct decay_store store;
    store_of(o, y, &store);
    struct decay_surroundings at = {y[OVER_K], 1, o->water, y[DRY]};
    struct decay_state now = {{0}, y[MICROBE], y[LIVING], y[HUMUS], y[NITROGEN], y[SOUR]};
    struct decay_potential p;
    struct decay_rates r;
    decay_potential(&b->decay, &store, &at, &now, &p);
    decay_rates(&b->decay, &store, &p, o->air, &r);
    for (int i = 0; i < KINDS; i++)
        for (int k = 0; k < POOLS; k++)
            rate[i * POOLS + k] = -r.pace[k] * o->setting->pile.stuff[i].rate_per_d[k] * y[i * POOLS + k];
    rate[MICROBE] = r.microbe_kg;
    rate[LIVING] = r.living_kg;
    rate[HUMUS] = r.humus_kg;
    rate[NITROGEN] = r.nitrogen_kg;
    rate[SOUR] = r.sour_kg;
    rate[DRY] = r.dry_kg;
    for (int n = 0; n < OVER_K; n++)
        rate[n] /= o->scale_kg;
    double heat_J_per_K = (y[DRY] - o->ash) * (1202 + 4.30 * y[OVER_K]) + 870 * o->ash + 4186 * o->water;
    rate[OVER_K] = b->heat_J_per_kg * r.oxygen_kg / heat_J_per_K - (y[OVER_K] - 20) / o->cools_s;
    return GSL_SUCCESS;
}

static void begin(struct opinion *o, double x[UNKNOWNS])
{
    const struct pile *pile = &o->setting->pile;
    static const enum state FROM[] = {STATE_MICROBE_KG, STATE_HUMUS_KG, STATE_NITROGEN_KG,
                                      STATE_SOUR_KG, STATE_LIVING_KG, STATE_DRY_KG};
    const struct decay_law *law = &o->setting->balance.decay;
    assert_int_equal(pile->stuffs, KINDS);
    o->scale_kg = pile_total(pile, pile_state(pile, STATE_DRY_KG));
    o->ash = pile_total(pile, pile->stock[STOCK_ASH_KG]);
    o->water = o->scale_kg * 0.55 / 0.45;
    o->fast_laid = pile_total(pile, pile->stock[STOCK_FAST_LAID_KG]);
    o->air = GAS_OXYGEN_OUTSIDE / (GAS_OXYGEN_OUTSIDE + law->oxygen_half);
    for (int i = 0; i < KINDS; i++)
        for (int k = 0; k < POOLS; k++)
            x[i * POOLS + k] = pile_total(pile, pile_pool(pile, i, (enum pool)k)) / o->scale_kg;
    for (int n = MICROBE; n <= DRY; n++)
        x[n] = pile_total(pile, pile_state(pile, FROM[n - MICROBE])) / o->scale_kg;
    x[OVER_K] = 20;
}

static double second_opinion(const struct setting *setting, double cools_s)
{
    struct opinion o = {.setting = setting, .cools_s = cools_s};
    double x[UNKNOWNS], time_s = 0, warmest = 0;
    begin(&o, x);
    gsl_odeiv2_system system = {rates, NULL, UNKNOWNS, &o};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 60, 1e-9, 1e-9);
    assert_non_null(driver);
    for (int hour = 1; hour <= 240; hour++) {
        assert_int_equal(gsl_odeiv2_driver_apply(driver, &time_s, hour * 3600.0, x), GSL_SUCCESS);
        warmest = fmax(warmest, x[OVER_K] - 20);
    }
    gsl_odeiv2_driver_free(driver);
    return warmest;
}

static struct setting *built(struct season_of *s)
{
    struct setting *setting = calloc(1, sizeof *setting);
    assert_non_null(setting);
    possible_usual(&s->possible, &s->scenario, &s->param);
    if (!setting_make(setting, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
    around_day(&setting->around, 0);
    setting_build(setting);
    return setting;
}

/* A class of the test is 10 K wide: steps of two hours, mostly explicit, must not move a sample by a
 * hundredth of one. [derived] */
static void agrees(const char *text, double hours, bool fierce)
{
    struct season_of *s = season_of_begin(text, NULL);
    if (fierce) { /* as fast and as steep as a member can be drawn */
        s->param.fast_per_day = 1.2;
        s->param.protein_per_day = 0.5;
        s->param.hottest_C = 66;
        s->param.best_C = 60;
        s->param.start_microbe_share = 0.04;
        s->param.lag_share = 0.002;
    }
    season_of_still(s, 10, 0, 100, 10);
    struct setting *setting = built(s);
    double rise = flask_rise(&setting->balance, hours * 3600);
    assert_near(rise, second_opinion(setting, hours * 3600), 0.1);
    assert_true(rise > 0);
    setting_free(setting);
    free(setting);
    season_of_free(s);
}

static void an_integrator_of_another_library_agrees(void **state)
{
    (void)state;
    agrees(PILE("wheat straw: 55 L\n        grass clippings: 30 L"), 16, false);
    agrees(PILE("mixed leaves: 100 L\n        kitchen scraps: 20 L"), 16, false);
    agrees(PILE("hardwood sawdust: 60 L\n        horse manure: 20 L"), 28, false);
    agrees(PILE("wood chips: 100 L\n        mixed leaves: 20 L"), 10, false);
    agrees(PILE("vegetable trimmings: 60 L\n        grass clippings: 60 L"), 28, true);
    agrees(PILE("mixed leaves: 100 L\n        kitchen scraps: 20 L"), 28, true);
}

/* The pile is read, never changed. [derived] */
static void filling_a_flask_leaves_the_pile_as_it_was(void **state)
{
    (void)state;
    struct season_of *s = season_of_begin(PILE("wheat straw: 55 L\n        grass clippings: 30 L"), NULL);
    season_of_still(s, 10, 0, 100, 10);
    struct setting *setting = built(s);
    double before = pile_total(&setting->pile, pile_pool(&setting->pile, 1, POOL_FAST));
    double first = flask_rise(&setting->balance, 57600);
    assert_near(flask_rise(&setting->balance, 57600), first, 0);
    assert_near(pile_total(&setting->pile, pile_pool(&setting->pile, 1, POOL_FAST)), before, 0);
    /* a better flask shows more, a perfect one what bacteria bear, but for a step's overshoot */
    assert_true(flask_rise(&setting->balance, 2 * 57600) > first);
    assert_near(flask_rise(&setting->balance, 1e9), setting->balance.decay.hottest - 20, 0.05);
    setting_free(setting);
    free(setting);
    season_of_free(s);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_integrator_of_another_library_agrees),
        cmocka_unit_test(filling_a_flask_leaves_the_pile_as_it_was),
    };
    return cmocka_run_group_tests_name("run/flask", tests, NULL, NULL);
}
