/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_why.c - a pile on a day: its budget adds up, and what a change would do is what it did
 * when it was run.
 *
 * Short seasons of whole piles. That both ways of asking must agree is derived; no source is needed.
 */
#include "ask/why.h"
#include "ask/outcome.h"
#include "door/scenario.h"
#include "lib/near.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GARDEN "midden: 1\nstart: 2025-10-04\nneed: by 2025-11-05\n" \
    "place: {latitude: 48 N, elevation: 400 m}\nsky: cold winters\n"
#define BINS "bins:\n  a: {size: 1 x 1 x 1 m}\n  b: {like: a, now: empty}\n"
#define DRY "build:\n  - repeat: 4\n    layers:\n      - straw: 60 L loose crisp\n" \
    "        horse manure: 60 L\n        mixed leaves: 60 L crisp\n"
#define DUSTY "found:\n  height: 80 cm\n  squeeze: dusty\n  middle: 30 C\n  hand deep: 22 C\n" \
    "  built: 14 days ago\n  of:\n    mixed leaves: 4 parts\n    grass clippings: 2 parts\n"
/* few greens, half a bay, built in winter: it never heats, and July is warmer than it ever was itself */
#define COLD "midden: 1\nstart: 2026-02-20\nneed: by 2026-06-15\nplace: {latitude: 51 N}\n" \
    "sky: cold winters\nbin: 1 x 1 x 1 m\n" \
    "build:\n  - dry leaves: 20 buckets\n    grass clippings: 4 buckets\n"
#define HOT "midden: 1\nstart: 2026-04-11\nneed: by 2026-08-29\nplace: {latitude: 51 N}\n" \
    "sky: cold winters\nbin: 1 x 1 x 1 m\n" \
    "build:\n  - straw: 40 buckets pressed\n    grass clippings: 25 buckets\n    horse manure: 15 buckets\n"
enum { MEMBERS = 4, DAY = 9 };

struct garden {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
    struct why_ask ask;
    struct why_found found;
    struct trouble why;
    double room[MEMBERS];
};

static struct garden *garden(const char *text, int day)
{
    struct garden *g = calloc(1, sizeof *g);
    assert_non_null(g);
    if (!scenario_read_text(&g->scenario, text, strlen(text), "test", &g->why))
        fail_msg("%s", g->why.text);
    g->param = param_usual();
    g->ask = (struct why_ask){.scenario = &g->scenario, .day = day, .hour = -1};
    g->ask.crew = (struct crew){.scenario = &g->scenario, .param = &g->param, .fixed = g->fixed, .draw = 1,
                                .first = 1, .last = MEMBERS, .threads = 1};
    return g;
}

static void run(struct garden *g)
{
    if (!why_run(&g->found, &g->ask, &g->why))
        fail_msg("%s", g->why.text);
}

static void garden_free(struct garden *g)
{
    why_free(&g->found);
    free(g);
}

static void the_budget_of_a_day_and_of_its_hours_adds_up(void **state)
{
    (void)state;
    struct garden *g = garden(GARDEN BINS DRY, DAY);
    run(g);
    double of_hours = 0;
    for (int hour = -1; hour < RECORD_HOURS; hour++) {
        struct budget_range range = budget_range_of(g->found.able.record, MEMBERS, DAY, hour, g->room);
        double sum = 0, size = 0;
        for (int i = 0; i < BUDGET_STORED; i++) {
            sum += range.line_W[i].mid;
            size += fabs(range.line_W[i].mid);
        }
        assert_near(sum, range.line_W[BUDGET_STORED].mid, 1e-12 * size);
        of_hours += hour < 0 ? 0 : range.line_W[BUDGET_STORED].mid / RECORD_HOURS;
    }
    assert_near(of_hours, g->found.budget.line_W[BUDGET_STORED].mid, 1e-9);
    garden_free(g);
}

/* what is stored is what the pile gained in warmth: mass and heat capacity aren't in the record, so
 * only its direction is asked */
static void a_pile_that_stores_heat_gets_warmer(void **state)
{
    (void)state;
    struct garden *g = garden(GARDEN BINS DRY, 1);
    run(g);
    const struct record *r = &g->found.able.record[0];
    assert_true(budget_day(r, 1).line_W[BUDGET_STORED] * (r->hour[23].mean_K - r->hour[0].mean_K) > 0);
    garden_free(g);
}

