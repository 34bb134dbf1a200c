/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_learn.c - what is said to be learnt is more than chance, whatever members owe to each
 * other.
 *
 * Members are made up, evenly drawn but for what the test moves; how far chance takes the statistic of
 * Kolmogorov and Smirnov is tried here by drawing, not taken from its tables. Then readings that are
 * pure noise are learnt from in earnest.
 */
#include "ask/learn.h"
#include "base/draw.h"
#include "many/noted.h"
#include <stdlib.h>

enum { MEMBERS = 64, NOISY = 32, LAST = 14 };

struct bench {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
    struct crew crew;
    struct posterior p;
    struct learnt learnt;
    struct trouble why;
};

static struct bench *bench_new(int members)
{
    struct bench *b = calloc(1, sizeof *b);
    assert_non_null(b);
    noted_open(&b->crew, &b->scenario, &b->param, b->fixed, members);
    return b;
}

static void bench_free(struct bench *b)
{
    posterior_free(&b->p);
    free(b);
}

/* Members without readings, `alike` after each other one and the same. */
static struct bench *made(uint64_t seed, int alike)
{
    struct bench *b = bench_new(MEMBERS);
    b->scenario.readings = 0;
    b->p.members = MEMBERS;
    unknown_list(&b->p.unknowns, &b->scenario, 0, b->fixed);
    b->p.chance = calloc((size_t)(MEMBERS * b->p.unknowns.count), sizeof *b->p.chance);
    assert_non_null(b->p.chance);
    for (int i = 0; i < MEMBERS; i++)
        for (int k = 0; k < b->p.unknowns.count; k++)
            b->p.chance[i * b->p.unknowns.count + k] =
                draw_uniform(seed, (uint32_t)(i / alike), (uint32_t)k, 0);
    return b;
}

static void move(struct bench *b, int row)
{
    for (int i = 0; i < MEMBERS; i++)
        b->p.chance[i * b->p.unknowns.count + row] *= 0.4;
}

static void what_only_chance_moved_is_not_learnt(void **state)
{
    (void)state;
    static const int alike[] = {1, 4};
    for (int a = 0; a < 2; a++) {
        int any = 0;
        for (uint64_t seed = 1; seed <= 100; seed++) {
            struct bench *b = made(seed, alike[a]);
            assert_true(b->p.unknowns.count > 80);
            assert_true(learn_tell(&b->learnt, &b->p, &b->crew, &b->why));
            any += b->learnt.taught > 0;
            bench_free(b);
        }
        /* one in twenty is 5 of 100; more than 12 of 100 come once in a thousand [binomial, derived] */
        assert_true(any <= 12);
    }
}

static void what_moved_for_all_to_see_is_learnt_and_nothing_else(void **state)
{
    (void)state;
    struct bench *b = made(7, 1);
    move(b, 5);
    assert_true(learn_tell(&b->learnt, &b->p, &b->crew, &b->why));
    assert_int_equal(b->learnt.taught, 1);
    assert_ptr_equal(b->learnt.unknown[0].unknown, &b->p.unknowns.row[5]);
    assert_near(b->learnt.unknown[0].moved, 0.6, 0.05);
    bench_free(b);
    b = made(7, 16); /* of four piles in truth */
    move(b, 5);
    assert_true(learn_tell(&b->learnt, &b->p, &b->crew, &b->why));
    assert_int_equal(b->learnt.taught, 0);
    bench_free(b);
}

/* Learns from readings of temperature as `shows` says, in K; alone, or beside a squeeze and a height. */
static struct bench *learnt_from(double (*shows)(int reading, uint64_t seed), uint64_t seed, bool alone)
{
    struct bench *b = bench_new(NOISY);
    b->scenario.last_day = LAST;
    for (int i = 0; i < b->scenario.readings; i++) {
        if (alone && b->scenario.reading[i].what > PLAN_READ_INSIDE)
            b->scenario.reading[i].what = PLAN_READ_MIDDLE;
        if (b->scenario.reading[i].what <= PLAN_READ_INSIDE)
            b->scenario.reading[i].value = shows(i, seed);
    }
    if (!posterior_learn(&b->p, &b->crew, &b->why))
        fail_msg("%s", b->why.text);
    assert_true(learn_tell(&b->learnt, &b->p, &b->crew, &b->why));
    return b;
}

static double noise(int reading, uint64_t seed)
{
    return 268 + 85 * draw_uniform(seed, (uint32_t)reading, 0, 0);
}

static double wild(int reading, uint64_t seed)
{
    (void)seed;
    static const double shown_C[] = {90, -20, 90, 95, -25};
    return 273.15 + shown_C[reading % 5];
}

/* Whatever noise reads, a cold pile or a hot one fits it better, and that much may be learnt; but never how
 * seeds and germs die, of which no thermometer tells. */
static void noise_teaches_little_and_nothing_that_no_reading_could(void **state)
{
    (void)state;
    static const char *const untold[] = {"hard_seed_s", "easy_seed_s", "moderate_seed_s", "worm_egg_s",
                                         "gut_bacteria_s", "flask_hours", "rot_seed_per_day", "pour_s_per_kg"};
    for (uint64_t seed = 41; seed < 45; seed++) {
        struct bench *b = learnt_from(noise, seed, false);
        int found = 0;
        assert_true(b->learnt.taught <= b->learnt.unknowns / 20);
        for (int k = 0; k < b->learnt.unknowns; k++)
            for (int n = 0; n < 8; n++)
                if (strcmp(b->learnt.unknown[k].unknown->name, untold[n]) == 0) {
                    assert_false(b->learnt.unknown[k].taught);
                    found++;
                }
        assert_true(found >= 6); /* they are still called so */
        bench_free(b);
    }
}

static void readings_that_no_pile_shows_teach_nothing(void **state)
{
    (void)state;
    struct bench *b = learnt_from(wild, 0, true);
    assert_int_equal(b->learnt.suspects, b->scenario.readings);
    assert_int_equal(b->learnt.taught, 0);
    bench_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_only_chance_moved_is_not_learnt),
        cmocka_unit_test(what_moved_for_all_to_see_is_learnt_and_nothing_else),
        cmocka_unit_test(noise_teaches_little_and_nothing_that_no_reading_could),
        cmocka_unit_test(readings_that_no_pile_shows_teach_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
