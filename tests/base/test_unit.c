/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_unit.c - base/unit against a general units library and published conversions. */
#include "base/unit.h"
#include "lib/near.h"
#include <stdio.h>
#include <udunits2.h>

static double SI(double value, const char *name)
{
    size_t length;
    const struct unit *unit = unit_at(name, &length);
    assert_non_null(unit);
    assert_int_equal(length, strlen(name));
    return unit_to_SI(unit, value);
}

/* our name, the library's name, its name of the SI unit */
static const struct {
    const char *ours, *theirs, *SI;
    double within; /* relative */
} pairs[] = {
    {"L", "litre", "m3", 1e-12},
    {"ml", "millilitre", "m3", 1e-12},
    {"m3", "m3", "m3", 1e-12},
    {"US gallon", "US_liquid_gallon", "m3", 1e-7}, /* theirs is rounded */
    {"US quart", "US_liquid_quart", "m3", 1e-7},   /* so is this */
    {"imperial gallon", "Canadian_liquid_gallon", "m3", 1e-12},
    {"cubic foot", "ft3", "m3", 1e-12},
    {"cubic yard", "yd3", "m3", 1e-12},
    {"kg", "kg", "kg", 1e-12},
    {"g", "g", "kg", 1e-12},
    {"lb", "lb", "kg", 1e-12},
    {"t", "tonne", "kg", 1e-12},
    {"m", "m", "m", 1e-12},
    {"cm", "cm", "m", 1e-12},
    {"mm", "mm", "m", 1e-12},
    {"ft", "international_foot", "m", 1e-12},
    {"in", "inch", "m", 1e-12},
    {"yd", "yard", "m", 1e-12},
    {"m2", "m2", "m2", 1e-12},
    {"ft2", "ft2", "m2", 1e-12},
    {"C", "degC", "K", 1e-12},
    {"F", "degF", "K", 1e-12},
    {"K", "K", "K", 1e-12},
    {"min", "min", "s", 1e-12},
    {"h", "h", "s", 1e-12},
    {"day", "d", "s", 1e-12},
    {"week", "week", "s", 1e-12},
    {"%", "%", "1", 1e-12},
    {"kg/m3", "kg/m3", "kg/m3", 1e-12},
    {"lb/yd3", "lb/yd3", "kg/m3", 1e-12},
    {"N", "degrees_north", "rad", 1e-12},
    {"E", "degrees_east", "rad", 1e-12},
};

static void compare(ut_system *system, size_t row)
{
    ut_unit *from = ut_parse(system, pairs[row].theirs, UT_UTF8);
    ut_unit *to = ut_parse(system, pairs[row].SI, UT_UTF8);
    if (!from || !to)
        fail_msg("the library doesn't know %s", pairs[row].theirs);
    cv_converter *converter = ut_get_converter(from, to);
    assert_non_null(converter);
    for (int i = -1; i < 4; i++) {
        double value = 37.0 * i + 0.5, want = cv_convert_double(converter, value);
        assert_near(SI(value, pairs[row].ours), want, pairs[row].within * fabs(want) + 1e-15);
    }
    cv_free(converter);
    ut_free(from);
    ut_free(to);
}

/* [seen] UDUNITS-2 2.2.28, a general units library, as oracle of every row but S and W. */
static void every_unit_is_that_of_a_general_library(void **state)
{
    (void)state;
    ut_set_error_message_handler(ut_ignore);
    ut_system *system = ut_read_xml(NULL);
    assert_non_null(system);
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        compare(system, i);
    assert_int_equal(sizeof pairs / sizeof pairs[0] + 2, (size_t)unit_count);
    ut_free_system(system);
}

/* [memory] exact by definition: 231 cubic inches, 4.54609 L, 27 cubic feet. */
static void gallons_and_yards_are_exact(void **state)
{
    (void)state;
    assert_near(SI(1.0, "US gallon"), 231.0 * 0.0254 * 0.0254 * 0.0254, 1e-17);
    assert_near(SI(4.0, "US quarts"), SI(1.0, "US gal"), 1e-17);
    assert_near(SI(1.0, "imperial gallon"), 4.54609e-3, 1e-17);
    assert_near(SI(1.0, "cubic yard"), SI(27.0, "cubic feet"), 1e-15);
}

/* [memory] temperatures named in composting rules: 131 F is 55 C, 140 F 60 C, 160 F 71.1 C. */
static void rules_for_heat_agree_in_both_degrees(void **state)
{
    (void)state;
    assert_near(SI(131.0, "F"), SI(55.0, "C"), 1e-10);
    assert_near(SI(140.0, "F"), SI(60.0, "C"), 1e-10);
    assert_near(SI(160.0, "F"), SI(71.1, "C"), 0.02);
    assert_near(SI(-40.0, "F"), SI(-40.0, "C"), 1e-10);
}

static void south_and_west_are_negative(void **state)
{
    (void)state;
    assert_near(SI(33.9, "S"), -SI(33.9, "N"), 1e-15);
    assert_near(SI(180.0, "W"), -3.14159265358979323846, 1e-15);
}

static void back_is_where_it_came_from(void **state)
{
    (void)state;
    for (int i = 0; i < unit_count; i++) {
        const struct unit *unit = &unit_rows[i];
        assert_near(unit_from_SI(unit, unit_to_SI(unit, 12.5)), 12.5, 1e-11);
    }
}

/* every name and every other spelling means its own row */
static void no_spelling_means_two_units(void **state)
{
    (void)state;
    for (int i = 0; i < unit_count; i++) {
        size_t length;
        assert_ptr_equal(unit_at(unit_rows[i].name, &length), &unit_rows[i]);
        for (const char *at = unit_rows[i].also; *at;) {
            char one[64];
            size_t size = strcspn(at, "|");
            snprintf(one, sizeof one, "%.*s", (int)size, at);
            assert_ptr_equal(unit_at(one, &length), &unit_rows[i]);
            assert_int_equal(length, size);
            assert_null(unit_question(one));
            at += size + (at[size] == '|');
        }
    }
}

static void a_word_of_several_meanings_is_asked_about(void **state)
{
    (void)state;
    static const char *const words[] = {"ton", "tons", "gallon", "gal", "oz", "ounces", "cup",
                                        "month", "years", "quart", "c", "f", "M", "KG"};
    size_t length;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        assert_non_null(unit_question(words[i]));
        assert_null(unit_at(words[i], &length));
    }
    assert_null(unit_question("tonne"));
}

static void a_unit_ends_where_its_word_ends(void **state)
{
    (void)state;
    size_t length;
    assert_null(unit_at("litresx", &length));
    assert_null(unit_at("m4", &length));
    assert_null(unit_at("", &length));
    assert_string_equal(unit_at("m3 of it", &length)->name, "m3");
    assert_string_equal(unit_at("kg/m3", &length)->name, "kg/m3");
    assert_string_equal(unit_at("kg a bucket", &length)->name, "kg");
    assert_string_equal(unit_at("US  Gallons fresh", &length)->name, "US gallon");
    assert_int_equal(length, strlen("US  Gallons"));
    assert_string_equal(unit_at("°C", &length)->name, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_unit_is_that_of_a_general_library),
        cmocka_unit_test(gallons_and_yards_are_exact),
        cmocka_unit_test(rules_for_heat_agree_in_both_degrees),
        cmocka_unit_test(south_and_west_are_negative),
        cmocka_unit_test(back_is_where_it_came_from),
        cmocka_unit_test(no_spelling_means_two_units),
        cmocka_unit_test(a_word_of_several_meanings_is_asked_about),
        cmocka_unit_test(a_unit_ends_where_its_word_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