static void the_best_change_tells_what_a_season_with_it_tells(void **state)
{
    (void)state;
    struct garden *g = garden(GARDEN BINS DRY, DAY);
    struct crew_done with, without;
    struct crew crew = g->ask.crew;
    run(g);
    assert_true(g->found.tells > 0);
    const struct why_effect *effect = &g->found.effect[g->found.told[0]];
    assert_int_equal(effect->members, MEMBERS);
    struct change_pile pile = {&g->scenario, 0, DAY, 0, 0, 0};
    double room[3][MEMBERS];
    for (int m = 0; m < MEMBERS; m++) {
        const struct record_day *before = &g->found.able.record[m].day[DAY - 1];
        room[0][m] = cause_water_l(&g->found.able.record[m], DAY), room[1][m] = before->water_share, room[2][m] = before->volume_m3;
    }
    pile.thirst_kg = band_of(room[0], MEMBERS).mid;
    pile.water_share = band_of(room[1], MEMBERS).mid;
    pile.volume_m3 = band_of(room[2], MEMBERS).mid;
    struct scenario *changed = malloc(sizeof *changed);
    change_make(changed, effect->change.kind, &pile);
    assert_true(crew_run(&without, &crew, &g->why));
    crew.scenario = changed;
    assert_true(crew_run(&with, &crew, &g->why));
    double warmer[MEMBERS], later[MEMBERS];
    int seen_warmer = 0, never_with = 0, never_without = 0;
    for (int m = 0; m < MEMBERS; m++) {
        warmer[m] = 0;
        for (int d = DAY + 1; d <= DAY + WHY_AFTER_DAYS; d++)
            warmer[m] += (with.record[m].day[d].middle_K - without.record[m].day[d].middle_K) / WHY_AFTER_DAYS;
        struct outcome a = outcome_of(&with.record[m], changed);
        struct outcome b = outcome_of(&without.record[m], &g->scenario);
        later[m] = outcome_day(&a, g->found.use, changed) - outcome_day(&b, g->found.use, &g->scenario);
        seen_warmer += warmer[m] >= 0.5; /* half a kelvin: what a thermometer in a pile shows */
        never_with += isnan(a.ready_day[g->found.use]);
        never_without += isnan(b.ready_day[g->found.use]);
    }
    assert_int_equal(effect->warmer, seen_warmer);
    assert_int_equal(effect->never_with, never_with);
    assert_int_equal(effect->never_without, never_without);
    assert_near(band_of(warmer, MEMBERS).mid, effect->middle_K.mid, 1e-9);
    assert_near(band_of(later, MEMBERS).mid, effect->ready_days.mid, 1e-9);
    crew_free(&with);
    crew_free(&without);
    free(changed);
    garden_free(g);
}

/* dusty is about 30 % of water; that such a pile wants water is common practice, no source */
static void a_dry_pile_is_held_back_by_dryness_and_water_would_warm_it(void **state)
{
    (void)state;
    struct garden *g = garden(GARDEN BINS DUSTY, 1);
    struct held rank[RECORD_LIMITS];
    run(g);
    held_rank_of(rank, g->found.able.record, MEMBERS, 1, RECORD_CORE, g->room);
    assert_int_equal(rank[0].what, RECORD_WATER);
    const struct change *water = &g->found.effect[CHANGE_WATER].change;
    assert_int_equal(water->bar, CHANGE_CAN);
    assert_true(water->water_l > 10);
    assert_true(g->found.effect[CHANGE_WATER].members == MEMBERS && why_warms(&g->found.effect[CHANGE_WATER]));
    garden_free(g);
}

static void what_cant_be_done_is_left_out_and_the_rest_is_told(void **state)
{
    (void)state;
    struct garden *g = garden(GARDEN "bins:\n  a: {size: 1 x 1 x 1 m}\n  b: {like: a, now: full}\n" DRY, DAY);
    run(g);
    assert_int_equal(g->found.effect[CHANGE_TURN_IN].change.bar, CHANGE_FAILS);
    assert_int_equal(g->found.effect[CHANGE_TURN_MIXED].change.bar, CHANGE_FAILS);
    for (int i = 0; i < g->found.tells; i++)
        assert_true(g->found.told[i] != CHANGE_TURN_IN && g->found.told[i] != CHANGE_TURN_MIXED);
    garden_free(g);
}

static void on_the_last_day_no_change_is_tried(void **state)
{
    (void)state;
    struct garden *g = garden(GARDEN BINS DRY, 0);
    g->ask.day = g->scenario.last_day;
    run(g);
    assert_int_equal(g->found.tells, 0);
    assert_int_equal(g->found.after_days, 0);
    garden_free(g);
}

