/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_lay.c - from what a keeper lays down to amounts of a cell, for every ingredient of the table: no
 * carbon and no nitrogen is made or lost by sorting them into pools, whatever the sorting.
 */
#include "run/lay.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>

#define HEAD "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47 N}\nsky: cold winters\nbin: 1 x 1 x 1 m\nbuild:\n"
static const double ROUNDING = 1e-12;

struct laid {
    struct scenario scenario;
    struct param param;
    struct possible possible[LANES];
    struct lay lay;
    struct pile pile;
    struct move_batch batch;
};

/* The first layer of a scenario as it comes to be laid. */
static void lay_again(struct laid *l)
{
    for (int i = 0; i < LANES; i++)
        possible_usual(&l->possible[i], &l->scenario, &l->param);
    lay_kinds(&l->lay, &l->scenario, &l->scenario.plan[0], l->possible);
    l->pile.stuffs = l->lay.kinds;
    lay_stuffs(&l->lay, &l->pile);
    lay_batch(&l->lay, &l->pile, &l->scenario.layer[0], lane_of(20), &l->batch);
}

static struct laid *laid_new(const char *layer)
{
    char text[1024];
    struct laid *l = calloc(1, sizeof *l);
    struct trouble why = {0};
    assert_non_null(l);
    snprintf(text, sizeof text, HEAD "  - %s\n", layer);
    if (!scenario_read_text(&l->scenario, text, strlen(text), "test.yaml", &why))
        fail_msg("%s", why.text);
    l->param = param_usual();
    lay_again(l);
    return l;
}

static double amount(const struct laid *l, int which)
{
    return lane_get(l->batch.amount[which], 0);
}

static double pool(const struct laid *l, int stuff, enum pool pool)
{
    return amount(l, move_of_pool(stuff, pool));
}

static double carbon(const struct laid *l)
{
    double sum = amount(l, move_of_state(STATE_MICROBE_KG)) + amount(l, move_of_state(STATE_HUMUS_KG)) +
                 amount(l, move_of_stock(STOCK_INERT_C_KG));
    for (int i = 0; i < l->pile.stuffs; i++)
        for (int k = 0; k < POOLS; k++)
            sum += pool(l, i, (enum pool)k);
    return sum;
}

/* Mineral, in protein, in microbes and in humus. */
static double nitrogen(const struct laid *l)
{
    double sum = amount(l, move_of_state(STATE_NITROGEN_KG)) +
                 amount(l, move_of_state(STATE_MICROBE_KG)) / l->param.microbe_c_to_n +
                 amount(l, move_of_state(STATE_HUMUS_KG)) / l->param.humus_c_to_n;
    for (int i = 0; i < l->pile.stuffs; i++)
        sum += pool(l, i, POOL_PROTEIN) * lane_get(l->pile.stuff[i].protein_nitrogen, 0);
    return sum;
}

static struct laid *of_row(int row)
{
    char layer[160];
    snprintf(layer, sizeof layer, "%s: 100 kg", stuff_rows[row].name);
    return laid_new(layer);
}

static void every_ingredient_keeps_the_nitrogen_of_its_analysis(void **state)
{
    (void)state;
    for (int row = 0; row < stuff_count; row++) {
        struct laid *l = of_row(row);
        double dry = amount(l, move_of_laid(&l->pile, 0)), want = dry * l->scenario.stuff[0].nitrogen_share.mid;
        assert_true(dry > 0);
        if (!(fabs(nitrogen(l) - want) <= ROUNDING * dry))
            fail_msg("%s: %.15g kg of nitrogen laid, %.15g found", stuff_rows[row].name, want, nitrogen(l));
        free(l);
    }
}

/* By mass, lignin/(lignin + the cellulose with it) is the one index wherever there is cellulose enough. Carbon stays
 * what it was, and so does dry mass, but for stuff that is half rotted: what is enclosed isn't humus yet. */
static void lignin_encloses_cellulose_up_to_one_index(void **state)
{
    (void)state;
    static const double index[] = {0.5, 0.65, 0.8};
    for (int row = 0; row < stuff_count; row++) {
        struct laid *l = of_row(row);
        double before = NAN, dry_before = NAN;
        for (int i = 0; i < 3; i++) {
            l->param.lignocellulose_index_end = index[i];
            lay_again(l);
            double all = pool(l, 0, POOL_LIGNIN), enclosed = lane_get(l->pile.stuff[0].enclosed, 0);
            double lignin = all * (1 - enclosed) / 0.62, cellulose = all * enclosed / 0.45;
            if (pool(l, 0, POOL_SLOW) > 0 && lignin > 0)
                assert_near(lignin / (lignin + cellulose), index[i], ROUNDING);
            else
                assert_true(lignin == 0 || lignin / (lignin + cellulose) >= index[i]);
            assert_true(enclosed >= 0 && enclosed < 1);
            double dry = amount(l, move_of_state(STATE_DRY_KG));
            if (i > 0) {
                assert_near(carbon(l), before, ROUNDING * (before + 1));
                if (l->scenario.stuff[0].ripe_share == 0)
                    assert_near(dry, dry_before, ROUNDING * dry);
            }
            before = carbon(l);
            dry_before = dry;
        }
        free(l);
    }
}

