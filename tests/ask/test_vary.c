/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_vary.c - a pile made otherwise differs in that one thing.
 *
 * What must hold is geometry and conservation of dry matter [derived]; months and their middles are of
 * the calendar. The surface of cubes to their volume, 10 and 5 per metre at 0.6 and 1.2 m, is 6/side.
 */
#include "ask/vary.h"
#include "door/scenario.h"
#include "know/bound.h"
#include "know/skies.h"
#include "lib/near.h"
#include "run/possible.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PILE "midden: 1\nstart: 2026-04-11\nneed: by 2026-08-29\n" \
    "place: {latitude: 51 N, elevation: 300 m}\nsky: cold winters\n" \
    "bins:\n  a: {size: 1 x 1.2 x 1 m, walls: boards}\n  b: {like: a, now: empty}\n" \
    "build:\n  - straw: 20 buckets\n    grass clippings: 5 to 7 buckets\n    water: 3 buckets\n" \
    "  - horse manure: 30 kg\n" \
    "plans:\n  busy:\n    - {day: 2026-05-01, turn: mixed, into: b, water: 2 buckets}\n"

static struct scenario *pile(const char *text)
{
    struct trouble why = {0};
    struct scenario *scenario = calloc(1, sizeof *scenario);
    assert_non_null(scenario);
    if (!scenario_read_text(scenario, text, strlen(text), "test", &why))
        fail_msg("%s", why.text);
    return scenario;
}

static struct scenario *copy(const struct scenario *scenario)
{
    struct scenario *made = malloc(sizeof *made);
    assert_non_null(made);
    *made = *scenario;
    return made;
}

static void a_pile_left_alone_has_no_deeds_and_no_longer_season(void **state)
{
    (void)state;
    struct scenario *was = pile(PILE), *now = copy(was);
    vary_alone(now, 0, 20);
    assert_int_equal(now->plan[0].events, 0);
    assert_int_equal(now->last_day, 20);
    vary_alone(now, 0, 40);
    assert_int_equal(now->last_day, 20);
    assert_memory_equal(now->layer, was->layer, sizeof was->layer);
    free(was);
    free(now);
}

static void a_cube_holds_its_volume_of_the_same_mix(void **state)
{
    (void)state;
    const double built_m3 = 0.5, side_m = 0.6;
    struct scenario *was = pile(PILE), *now = copy(was);
    vary_cube(now, side_m, built_m3);
    for (int b = 0; b < now->bays; b++) {
        assert_int_equal(now->bay[b].shape, PLAN_BIN);
        assert_near(now->bay[b].length_m, side_m, 1e-15);
        assert_near(now->bay[b].width_m, side_m, 1e-15);
        assert_near(now->bay[b].height_m, side_m, 1e-15);
        assert_int_equal(now->bay[b].wall, was->bay[b].wall);
    }
    double times = 0.216 / 0.5; /* 0.6^3 */
    for (int l = 0; l < now->layers; l++) {
        assert_near(now->layer[l].water_kg.mid, times * was->layer[l].water_kg.mid, 1e-12);
        for (int i = 0; i < now->layer[l].portions; i++) {
            const struct plan_portion *a = &was->layer[l].portion[i], *b = &now->layer[l].portion[i];
            assert_near(b->wet_kg.low, times * a->wet_kg.low, 1e-12);
            assert_near(b->wet_kg.high, times * a->wet_kg.high, 1e-12);
            assert_near(b->volume_m3.mid, times * a->volume_m3.mid, 1e-12);
            assert_near(b->water_share.mid, a->water_share.mid, 0);
            assert_near(b->bulk_kg_per_m3.mid, a->bulk_kg_per_m3.mid, 0);
        }
    }
    free(was);
    free(now);
}

static void a_smaller_cube_has_more_surface_to_its_volume(void **state)
{
    (void)state;
    assert_near(vary_cube_surface(0.6), 10, 1e-12);
    assert_near(vary_cube_surface(1.2), 5, 1e-12);
}

static void more_ground_has_more_of_all_and_is_no_higher(void **state)
{
    (void)state;
    struct scenario *was = pile(PILE), *now = copy(was);
    vary_size(now, 2, 2);
    const struct plan_bay *a = &was->bay[0], *b = &now->bay[0];
    assert_near(b->length_m * b->width_m, 2 * a->length_m * a->width_m, 1e-12);
    assert_near(b->height_m, a->height_m, 0);
    assert_near(now->layer[0].portion[0].wet_kg.mid, 2 * was->layer[0].portion[0].wet_kg.mid, 1e-12);
    assert_near(now->plan[0].event[0].water_kg.mid, 2 * was->plan[0].event[0].water_kg.mid, 1e-12);
    vary_size(now, 0.5, 1);
    assert_near(b->length_m * b->width_m, a->length_m * a->width_m, 1e-12);
    assert_near(now->layer[0].portion[0].wet_kg.mid, 2 * was->layer[0].portion[0].wet_kg.mid, 1e-12);
    free(was);
    free(now);
}

