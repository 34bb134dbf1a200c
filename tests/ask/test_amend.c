/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_amend.c - ask/amend: what to add, on blends made by hand. */
#include "ask/amend.h"
#include "base/draw.h"
#include "door/reading.h"

/* dry and water, kg; carbon and nitrogen of the dry mass; volume, m3 */
static struct blend blend_of(double dry, double water, double carbon, double nitrogen, double volume)
{
    return (struct blend){.dry_kg = dry, .water_kg = water, .carbon_kg = carbon * dry,
                          .nitrogen_kg = nitrogen * dry, .solid_m3 = dry / 1600,
                          .carried_m3 = volume, .loose_m3 = volume, .built_m3 = volume,
                          .settled_m3 = volume};
}

static struct blend leaves(double dry) { return blend_of(dry, dry / 9, 0.45, 0.009, dry / 60); }
static struct blend grass(double dry) { return blend_of(dry, 4 * dry, 0.42, 0.028, dry / 50); }

enum { LEAVES, GRASS, WATER, KINDS };

/* a bucket of leaves, one of grass, half a bucket of water carried at four fifths */
struct heap {
    struct amend_kinds kinds;
    struct blend base, step[KINDS];
    struct amend_problem problem;
    struct amend_advice advice;
};

static struct heap *heap(struct blend base, bool find_leaves, bool find_grass)
{
    struct heap *h = calloc(1, sizeof *h);
    assert_non_null(h);
    h->base = base;
    h->kinds.count = KINDS;
    h->kinds.kind[LEAVES] = (struct amend_kind){.stuff = 0, .step = 1, .vessel = PLAN_BUCKET,
                                                .most = 200, .here = 20, .elsewhere = find_leaves};
    h->kinds.kind[GRASS] = (struct amend_kind){.stuff = 1, .step = 1, .vessel = PLAN_BUCKET,
                                               .most = 200, .here = 20, .elsewhere = find_grass};
    h->kinds.kind[WATER] = (struct amend_kind){.stuff = AMEND_WATER, .step = 0.5, .most = 200,
                                               .vessel = PLAN_BUCKET};
    h->step[LEAVES] = leaves(1.1);
    h->step[GRASS] = grass(1.2);
    h->step[WATER] = (struct blend){.water_kg = 0.5 * 0.8 * 18.93};
    h->problem = (struct amend_problem){.kinds = &h->kinds, .base = &h->base, .step = h->step};
    return h;
}

static int steps_of(const struct amend_advice *advice, int kind)
{
    for (int i = 0; i < advice->items; i++)
        if (advice->item[i].kind == kind)
            return advice->item[i].steps;
    return 0;
}

static bool keeps(const struct blend *blend, const struct amend_goal *goal)
{
    for (int f = 0; f < AMEND_FAULTS; f++)
        if (amend_broken(blend, goal, (enum amend_fault)f) > 1e-6)
            return false;
    return true;
}

static void a_mix_that_is_right_is_left_alone(void **state)
{
    (void)state;
    struct blend base = leaves(30), more = grass(15);
    blend_add(&base, &more, 1);
    struct heap *h = heap(base, false, false);
    assert_near(blend_figure(&h->base, BLEND_C_TO_N), (0.45 * 30 + 0.42 * 15) / (0.27 + 0.42), 1e-9);
    amend_find(&h->advice, &h->problem, -1);
    assert_true(h->advice.is);
    assert_int_equal(h->advice.items, 0);
    free(h);
}

/* 300 kg at 40 % for 55 %: 100 L [derived], 6.6 buckets of 18.93 L carried at four fifths, so thirteen
 * and a half halves and no fewer */
static void a_dry_one_gets_the_least_water_that_does(void **state)
{
    (void)state;
    struct heap *h = heap(blend_of(180, 120, 0.45, 0.015, 1.5), false, false);
    amend_find(&h->advice, &h->problem, -1);
    assert_int_equal(h->advice.items, 1);
    assert_int_equal(h->advice.item[0].mends, AMEND_DRY);
    assert_int_equal(steps_of(&h->advice, WATER), (int)ceil(100 / (0.5 * 0.8 * 18.93)));
    assert_near(amend_need(&h->advice, 0, &h->problem) * 0.5 * 0.8 * 18.93, 100, 1e-9);
    free(h);
}