/* How much of an ingredient counts as humus, and how poor in nitrogen it is, moves its carbon between pools;
 * what doesn't find the nitrogen that humus needs stays as carbon that nothing decays. */
static void ripening_moves_carbon_and_makes_or_loses_none(void **state)
{
    (void)state;
    static const double ripe[] = {0, 0.1, 0.5, 1}, richness[] = {0.1, 1};
    for (int row = 0; row < stuff_count; row++)
        for (int rich = 0; rich < 2; rich++) {
            struct laid *l = of_row(row);
            struct stuff *stuff = &l->scenario.stuff[0];
            stuff->nitrogen_share.mid *= richness[rich];
            stuff->nitrogen_share.low = stuff->nitrogen_share.high = stuff->nitrogen_share.mid;
            double fresh = NAN;
            for (int i = 0; i < 4; i++) {
                stuff->ripe_share = ripe[i];
                lay_again(l);
                fresh = i == 0 ? carbon(l) : fresh;
                assert_near(carbon(l), fresh, ROUNDING * (fresh + 1));
                for (int k = 0; k < POOLS; k++)
                    assert_true(pool(l, 0, (enum pool)k) >= 0);
                assert_true(amount(l, move_of_state(STATE_HUMUS_KG)) >= 0);
                assert_true(amount(l, move_of_state(STATE_NITROGEN_KG)) >= -ROUNDING);
            }
            free(l);
        }
}

/* A pile found standing: each pool of each ingredient has gone on at its own rate, 0.15 times its pace at its
 * best [derived from run/lay's own statement], and of two pools of one kind the ratio of what is left to the
 * power of the ratio of their rates is the same. */
static void age_takes_of_every_pool_of_every_ingredient_by_its_rate(void **state)
{
    (void)state;
    struct laid *l = laid_new("straw: 40 kg\n    horse manure: 60 kg\n    grass clippings: 30 kg");
    assert_int_equal(l->pile.stuffs, 3);
    struct move_batch fresh = l->batch;
    lay_age(&l->lay, &l->pile, &l->batch, 45);
    double first = NAN;
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < POOLS; k++) {
            int which = move_of_pool(i, (enum pool)k);
            double rate = lane_get(l->pile.stuff[i].rate_per_d[k], 0);
            double clock = -log(amount(l, which) / lane_get(fresh.amount[which], 0)) / rate;
            first = isnan(first) ? clock : first;
            assert_near(clock, first, 1e-6);
            assert_true(clock > 0 && clock < 45); /* slower than at its best */
        }
    free(l);
}

/* What has decayed was breathed away, but for what microbes and humus keep: older piles hold less. Nitrogen may
 * have left; none was made. */
static void age_takes_carbon_and_leaves_the_pile_as_wet(void **state)
{
    (void)state;
    static const char *const layers[] = {"straw: 40 kg\n    horse manure: 60 kg", "straw: 100 kg", "compost: 100 kg",
                                         "chicken manure: 50 kg\n    sawdust: 100 kg"};
    for (int t = 0; t < 4; t++) {
        struct laid *l = laid_new(layers[t]);
        struct move_batch fresh = l->batch;
        double carbon_kg = carbon(l), fresh_kg = nitrogen(l), dry_kg = amount(l, move_of_state(STATE_DRY_KG));
        double water_share = amount(l, move_of_state(STATE_WATER_KG)) / dry_kg;
        for (double days = 1; days < 2000; days *= 3) {
            l->batch = fresh;
            lay_age(&l->lay, &l->pile, &l->batch, days);
            assert_true(carbon(l) < carbon_kg);
            assert_true(nitrogen(l) <= fresh_kg * (1 + ROUNDING));
            assert_true(amount(l, move_of_state(STATE_NITROGEN_KG)) >= 0);
            assert_true(amount(l, move_of_state(STATE_DRY_KG)) < dry_kg);
            assert_near(amount(l, move_of_state(STATE_WATER_KG)) / amount(l, move_of_state(STATE_DRY_KG)),
                        water_share, 1e-9 * water_share); /* as wet as it was felt to be */
            carbon_kg = carbon(l);
            dry_kg = amount(l, move_of_state(STATE_DRY_KG));
        }
        free(l);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_ingredient_keeps_the_nitrogen_of_its_analysis),
        cmocka_unit_test(lignin_encloses_cellulose_up_to_one_index),
        cmocka_unit_test(ripening_moves_carbon_and_makes_or_loses_none),
        cmocka_unit_test(age_takes_of_every_pool_of_every_ingredient_by_its_rate),
        cmocka_unit_test(age_takes_carbon_and_leaves_the_pile_as_wet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
