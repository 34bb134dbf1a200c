/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/life/test_limit.c - what holds decay back in a cell, against decay itself.
 *
 * The paces told as "now", "were it warm" and so on are reckoned apart from the season's. They are held
 * here to what life/decay makes of the same cell and of one whose law or surroundings grant the wish:
 * all carbon given up in a day, equal but for rounding.
 */
#include "life/limit.h"
#include "lib/near.h"

static const double DAY_S = 86400, ROUNDING = 1e-12;

struct cell {
    struct decay_law law;
    struct decay_store store;
    struct decay_surroundings at;
    struct decay_state state;
};

/* cells cold to hot, dry to wet, hungry to rich, half frozen or not; many enough that each thing limits one */
enum { CELLS = 4 * 3 * 4 * 2 };
static struct cell cell_at(int i)
{
    static const double temps_C[] = {4, 38, 57, 66}, water_kg[] = {5, 15, 40}, nitrogen_kg[] = {0, 0.01, 0.1, 1};
    struct param param[LANES];
    struct cell cell = {.store.protein_nitrogen = 0.3, .store.carbon_kg = 10, .store.ph = 8.2};
    for (int k = 0; k < LANES; k++)
        param[k] = param_usual();
    cell.law = decay_law_of(param);
    for (int k = 0; k < POOLS; k++) {
        static const double rate[POOLS] = {0.5, 0.3, 0.1, 0.02};
        for (int j = 0; j < DECAY_MOMENTS; j++)
            cell.store.moment[k][j] = (2 + k) * pow(rate[k], j + 1);
    }
    cell.at = (struct decay_surroundings){temps_C[i % 4], i / 48 ? 0.4 : 1, water_kg[i / 4 % 3], 20};
    cell.state = (struct decay_state){{0.3, 0.2, 0.1, 0}, 0.6, 0.3, 0.4, nitrogen_kg[i / 12 % 4], 0.02};
    return cell;
}

/* Carbon that all give up in a day, what goes on without air left out. */
static double turned_over(const struct cell *cell, double air)
{
    struct decay_potential p;
    decay_potential(&cell->law, &cell->store, &cell->at, &cell->state, &p);
    double kg_per_s = p.eaten + p.humus + p.sour;
    for (int k = 0; k < POOLS; k++)
        kg_per_s += p.carbon[k];
    return DAY_S * air * kg_per_s;
}

static struct limit_rates limits(const struct cell *cell, double air, double open)
{
    return limit_rates(&cell->law, &cell->store, &cell->at, &cell->state, air, open);
}

static void assert_same(double got, double want)
{
    assert_near(got, want, ROUNDING * (want + 1e-6));
}

static void the_pace_now_is_that_of_decay(void **state)
{
    (void)state;
    for (int i = 0; i < CELLS; i++) {
        struct cell cell = cell_at(i);
        assert_same(limits(&cell, 0.3, 0.9).now, turned_over(&cell, 0.3));
    }
}

static void with_air_it_is_that_of_decay_in_open_air(void **state)
{
    (void)state;
    for (int i = 0; i < CELLS; i++) {
        struct cell cell = cell_at(i);
        assert_same(limits(&cell, 0.3, 0.9).aired, turned_over(&cell, 0.9));
    }
}

static void with_water_it_is_that_of_decay_in_a_cell_that_is_never_too_dry(void **state)
{
    (void)state;
    for (int i = 0; i < CELLS; i++) {
        struct cell cell = cell_at(i), wet = cell;
        wet.law.wet_offset = -60; /* the logistic of wetness is one then */
        assert_same(limits(&cell, 0.3, 0.9).watered, turned_over(&wet, 0.3));
    }
}

static void with_nitrogen_it_is_that_of_decay_that_needs_none_and_minds_no_ammonia(void **state)
{
    (void)state;
    for (int i = 0; i < CELLS; i++) {
        struct cell cell = cell_at(i), fed = cell;
        fed.law.starved = 1;
        fed.law.ammonia_hinders = 1e15;
        assert_same(limits(&cell, 0.3, 0.9).fed, turned_over(&fed, 0.3));
    }
}

