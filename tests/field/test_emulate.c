/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/test_emulate.c - does the emulator of a fit guess well what it wasn't taught? */
#include "field/emulate.c"
#include "base/draw.h"
#include "lib/near.h"

enum { TRIALS = 80, INPUTS = 4, OUTPUTS = 2 };

/* derived: a plane, and a bend as smooth as the range is wide */
static void truth(const double *place, double *output)
{
    output[0] = 3 + 2 * place[0] - place[1] + 0.5 * place[2];
    output[1] = 10 * tanh(place[0] - 0.5 * place[3]) + place[1] * place[2];
}

struct taught {
    double place[TRIALS][EMULATE_INPUTS], value[TRIALS][OUTPUTS], *output[TRIALS];
    struct emulator emulator;
};

static int teach(void **state)
{
    struct taught *t = calloc(1, sizeof *t);
    for (int i = 0; t && i < TRIALS; i++) {
        for (int d = 0; d < INPUTS; d++)
            t->place[i][d] = 2 * draw_uniform(7, (uint32_t)i, (uint32_t)d, 0) - 1;
        truth(t->place[i], t->value[i]);
        t->output[i] = t->value[i];
    }
    *state = t;
    return !t || !emulate_learn(&t->emulator, TRIALS, INPUTS, OUTPUTS,
                                (const double (*)[EMULATE_INPUTS])t->place, t->output);
}

static int forget(void **state)
{
    struct taught *t = *state;
    emulate_free(&t->emulator);
    free(t);
    return 0;
}

static void a_plane_is_guessed_where_it_was_not_taught(void **state)
{
    struct taught *t = *state;
    for (uint32_t i = 0; i < 20; i++) {
        double place[EMULATE_INPUTS] = {0}, want[OUTPUTS], got[OUTPUTS];
        for (uint32_t d = 0; d < INPUTS; d++)
            place[d] = 1.6 * draw_uniform(8, i, d, 0) - 0.8;
        truth(place, want);
        emulate_guess(&t->emulator, place, got);
        assert_near(got[0], want[0], 0.02 * t->emulator.spread[0]);
    }
}

static void a_bend_is_guessed_as_well_as_the_roughness_allows(void **state)
{
    struct taught *t = *state;
    double square = 0;
    for (uint32_t i = 0; i < 50; i++) {
        double place[EMULATE_INPUTS] = {0}, want[OUTPUTS], got[OUTPUTS];
        for (uint32_t d = 0; d < INPUTS; d++)
            place[d] = 1.6 * draw_uniform(9, i, d, 0) - 0.8;
        truth(place, want);
        emulate_guess(&t->emulator, place, got);
        square += pow(got[1] - want[1], 2) / 50;
    }
    /* the part of the variance that it gives up */
    assert_true(square < ROUGH * pow(t->emulator.spread[1], 2));
}

/* derived: two trials at -1 and 1 with outputs -1 and 1 have the covariance (2 + r, c - 1; c - 1,
 * 2 + r), c = exp(-2/9), r the roughness, so that each pulls with 1/(3 + r - c), and at 1 the guess
 * is (3 - c)/(3 + r - c) */
static void two_trials_by_hand(void **state)
{
    (void)state;
    double place[2][EMULATE_INPUTS] = {{-1}, {1}}, low = -1, high = 1, *output[] = {&low, &high}, got;
    struct emulator emulator;
    assert_true(emulate_learn(&emulator, 2, 1, 1, (const double (*)[EMULATE_INPUTS])place, output));
    double apart = exp(-4 / (2 * BEND * BEND));
    emulate_guess(&emulator, place[1], &got);
    assert_near(got, (3 - apart) / (3 + ROUGH - apart), 1e-12);
    emulate_guess(&emulator, (double[EMULATE_INPUTS]){0}, &got);
    assert_near(got, 0, 1e-12);
    emulate_free(&emulator);
}

static void the_same_trial_twice_is_no_trouble(void **state)
{
    (void)state;
    double place[2][EMULATE_INPUTS] = {{0.5}, {0.5}}, a = 1, b = 1, *output[] = {&a, &b}, got;
    struct emulator emulator;
    assert_true(emulate_learn(&emulator, 2, 1, 1, (const double (*)[EMULATE_INPUTS])place, output));
    emulate_guess(&emulator, place[0], &got);
    assert_near(got, 1, 1e-9);
    emulate_free(&emulator);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_plane_is_guessed_where_it_was_not_taught, teach, forget),
        cmocka_unit_test_setup_teardown(a_bend_is_guessed_as_well_as_the_roughness_allows, teach,
                                        forget),
        cmocka_unit_test(two_trials_by_hand),
        cmocka_unit_test(the_same_trial_twice_is_no_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
