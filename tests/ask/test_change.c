/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_change.c - a change is that one thing and nothing else, or says why it is none. */
#include "ask/change.h"
#include "door/scenario.h"
#include "know/bound.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

#define HEAD "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47 N, elevation: 400 m}\nsky: cold winters\n" \
    "measures: {bucket: 10 L}\n"
#define TWO_BAYS "bins:\n  a: {size: 1 x 2 x 1 m}\n  b: {like: a, now: empty}\n"
#define RECIPE "build:\n  - mixed leaves: 400 kg\n    grass clippings: 200 kg\n    water: 20 L\n"
#define PLANS "plans:\n  quiet: []\n  busy:\n    - {day: 2025-11-01, cover: carpet 5 cm}\n" \
    "    - {day: 2025-11-08, turn: mixed, into: b, water: 30 L}\n"

static struct scenario *from, *to;

static void read_pile(const char *text)
{
    struct trouble why = {0};
    if (!scenario_read_text(from, text, strlen(text), "test", &why))
        fail_msg("%s", why.text);
}

static struct change make(enum change_kind kind, int plan, int day, double thirst_kg, double water_share)
{
    struct change_pile pile = {from, plan, day, thirst_kg, water_share, 1.0};
    return change_make(to, kind, &pile);
}

static int setup(void **state)
{
    (void)state;
    from = malloc(sizeof *from);
    to = malloc(sizeof *to);
    read_pile(HEAD TWO_BAYS RECIPE PLANS);
    return !from || !to;
}

static int teardown(void **state)
{
    (void)state;
    free(from);
    free(to);
    return 0;
}

static void water_is_what_the_pile_lacks_and_a_few_litres_are_not_worth_a_walk(void **state)
{
    (void)state;
    struct change change = make(CHANGE_WATER, 0, 9, 46, 0.40);
    assert_int_equal(change.bar, CHANGE_CAN);
    assert_near(change.water_l, 46, 0);
    assert_int_equal(to->plan[0].events, 1);
    assert_int_equal(to->plan[0].event[0].day, 9);
    assert_near(to->plan[0].event[0].water_kg.mid, change.water_l, 0);
    assert_int_equal(make(CHANGE_WATER, 0, 9, 1.9, 0.545).bar, CHANGE_WET_ENOUGH); /* a bucket carries 8 */
    assert_int_equal(make(CHANGE_WATER, 0, 9, 2.1, 0.545).bar, CHANGE_CAN);
}

static void a_turn_goes_into_the_next_bin_after_all_else_that_day(void **state)
{
    (void)state;
    assert_int_equal(make(CHANGE_TURN_IN, 1, 14, 0, 0.5).bar, CHANGE_CAN);
    assert_int_equal(to->plan[1].events, 3);
    const struct plan_event *turn = &to->plan[1].event[2];
    assert_int_equal(turn->deed, PLAN_TURN);
    assert_int_equal(turn->way, PLAN_OUTSIDE_IN);
    assert_int_equal(turn->into, PLAN_NEXT_BAY);
    assert_int_equal(turn->day, 14);
    assert_int_equal(to->plan[0].events, 0);
}

static void a_pile_turned_or_built_that_day_is_not_turned_again(void **state)
{
    (void)state;
    assert_int_equal(make(CHANGE_TURN_MIXED, 1, 21, 0, 0.5).bar, CHANGE_SAME_DAY);
    assert_int_equal(make(CHANGE_LOOSEN, 1, 21, 0, 0.5).bar, CHANGE_SAME_DAY);
    assert_int_equal(make(CHANGE_TURN_IN, 0, 0, 0, 0.5).bar, CHANGE_SAME_DAY);
}

static void a_cover_is_the_keepers_own_and_lies_only_once(void **state)
{
    (void)state;
    struct change change = make(CHANGE_COVER, 0, 9, 0, 0.5);
    assert_int_equal(change.bar, CHANGE_CAN);
    assert_string_equal(bound_rows[change.cover].name, "carpet");
    assert_near(change.cover_m, 0.05, 1e-12);
    assert_int_equal(make(CHANGE_COVER, 1, 16, 0, 0.5).bar, CHANGE_HAS);
    assert_int_equal(make(CHANGE_COVER, 1, 25, 0, 0.5).bar, CHANGE_CAN); /* the turn took it off */
}

