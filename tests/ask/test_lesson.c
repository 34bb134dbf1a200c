/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_lesson.c - what a lesson shows is what its runs did.
 *
 * Short seasons of whole piles. That heat made is lost or kept is conservation of energy; that the same
 * mix stays warmer as a large cube follows from its surface [derived]; that dry stuff doesn't heat below
 * about 40 % water stands in every handbook [trade]. What 1 kg of dry matter sets free: 15 to 20 MJ
 * [memory; glucose 15.6 MJ/kg burnt in a bomb calorimeter, protein 24, memory].
 */
#include "ask/lesson.h"
#include "ask/lesson_try.h"
#include "door/scenario.h"
#include "lib/near.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PILE(need) \
    "midden: 1\nstart: 2026-04-11\nneed: by " need "\nplace: {latitude: 51 N, elevation: 100 m}\n" \
    "sky: cold winters\nbin: 1 x 1 x 1 m\nbuild:\n  - straw: 300 L pressed\n" \
    "    grass clippings: 250 L\n    horse manure: 250 L\n"
enum { MEMBERS = 4 };

struct class {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
    struct lesson_ask ask;
    struct lesson_found found;
    struct trouble why;
    double room[MEMBERS];
};

static struct class *class_of(const char *text)
{
    struct class *c = calloc(1, sizeof *c);
    assert_non_null(c);
    if (!scenario_read_text(&c->scenario, text, strlen(text), "test", &c->why))
        fail_msg("%s", c->why.text);
    c->param = param_usual();
    c->ask = (struct lesson_ask){.scenario = &c->scenario, .other = -1, .day = -1};
    c->ask.crew = (struct crew){.scenario = &c->scenario, .param = &c->param, .fixed = c->fixed,
                                .draw = 1, .first = 1, .last = MEMBERS, .threads = 1};
    return c;
}

static void class_free(struct class *c)
{
    lesson_free(&c->found);
    free(c);
}

/* one lesson for all tests that only look at it */
static struct class *shown;

static int run_it(void **state)
{
    (void)state;
    shown = class_of(PILE("2026-06-06"));
    if (!lesson_run(&shown->found, &shown->ask, &shown->why))
        fail_msg("%s", shown->why.text);
    return 0;
}

static int end_it(void **state)
{
    (void)state;
    class_free(shown);
    return 0;
}

static void heat_made_is_lost_or_kept(void **state)
{
    (void)state;
    const struct trial *asked = shown->found.asked;
    double season_J[BUDGET_LINES] = {0};
    for (int m = 0; m < MEMBERS; m++) {
        const struct record *record = &asked->able.record[m];
        for (int d = 0; d < record->days; d++) {
            struct budget b = budget_day(record, d);
            double sum = 0, time_s = d ? 86400 : 50400; /* built at 10 h */
            for (int i = 0; i < BUDGET_STORED; i++) {
                sum += b.line_W[i];
                season_J[i] += b.line_W[i] * time_s;
            }
            assert_near(sum, b.line_W[BUDGET_STORED], 1e-9 * (1 + fabs(sum)));
        }
        /* the record weighs what is stored itself */
        assert_true(record->balance[3] < 1e-9);
    }
    /* and the days of the plot are the season: within 1 %, and far closer */
    double total_J = 0;
    for (int m = 0; m < MEMBERS; m++)
        total_J += asked->able.record[m].flux_total[FLUX_decay_heat];
    assert_near(season_J[BUDGET_DECAY], total_J, 1e-6 * total_J);
}

