/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_handful.c - words of a squeezed handful give way halfway between what they stand for,
 * and a pile is brought to what is wanted.
 */
#include "run/handful.h"
#include "lib/near.h"
#include <math.h>

/* about 30, 40, 48, 55 and 65 % [trade] */
static void a_word_is_said_of_what_it_stands_for(void **state)
{
    (void)state;
    static const double share[PLAN_SQUEEZES] = {0.30, 0.40, 0.48, 0.55, 0.65};
    for (int w = 0; w < PLAN_SQUEEZES; w++) {
        assert_near(handful_share((enum plan_squeeze)w), share[w], 0);
        assert_int_equal(handful_word(share[w]), w);
    }
    assert_int_equal(handful_word(0), PLAN_DUSTY);
    assert_int_equal(handful_word(-0.1), PLAN_DUSTY); /* as a hand feels it, with its error */
    assert_int_equal(handful_word(1.2), PLAN_RUNS);
}

static void one_word_gives_way_to_the_next_halfway(void **state)
{
    (void)state;
    static const double most[] = {0.35, 0.44, 0.515, 0.60};
    for (int w = 0; w < PLAN_RUNS; w++) {
        assert_near(handful_most((enum plan_squeeze)w), most[w], 1e-12);
        assert_int_equal(handful_word(most[w] - 1e-6), w);
        assert_int_equal(handful_word(most[w] + 1e-6), w + 1);
    }
    assert_true(isinf(handful_most(PLAN_RUNS)));
}

/* 300 kg at 40 %: 120 + L = 0.55 (300 + L), L = 45/0.45 [derived]; 50 to 60 % suits a pile
 * [NRAES-54 1992, memory] */
static void water_brings_a_pile_to_the_middle_of_what_suits_it(void **state)
{
    (void)state;
    assert_near(handful_wanted_share, (0.50 + 0.60) / 2, 1e-12);
    assert_near(handful_wet_share, 0.60, 0);
    assert_near(handful_thirst_kg(180, 0.40), 45 / 0.45, 1e-9);
    assert_near(handful_thirst_kg(180, 0.55), 0, 1e-9);
    assert_near(handful_thirst_kg(180, 0.70), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_word_is_said_of_what_it_stands_for),
        cmocka_unit_test(one_word_gives_way_to_the_next_halfway),
        cmocka_unit_test(water_brings_a_pile_to_the_middle_of_what_suits_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
