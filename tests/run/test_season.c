/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_season.c - what a season that can't go on says of itself.
 *
 * The file under test is included: hardly a pile that may be written down is known to get there, but for
 * litters of millimetres (tests/cli/limits.sh).
 */
#include "run/season.c"
#include "run/standing.h"

/* Stuck within a day (from 0) with this share of vapour, at this height. */
static void stuck_at(int day, double vapour_share, double high_m, const char *says)
{
    struct setting *s = calloc(1, sizeof *s);
    lane row_m = lane_of(high_m);
    struct mesh mesh = {.rows = 1, .row_height_m = &row_m};
    struct trouble why = {0};
    assert_non_null(s);
    struct course course = {.day = {day}};
    s->step.size_s = lane_of(1e-4);
    s->step.failed = lane_everybody();
    s->pile.mesh = &mesh;
    s->balance.vapour_share = lane_of(vapour_share);
    assert_false(headway(s, &course, &why));
    assert_string_equal(why.text, says);
    free(s);
}

static void a_pile_that_boils_is_told_of_with_its_own_day(void **state)
{
    (void)state;
    stuck_at(0, 0.95, 0.8, "the pile would boil on day 1; pour cooler water");
    stuck_at(3, 0.86, 0.8, "the pile would boil on day 4; pour cooler water");
}

static void a_step_that_got_too_short_is_owned_to(void **state)
{
    (void)state;
    stuck_at(6, 0.2, 0.031, "the season can't advance on day 7: a step of 0.0001 s is still too long; this is a "
                             "defect of the program");
}

static void a_litter_too_thin_to_be_reckoned_is_no_defect(void **state)
{
    (void)state;
    stuck_at(6, 0.2, 0.029, "the pile is only 2.9 cm high on day 7, and so thin that its water follows the air "
                            "within seconds; put more in, or take a smaller bin");
}

/* The limit of attempts is a day's, and stands above what the finest meshes take. */
static void a_day_without_headway_ends_the_season(void **state)
{
    (void)state;
    struct setting *s = calloc(1, sizeof *s);
    struct course course = {.day = {4}};
    struct trouble why = {0};
    lane row_m = lane_of(0.8);
    struct mesh mesh = {.rows = 1, .row_height_m = &row_m};
    assert_non_null(s);
    s->pile.mesh = &mesh;
    s->step.size_s = lane_of(0.5);
    s->watch.steps = lane_of(MOST_ATTEMPTS_A_DAY - 9);
    s->watch.refused = lane_of(9);
    assert_true(headway(s, &course, &why));
    s->watch.refused = lane_of(10);
    assert_false(headway(s, &course, &why));
    assert_non_null(strstr(why.text, "on day 5"));
    free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pile_that_boils_is_told_of_with_its_own_day),
        cmocka_unit_test(a_day_without_headway_ends_the_season),
        cmocka_unit_test(a_step_that_got_too_short_is_owned_to),
        cmocka_unit_test(a_litter_too_thin_to_be_reckoned_is_no_defect),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
