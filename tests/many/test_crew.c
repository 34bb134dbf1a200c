/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_crew.c - many/crew: no digit depends on threads, slices, neighbours or order.
 *
 * Short seasons of whole piles, compared byte by byte. There is no outside source: that a member is
 * itself wherever it is run is the program's own claim [derived].
 */
#include "many/crew.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "lib/near.h"
#include "many/spell.h"
#include <stdlib.h>

/* ten days; the first plan has dates only and runs four side by side, the second runs one by one */
#define PLACE "midden: 1\nstart: 2025-09-20\nneed: by 2025-09-29\n" \
    "place: {latitude: 50 N, elevation: 100 m}\nsky: mild and wet\n"
#define RECIPE "build:\n  - repeat: 4\n    layers:\n      - straw: 55 L\n" \
    "        horse manure: 45 L\n        seeding weeds: 10 L\n" \
    "        grass clippings: 30 to 40 L\n        water: 2 L\n"
#define OPEN PLACE "bin: 1.1 x 1.1 x 1.2 m\n" RECIPE \
    "plans:\n  by date:\n    - {day: 2025-09-24, turn: outside in, water: 1 bucket}\n" \
    "  by rule:\n    - {look: day, when: middle above 30 C, at most: once, turn: mixed}\n"

enum { ALL = 9 };

struct garden {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
    struct curve sky;
    struct crew crew;
    struct trouble why;
};

static struct garden *garden(const char *text, int plan)
{
    struct garden *g = calloc(1, sizeof *g);
    assert_non_null(g);
    if (!scenario_read_text(&g->scenario, text, strlen(text), "test", &g->why))
        fail_msg("%s", g->why.text);
    g->param = param_usual();
    g->crew = (struct crew){.scenario = &g->scenario, .plan = plan, .param = &g->param,
                            .fixed = g->fixed, .draw = 1, .first = 1, .last = ALL, .threads = 1};
    return g;
}

static void garden_free(struct garden *g)
{
    curve_free(&g->sky);
    free(g);
}

static struct crew_done run(struct garden *g, int first, int last, int threads)
{
    struct crew_done done;
    g->crew.first = first;
    g->crew.last = last;
    g->crew.threads = threads;
    if (!crew_run(&done, &g->crew, &g->why))
        fail_msg("%s", g->why.text);
    assert_int_equal(done.first, first);
    assert_int_equal(done.members, last - first + 1);
    return done;
}

static void same_bytes(const void *a, const void *b, size_t size)
{
    if (size > 0)
        assert_memory_equal(a, b, size);
}

static void same_record(const struct record *a, const struct record *b)
{
    assert_int_equal(a->days, 10);
    assert_int_equal(a->days, b->days);
    assert_int_equal(a->events, b->events);
    assert_int_equal(a->turns, b->turns);
    same_bytes(a->day, b->day, (size_t)a->days * sizeof *a->day);
    same_bytes(a->event, b->event, (size_t)a->events * sizeof *a->event);
    same_bytes(a->balance, b->balance, sizeof a->balance);
    same_bytes(a->flux_total, b->flux_total, sizeof a->flux_total);
    same_bytes(a->seeds_laid, b->seeds_laid, sizeof a->seeds_laid);
    same_bytes(a->seeds_alive, b->seeds_alive, sizeof a->seeds_alive);
    same_bytes(a->germs_laid, b->germs_laid, sizeof a->germs_laid);
    same_bytes(a->germs_alive, b->germs_alive, sizeof a->germs_alive);
    same_bytes(a->pool_laid_kg, b->pool_laid_kg, sizeof a->pool_laid_kg);
    same_bytes(a->stuff_left_share, b->stuff_left_share, sizeof a->stuff_left_share);
    same_bytes(&a->respiration_gap, &b->respiration_gap, sizeof a->respiration_gap);
    same_bytes(&a->person_s, &b->person_s, sizeof a->person_s);
    same_bytes(&a->lifted_kg, &b->lifted_kg, sizeof a->lifted_kg);
    same_bytes(&a->water_l, &b->water_l, sizeof a->water_l);
    same_bytes(&a->ignition_day, &b->ignition_day, sizeof a->ignition_day);
}

