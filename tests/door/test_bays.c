/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_bays.c - door/bay and door/bays: where a pile stands. */
#include "door/bay.h"
#include "door/reading.h"

static const struct plan_bay *home(const char *bins)
{
    char text[1024];
    snprintf(text, sizeof text, READING_HEAD READING_PILE "%s\n", bins);
    const struct scenario *scenario = reading_good(text);
    return &scenario->bay[scenario->home];
}

static bool assumes(const char *what)
{
    for (int i = 0; i < READ.assumed; i++)
        if (!strcmp(READ.assumption[i], what))
            return true;
    return false;
}

static void sizes_come_in_feet_and_metres(void **state)
{
    (void)state;
    const struct plan_bay *bay = home("bin: 4 x 3 x 2.5 ft");
    assert_near(bay->length_m, 1.2192, 1e-12);
    assert_near(bay->width_m, 0.9144, 1e-12);
    assert_near(bay->height_m, 0.762, 1e-12);
    assert_near(home("bin: 1x1x1 m")->height_m, 1.0, 1e-12);
    assert_near(home("bin: 120 cm x 1 m × 3 ft")->length_m, 1.2, 1e-12);
    assert_near(READ.bay[0].height_m, 0.9144, 1e-12);
}

static void what_is_not_said_of_a_bin_is_assumed_and_told(void **state)
{
    (void)state;
    const struct plan_bay *bay = home("bin: {size: 1 x 1 x 1 m, lid: boards}");
    assert_int_equal(bay->wall, bound_find("pallets", BOUND_WALL));
    assert_int_equal(bay->floor, bound_find("soil", BOUND_FLOOR));
    assert_int_equal(bay->lid, bound_find("boards", BOUND_LID));
    assert_true(assumes("walls: pallets") && assumes("floor: soil"));
    assert_false(assumes("lid: none"));
}

static void other_shapes_have_words_of_their_own(void **state)
{
    (void)state;
    const struct plan_bay *bay = home("heap: 1.5 m across");
    assert_int_equal(bay->shape, PLAN_HEAP);
    assert_near(bay->width_m, 1.5, 0.0);
    assert_near(bay->height_m, 0.75, 1e-12);
    assert_int_equal(bay->wall, bound_find("none", BOUND_WALL));
    bay = home("bin: {shape: heap, across: 1.5 m, high: 1 m}");
    assert_int_equal(bay->shape, PLAN_HEAP);
    assert_near(bay->height_m, 1.0, 0.0);
    bay = home("windrow: 6 m long and 2 m across and 1.2 m high");
    assert_int_equal(bay->shape, PLAN_WINDROW);
    assert_near(bay->length_m, 6.0, 0.0);
    bay = home("jar: 15 cm across and 25 cm high");
    assert_int_equal(bay->shape, PLAN_JAR);
    assert_near(bay->height_m, 0.25, 1e-12);
}

static void a_jar_can_be_held(void **state)
{
    (void)state;
    const struct plan_bay *bay = home("jar: {across: 20 cm, high: 25 cm, held at: 55 C, "
                                      "held water: 60 %, held oxygen: 18 %}");
    assert_near(bay->held_K, 328.15, 1e-9);
    assert_near(bay->held_water_share, 0.60, 1e-12);
    assert_near(bay->held_oxygen_share, 0.18, 1e-12);
    bay = home("jar: {across: 20 cm, high: 25 cm, held at: 131 F}");
    assert_near(bay->held_K, 328.15, 1e-9);
    assert_near(bay->held_water_share, 0.0, 0.0);
    assert_true(assumes("held as wet as it is laid"));
    assert_true(assumes("held in open air, 20.9 % oxygen"));
    bay = home("jar: 20 cm across and 25 cm high");
    assert_near(bay->held_K, 0.0, 0.0);
    assert_false(assumes("held as wet as it is laid"));
    home("bins:\n  one: {shape: jar, across: 20 cm, high: 25 cm, held at: 30 C, held water: 50 %}\n"
         "  two: {like: one, held at: 40 C}");
    assert_near(READ.bay[1].held_K, 313.15, 1e-9);
    assert_near(READ.bay[1].held_water_share, 0.50, 1e-12);
}

/* [derived] */
static void footprints_are_those_of_their_shapes(void **state)
{
    (void)state;
    struct plan_bay bay = {.shape = PLAN_BIN, .length_m = 2.0, .width_m = 1.5};
    assert_near(bay_footprint_m2(&bay), 3.0, 1e-12);
    bay.shape = PLAN_HEAP;
    assert_near(bay_footprint_m2(&bay), 3.14159265358979 * 0.75 * 0.75, 1e-12);
    assert_near(bay_fullness(&bay), 0.5, 0.0);
}

static void several_bins_and_one_of_them_is_home(void **state)
{
    (void)state;
    home("bins:\n"
         "  left: {size: 1.2 x 1 x 1 m, walls: boards, now: empty}\n"
         "  right: {like: left, lid: tin, now: here}\n"
         "  far: {like: right, now: full until 2026-03-20}");
    assert_int_equal(READ.home, 1);
    assert_int_equal(READ.bay[1].wall, READ.bay[0].wall);
    assert_int_equal(READ.bay[2].lid, bound_find("tin", BOUND_LID));
    assert_int_equal(READ.bay[2].now, PLAN_BAY_FULL);
    assert_int_equal(READ.bay[2].full_until, date_number((struct date){2026, 3, 20}));
    assert_int_equal(READ.bay[0].now, PLAN_BAY_EMPTY);
}

static void bins_of_which_nothing_is_said_are_empty_but_the_first(void **state)
{
    (void)state;
    home("bins:\n  left: {size: 1 x 1 x 1 m}\n  right: {like: left}");
    assert_int_equal(READ.home, 0);
    assert_int_equal(READ.bay[1].now, PLAN_BAY_EMPTY);
    assert_true(assumes("right stands empty"));
}

static void where_the_pile_is_said_to_stand_comes_before_a_bin_that_says_nothing(void **state)
{
    (void)state;
    home("bins:\n  left: {size: 1 x 1 x 1 m, now: here}\n  right: {like: left}");
    assert_int_equal(READ.home, 0);
    home("bins:\n  left: {size: 1 x 1 x 1 m}\n  right: {like: left, now: here}");
    assert_int_equal(READ.home, 1);
}

static void thirteen_bins_are_too_many(void **state)
{
    (void)state;
    char text[2048] = READING_HEAD READING_PILE "bins:\n  b0: {size: 1 x 1 x 1 m}\n";
    for (int i = 1; i <= PLAN_BAYS; i++) {
        size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, "  b%d: {like: b0}\n", i);
    }
    reading_bad(text, "at most 12");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sizes_come_in_feet_and_metres),
        cmocka_unit_test(what_is_not_said_of_a_bin_is_assumed_and_told),
        cmocka_unit_test(other_shapes_have_words_of_their_own),
        cmocka_unit_test(a_jar_can_be_held),
        cmocka_unit_test(footprints_are_those_of_their_shapes),
        cmocka_unit_test(several_bins_and_one_of_them_is_home),
        cmocka_unit_test(bins_of_which_nothing_is_said_are_empty_but_the_first),
        cmocka_unit_test(where_the_pile_is_said_to_stand_comes_before_a_bin_that_says_nothing),
        cmocka_unit_test(thirteen_bins_are_too_many),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
