/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_step.c - one step: its coefficients, and books that close whatever its error.
 *
 * The file under test is included, so that the very coefficients it uses are looked at.
 *
 * Order conditions of a linearly implicit method whose matrix A is any matrix at all (a W-method):
 * every tree up to the order in which each inner vertex stands for F or for A gives one condition,
 * those with an A in them being zero [derived; Steihaug and Wolfbrandt 1979, Math. Comp. 33:521,
 * memory].
 * With al = alpha, ga = gamma with its diagonal, e = ones:
 *     b e = 1, b al e = 1/2, b ga e = 0, b (al e)^2 = 1/3,
 *     b al al e = 1/6, b al ga e = b ga al e = b ga ga e = 0.
 */
#include "run/step.c"
#include "run/ledger.h"
#include "run/standing.h"

enum { STAGES = STEP_STAGES };
/* the coefficients are printed with sixteen digits */
static const double PRINTED = 2e-15;

static void full_gamma(double gamma[STAGES][STAGES])
{
    for (int i = 0; i < STAGES; i++)
        for (int j = 0; j < STAGES; j++)
            gamma[i][j] = i == j ? G : GAMMA[i][j];
}

static void times(double a[STAGES][STAGES], const double x[STAGES], double y[STAGES])
{
    for (int i = 0; i < STAGES; i++) {
        y[i] = 0;
        for (int j = 0; j < STAGES; j++)
            y[i] += a[i][j] * x[j];
    }
}

static double along(const double b[STAGES], const double x[STAGES])
{
    double sum = 0;
    for (int i = 0; i < STAGES; i++)
        sum += b[i] * x[i];
    return sum;
}

struct sums {
    double one[STAGES], al[STAGES], ga[STAGES], al_squared[STAGES];
    double al_al[STAGES], al_ga[STAGES], ga_al[STAGES], ga_ga[STAGES];
};

static struct sums sums_of_rows(void)
{
    double alpha[STAGES][STAGES], gamma[STAGES][STAGES];
    struct sums s;
    memcpy(alpha, ALPHA, sizeof alpha);
    full_gamma(gamma);
    for (int i = 0; i < STAGES; i++)
        s.one[i] = 1;
    times(alpha, s.one, s.al);
    times(gamma, s.one, s.ga);
    times(alpha, s.al, s.al_al);
    times(alpha, s.ga, s.al_ga);
    times(gamma, s.al, s.ga_al);
    times(gamma, s.ga, s.ga_ga);
    for (int i = 0; i < STAGES; i++)
        s.al_squared[i] = s.al[i] * s.al[i];
    return s;
}

static void the_coefficients_are_the_published_ones(void **state)
{
    (void)state;
    /* ROS34PW2 [Rang and Angermann 2005, BIT 45:761, memory] */
    assert_near(G, 4.3586652150845900e-01, 0);
    assert_near(ALPHA[1][0], 8.7173304301691801e-01, 0);
    assert_near(ALPHA[2][0], 8.4457060015369423e-01, 0);
    assert_near(ALPHA[2][1], -1.1299064236484185e-01, 0);
    assert_near(ALPHA[3][0], 0, 0);
    assert_near(ALPHA[3][1], 0, 0);
    assert_near(ALPHA[3][2], 1, 0);
    assert_near(GAMMA[1][0], -8.7173304301691801e-01, 0);
    assert_near(GAMMA[2][0], -9.0338057013044082e-01, 0);
    assert_near(GAMMA[2][1], 5.4180672388095326e-02, 0);
    assert_near(GAMMA[3][0], 2.4212380706095346e-01, 0);
    assert_near(GAMMA[3][1], -1.2232505839045147e+00, 0);
    assert_near(GAMMA[3][2], 5.4526025533510214e-01, 0);
    /* G is the root of g^3 - 3 g^2 + 3/2 g - 1/6 between 0.4 and 0.5, which makes four such stages
     * forget a stiff part at once [derived] */
    assert_near(((G - 3) * G + 1.5) * G - 1.0 / 6, 0, PRINTED);
}

static void the_coefficients_are_of_third_order_for_any_matrix(void **state)
{
    (void)state;
    struct sums s = sums_of_rows();
    assert_near(along(B, s.one), 1, PRINTED);
    assert_near(along(B, s.al), 1.0 / 2, PRINTED);
    assert_near(along(B, s.ga), 0, PRINTED);
    assert_near(along(B, s.al_squared), 1.0 / 3, PRINTED);
    assert_near(along(B, s.al_al), 1.0 / 6, PRINTED);
    assert_near(along(B, s.al_ga), 0, PRINTED);
    assert_near(along(B, s.ga_al), 0, PRINTED);
    assert_near(along(B, s.ga_ga), 0, PRINTED);
}