/* Cornell's worked example on mixing for a C:N of 30 [memory]: 3.5 kg of leaves to 10 kg of grass. The
 * handbook's formula, Rynk (ed.) 1992, NRAES-54 [memory], says how much:
 *   b = a Na (R - Ca/Na)(1 - Ma) / (Nb (Cb/Nb - R)(1 - Mb)) */
static void what_a_pile_needs_is_what_the_handbook_says(void **state)
{
    (void)state;
    struct heap *h = heap(blend_of(2.3, 7.7, 0.45, 0.024, 0.05), false, false);
    h->step[LEAVES] = blend_of(0.65, 0.35, 0.50, 0.0075, 0.01); /* 1 kg */
    h->advice = (struct amend_advice){.is = true, .items = 1, .goal = amend_best(false, false),
                                      .item = {{LEAVES, 3, AMEND_GREEN}}};
    h->advice.goal.bound[AMEND_GREEN] = 30;
    double need = amend_need(&h->advice, 0, &h->problem);
    assert_near(need, 3.5, 0.05);
    assert_near(need, 10 * 0.024 * (30 - 0.45 / 0.024) * (1 - 0.77) /
                          (0.0075 * (0.50 / 0.0075 - 30) * (1 - 0.35)), 1e-9);
    free(h);
}

/* What is advised keeps every bound, and one vessel less of anything breaks one. */
static void advice_reaches_and_is_not_more_than_needed(void **state)
{
    (void)state;
    int advised = 0;
    for (uint32_t trial = 0; trial < 60; trial++) {
        struct blend base = leaves(1 + 99 * draw_uniform(3, trial, 0, 0));
        struct blend green = grass(1 + 49 * draw_uniform(3, trial, 1, 0));
        blend_add(&base, &green, 1);
        struct heap *h = heap(base, false, false);
        amend_find(&h->advice, &h->problem, -1);
        assert_true(h->advice.is);
        struct blend done = amend_done(&h->advice, &h->problem);
        assert_true(keeps(&done, &h->advice.goal));
        for (int i = 0; i < h->advice.items; i++) {
            struct blend less = done;
            blend_add(&less, &h->step[h->advice.item[i].kind], -1);
            assert_false(keeps(&less, &h->advice.goal));
            advised++;
        }
        free(h);
    }
    assert_true(advised > 30);
}

/* Two hundred buckets of grass would do it, but that is another pile. */
static void nobody_is_told_to_add_many_times_the_pile(void **state)
{
    (void)state;
    struct heap *h = heap(blend_of(10, 10, 0.45, 0.0001, 0.01), true, false); /* heavy, and all carbon */
    amend_find(&h->advice, &h->problem, -1);
    assert_false(h->advice.is);
    h->base.built_m3 = 1; /* as much of a light one can be mended */
    amend_find(&h->advice, &h->problem, -1);
    assert_true(h->advice.is && steps_of(&h->advice, GRASS) > 1);
    free(h);
}

static void what_is_at_hand_goes_before_what_must_be_found(void **state)
{
    (void)state;
    struct heap *h = heap(leaves(80), false, true);
    h->kinds.count = KINDS;
    amend_find(&h->advice, &h->problem, -1);
    assert_true(steps_of(&h->advice, GRASS) > 0); /* nothing at hand mends it */
    amend_find(&h->advice, &h->problem, GRASS);
    assert_false(h->advice.is);
    free(h);
    h = heap(leaves(80), true, false);
    amend_find(&h->advice, &h->problem, -1);
    assert_true(steps_of(&h->advice, GRASS) > 0);
    assert_int_equal(steps_of(&h->advice, LEAVES), 0);
    free(h);
    /* even where a little more must be carried */
    h = heap(leaves(80), true, false);
    h->step[LEAVES] = grass(1.3);
    amend_find(&h->advice, &h->problem, -1);
    assert_true(steps_of(&h->advice, GRASS) > 0);
    assert_int_equal(steps_of(&h->advice, LEAVES), 0);
    free(h);
    /* and as far as it goes, where the rest must be found */
    h = heap(leaves(80), true, false);
    h->step[LEAVES] = grass(1.3);
    h->kinds.kind[GRASS].most = 12;
    amend_find(&h->advice, &h->problem, -1);
    assert_true(steps_of(&h->advice, LEAVES) > 0);
    assert_true(steps_of(&h->advice, GRASS) >= 11);
    free(h);
}