/* as the season lays it: the middle of what is likely */
static struct possible_portion laid(const struct scenario *scenario, int layer, int portion)
{
    struct param param = param_usual();
    struct possible *possible = malloc(sizeof *possible);
    assert_non_null(possible);
    possible_usual(possible, scenario, &param);
    struct possible_portion lies =
        possible_portion(possible, &scenario->layer[layer].portion[portion]);
    free(possible);
    return lies;
}

static void water_changes_and_dry_matter_stays(void **state)
{
    (void)state;
    static const double share[] = {0.25, 0.55, 0.75};
    struct scenario *was = pile(PILE);
    for (int k = 0; k < 3; k++) {
        struct scenario *now = copy(was);
        vary_wet(now, share[k]);
        for (int l = 0; l < now->layers; l++) {
            assert_near(now->layer[l].water_kg.high, 0, 0);
            for (int i = 0; i < now->layer[l].portions; i++) {
                struct possible_portion a = laid(was, l, i), b = laid(now, l, i);
                assert_near(b.water_share, share[k], 1e-12);
                assert_near(b.wet_kg * (1 - b.water_share), a.wet_kg * (1 - a.water_share), 1e-9);
            }
        }
        free(now);
    }
    free(was);
}

static void a_turn_and_a_cover_are_one_event_more(void **state)
{
    (void)state;
    struct scenario *now = pile(PILE);
    int straw = bound_find("straw", BOUND_COVER);
    assert_true(vary_turn(&now->plan[0], 9, PLAN_MIXED, PLAN_SAME_BAY));
    assert_true(vary_cover(&now->plan[0], 30, straw, 0.1));
    assert_int_equal(now->plan[0].events, 3);
    const struct plan_event *turn = &now->plan[0].event[1], *cover = &now->plan[0].event[2];
    assert_int_equal(turn->deed, PLAN_TURN);
    assert_int_equal(turn->day, 9);
    assert_int_equal(turn->way, PLAN_MIXED);
    assert_int_equal(turn->into, PLAN_SAME_BAY);
    assert_int_equal(cover->deed, PLAN_COVER);
    assert_int_equal(cover->day, 30);
    assert_int_equal(cover->cover, straw);
    assert_near(cover->cover_m, 0.1, 0);
    now->plan[0].events = PLAN_EVENTS;
    assert_false(vary_turn(&now->plan[0], 9, PLAN_MIXED, PLAN_SAME_BAY));
    assert_false(vary_cover(&now->plan[0], 30, straw, 0.1));
    free(now);
}

static int coldest_of_table(int row)
{
    int coldest = 0;
    for (int m = 1; m < 12; m++)
        if (skies_rows[row].low_C[m] + skies_rows[row].high_C[m] <
            skies_rows[row].low_C[coldest] + skies_rows[row].high_C[coldest])
            coldest = m;
    return coldest;
}

static void winter_is_the_coldest_month_of_the_place(void **state)
{
    (void)state;
    struct scenario *now = pile(PILE);
    date_count was = now->start;
    assert_true(vary_winter(now, 28));
    struct date day = date_of(now->start + 28);
    assert_int_equal(day.month, 1 + coldest_of_table(now->sky_row));
    assert_int_equal(day.day, 15);
    assert_true(now->start >= was && now->start < was + 366);
    now->start = was;
    now->place.latitude_rad = -now->place.latitude_rad; /* half a year later there */
    assert_true(vary_winter(now, 28));
    assert_int_equal(date_of(now->start + 28).month, 1 + (coldest_of_table(now->sky_row) + 6) % 12);
    free(now);
}

static void weather_of_a_file_has_no_other_winter(void **state)
{
    (void)state;
    struct scenario *now = pile(PILE);
    date_count was = now->start;
    now->sky = PLAN_SKY_FILE;
    assert_false(vary_winter(now, 28));
    assert_int_equal(now->start, was);
    free(now);
}

/* The calendar of base/date ends with 2200. */
static void no_winter_is_moved_beyond_the_calendar(void **state)
{
    (void)state;
    struct scenario *now = pile(PILE);
    now->start = date_number((struct date){2199, 6, 1});
    assert_false(vary_winter(now, 28));
    now->start = date_number((struct date){2198, 6, 1});
    assert_true(vary_winter(now, 28));
    free(now);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pile_left_alone_has_no_deeds_and_no_longer_season),
        cmocka_unit_test(a_cube_holds_its_volume_of_the_same_mix),
        cmocka_unit_test(a_smaller_cube_has_more_surface_to_its_volume),
        cmocka_unit_test(more_ground_has_more_of_all_and_is_no_higher),
        cmocka_unit_test(water_changes_and_dry_matter_stays),
        cmocka_unit_test(a_turn_and_a_cover_are_one_event_more),
        cmocka_unit_test(winter_is_the_coldest_month_of_the_place),
        cmocka_unit_test(weather_of_a_file_has_no_other_winter),
        cmocka_unit_test(no_winter_is_moved_beyond_the_calendar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
