/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_fine.c - meshes far finer than the usual one.
 *
 * Built in December frost, rim cells of 4 mm freeze on the first day, each within minutes. The same
 * day at a tolerance of 0.01 K spans -0.1 to 9.1 C; a step that looks at the mean of its 1700 cells
 * only lets single ones go to -28 and 46 C and thinks that well done.
 */
#include "run/fixed.h"
#include "run/standing.h"
#include "pile/read.h"

static const double RIM_M = 0.0037;

struct reach {
    double coldest_K, warmest_K; /* over the ice point */
    int attempts;
};

static void look(const struct setting *s, struct reach *span)
{
    const struct pile *pile = &s->pile;
    for (int c = 0; c < pile->mesh->cells; c++) {
        double ash = s->balance.frame.ash_kg[c], dry = pile_state(pile, STATE_DRY_KG)[c];
        double over_K = read_heat(pile_state(pile, STATE_HEAT_J)[c], dry - ash, ash,
                                  pile_state(pile, STATE_WATER_KG)[c]).over_K;
        span->coldest_K = fmin(span->coldest_K, over_K);
        span->warmest_K = fmax(span->warmest_K, over_K);
    }
}

/* The coldest and the warmest that any cell ever is on the first day. */
static struct reach first_day(double column_growth, int least_cells)
{
    struct standing *s = standing_open("tests/bench/frost-early.yaml");
    struct reach span = {1e9, -1e9, 0};
    fixed(&s->param);
    s->param.rim_m = s->param.row_most_m = RIM_M;
    s->param.column_growth = column_growth;
    standing_build(s, 0);
    assert_true(s->setting.pile.mesh->cells > least_cells);
    setting_build(&s->setting);
    look(&s->setting, &span);
    while (s->setting.step.time_s < SETTING_DAY_S) {
        assert_true(++span.attempts < 400);
        if (step_try(&s->setting.step, SETTING_DAY_S))
            look(&s->setting, &span);
    }
    standing_free(s);
    return span;
}

static void no_cell_of_many_leaves_the_span_of_all(void **state)
{
    (void)state;
    static const struct { double growth; int cells; } MESH[] = {{1.03, 1600}, {1.6, 300}};
    for (size_t i = 0; i < sizeof MESH / sizeof *MESH; i++) {
        struct reach span = first_day(MESH[i].growth, MESH[i].cells);
        assert_true(span.coldest_K > -0.5 && span.coldest_K < 0);
        assert_near(span.warmest_K, 9.07, 0.5);
    }
}

/* Attempts through the first days, in rim cells of this thickness. */
static int attempts(const char *path, double rim_m, int days)
{
    struct standing *s = standing_open(path);
    int sum = 0;
    fixed(&s->param);
    s->param.rim_m = rim_m;
    standing_build(s, 0);
    for (int day = 0; day < days; day++) {
        around_day(&s->setting.around, day);
        if (day == 0)
            setting_build(&s->setting);
        sum += standing_go(s, (day + 1) * SETTING_DAY_S);
        setting_settle(&s->setting, (day + 1) * SETTING_DAY_S);
    }
    standing_free(s);
    return sum;
}

/* Were seeping water explicit, cells of 5 mm would take 3.2 times as many steps as usual ones in a hot
 * bin of boards; with slopes of the moment alone, 3.8 times as many in six days, in four of which the
 * top thaws. (Six, since usual cells take so few steps that the first hours of two would weigh too
 * much.) On constants that no fit moves; on those fitted in November 2026, cells of 5 mm take twice as many in
 * the bin of boards. */
static void thin_cells_hardly_bind_the_steps(void **state)
{
    (void)state;
    double boards = attempts("tests/bench/hot-boards.yaml", 0.005, 8) /
                    (double)attempts("tests/bench/hot-boards.yaml", 0.02, 8);
    double thaws = attempts("tests/bench/turned.yaml", 0.005, 6) /
                   (double)attempts("tests/bench/turned.yaml", 0.02, 6);
    assert_true(boards < 1.6);
    assert_true(thaws < 3.2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_cell_of_many_leaves_the_span_of_all),
        cmocka_unit_test(thin_cells_hardly_bind_the_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
