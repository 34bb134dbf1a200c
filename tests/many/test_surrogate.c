/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_surrogate.c - many/surrogate: finds what matters, and knows how far off it is.
 *
 * The functions guessed are made up and known exactly. [derived]
 */
#include "many/surrogate.h"
#include "base/draw.h"
#include "lib/near.h"
#include <stdlib.h>

enum { RUNS = 120, INPUTS = 70, OUTPUTS = 3, FRESH = 200 };

/* straight; bent; and noise that no input tells of */
static void truth(const double *z, int run, double out[OUTPUTS])
{
    out[0] = 40 + 6 * z[3] - 4 * z[17] + 2 * z[60];
    out[1] = 20 + 3 * z[3] + 1.5 * z[3] * z[3];
    out[2] = 10 + 5 * draw_normal(9, (uint32_t)run, 0, 0);
}

static void make(double *input, double *output, int runs, uint64_t seed)
{
    for (int i = 0; i < runs; i++) {
        for (int k = 0; k < INPUTS; k++)
            input[i * INPUTS + k] = draw_normal(seed, (uint32_t)i, (uint32_t)k, 0);
        truth(&input[i * INPUTS], (int)seed * 1000 + i, &output[i * OUTPUTS]);
    }
}

static double *numbers(int count)
{
    double *room = calloc((size_t)count, sizeof *room);
    assert_non_null(room);
    return room;
}

static void guesses_are_as_far_off_as_they_say(void **state)
{
    (void)state;
    double *input = numbers(RUNS * INPUTS), *output = numbers(RUNS * OUTPUTS);
    double *fresh = numbers(FRESH * INPUTS), *is = numbers(FRESH * OUTPUTS), off[OUTPUTS] = {0};
    struct surrogate s;
    make(input, output, RUNS, 1);
    make(fresh, is, FRESH, 2);
    assert_true(surrogate_learn(&s, RUNS, INPUTS, OUTPUTS, input, output));
    for (int i = 0; i < FRESH; i++) {
        double guess[OUTPUTS];
        surrogate_guess(&s, &fresh[i * INPUTS], guess);
        for (int j = 0; j < OUTPUTS; j++)
            off[j] += pow(guess[j] - is[i * OUTPUTS + j], 2) / FRESH;
    }
    for (int j = 0; j < OUTPUTS; j++) {
        double ratio = sqrt(off[j]) / s.unsure[j];
        assert_true(ratio > 0.6 && ratio < 1.6);
    }
    assert_true(sqrt(off[0]) < 2.5); /* its own spread is 7.5 */
    assert_true(s.unsure[2] > 4);    /* noise stays noise */
    surrogate_free(&s);
    free(input);
    free(output);
    free(fresh);
    free(is);
}

static void inputs_that_matter_are_chosen_first(void **state)
{
    (void)state;
    double *input = numbers(RUNS * INPUTS), *output = numbers(RUNS * OUTPUTS);
    struct surrogate s;
    make(input, output, RUNS, 3);
    assert_true(surrogate_learn(&s, RUNS, INPUTS, OUTPUTS, input, output));
    assert_int_equal(s.input[0], 3);
    assert_int_equal(s.input[1], 17);
    assert_true(s.chosen <= SURROGATE_INPUTS);
    surrogate_free(&s);
    free(input);
    free(output);
}

/* What lies on a plane without any noise is guessed as from that plane, and what is mostly noise by its mean: how
 * much noise there is was found, not assumed. */
static void as_much_noise_is_taken_for_it_as_there_is(void **state)
{
    (void)state;
    enum { FEW = 4 };
    static double input[RUNS * FEW], plane[RUNS], noise[RUNS];
    for (int i = 0; i < RUNS; i++) {
        for (int k = 0; k < FEW; k++)
            input[i * FEW + k] = draw_normal(5, (uint32_t)i, (uint32_t)k, 0);
        plane[i] = 3 + 2 * input[i * FEW] - input[i * FEW + 1];
        noise[i] = 3 + 2 * draw_normal(6, (uint32_t)i, 9, 0);
    }
    struct surrogate s;
    double off = 0, lean = 0, guess;
    assert_true(surrogate_learn(&s, RUNS, FEW, 1, input, plane));
    for (int i = 0; i < FRESH; i++) {
        double z[FEW];
        for (int k = 0; k < FEW; k++)
            z[k] = draw_normal(7, (uint32_t)i, (uint32_t)k, 0);
        surrogate_guess(&s, z, &guess);
        off += pow(guess - (3 + 2 * z[0] - z[1]), 2) / FRESH;
    }
    assert_true(sqrt(off) < 0.02 * sqrt(5)); /* of its spread, root(2^2 + 1^2) */
    surrogate_free(&s);
    assert_true(surrogate_learn(&s, RUNS, FEW, 1, input, noise));
    for (int i = 0; i < FRESH; i++) {
        double z[FEW];
        for (int k = 0; k < FEW; k++)
            z[k] = draw_normal(7, (uint32_t)i, (uint32_t)k, 0);
        surrogate_guess(&s, z, &guess);
        lean += pow(guess - 3, 2) / FRESH;
    }
    assert_true(sqrt(lean) < 1); /* half of the noise's own spread: most of it isn't taken for a course */
    surrogate_free(&s);
}

static void an_output_that_never_changes_is_guessed_as_it_is(void **state)
{
    (void)state;
    double input[4] = {-1, 0, 0.5, 1}, output[4] = {7, 7, 7, 7}, guess, at = 0.3;
    struct surrogate s;
    assert_true(surrogate_learn(&s, 4, 1, 1, input, output));
    surrogate_guess(&s, &at, &guess);
    assert_near(guess, 7, 1e-12);
    assert_near(s.unsure[0], 0, 1e-12);
    surrogate_free(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(guesses_are_as_far_off_as_they_say),
        cmocka_unit_test(inputs_that_matter_are_chosen_first),
        cmocka_unit_test(as_much_noise_is_taken_for_it_as_there_is),
        cmocka_unit_test(an_output_that_never_changes_is_guessed_as_it_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