/* Warmth thaws. Ammonia hinders as it does now, so that it is kept out of the comparison. Three temperatures
 * are tried besides its own, so the fastest may be missed by a little. */
static void with_warmth_it_is_that_of_decay_where_that_is_fastest(void **state)
{
    (void)state;
    for (int i = 0; i < 2 * CELLS; i++) {
        struct cell cell = cell_at(i % CELLS);
        cell.law.ammonia_hinders = 1e15;
        for (int k = 0; k < POOLS && i >= CELLS; k++) /* of cellulose alone it is between the two best */
            cell.store.moment[k][0] *= k == POOL_SLOW;
        for (int k = 0; k < POOLS && i >= CELLS; k++)
            for (int j = 1; j < DECAY_MOMENTS; j++)
                cell.store.moment[k][j] = 0;
        double fastest = 0;
        for (double over_K = -5; over_K < 75; over_K += 0.05) {
            struct cell there = cell;
            there.at = (struct decay_surroundings){over_K, 1, cell.at.water_kg, cell.at.dry_kg};
            fastest = fmax(fastest, turned_over(&there, 0.3));
        }
        double warm = limits(&cell, 0.3, 0.9).warm;
        assert_true(warm <= fastest * 1.0001 && warm >= 0.98 * fastest);
    }
}

/* By how much ammonia hinders: water times what a kg of it bears, over that and the free ammonia. */
static void ammonia_hinders_a_warmed_cell_as_it_does_now(void **state)
{
    (void)state;
    struct cell cell = cell_at(13 + 36); /* 38 C, much nitrogen */
    cell.state.nitrogen_kg = 1;
    cell.at.liquid_share = 1;
    for (int k = 0; k < POOLS; k++) /* the share of the pools that it touches: all but lignin */
        for (int j = 0; j < DECAY_MOMENTS; j++)
            cell.store.moment[k][j] = k == POOL_LIGNIN || j > 0 ? 0 : 4;
    cell.law.necromass = cell.law.humus = cell.law.sour = 0;
    cell.state.living_kg = cell.state.microbe_kg = 1e3; /* enough that their number limits nothing */
    struct cell none = cell;
    none.law.ammonia_hinders = 1e15;
    double free_kg = 1.0 * decay_ammonia_share(cell.at.over_K, cell.store.ph);
    double bears_kg = cell.at.water_kg * cell.law.ammonia_hinders;
    struct limit_rates with = limits(&cell, 0.3, 0.9), without = limits(&none, 0.3, 0.9);
    assert_near(with.warm / without.warm, bears_kg / (bears_kg + free_kg), 1e-9);
    assert_near(with.now / without.now, bears_kg / (bears_kg + free_kg), 1e-9);
    assert_true(bears_kg / (bears_kg + free_kg) < 0.99); /* else nothing was tested */
}

static void granting_a_wish_never_slows_it(void **state)
{
    (void)state;
    for (int i = 0; i < CELLS; i++) {
        struct cell cell = cell_at(i);
        struct limit_rates r = limits(&cell, 0.3, 0.9);
        double least = r.now * (1 - ROUNDING);
        assert_true(r.warm >= least && r.watered >= least && r.aired >= least && r.fed >= least);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_pace_now_is_that_of_decay),
        cmocka_unit_test(with_air_it_is_that_of_decay_in_open_air),
        cmocka_unit_test(with_water_it_is_that_of_decay_in_a_cell_that_is_never_too_dry),
        cmocka_unit_test(with_nitrogen_it_is_that_of_decay_that_needs_none_and_minds_no_ammonia),
        cmocka_unit_test(with_warmth_it_is_that_of_decay_where_that_is_fastest),
        cmocka_unit_test(ammonia_hinders_a_warmed_cell_as_it_does_now),
        cmocka_unit_test(granting_a_wish_never_slows_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
