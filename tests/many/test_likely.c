/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_likely.c - many/likely: the density of readings is one, and wild ones stand out.
 *
 * That densities integrate to 1 and words' chances add to 1 is probability theory; the sum of two
 * independent normal errors is in any textbook. [derived]
 */
#include "many/likely.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

static struct scenario *readings(int count)
{
    struct scenario *s = calloc(1, sizeof *s);
    assert_non_null(s);
    s->readings = count;
    s->thermometer.kind = PLAN_DIGITAL;
    return s;
}

static double log_of(const struct scenario *s, const double *seen, struct likely_eyes eyes)
{
    struct likely likely;
    likely_of(&likely, s);
    return likely_log(&likely, seen, eyes, NULL, NULL);
}

static const struct likely_eyes TRUE_EYES = {0, 0};

static void a_density_of_one_reading_integrates_to_one(void **state)
{
    (void)state;
    struct scenario *s = readings(1);
    double seen = 320, sum = 0, step = 0.25;
    s->reading[0] = (struct plan_reading){.day = 3, .what = PLAN_READ_MIDDLE};
    for (double value = 120; value < 520; value += step) {
        s->reading[0].value = value;
        sum += step * exp(log_of(s, &seen, TRUE_EYES));
    }
    assert_near(sum, 1, 1e-6);
    free(s);
}

/* The first of two is held, the density of the second given the first summed over all it can be. */
static void a_density_of_two_readings_integrates_to_that_of_the_first(void **state)
{
    (void)state;
    struct scenario *one = readings(1), *two = readings(2);
    double seen[2] = {320, 322}, sum = 0, step = 0.25;
    one->reading[0] = two->reading[0] =
        (struct plan_reading){.day = 3, .what = PLAN_READ_MIDDLE, .value = 327};
    two->reading[1] = (struct plan_reading){.day = 4, .what = PLAN_READ_INSIDE, .depth_m = 0.1};
    for (double value = 120; value < 520; value += step) {
        two->reading[1].value = value;
        sum += step * exp(log_of(two, seen, TRUE_EYES));
    }
    assert_near(sum / exp(log_of(one, seen, TRUE_EYES)), 1, 1e-6);
    free(one);
    free(two);
}

static void chances_of_the_five_words_add_to_one(void **state)
{
    (void)state;
    struct scenario *s = readings(1);
    double seen = 0.47, sum = 0;
    s->reading[0] = (struct plan_reading){.day = 3, .what = PLAN_READ_SQUEEZE};
    for (int word = 0; word < PLAN_SQUEEZES; word++) {
        s->reading[0].squeeze = (enum plan_squeeze)word;
        sum += exp(log_of(s, &seen, TRUE_EYES));
    }
    assert_near(sum, 1, 1e-9);
    free(s);
}

static void a_likely_reading_has_the_density_of_a_normal_error(void **state)
{
    (void)state;
    struct scenario *s = readings(1);
    const struct likely_figures *f = &likely_figures;
    double seen = 320;
    s->reading[0] = (struct plan_reading){.day = 0, .what = PLAN_READ_MIDDLE, .value = 323};
    double slip = likely_slip_K(s, &s->reading[0]);
    double variance = slip * slip + f->wrong_K * f->wrong_K, far = variance + f->wild_K * f->wild_K;
    double pi = acos(-1);
    double by_hand = (1 - f->wild_share) * exp(-4.5 / variance) / sqrt(2 * pi * variance)
                     + f->wild_share * exp(-4.5 / far) / sqrt(2 * pi * far);
    assert_near(log_of(s, &seen, TRUE_EYES), log(by_hand), 1e-9);
    assert_near(slip, sqrt(0.5 * 0.5 + f->tip_K * f->tip_K), 1e-12); /* digital: half a kelvin */
    free(s);
}

static void what_the_thermometer_is_off_by_is_no_error(void **state)
{
    (void)state;
    struct scenario *s = readings(1);
    double seen = 320;
    s->reading[0] = (struct plan_reading){.day = 5, .what = PLAN_READ_MIDDLE, .value = 324};
    double shifted = log_of(s, &seen, (struct likely_eyes){4, 0});
    s->reading[0].value = 320;
    assert_near(shifted, log_of(s, &seen, TRUE_EYES), 1e-12);
    free(s);
}