/* what is told of the fence is what the same piles came to behind it */
static void a_low_pile_is_tried_higher_and_fenced_in(void **state)
{
    (void)state;
    struct garden *g = garden(COLD, DAY);
    run(g);
    const struct why_effect *fenced = &g->found.effect[CHANGE_FENCED], *twice = &g->found.effect[CHANGE_TWICE];
    assert_true(twice->change.higher);
    assert_int_equal(fenced->change.bar, CHANGE_CAN);
    assert_int_equal(fenced->members, MEMBERS); /* among the three that are told */
    struct change_pile pile = {.scenario = &g->scenario, .day = DAY};
    struct scenario *changed = malloc(sizeof *changed);
    struct crew crew = g->ask.crew;
    struct crew_done done;
    change_make(changed, CHANGE_FENCED, &pile);
    crew.scenario = changed;
    assert_true(crew_run(&done, &crew, &g->why));
    for (int m = 0; m < MEMBERS; m++) {
        g->room[m] = 0;
        for (int d = DAY + 1; d <= DAY + WHY_AFTER_DAYS; d++)
            g->room[m] += (done.record[m].day[d].middle_K - g->found.able.record[m].day[d].middle_K) / WHY_AFTER_DAYS;
    }
    assert_near(fenced->middle_K.mid, band_of(g->room, MEMBERS).mid, 1e-9);
    assert_true(fenced->middle_K.mid > 0);
    crew_free(&done);
    free(changed);
    garden_free(g);
}

/* the median of the middle, and by how much it is above that of the air */
struct course {
    double middle_K[400], above_K[400];
};

static void course_of(struct course *course, struct garden *g)
{
    struct crew_done done;
    assert_true(crew_run(&done, &g->ask.crew, &g->why));
    for (int d = 0; d <= g->scenario.last_day; d++) {
        double air_K[MEMBERS];
        for (int m = 0; m < MEMBERS; m++) {
            g->room[m] = done.record[m].day[d].middle_K;
            air_K[m] = done.record[m].day[d].air_K;
        }
        course->middle_K[d] = band_of(g->room, MEMBERS).mid;
        course->above_K[d] = course->middle_K[d] - band_of(air_K, MEMBERS).mid;
    }
    crew_free(&done);
}

static int most(const double *value, int days)
{
    int at = 0;
    for (int d = 0; d < days; d++)
        at = value[d] > value[at] ? d : at;
    return at;
}

/* the mesh on which a day is looked for is coarser, hence a kelvin */
static void the_day_asked_of_is_the_one_furthest_above_the_air(void **state)
{
    (void)state;
    static struct course course;
    struct garden *g = garden(COLD, 0);
    int days = g->scenario.last_day + 1, day = why_furthest(&g->ask, &g->why);
    course_of(&course, g);
    int july = most(course.middle_K, days);
    assert_true(day >= 0 && day < july - 60);
    assert_true(course.above_K[day] > course.above_K[july] + 1);
    assert_near(course.above_K[day], course.above_K[most(course.above_K, days)], 1);
    garden_free(g);
}

static void that_of_a_hot_pile_is_about_its_peak(void **state)
{
    (void)state;
    static struct course course;
    struct garden *g = garden(HOT, 0);
    int days = g->scenario.last_day + 1, day = why_furthest(&g->ask, &g->why);
    course_of(&course, g);
    int peak = most(course.middle_K, days);
    assert_true(course.middle_K[peak] > 318.15); /* 45 C: a pile at work, as in ask/cause */
    assert_true(day >= 0 && abs(day - peak) <= 7);
    assert_true(course.middle_K[day] > course.middle_K[peak] - 5);
    garden_free(g);
}

static void a_range_across_nought_is_no_gain(void **state)
{
    (void)state;
    struct why_effect e = {.middle_K = {-0.1, 4, 9}, .ready_days = {-20, -8, 1}, .members = 8};
    assert_false(why_warms(&e) || why_hastens(&e) || why_cools(&e) || why_delays(&e));
    e.middle_K.low = 1;
    e.ready_days.high = -1;
    assert_true(why_warms(&e) && why_hastens(&e));
    e.members = 0;
    assert_false(why_warms(&e) || why_hastens(&e));
    e = (struct why_effect){.middle_K = {-4, -2, -1}, .ready_days = {1, 5, 9}, .members = 8};
    assert_true(why_cools(&e) && why_delays(&e));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_budget_of_a_day_and_of_its_hours_adds_up),
        cmocka_unit_test(a_pile_that_stores_heat_gets_warmer),
        cmocka_unit_test(the_best_change_tells_what_a_season_with_it_tells),
        cmocka_unit_test(a_dry_pile_is_held_back_by_dryness_and_water_would_warm_it),
        cmocka_unit_test(what_cant_be_done_is_left_out_and_the_rest_is_told),
        cmocka_unit_test(on_the_last_day_no_change_is_tried),
        cmocka_unit_test(a_low_pile_is_tried_higher_and_fenced_in),
        cmocka_unit_test(the_day_asked_of_is_the_one_furthest_above_the_air),
        cmocka_unit_test(that_of_a_hot_pile_is_about_its_peak),
        cmocka_unit_test(a_range_across_nought_is_no_gain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