static void same_members(const struct crew_done *part, const struct crew_done *whole)
{
    for (int i = 0; i < part->members; i++) {
        int k = part->first + i - whole->first;
        assert_true((part->failed[i] == NULL) == (whole->failed[k] == NULL));
        if (part->failed[i])
            assert_string_equal(part->failed[i], whole->failed[k]);
        else
            same_record(&part->record[i], &whole->record[k]);
    }
}

/* Another grouping by four in each: 1-4 5-7, 3-6 7, 7, and each alone. */
static void nothing_depends_on_threads_slices_or_neighbours(int plan)
{
    struct garden *g = garden(OPEN, plan);
    struct crew_done whole = run(g, 1, ALL, 1), threads = run(g, 1, ALL, 3);
    struct crew_done slice = run(g, 3, ALL, 2), last = run(g, ALL, ALL, 1);
    same_members(&threads, &whole);
    same_members(&slice, &whole);
    same_members(&last, &whole);
    for (int member = 1; member <= ALL; member++) {
        struct record alone;
        if (!crew_member(&alone, &g->crew, member, &g->why))
            fail_msg("%s", g->why.text);
        same_record(&alone, &whole.record[member - 1]);
        record_free(&alone);
    }
    crew_free(&whole);
    crew_free(&threads);
    crew_free(&slice);
    crew_free(&last);
    garden_free(g);
}

static void threads_slices_and_neighbours_change_no_digit(void **state)
{
    (void)state;
    nothing_depends_on_threads_slices_or_neighbours(0);
}

static void nor_do_they_where_a_rule_decides(void **state)
{
    (void)state;
    nothing_depends_on_threads_slices_or_neighbours(1);
}

static void more_threads_than_members_do_no_harm(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0);
    struct crew_done few = run(g, 1, 2, 1), many = run(g, 1, 2, 40);
    same_members(&many, &few);
    crew_free(&few);
    crew_free(&many);
    garden_free(g);
}

/* ---- what differs ---- */

/* Rain that falls on the pile, kg of a day; all members of a bin have the same top. */
static double rain_kg(const struct crew_done *done, int i, int day)
{
    return done->record[i].day[day].flux[FLUX_rain_water];
}

static void members_differ_and_so_do_draws(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0);
    struct crew_done one = run(g, 1, 5, 1);
    g->crew.draw = 2;
    struct crew_done other = run(g, 1, 5, 1);
    for (int i = 0; i < 5; i++) {
        assert_true(one.record[i].day[9].middle_K != other.record[i].day[9].middle_K);
        assert_true(one.record[i].day[9].dry_kg != other.record[i].day[9].dry_kg);
        for (int k = 0; k < i; k++)
            assert_true(one.record[i].day[9].middle_K != one.record[k].day[9].middle_K);
    }
    crew_free(&one);
    crew_free(&other);
    garden_free(g);
}

static void made_up_weather_differs_between_members(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0);
    struct crew_done done = run(g, 1, ALL, 2);
    for (int i = 0; i < ALL; i++)
        for (int k = 0; k < i; k++) {
            double apart = 0, rain = 0;
            for (int day = 0; day < 10; day++) {
                apart = fmax(apart, fabs(done.record[i].day[day].air_K -
                                         done.record[k].day[day].air_K));
                rain += fabs(rain_kg(&done, i, day) - rain_kg(&done, k, day));
            }
            assert_true(apart > 0.5 && rain > 0.1);
        }
    crew_free(&done);
    garden_free(g);
}

/* The mean year stands for a file that was read. A day's mean of the air is taken at the member's
 * own steps of up to four hours, so it is the same within half a degree only; rain is exact. */
static void weather_of_a_file_is_the_same_for_all(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0);
    if (!climate_curve(&g->sky, &g->scenario, 0, &g->why))
        fail_msg("%s", g->why.text);
    g->scenario.sky = PLAN_SKY_FILE;
    g->crew.sky = &g->sky;
    struct crew_done done = run(g, 1, ALL, 2);
    for (int i = 1; i < ALL; i++)
        for (int day = 0; day < 10; day++) {
            const struct record_day *a = &done.record[0].day[day], *b = &done.record[i].day[day];
            assert_near(a->air_K, b->air_K, 0.5);
            assert_near(rain_kg(&done, i, day), rain_kg(&done, 0, day), 1e-9);
            assert_true(a->middle_K != b->middle_K);
        }
    crew_free(&done);
    garden_free(g);
}