static void the_day_is_that_of_why_where_none_is_asked_for(void **state)
{
    (void)state;
    const struct lesson_found *f = &shown->found;
    const struct able *able = &shown->found.run[LESSON_ASKED].able;
    assert_int_equal(f->how, LESSON_FURTHEST);
    struct span *middle_K = able_middle_K(able, shown->scenario.last_day + 1);
    /* furthest above the air (ask/why), each the median of the piles */
    double above_K[2] = {0};
    for (int d = 0; d <= shown->scenario.last_day; d++) {
        double air_K[MEMBERS];
        for (int m = 0; m < MEMBERS; m++)
            air_K[m] = able->record[m].day[d].air_K;
        double now_K = middle_K[d].mid - band_of(air_K, MEMBERS).mid;
        above_K[0] = fmax(above_K[0], now_K);
        above_K[1] = d == f->day ? now_K : above_K[1];
    }
    assert_true(above_K[0] > 0);
    assert_near(above_K[1], above_K[0], 1e-9);
    assert_near(f->middle_K.mid, middle_K[f->day].mid, 1e-12);
    assert_int_equal(f->next_day, f->day + 7);
    assert_near(f->next_middle_K.mid, middle_K[f->next_day].mid, 1e-12);
    free(middle_K);
}

static void the_peak_is_that_of_each_pile_on_its_own_warmest_day(void **state)
{
    (void)state;
    const struct able *able = &shown->found.run[LESSON_ASKED].able;
    double peak_K[MEMBERS];
    assert_int_equal(able->members, MEMBERS);
    for (int m = 0; m < MEMBERS; m++) {
        peak_K[m] = 0;
        for (int d = 0; d < able->record[m].days; d++)
            peak_K[m] = fmax(peak_K[m], able->record[m].day[d].middle_K);
    }
    struct span wanted = band_of(peak_K, MEMBERS);
    assert_near(shown->found.asked_peak_K.mid, wanted.mid, 1e-9);
    assert_near(shown->found.asked_peak_K.low, wanted.low, 1e-9);
    assert_near(shown->found.asked_peak_K.high, wanted.high, 1e-9);
    assert_true(wanted.mid >= shown->found.middle_K.mid);
}

static void dry_matter_used_up_is_what_was_laid_less_what_is_left(void **state)
{
    (void)state;
    for (int m = 0; m < MEMBERS; m++) {
        const struct record *record = &shown->found.alone->able.record[m];
        const struct record_day *last = &record->day[record->days - 1];
        double used_kg = last->laid_kg - last->dry_kg;
        assert_near(trial_number(record, TRIAL_USED_KG, 0), used_kg, 0.01 * used_kg);
        assert_near(trial_number(record, TRIAL_USED_SHARE, 0), used_kg / last->laid_kg, 0.005);
    }
    assert_true(shown->found.heat_MJ_per_kg.low > 14 && shown->found.heat_MJ_per_kg.high < 21);
}

static void a_large_cube_is_eight_times_a_small_one_and_stays_warmer(void **state)
{
    (void)state;
    const struct lesson_found *f = &shown->found;
    for (int m = 0; m < MEMBERS; m++) {
        double small = f->run[LESSON_SMALL].able.record[m].day[0].laid_kg;
        double large = f->run[LESSON_LARGE].able.record[m].day[0].laid_kg;
        assert_near(large, 8 * small, 1e-9 * large);
    }
    assert_int_equal(f->size_pairs, MEMBERS);
    assert_int_equal(f->larger_warmer, MEMBERS);
    assert_true(f->size[1].last_K.mid > f->size[0].last_K.mid);
    assert_int_equal(f->run[LESSON_SMALL].able.record[0].days, LESSON_TRIAL_DAYS);
}

static void dry_damp_and_wet_hold_the_same_dry_matter(void **state)
{
    (void)state;
    const struct lesson_found *f = &shown->found;
    for (int m = 0; m < MEMBERS; m++)
        for (int i = 1; i < LESSON_WETS; i++)
            assert_near(f->run[LESSON_DRY + i].able.record[m].day[0].laid_kg,
                        f->run[LESSON_DRY].able.record[m].day[0].laid_kg, 1e-9 * 200);
    assert_near(f->wet[0].water_share.mid, 0.25, 0.03);
    assert_near(f->wet[1].water_share.mid, 0.55, 0.03);
    assert_true(f->wet[2].water_share.mid > 0.6); /* what it can't hold runs out below */
    assert_true(f->wet[0].used_share.high < f->wet[1].used_share.low);
    assert_true(f->wet[0].peak_K.mid < f->wet[1].peak_K.mid - 20); /* S18 asks as much */
}