static void the_second_set_of_weights_is_of_second_order(void **state)
{
    (void)state;
    struct sums s = sums_of_rows();
    assert_near(along(B_LOW, s.one), 1, PRINTED);
    assert_near(along(B_LOW, s.al), 1.0 / 2, PRINTED);
    assert_near(along(B_LOW, s.ga), 0, PRINTED);
    /* and not of third, or it would estimate nothing */
    assert_true(fabs(along(B_LOW, s.al_squared) - 1.0 / 3) > 0.01);
}

static void the_last_stage_stands_at_the_end_of_the_step(void **state)
{
    (void)state;
    /* stiffly accurate: b is the last row of alpha + gamma */
    for (int j = 0; j < STAGES; j++)
        assert_near(ALPHA[3][j] + (j == 3 ? G : GAMMA[3][j]), B[j], PRINTED);
}

/* Of one step of this length from a pile five days old, on a mesh so many times finer: what is stored less what came, over what
 * went through, at worst of the balances of carbon, nitrogen, water and energy. */
static double gap_of_a_step(const char *path, double step_s, double finer)
{
    struct standing *s = standing_open(path);
    s->param.rim_m /= finer;
    standing_build(s, 5);
    struct setting *setting = &s->setting;
    const struct decay_law *law = &setting->balance.decay;
    struct ledger ledger = {0};
    struct pile_weighed before = pile_weigh(&setting->pile, law->microbe_c_to_n, law->humus_c_to_n);
    standing_even_steps(s, step_s);
    double until_s = setting->step.time_s + step_s;
    assert_true(step_try(&setting->step, until_s));
    assert_near(setting->step.time_s, until_s, 0);
    struct pile_weighed after = pile_weigh(&setting->pile, law->microbe_c_to_n, law->humus_c_to_n);
    ledger_book(&ledger, setting->step.flux);
    double change[] = {after.carbon_kg - before.carbon_kg, after.nitrogen_kg - before.nitrogen_kg,
                       after.water_kg - before.water_kg, after.heat_J - before.heat_J};
    double held[] = {before.carbon_kg, before.nitrogen_kg, before.water_kg, before.heat_J};
    double worst = 0;
    for (int k = 0; k < 4; k++)
        worst = fmax(worst, fabs(change[k] - ledger.sum[k]) / (fabs(held[k]) + ledger.through[k]));
    standing_free(s);
    return worst;
}

static void the_books_of_a_step_close_to_round_off_however_long_it_is(void **state)
{
    (void)state;
    /* a pile holds some hundred cells, so sums are good to about a hundred units of 1e-16 */
    static const double ROUND_OFF = 1e-14;
    assert_near(gap_of_a_step("tests/bench/turned.yaml", 10, 1), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/turned.yaml", 1800, 1), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/turned.yaml", 14400, 1), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/frost-late.yaml", 10, 1), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/frost-late.yaml", 1800, 1), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/frost-late.yaml", 14400, 1), 0, ROUND_OFF);
}

