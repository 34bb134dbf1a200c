/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_near.c - base/near: slips counted by hand, and what is too far to suggest. */
#include "base/near.h"
#include "lib/near.h"

static const char *const NAMES[] = {"straw", "sawdust", "kitchen scraps",
                                    "grass clippings", "leaves"};
enum { COUNT = sizeof NAMES / sizeof NAMES[0] };

/* [memory] Wagner and Fischer (1974), Journal of the ACM 21(1), is the usual source of the table;
 * the pair kitten and sitting, three slips apart, is the common schoolbook example. */
static void kitten_is_three_slips_from_sitting(void **state)
{
    (void)state;
    assert_int_equal(near_distance("kitten", "sitting"), 3);
}

/* [memory] CA to ABC: three slips in the optimal string alignment, where a swapped pair may not be
 * mended again; two in the unrestricted distance. It tells the two apart. */
static void a_swapped_pair_is_not_mended_twice(void **state)
{
    (void)state;
    assert_int_equal(near_distance("CA", "ABC"), 3);
}

/* [memory] Damerau (1964): wrong, missing, extra, swapped */
static void each_of_the_four_slips_counts_one(void **state)
{
    (void)state;
    assert_int_equal(near_distance("strew", "straw"), 1);
    assert_int_equal(near_distance("stra", "straw"), 1);
    assert_int_equal(near_distance("strawe", "straw"), 1);
    assert_int_equal(near_distance("starw", "straw"), 1);
}

static void distance_is_the_same_both_ways_and_zero_to_itself(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT; ++i)
        for (int j = 0; j < COUNT; ++j)
            assert_int_equal(near_distance(NAMES[i], NAMES[j]), near_distance(NAMES[j], NAMES[i]));
    assert_int_equal(near_distance("leaves", "leaves"), 0);
}

static void an_empty_word_is_as_far_as_the_other_is_long(void **state)
{
    (void)state;
    assert_int_equal(near_distance("", ""), 0);
    assert_int_equal(near_distance("", "straw"), 5);
    assert_int_equal(near_distance("straw", ""), 5);
}

static void capitals_do_not_count(void **state)
{
    (void)state;
    assert_int_equal(near_distance("STRAW", "straw"), 0);
    assert_int_equal(near_distance("AZ", "az"), 0);
    assert_int_equal(near_distance("@", "`"), 1); /* beside the letters: no letters */
    assert_int_equal(near_distance("[", "{"), 1);
}

static void a_slip_finds_its_name(void **state)
{
    (void)state;
    assert_string_equal(near_name("straww", NAMES, COUNT), "straw");
    assert_string_equal(near_name("grass clipings", NAMES, COUNT), "grass clippings");
    assert_string_equal(near_name("Laeves", NAMES, COUNT), "leaves");
}

/* limits: one slip below six letters, two from six, four from twelve */
static void a_third_of_the_letters_may_be_wrong_and_no_more(void **state)
{
    (void)state;
    assert_string_equal(near_name("sewdast", NAMES, COUNT), "sawdust");
    assert_string_equal(near_name("laevez", NAMES, COUNT), "leaves"); /* six letters, two slips */
    assert_null(near_name("sewdost", (const char *const[]){"sawdusk"}, 1));
    assert_string_equal(near_name("strax", NAMES, COUNT), "straw");
    assert_null(near_name("stxax", NAMES, COUNT));
}

static void a_single_letter_is_not_taken_for_any_other(void **state)
{
    (void)state;
    const char *const units[] = {"L", "m", "mm"};
    assert_null(near_name("x", units, 3));
    assert_string_equal(near_name("l", units, 3), "L");
}

static void of_equally_near_names_the_first_is_taken_and_a_nearer_one_wins(void **state)
{
    (void)state;
    const char *const names[] = {"bales", "bates", "barrow", "bakes"};
    assert_string_equal(near_name("baqes", names, 4), "bales");
    assert_string_equal(near_name("bakes", names, 4), "bakes");
}

static void nothing_is_near_when_there_is_nothing(void **state)
{
    (void)state;
    assert_null(near_name("straw", NULL, 0));
    assert_null(near_name("", NAMES, COUNT));
}

static void a_word_of_a_thousand_letters_is_far_from_all(void **state)
{
    (void)state;
    char longest[1001];
    memset(longest, 's', 1000);
    longest[1000] = '\0';
    assert_int_equal(near_distance(longest, "straw"), NEAR_FAR);
    assert_null(near_name(longest, NAMES, COUNT));
    longest[NEAR_LONGEST] = '\0';
    assert_int_equal(near_distance(longest, longest), 0);
}

static void a_name_is_the_same_with_capitals_and_with_dashes_for_spaces(void **state)
{
    (void)state;
    assert_true(near_same("Straw-Bales", "straw bales"));
    assert_true(near_same("straw_bales", "straw bales"));
    assert_false(near_same("straw bale", "straw bales"));
    assert_false(near_same("straw bales ", "straw bales"));
}

static void a_word_is_found_wherever_it_stands(void **state)
{
    (void)state;
    assert_true(near_within("Horse Manure with straw", "manure"));
    assert_true(near_within("manure", "manure"));
    assert_true(near_within("mamanure", "manure"));
    assert_false(near_within("man", "manure"));
    assert_false(near_within("", "manure"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kitten_is_three_slips_from_sitting),
        cmocka_unit_test(a_swapped_pair_is_not_mended_twice),
        cmocka_unit_test(each_of_the_four_slips_counts_one),
        cmocka_unit_test(distance_is_the_same_both_ways_and_zero_to_itself),
        cmocka_unit_test(an_empty_word_is_as_far_as_the_other_is_long),
        cmocka_unit_test(capitals_do_not_count),
        cmocka_unit_test(a_slip_finds_its_name),
        cmocka_unit_test(a_third_of_the_letters_may_be_wrong_and_no_more),
        cmocka_unit_test(a_single_letter_is_not_taken_for_any_other),
        cmocka_unit_test(of_equally_near_names_the_first_is_taken_and_a_nearer_one_wins),
        cmocka_unit_test(nothing_is_near_when_there_is_nothing),
        cmocka_unit_test(a_word_of_a_thousand_letters_is_far_from_all),
        cmocka_unit_test(a_name_is_the_same_with_capitals_and_with_dashes_for_spaces),
        cmocka_unit_test(a_word_is_found_wherever_it_stands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