static void greens_are_of_the_recipe_or_grass(void **state)
{
    (void)state;
    struct change change = make(CHANGE_GREENS, 0, 9, 0, 0.5);
    assert_string_equal(to->stuff[change.stuff].id, stuff_find("grass clippings")->id);
    assert_near(change.vessels, 10, 1e-12); /* a tenth of 1 m3 in buckets of 10 L */
    assert_near(change.bury_m, 0.2, 1e-12);
    assert_int_equal(to->stuffs, from->stuffs);
    read_pile(HEAD TWO_BAYS "build:\n  - mixed leaves: 400 kg\n    horse manure: 5 kg\n");
    change = make(CHANGE_GREENS, 0, 9, 0, 0.5);
    assert_int_equal(to->stuff[change.stuff].group, STUFF_GREEN);
    read_pile(HEAD TWO_BAYS "build:\n  - mixed leaves: 400 kg\n");
    change = make(CHANGE_GREENS, 0, 9, 0, 0.5);
    assert_int_equal(to->stuffs, from->stuffs + 1);
    assert_string_equal(to->stuff[change.stuff].id, stuff_find("grass clippings")->id);
}

static void browns_are_for_a_wet_pile(void **state)
{
    (void)state;
    assert_int_equal(make(CHANGE_BROWNS, 0, 9, 0, 0.55).bar, CHANGE_DRY_ENOUGH);
    assert_int_equal(make(CHANGE_BROWNS, 0, 9, 0, 0.70).bar, CHANGE_CAN);
    assert_int_equal(to->plan[0].event[0].deed, PLAN_ADD);
    assert_int_equal(to->plan[0].event[1].deed, PLAN_TURN);
    const struct plan_portion *added = &to->plan[0].event[0].add.portion[0];
    assert_near(added->wet_kg.low, added->volume_m3.low * added->bulk_kg_per_m3.low, 1e-9);
    assert_near(added->wet_kg.mid, added->volume_m3.mid * added->bulk_kg_per_m3.mid, 1e-9);
    assert_near(added->wet_kg.high, added->volume_m3.high * added->bulk_kg_per_m3.high, 1e-9);
    assert_true(added->wet_kg.low < added->wet_kg.mid && added->wet_kg.mid < added->wet_kg.high);
}

static void twice_as_much_stands_on_twice_the_ground_of_a_full_bin(void **state)
{
    (void)state;
    struct change change = make(CHANGE_TWICE, 1, 9, 0, 0.5);
    assert_int_equal(change.bar, CHANGE_CAN);
    assert_false(change.higher);
    for (int b = 0; b < 2; b++)
        assert_near(to->bay[b].length_m * to->bay[b].width_m, 4, 1e-12);
    assert_near(to->bay[0].height_m, 1, 0);
    assert_near(to->layer[0].portion[0].wet_kg.mid, 800, 1e-9);
    assert_near(to->layer[0].water_kg.mid, 40, 1e-9);
    assert_near(to->plan[1].event[1].water_kg.mid, 60, 1e-9);
}

#define LOW(litres) HEAD "bin: 1 x 1 x 2 m\nbuild:\n  - mixed leaves: " #litres " L\n    water: 20 L\n"

static void twice_as_much_is_higher_where_the_bin_has_the_room(void **state)
{
    (void)state;
    read_pile(LOW(900));
    assert_true(make(CHANGE_TWICE, 0, 9, 0, 0.5).higher);
    assert_near(to->bay[0].length_m * to->bay[0].width_m, 1, 1e-12);
    assert_near(to->layer[0].portion[0].volume_m3.mid, 1.8, 1e-12);
    assert_near(to->layer[0].water_kg.mid, 40, 1e-9);
    read_pile(LOW(1100));
    assert_false(make(CHANGE_TWICE, 0, 9, 0, 0.5).higher);
    assert_near(to->bay[0].length_m * to->bay[0].width_m, 2, 1e-12);
}

/* A square of side a and height h has 2 a^2 + 4 a h of outside; on half the ground a^2 + 4 sqrt(2) a h,
 * which is less below h = a / (4 sqrt(2) - 4) = 0.604 a. [derived] */