/* There water that seeps is implicit too. */
static void the_books_of_a_step_close_on_a_fine_mesh(void **state)
{
    (void)state;
    static const double ROUND_OFF = 1e-14;
    assert_near(gap_of_a_step("tests/bench/turned.yaml", 1800, 2), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/turned.yaml", 14400, 2), 0, ROUND_OFF);
    assert_near(gap_of_a_step("tests/bench/frost-late.yaml", 1800, 4), 0, ROUND_OFF);
}

static void the_estimate_of_a_step_falls_with_its_third_power(void **state)
{
    (void)state;
    /* the difference of an order 2 and an order 3 result: h^3 locally, once a step is short against
     * the half hour with which the gas reading follows */
    double size_s[] = {60, 30}, error[2];
    for (int i = 0; i < 2; i++) {
        struct standing *s = standing_open("tests/bench/turned.yaml");
        standing_build(s, 4);
        standing_even_steps(s, size_s[i]);
        step_try(&s->setting.step, s->setting.step.time_s + size_s[i]);
        error[i] = error_of(&s->setting.step); /* the step leaves its error in z */
        standing_free(s);
    }
    assert_true(error[1] > 0);
    assert_near(log2(error[0] / error[1]), 3, 0.2);
}

/* What a step of four hours leaves for the books to put into a cell as pools go to their closed form, at worst:
 * kelvin, and mineral nitrogen as a share of what the cell's pools set free in the step. */
struct put {
    double heat_K, nitrogen_share;
};

/* On the flank decay is steep: its warmest cell is a kelvin below `hottest_C`. */
static struct put put_by_the_books(int days, bool on_the_flank, double nitrogen_left)
{
    enum { FOUR_HOURS_S = 14400 };
    struct standing *s = standing_open("tests/bench/hot-boards.yaml");
    standing_build(s, days);
    struct step *step = &s->setting.step;
    struct balance *b = step->balance;
    const int cells = b->pile->mesh->cells;
    double flux[FLUXES] = {0}, warmest = 0;
    struct put worst = {0, 0};
    const int length = pile_length(b->pile), stride = b->pile->stride;
    double *before = calloc((size_t)length, sizeof *before);
    assert_non_null(before);
    step_look(step);
    for (int c = 0; c < cells; c++)
        warmest = fmax(warmest, b->medium.over_K[c]);
    if (on_the_flank)
        b->decay.hottest = warmest + 1;
    for (int c = 0; c < cells; c++)
        pile_state(b->pile, STATE_NITROGEN_KG)[c] *= nitrogen_left;
    step_forget(step);
    implicit_clear(&step->implicit);
    closed_clear(&step->closed);
    for (int stage = 0; stage < STEP_STAGES; stage++)
        assert_false(make_stage(step, stage, FOUR_HOURS_S, 0));
    closed_add_linear(&step->closed, FOUR_HOURS_S * G, &step->implicit);
    combine(step, STEP_STAGES, step->weights.result, lane_of(1), b->pile->y, step->y);
    memcpy(before, step->y, (size_t)length * sizeof *before);
    closed_fold(&step->closed, step->y, lane_everybody(), flux);
    for (int c = 0; c < cells; c++) {
        int heat = STATE_HEAT_J * stride + c, nitrogen = STATE_NITROGEN_KG * stride + c;
        worst.heat_K = fmax(worst.heat_K, fabs(step->y[heat] - before[heat]) / b->medium.capacity[c]);
        worst.nitrogen_share = fmax(worst.nitrogen_share, fabs(step->y[nitrogen] - before[nitrogen]) /
                                                              step->closed.given.nitrogen[c]);
    }
    free(before);
    standing_free(s);
    return worst;
}

/* What is left is the quadrature of clocks, most where microbes multiply fastest, on the second day. Were microbes left
 * out of the linear part, it would be 0.04, 0.30 and 0.07 K in the first three and 0.007 K in the last, humus 0.005 K in
 * the first, acids 0.010 K in the third and 0.004 in the last, what grows on nitrogen 0.09 K where none is left; the
 * nitrogen that warmer pools set free, it would be 0.07, 0.24, 0.07, 0.07 and 0.01 of all they free. */
static void what_the_books_find_is_what_the_stages_made(void **state)
{
    (void)state;
    static const struct {
        int days;
        bool on_the_flank;
        double nitrogen_left, heat_K, nitrogen_share;
    } at[] = {{1, true, 1, 0.001, 0.0001}, {2, true, 1, 0.03, 0.005}, {5, true, 1, 0.007, 0.001},
              {5, false, 0, 0.007, 0.001}, {9, false, 0.1, 0.0006, 0.0002}};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
        struct put put = put_by_the_books(at[i].days, at[i].on_the_flank, at[i].nitrogen_left);
        assert_true(put.heat_K < at[i].heat_K);
        assert_true(put.nitrogen_share < at[i].nitrogen_share);
    }
}

