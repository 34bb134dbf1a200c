/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/test_learner.c - does a learner that is scored by medians lean its central piles to them?
 * [derived: the figure is made up, a line in one constant, whose median lies a half width above].
 */
#include "field/emulate.c"
#include "field/learner.c"
#include "lib/near.h"

/* a prior that costs nothing, and positions in half widths, as field/tried and field/trial have them */
double tried_stray(const struct tried *tried, const double place[EMULATE_INPUTS])
{
    (void)tried;
    (void)place;
    return 0;
}

double tried_prior(double chance)
{
    return 2 * chance - 1;
}

bool trial_counts(const struct experiment *experiment)
{
    return experiment->id[0] == 'x';
}

double trial_position(const struct figure *figure, double value)
{
    return (value - 0.5 * (figure->pass_low + figure->pass_high)) /
           (0.5 * (figure->pass_high - figure->pass_low));
}

double trial_grade(const struct figure *figure, double position)
{
    (void)figure;
    return 1 / (1 + position * position);
}

enum { CENTRAL = 21, UNSEEN = 0, SEER = LEARNERS - 1 };
static const double LEAN = 3; /* in units of the figure, whose band is 10 to 14 */

struct scene {
    struct experiment experiment;
    struct trial trial;
    struct tried tried;
    struct school school;
};

static void add(struct scene *s, int origin, double at, double value)
{
    struct tried *t = &s->tried;
    t->origin[t->trials] = origin;
    t->place[t->trials][0] = at;
    t->value[t->trials] = calloc(1, sizeof(double));
    *t->value[t->trials++] = value;
}

/* the figure of the central pile at a place; at 0.2 it is in the middle of its band */
static double central(double at)
{
    return 10 + 10 * at;
}

static int set_up(void **state)
{
    struct scene *s = calloc(1, sizeof *s);
    *state = s;
    if (!s)
        return 1;
    s->experiment = (struct experiment){.id = "x01", .figures = 1};
    s->experiment.figure[0] = (struct figure){.pass_low = 10, .pass_high = 14};
    s->trial = (struct trial){.experiments = 1, .figures = 1};
    s->trial.experiment[0] = &s->experiment;
    s->trial.first_figure[1] = 1;
    s->tried = (struct tried){.trial = &s->trial, .fitted = 1};
    for (int i = 0; i < CENTRAL; i++) {
        double at = 0.1 * (i - CENTRAL / 2);
        add(s, TRIED_DESIGN, at, central(at));
    }
    learner_school(&s->school, &s->tried);
    return 0;
}

static int tear_down(void **state)
{
    struct scene *s = *state;
    for (int i = 0; i < s->tried.trials; i++)
        free(s->tried.value[i]);
    free(s);
    return 0;
}

static double place_of(const struct scene *s, int trial)
{
    return s->tried.place[trial][0];
}

static void before_any_medians_the_central_pile_decides(void **state)
{
    struct scene *s = *state;
    assert_near(place_of(s, learner_best(&s->school, SEER)), 0.2, 1e-9);
    assert_int_equal(learner_answer(&s->school, SEER), -1);
}

static void the_best_trial_is_the_one_whose_median_would_be_in_the_middle(void **state)
{
    struct scene *s = *state;
    double at = s->tried.place[12][0]; /* 0.2 */
    add(s, TRIED_MEDIANS + SEER, at, central(at) + LEAN);
    double best = place_of(s, learner_best(&s->school, SEER));
    assert_true(best < 0.05 && best > -0.45); /* by a line -0.1; far ones lean by their logarithm */
    assert_int_equal(learner_answer(&s->school, SEER), s->tried.trials - 1);
}

static void what_it_proposes_leans_as_well(void **state)
{
    struct scene *s = *state;
    double before[TRIAL_WIDE][EMULATE_INPUTS], after[TRIAL_WIDE][EMULATE_INPUTS];
    double at = s->tried.place[12][0];
    assert_true(learner_propose(&s->school, SEER, 0, before));
    add(s, TRIED_MEDIANS + SEER, at, central(at) + LEAN);
    assert_true(learner_propose(&s->school, SEER, 0, after));
    assert_near(before[1][0], 0.2, 0.05);
    assert_true(after[1][0] < 0.05 && after[1][0] > -0.45);
}

static void of_another_learners_medians_it_knows_nothing(void **state)
{
    struct scene *s = *state;
    add(s, TRIED_MEDIANS + UNSEEN, 0.2, central(0.2) + LEAN);
    assert_near(place_of(s, learner_best(&s->school, SEER)), 0.2, 1e-9);
    assert_int_equal(learner_answer(&s->school, SEER), -1);
}

static void the_answer_is_the_best_of_its_medians(void **state)
{
    struct scene *s = *state;
    add(s, TRIED_MEDIANS + SEER, 0.2, 15);
    add(s, TRIED_MEDIANS + SEER, 0.0, 12.5);
    add(s, TRIED_MEDIANS + SEER, -0.1, 10.5);
    assert_int_equal(learner_answer(&s->school, SEER), CENTRAL + 1);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        CASE(before_any_medians_the_central_pile_decides),
        CASE(the_best_trial_is_the_one_whose_median_would_be_in_the_middle),
        CASE(what_it_proposes_leans_as_well),
        CASE(of_another_learners_medians_it_knows_nothing),
        CASE(the_answer_is_the_best_of_its_medians),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