static void a_low_pile_is_fenced_in_on_half_the_ground(void **state)
{
    (void)state;
    read_pile(LOW(600));
    struct change change = make(CHANGE_FENCED, 0, 9, 0, 0.5);
    assert_int_equal(change.bar, CHANGE_CAN);
    assert_near(change.length_m, 0.70710678, 1e-8);
    assert_near(to->bay[0].length_m * to->bay[0].width_m, 0.5, 1e-12);
    assert_near(to->layer[0].portion[0].volume_m3.mid, 0.6, 1e-12);
    assert_near(to->layer[0].water_kg.mid, 20, 1e-9);
    read_pile(LOW(610));
    assert_int_equal(make(CHANGE_FENCED, 0, 9, 0, 0.5).bar, CHANGE_HIGH);
    read_pile(HEAD "bin: 2 x 2 x 1 m\nbuild:\n  - mixed leaves: 2100 L\n"); /* low, but too much for half */
    assert_int_equal(make(CHANGE_FENCED, 0, 9, 0, 0.5).bar, CHANGE_HIGH);
    read_pile(HEAD "bin: 2 x 2 x 1 m\nbuild:\n  - mixed leaves: 400 L\nplans:\n  more:\n"
              "    - {day: 2025-11-01, add: {mixed leaves: 10 L}}\n  leave it: []\n");
    assert_int_equal(make(CHANGE_FENCED, 0, 9, 0, 0.5).bar, CHANGE_GROWS); /* it will be higher yet */
    assert_false(make(CHANGE_TWICE, 0, 9, 0, 0.5).higher);
    assert_int_equal(make(CHANGE_FENCED, 1, 9, 0, 0.5).bar, CHANGE_CAN); /* by the other plan it won't */
    assert_true(make(CHANGE_TWICE, 1, 9, 0, 0.5).higher);
    read_pile(HEAD "bin: 1 x 1 x 1 m\nfound:\n  height: 30 cm\n  squeeze: holds\n"
              "  middle: 30 C\n  hand deep: 22 C\n  built: 14 days ago\n  of:\n    mixed leaves: 4 parts\n");
    assert_int_equal(make(CHANGE_FENCED, 0, 9, 0, 0.5).bar, CHANGE_FOUND);
    assert_false(make(CHANGE_TWICE, 0, 9, 0, 0.5).higher);
}

static void a_lid_and_chopping_are_for_piles_that_lack_them(void **state)
{
    (void)state;
    assert_int_equal(make(CHANGE_LID, 0, 9, 0, 0.5).bar, CHANGE_CAN);
    assert_true(bound_rows[to->bay[to->home].lid].open_share < 0.1);
    assert_int_equal(make(CHANGE_CHOPPED, 0, 9, 0, 0.5).bar, CHANGE_CAN);
    read_pile(HEAD "bins:\n  a: {size: 1 x 1 x 1 m, lid: boards}\nbuild:\n  - mixed leaves: 100 kg chopped\n");
    assert_int_equal(make(CHANGE_LID, 0, 9, 0, 0.5).bar, CHANGE_HAS);
    assert_int_equal(make(CHANGE_CHOPPED, 0, 9, 0, 0.5).bar, CHANGE_HAS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(water_is_what_the_pile_lacks_and_a_few_litres_are_not_worth_a_walk, setup, teardown),
        cmocka_unit_test_setup_teardown(a_turn_goes_into_the_next_bin_after_all_else_that_day, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(a_pile_turned_or_built_that_day_is_not_turned_again, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(a_cover_is_the_keepers_own_and_lies_only_once, setup, teardown),
        cmocka_unit_test_setup_teardown(greens_are_of_the_recipe_or_grass, setup, teardown),
        cmocka_unit_test_setup_teardown(browns_are_for_a_wet_pile, setup, teardown),
        cmocka_unit_test_setup_teardown(twice_as_much_stands_on_twice_the_ground_of_a_full_bin, setup, teardown),
        cmocka_unit_test_setup_teardown(twice_as_much_is_higher_where_the_bin_has_the_room, setup, teardown),
        cmocka_unit_test_setup_teardown(a_low_pile_is_fenced_in_on_half_the_ground, setup, teardown),
        cmocka_unit_test_setup_teardown(a_lid_and_chopping_are_for_piles_that_lack_them, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