static void a_reading_far_from_all_others_is_wild_and_says_little(void **state)
{
    (void)state;
    struct scenario *s = readings(3);
    struct likely likely;
    double seen[3] = {330, 329, 328}, wild[3];
    for (int i = 0; i < 3; i++)
        s->reading[i] = (struct plan_reading){.day = i, .what = PLAN_READ_MIDDLE, .value = 330 - i};
    s->reading[1].value = 282; /* 9 C among 57 C: "a slip of the pen" */
    likely_of(&likely, s);
    likely_log(&likely, seen, TRUE_EYES, NULL, wild);
    assert_true(wild[1] > 0.99);
    assert_true(wild[0] < 0.05 && wild[2] < 0.05);
    double far = likely_log(&likely, seen, TRUE_EYES, NULL, NULL);
    s->reading[1].value = 278;
    assert_true(fabs(likely_log(&likely, seen, TRUE_EYES, NULL, NULL) - far) < 1);
    free(s);
}

static void order_in_the_file_does_not_matter(void **state)
{
    (void)state;
    struct scenario *a = readings(3), *b = readings(3);
    double seen_a[3] = {320, 325, 318}, seen_b[3] = {318, 320, 325};
    static const double days[3] = {2, 4, 6}, values[3] = {322, 331, 315};
    for (int i = 0; i < 3; i++) {
        a->reading[i] = (struct plan_reading){.day = days[i], .what = PLAN_READ_MIDDLE, .value = values[i]};
        b->reading[(i + 1) % 3] = a->reading[i];
    }
    assert_near(log_of(a, seen_a, TRUE_EYES), log_of(b, seen_b, TRUE_EYES), 1e-12);
    free(a);
    free(b);
}

/* An error that lasts: two readings that miss alike are likelier than two that miss to either side. */
static void what_the_model_gets_wrong_lasts_for_days(void **state)
{
    (void)state;
    struct scenario *s = readings(2);
    double seen[2] = {320, 320};
    s->reading[0] = (struct plan_reading){.day = 3, .what = PLAN_READ_MIDDLE, .value = 325};
    s->reading[1] = (struct plan_reading){.day = 4, .what = PLAN_READ_MIDDLE, .value = 325};
    double alike = log_of(s, seen, TRUE_EYES);
    s->reading[1].value = 315;
    assert_true(alike > log_of(s, seen, TRUE_EYES) + 1);
    s->reading[1].day = 60; /* forgotten by then */
    double other = log_of(s, seen, TRUE_EYES);
    s->reading[1].value = 325;
    assert_near(log_of(s, seen, TRUE_EYES), other, 1e-2);
    free(s);
}

static void a_reading_beyond_the_season_and_the_air_say_nothing(void **state)
{
    (void)state;
    struct scenario *s = readings(2);
    double seen[2] = {320, NAN}, air[2] = {320, 280};
    s->reading[0] = (struct plan_reading){.day = 3, .what = PLAN_READ_MIDDLE, .value = 322};
    s->reading[1] = (struct plan_reading){.day = 9, .what = PLAN_READ_MIDDLE, .value = 300};
    double one = log_of(s, seen, TRUE_EYES);
    s->reading[1].what = PLAN_READ_AIR;
    assert_near(log_of(s, air, TRUE_EYES), one, 0);
    s->readings = 1;
    assert_near(log_of(s, seen, TRUE_EYES), one, 0);
    free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_density_of_one_reading_integrates_to_one),
        cmocka_unit_test(a_density_of_two_readings_integrates_to_that_of_the_first),
        cmocka_unit_test(chances_of_the_five_words_add_to_one),
        cmocka_unit_test(a_likely_reading_has_the_density_of_a_normal_error),
        cmocka_unit_test(what_the_thermometer_is_off_by_is_no_error),
        cmocka_unit_test(a_reading_far_from_all_others_is_wild_and_says_little),
        cmocka_unit_test(order_in_the_file_does_not_matter),
        cmocka_unit_test(what_the_model_gets_wrong_lasts_for_days),
        cmocka_unit_test(a_reading_beyond_the_season_and_the_air_say_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