static void a_stock_may_be_used_in_part_but_not_left_lying(void **state)
{
    (void)state;
    struct blend base = leaves(22), green = grass(5);
    blend_add(&base, &green, 1);
    struct heap *h = heap(base, true, true);
    amend_leave_out(&h->advice, &h->problem);
    assert_true(h->advice.is && h->advice.leave_out);
    assert_int_equal(steps_of(&h->advice, GRASS), 0);
    struct blend done = amend_done(&h->advice, &h->problem);
    assert_true(keeps(&done, &h->advice.goal));
    assert_near(done.dry_kg, 27 - 1.1 * steps_of(&h->advice, LEAVES), 1e-9);
    free(h);
    /* leaves alone: nothing to leave out makes them green */
    h = heap(leaves(22), true, true);
    amend_leave_out(&h->advice, &h->problem);
    assert_false(h->advice.is);
    free(h);
}

static void a_found_pile_may_be_lower_in_carbon(void **state)
{
    (void)state;
    struct heap *h = heap(blend_of(100, 122, 0.45, 0.025, 1), false, false);
    amend_find(&h->advice, &h->problem, -1);
    assert_true(steps_of(&h->advice, LEAVES) > 0);
    h->problem.found = true;
    amend_find(&h->advice, &h->problem, -1);
    assert_int_equal(h->advice.items, 0);
    free(h);
}

static void things_are_counted_as_the_scenario_counts_them(void **state)
{
    (void)state;
    struct amend_kinds kinds;
    const struct plan_layer none = {0};
    const struct scenario *s = reading_good(READING_HEAD READING_BIN
        "measures: {bucket: 10 L, bag: 100 L}\n"
        "build:\n  - mixed leaves: 8 bags pressed\n    horse manure: 60 kg\n    straw: 50 L\n"
        "    old bottom soil: 1 bucket\nhave: {mixed leaves: 2 bags, grass clippings: 3 buckets}\n");
    amend_list(&kinds, s, false, &none);
    /* stock first: leaves as far as they go, grass; then manure, straw; water last; no soil */
    assert_int_equal(kinds.count, 5);
    assert_int_equal(kinds.kind[0].vessel, PLAN_BAG);
    assert_int_equal(kinds.kind[0].most, 2);
    assert_near(kinds.kind[0].one.volume_m3.mid, 0.1, 1e-12);
    assert_int_equal(kinds.kind[1].most, 3);
    assert_int_equal(kinds.kind[2].vessel, PLAN_BY_MASS);
    assert_int_equal(kinds.kind[3].vessel, PLAN_BUCKET); /* litres of a large pile: by the bucket */
    assert_near(kinds.kind[3].one.volume_m3.mid, 0.01, 1e-12);
    assert_int_equal(kinds.kind[4].stuff, AMEND_WATER);
    assert_near(kinds.kind[4].water_kg, 4, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_mix_that_is_right_is_left_alone),
        cmocka_unit_test(a_dry_one_gets_the_least_water_that_does),
        cmocka_unit_test(what_a_pile_needs_is_what_the_handbook_says),
        cmocka_unit_test(advice_reaches_and_is_not_more_than_needed),
        cmocka_unit_test(nobody_is_told_to_add_many_times_the_pile),
        cmocka_unit_test(what_is_at_hand_goes_before_what_must_be_found),
        cmocka_unit_test(a_stock_may_be_used_in_part_but_not_left_lying),
        cmocka_unit_test(a_found_pile_may_be_lower_in_carbon),
        cmocka_unit_test(things_are_counted_as_the_scenario_counts_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
