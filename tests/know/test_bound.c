/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/know/test_bound.c - know/bound: names, ranges, and resistances against handbook values. */
#include "know/bound.h"
#include "lib/near.h"
#include <stdbool.h>

static const struct bound *row(const char *name, enum bound_kind kind)
{
    int at = bound_find(name, kind);
    assert_true(at >= 0 && at < bound_count);
    assert_int_equal(bound_rows[at].kind, kind);
    return &bound_rows[at];
}

static void every_row_is_found_by_its_name_among_its_kind(void **state)
{
    (void)state;
    for (int i = 0; i < bound_count; i++)
        assert_int_equal(bound_find(bound_rows[i].name, bound_rows[i].kind), i);
}

static void shares_are_shares_and_every_row_names_a_source_with_its_mark(void **state)
{
    (void)state;
    for (int i = 0; i < bound_count; i++) {
        const struct bound *bound = &bound_rows[i];
        assert_true(bound->open_share >= 0.0 && bound->open_share <= 1.0);
        assert_true(bound->rain_share >= 0.0 && bound->rain_share <= 1.0);
        assert_true(bound->sun_share >= 0.0 && bound->sun_share <= 1.0);
        assert_true(bound->heat_m2K_per_W >= 0.0);
        assert_true(strstr(bound->source, "trade") || strstr(bound->source, "memory") ||
                    strstr(bound->source, "seen"));
        assert_true(strlen(bound->meaning) > 5);
    }
}

/* Two ways side by side between films of 10 W/(m2 K): boards and gaps. */
static double slatted(double closed_m2K_per_W, double open_share)
{
    double film = 0.1;
    return 1.0 / ((1.0 - open_share) / (closed_m2K_per_W + film) + open_share / film) - film;
}

/* [seen] Forest Products Laboratory, Wood Handbook: 0.157 W/(m K) across the grain at basic gravity
 * 0.54 and 10 % moisture. [memory] still air gap 0.15 m2K/W. The table rounds to 0.01. */
static void slatted_things_follow_from_wood_and_gaps(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        enum bound_kind kind;
        double thick_m, gap_m2K_per_W;
    } want[] = {
        {"pallets", BOUND_WALL, 0.020, 0.0},  {"slats", BOUND_WALL, 0.025, 0.0},
        {"boards", BOUND_WALL, 0.025, 0.0},   {"slats", BOUND_FLOOR, 0.025, 0.0},
        {"pallet", BOUND_FLOOR, 0.020, 0.0},  {"boards", BOUND_LID, 0.025, 0.15},
        {"tin", BOUND_LID, 0.0, 0.15},
    };
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        const struct bound *bound = row(want[i].name, want[i].kind);
        double closed = want[i].thick_m / 0.157 + want[i].gap_m2K_per_W;
        assert_near(bound->heat_m2K_per_W, slatted(closed, bound->open_share), 0.0051);
    }
}

/* [memory] Conductivities of building handbooks (as in ISO 10456 and national guides): brick outer
 * leaf 0.77, concrete 1.4, foam 0.037 W/(m K). */
static void solid_things_follow_from_handbook_conductivities(void **state)
{
    (void)state;
    assert_near(row("brick", BOUND_WALL)->heat_m2K_per_W, 0.10 / 0.77, 0.005);
    assert_near(row("slab", BOUND_FLOOR)->heat_m2K_per_W, 0.10 / 1.4, 0.005);
    double foam = 0.05 / 0.037;
    assert_true(row("insulated", BOUND_WALL)->heat_m2K_per_W > foam);
    assert_true(row("insulated", BOUND_WALL)->heat_m2K_per_W < foam + 0.2);
}

/* [memory] Conductivity 0.06 W/(m K) for straw and carpet; [derived] 10 cm of moist compost at
 * 0.4 W/(m K) is 0.25 m2K/W, a poor blanket beside 10 cm of straw. */
static void covers_are_told_per_metre_of_thickness(void **state)
{
    (void)state;
    assert_near(row("straw", BOUND_COVER)->heat_m2K_per_W, 1.0 / 0.06, 0.05);
    assert_near(row("carpet", BOUND_COVER)->heat_m2K_per_W, 1.0 / 0.06, 0.05);
    assert_near(0.10 * row("finished compost", BOUND_COVER)->heat_m2K_per_W, 0.25, 1e-12);
}

static void nothing_keeps_nothing_off(void **state)
{
    (void)state;
    static const enum bound_kind kind[] = {BOUND_WALL, BOUND_LID};
    for (int i = 0; i < 2; i++) {
        assert_near(row("none", kind[i])->open_share, 1.0, 0.0);
        assert_near(row("none", kind[i])->heat_m2K_per_W, 0.0, 0.0);
        assert_near(row("none", kind[i])->rain_share, 1.0, 0.0);
    }
}

static void same(const char *words, const char *name, enum bound_kind kind)
{
    assert_string_equal(row(words, kind)->name, name);
}

static void ordinary_words_find_the_row_of_their_kind(void **state)
{
    (void)state;
    same("Pallet", "pallets", BOUND_WALL);
    same("pallets", "pallet", BOUND_FLOOR);
    same("STRAW-BALES", "straw bales", BOUND_WALL);
    same("straw_bales", "straw bales", BOUND_WALL);
    same("chicken wire", "wire", BOUND_WALL);
    same("bricks", "brick", BOUND_WALL);
    same("open", "none", BOUND_LID);
    same("corrugated iron", "tin", BOUND_LID);
    same("tarpaulin", "tarp", BOUND_COVER);
    same("old bottom soil", "soil", BOUND_COVER);
    same("ground", "soil", BOUND_FLOOR);
}

static void a_word_of_another_kind_is_not_taken(void **state)
{
    (void)state;
    assert_int_equal(bound_find("carpet", BOUND_WALL), -1);
    assert_int_equal(bound_find("wire", BOUND_LID), -1);
    assert_int_equal(bound_find("straw", BOUND_WALL), -1);
    assert_int_equal(bound_find("pallets", BOUND_COVER), -1);
    assert_int_equal(bound_find("", BOUND_WALL), -1);
    assert_int_equal(bound_find("pal", BOUND_WALL), -1);
    assert_int_equal(bound_find("palletss", BOUND_WALL), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_is_found_by_its_name_among_its_kind),
        cmocka_unit_test(shares_are_shares_and_every_row_names_a_source_with_its_mark),
        cmocka_unit_test(slatted_things_follow_from_wood_and_gaps),
        cmocka_unit_test(solid_things_follow_from_handbook_conductivities),
        cmocka_unit_test(covers_are_told_per_metre_of_thickness),
        cmocka_unit_test(nothing_keeps_nothing_off),
        cmocka_unit_test(ordinary_words_find_the_row_of_their_kind),
        cmocka_unit_test(a_word_of_another_kind_is_not_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