/* One unknown from another draw moves every member, all of them make the members of that draw. */
static void unknowns_can_come_from_another_draw(void **state)
{
    (void)state;
    static bool other[UNKNOWN_MOST];
    struct garden *g = garden(OPEN, 0);
    g->crew.other_draw = 2;
    g->crew.other = other;
    memset(other, 0, sizeof other);
    struct crew_done none = run(g, 1, 4, 1);
    other[0] = true;
    struct crew_done one = run(g, 1, 4, 1);
    memset(other, 1, sizeof other);
    struct crew_done all = run(g, 1, 4, 1);
    g->crew.other = NULL;
    struct crew_done first = run(g, 1, 4, 1);
    g->crew.draw = 2;
    struct crew_done second = run(g, 1, 4, 1);
    same_members(&none, &first);
    same_members(&all, &second);
    for (int i = 0; i < 4; i++) {
        assert_true(one.record[i].day[9].dry_kg != first.record[i].day[9].dry_kg);
        assert_near(rain_kg(&one, i, 3), rain_kg(&first, i, 3), 1e-9); /* the same weather */
    }
    crew_free(&none);
    crew_free(&one);
    crew_free(&all);
    crew_free(&first);
    crew_free(&second);
    garden_free(g);
}

static void what_was_set_by_hand_holds_for_every_member(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0), *open = garden(OPEN, 0);
    g->fixed[PARAM_ROW_season_warmth_K] = true;
    struct crew_done usual = run(g, 1, 4, 1), drawn = run(open, 1, 4, 1);
    g->param.season_warmth_K = 3;
    struct crew_done warm = run(g, 1, 4, 1);
    for (int i = 0; i < 4; i++) {
        double warmer = 0, off = 0;
        for (int day = 0; day < 10; day++) {
            double air_K = usual.record[i].day[day].air_K;
            warmer += (warm.record[i].day[day].air_K - air_K) / 10;
            off += fabs(drawn.record[i].day[day].air_K - air_K) / 10;
            assert_near(rain_kg(&warm, i, day), rain_kg(&usual, i, day), 1e-9);
        }
        assert_near(warmer, 3, 0.2);    /* the same weather, three degrees warmer at every hour */
        assert_true(off > 0.01);        /* where nothing is set it is drawn */
    }
    crew_free(&warm);
    crew_free(&usual);
    crew_free(&drawn);
    garden_free(g);
    garden_free(open);
}

/* ---- the weather itself ---- */

static double air_at(const struct curve *curve, int hour)
{
    return curve_at(curve, CURVE_AIR_K, 3600.0 * hour);
}

static void a_warmer_season_is_warmer_at_every_hour(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0);
    struct curve usual, warm, other;
    double apart = 0;
    if (!spell_made(&usual, &g->scenario, 5, 0, &g->why) ||
        !spell_made(&warm, &g->scenario, 5, 3, &g->why) ||
        !spell_made(&other, &g->scenario, 6, 0, &g->why))
        fail_msg("%s", g->why.text);
    for (int hour = 0; hour <= 240; hour++) {
        assert_near(air_at(&warm, hour) - air_at(&usual, hour), 3, 1e-9);
        apart = fmax(apart, fabs(air_at(&other, hour) - air_at(&usual, hour)));
    }
    assert_true(apart > 1); /* another seed is other weather */
    assert_int_equal(usual.days, 10);
    curve_free(&usual);
    curve_free(&warm);
    curve_free(&other);
    garden_free(g);
}

/* ---- what can't be done ---- */

#define THIN PLACE "bin: 1 x 1 x 1 m\nbuild:\n  - straw: 3 L\n"

static void a_pile_that_cannot_stand_fails_with_its_own_trouble(void **state)
{
    (void)state;
    struct garden *g = garden(THIN, 0);
    struct crew_done done;
    struct record record;
    struct trouble *alone = calloc(1, sizeof *alone);
    assert_non_null(alone);
    assert_false(crew_run(&done, &g->crew, &g->why));
    assert_int_equal(g->why.kind, TROUBLE_NO);
    assert_non_null(strstr(g->why.text, "cm high"));
    assert_false(crew_member(&record, &g->crew, 1, alone));
    assert_int_equal(alone->kind, TROUBLE_NO);
    assert_string_equal(alone->text, g->why.text);
    record_free(&record);
    crew_free(&done);
    free(alone);
    garden_free(g);
}