/* Where microbes neither die nor are eaten, what a step makes of them lives, all of it, in its linear part, too. */
static void what_grows_lives(void **state)
{
    (void)state;
    struct standing *s = standing_open("tests/bench/turned.yaml");
    standing_build(s, 3);
    struct step *step = &s->setting.step;
    const struct pile *pile = step->balance->pile;
    const lane *all = pile_state(pile, STATE_MICROBE_KG), *living = pile_state(pile, STATE_LIVING_KG);
    double *dead = calloc((size_t)pile->mesh->cells, sizeof *dead), grown = 0;
    assert_non_null(dead);
    for (int c = 0; c < pile->mesh->cells; c++) {
        dead[c] = lane_get(all[c] - living[c], 0);
        grown -= lane_get(living[c], 0);
    }
    step->balance->decay.death = step->balance->decay.necromass = lane_of(0);
    step_forget(step);
    step_try(step, step->time_s + 14400);
    for (int c = 0; c < pile->mesh->cells; c++) {
        double now = lane_get(step->y[STATE_MICROBE_KG * pile->stride + c], 0);
        double lives = lane_get(step->y[STATE_LIVING_KG * pile->stride + c], 0);
        assert_near(now - lives, dead[c], 1e-12 * now);
        grown += lives;
    }
    assert_true(grown > 0);
    free(dead);
    standing_free(s);
}

/* Of all cells one alone is off: a mean over a hundred would hide it. */
static void the_worst_cell_counts_as_one_of_a_few(void **state)
{
    (void)state;
    static const double OFF_K = 2;
    struct standing *s = standing_open("tests/bench/turned.yaml");
    standing_build(s, 4);
    struct step *step = &s->setting.step;
    const struct pile *pile = step->balance->pile;
    assert_true(pile->mesh->cells > 50);
    step_look(step);
    implicit_hold(&step->implicit);
    for (int i = 0; i < STEP_STAGES; i++)
        for (int n = 0; n < pile_length(pile); n++)
            step->z[i][n] = 0;
    lane sensible = READ_ORGANIC_J_PER_KGK * pile_state(pile, STATE_DRY_KG)[7] +
                    READ_WATER_J_PER_KGK * pile_state(pile, STATE_WATER_KG)[7];
    step->z[0][STATE_HEAT_J * pile->stride + 7] = OFF_K * sensible / step->weights.error[0];
    assert_near(error_of(step), ESTIMATE_COUNTS * OFF_K / 5, 1e-9);
    standing_free(s);
}

/* Does one cell that a step has brought so far beyond where decay stops leap, if so much of that was decay's? */
static bool one_leaps(double beyond_K, double decay_K)
{
    enum { CELL = 7 };
    struct standing *s = standing_open("tests/bench/turned.yaml");
    standing_build(s, 4);
    struct step *step = &s->setting.step;
    const struct pile *pile = step->balance->pile;
    closed_clear(&step->closed);
    memcpy(step->y, pile->y, (size_t)pile_length(pile) * sizeof *step->y);
    step_look(step);
    assert_false(lane_any(leaps(step)));
    lane ash = step->balance->frame.ash_kg[CELL], organic = pile_state(pile, STATE_DRY_KG)[CELL] - ash;
    lane water = pile_state(pile, STATE_WATER_KG)[CELL], over_K = step->balance->decay.hottest + beyond_K;
    step->y[STATE_HEAT_J * pile->stride + CELL] = read_enthalpy(over_K, organic, ash, water);
    lane made_J = read_enthalpy(over_K, organic, ash, water) - read_enthalpy(over_K - decay_K, organic, ash, water);
    step->closed.oxygen_sum[CELL] = made_J / step->balance->heat_J_per_kg;
    bool leap = lane_any(leaps(step));
    standing_free(s);
    return leap;
}

static void only_its_own_decay_makes_a_cell_leap_beyond_where_decay_stops(void **state)
{
    (void)state;
    assert_true(one_leaps(2, 1));
    assert_false(one_leaps(2, 0));   /* the sun on a dry rim */
    assert_false(one_leaps(2, 0.4));
    assert_false(one_leaps(0.4, 1)); /* rests there */
    assert_false(one_leaps(-5, 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_coefficients_are_the_published_ones),
        cmocka_unit_test(the_coefficients_are_of_third_order_for_any_matrix),
        cmocka_unit_test(the_second_set_of_weights_is_of_second_order),
        cmocka_unit_test(the_last_stage_stands_at_the_end_of_the_step),
        cmocka_unit_test(the_books_of_a_step_close_to_round_off_however_long_it_is),
        cmocka_unit_test(the_books_of_a_step_close_on_a_fine_mesh),
        cmocka_unit_test(the_estimate_of_a_step_falls_with_its_third_power),
        cmocka_unit_test(what_the_books_find_is_what_the_stages_made),
        cmocka_unit_test(what_grows_lives),
        cmocka_unit_test(the_worst_cell_counts_as_one_of_a_few),
        cmocka_unit_test(only_its_own_decay_makes_a_cell_leap_beyond_where_decay_stops),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