static void a_turn_is_told_as_it_went(void **state)
{
    (void)state;
    const struct lesson_found *f = &shown->found;
    const struct trial *turned = &f->run[LESSON_TURNED];
    double *room = shown->room;
    int day = f->turn_day, drops = 0;
    assert_true(day >= 5);
    for (int m = 0; m < MEMBERS; m++) {
        const struct record *r = &turned->able.record[m], *alone = &f->alone->able.record[m];
        assert_int_equal(r->turns, 1);
        assert_int_equal(r->event[0].day - 1, day);
        assert_near(r->day[day - 1].middle_K, alone->day[day - 1].middle_K, 1e-9); /* till then alike */
        drops += r->day[day - 1].middle_K - fmin(r->day[day].middle_K, r->day[day + 1].middle_K) >= 1;
        room[m] = -INFINITY;
        for (int d = day + 1; d <= day + 10; d++)
            room[m] = fmax(room[m], r->day[d].middle_K);
    }
    assert_int_equal(f->turn_drops, drops);
    assert_near(f->turn_top_K.mid, band_of(room, MEMBERS).mid, 1e-12);
}

static void a_season_without_frost_is_moved_into_winter(void **state)
{
    (void)state;
    const struct lesson_found *f = &shown->found;
    double *room = shown->room;
    assert_true(f->winter_moved);
    assert_ptr_not_equal(f->bare, f->alone);
    assert_true(f->cold_air_K.mid < 273.15);
    for (int m = 0; m < MEMBERS; m++) {
        const struct record *bare = &f->bare->able.record[m];
        int cold = trial_coldest(bare);
        for (int d = 10; d < bare->days; d++)
            assert_true(bare->day[d].air_K >= bare->day[cold].air_K);
        assert_true(f->cover_day < cold);
        /* the same weather, whose mean is summed over other steps */
        assert_near(bare->day[cold].air_K, f->run[LESSON_COVERED].able.record[m].day[cold].air_K, 0.05);
        room[m] = f->run[LESSON_COVERED].able.record[m].day[cold].middle_K - bare->day[cold].middle_K;
    }
    assert_near(f->gain_K[0].mid, band_of(room, MEMBERS).mid, 1e-9);
}

static void a_plan_that_does_nothing_is_set_beside_one_turn(void **state)
{
    (void)state;
    const struct lesson_found *f = &shown->found;
    assert_string_equal(f->contender[1].scenario->plan[f->contender[1].plan].name, "one turn");
    assert_int_equal(f->busy, 1);
    assert_near(f->standing[0].person_s.mid, 0, 0);
    assert_true(f->standing[1].person_s.mid > 0);
    assert_near(f->pair.extra_person_s.mid, f->standing[1].person_s.mid, 1e-9);
}

static void a_season_too_short_is_refused(void **state)
{
    (void)state;
    struct class *c = class_of(PILE("2026-04-15"));
    c->scenario.last_day = LESSON_LEAST_DAYS - 2;
    assert_false(lesson_run(&c->found, &c->ask, &c->why));
    assert_int_equal(c->why.kind, TROUBLE_NO);
    class_free(c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heat_made_is_lost_or_kept),
        cmocka_unit_test(the_day_is_that_of_why_where_none_is_asked_for),
        cmocka_unit_test(the_peak_is_that_of_each_pile_on_its_own_warmest_day),
        cmocka_unit_test(dry_matter_used_up_is_what_was_laid_less_what_is_left),
        cmocka_unit_test(a_large_cube_is_eight_times_a_small_one_and_stays_warmer),
        cmocka_unit_test(dry_damp_and_wet_hold_the_same_dry_matter),
        cmocka_unit_test(a_turn_is_told_as_it_went),
        cmocka_unit_test(a_season_without_frost_is_moved_into_winter),
        cmocka_unit_test(a_plan_that_does_nothing_is_set_beside_one_turn),
        cmocka_unit_test(a_season_too_short_is_refused),
    };
    return cmocka_run_group_tests(tests, run_it, end_it);
}