/* Those that pass 45 degrees are to be turned into a bay that is full; the others stay. */
#define CROWDED PLACE "bins:\n  one: {size: 1.1 x 1.1 x 1.2 m}\n  two: {like: one, now: full}\n" \
    RECIPE "plans:\n  by rule:\n" \
    "    - {look: day, when: middle above 45 C, at most: once, turn: mixed, into: next}\n"

static void a_member_that_fails_alone_is_kept_with_its_reason(void **state)
{
    (void)state;
    struct garden *g = garden(CROWDED, 0);
    struct crew_done done = run(g, 1, 12, 2), slice = run(g, 5, 12, 1);
    int failures = 0;
    for (int i = 0; i < 12; i++) {
        if (done.failed[i]) {
            assert_non_null(strstr(done.failed[i], "no bay is free"));
            assert_int_equal(done.record[i].days, 0);
            failures++;
        } else {
            assert_int_equal(done.record[i].days, 10);
        }
    }
    assert_true(failures > 0 && failures < 12);
    assert_int_equal(done.failures, failures);
    same_members(&slice, &done);
    crew_free(&done);
    crew_free(&slice);
    garden_free(g);
}

/* ---- being told, and being stopped ---- */

struct ear {
    volatile sig_atomic_t stop;
    int stop_at, calls, done;
    bool rising;
};

static void listen(void *listener, int done, int of)
{
    struct ear *ear = listener;
    assert_true(done <= of);
    ear->rising &= done > ear->done;
    ear->done = done;
    ear->calls++;
    if (ear->stop_at > 0 && done >= ear->stop_at)
        ear->stop = 1;
}

static void progress_rises_to_all_of_them(void **state)
{
    (void)state;
    struct garden *g = garden(OPEN, 0);
    struct ear ear = {.rising = true};
    g->crew.told = listen;
    g->crew.listener = &ear;
    struct crew_done done = run(g, 1, ALL, 2);
    assert_true(ear.rising && ear.calls >= 2);
    assert_int_equal(ear.done, ALL);
    crew_free(&done);
    garden_free(g);
}

static void a_stop_ends_it(int stop_at, int threads, int at_most)
{
    struct garden *g = garden(OPEN, 0);
    struct ear ear = {.stop_at = stop_at, .stop = stop_at == 0, .rising = true};
    struct crew_done done;
    g->crew.stop = &ear.stop;
    g->crew.told = listen;
    g->crew.listener = &ear;
    g->crew.last = 40;
    g->crew.threads = threads;
    assert_false(crew_run(&done, &g->crew, &g->why));
    assert_non_null(strstr(g->why.text, "interrupted"));
    assert_true(ear.done <= at_most);
    crew_free(&done);
    garden_free(g);
}

static void a_signal_ends_it_before_and_between_and_within(void **state)
{
    (void)state;
    a_stop_ends_it(0, 2, 0);
    a_stop_ends_it(4, 1, 4);
    a_stop_ends_it(4, 2, 8); /* the other thread's four end as well, early */
}

static void this_machine_has_a_thread(void **state)
{
    (void)state;
    assert_true(crew_threads() >= 1 && crew_threads() <= 64);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(threads_slices_and_neighbours_change_no_digit),
        cmocka_unit_test(nor_do_they_where_a_rule_decides),
        cmocka_unit_test(more_threads_than_members_do_no_harm),
        cmocka_unit_test(members_differ_and_so_do_draws),
        cmocka_unit_test(made_up_weather_differs_between_members),
        cmocka_unit_test(weather_of_a_file_is_the_same_for_all),
        cmocka_unit_test(unknowns_can_come_from_another_draw),
        cmocka_unit_test(what_was_set_by_hand_holds_for_every_member),
        cmocka_unit_test(a_warmer_season_is_warmer_at_every_hour),
        cmocka_unit_test(a_pile_that_cannot_stand_fails_with_its_own_trouble),
        cmocka_unit_test(a_member_that_fails_alone_is_kept_with_its_reason),
        cmocka_unit_test(progress_rises_to_all_of_them),
        cmocka_unit_test(a_signal_ends_it_before_and_between_and_within),
        cmocka_unit_test(this_machine_has_a_thread),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
