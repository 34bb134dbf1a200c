/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_refined.c - the usual mesh against one twice as fine.
 *
 * A hot mix left alone for 45 days: a rise, a plateau (within a kelvin of the finer mesh's highest
 * day) and a fall. Differences shrink about in proportion to the cells, so the usual mesh is twice
 * as far from the truth as from a mesh twice as fine (docs/numerics.md has one four times as fine).
 * Asked for are 5 C on the rise, 5 % of the dry mass lost, 25 % of the water: half of these here.
 * The degree that is asked for on the plateau, and 5 C on the fall, which comes late on a coarse
 * mesh, are not met; what is measured is guarded with a margin, no more.
 */
#include "run/season.h"
#include "run/standing.h"

enum { SEASON_DAYS = 45 };

static struct record season(const char *path, double finer)
{
    struct standing *s = standing_open(path);
    struct record record = {0};
    s->scenario.last_day = SEASON_DAYS - 1;
    s->param.rim_m /= finer;
    s->param.mesh_growth = pow(s->param.mesh_growth, 1 / finer);
    s->param.row_most_m /= finer;
    s->param.column_growth = pow(s->param.column_growth, 1 / finer);
    standing_choose(s);
    if (!season_run(&record, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
    curve_free(&s->sky);
    free(s);
    return record;
}

static int hottest(const struct record *r)
{
    int day = 0;
    for (int d = 0; d < r->days; d++)
        if (r->day[d].middle_K > r->day[day].middle_K)
            day = d;
    return day;
}

/* Days until the middle has cooled to 40 C. */
static double cooled(const struct record *r)
{
    for (int d = hottest(r); d + 1 < r->days; d++) {
        double now = r->day[d].middle_K - 313.15, next = r->day[d + 1].middle_K - 313.15;
        if (now >= 0 && next < 0)
            return d + now / (now - next);
    }
    return NAN;
}

struct gap {
    double rise_K, plateau_K, cooled_d, lost, water;
};

static struct gap gap_of(const char *path)
{
    struct record usual = season(path, 1), fine = season(path, 2);
    int top = hottest(&fine), last = SEASON_DAYS - 1;
    struct gap gap = {0};
    for (int d = 0; d < SEASON_DAYS; d++) {
        double off = fabs(usual.day[d].middle_K - fine.day[d].middle_K);
        if (fine.day[d].middle_K > fine.day[top].middle_K - 1)
            gap.plateau_K = fmax(gap.plateau_K, off);
        else if (d < top)
            gap.rise_K = fmax(gap.rise_K, off);
    }
    double lost = 1 - usual.day[last].dry_kg / usual.day[0].dry_kg;
    double lost_fine = 1 - fine.day[last].dry_kg / fine.day[0].dry_kg;
    gap.cooled_d = cooled(&usual) - cooled(&fine);
    gap.lost = lost / lost_fine - 1;
    gap.water = (usual.day[last].wet_kg - usual.day[last].dry_kg) /
                (fine.day[last].wet_kg - fine.day[last].dry_kg) - 1;
    record_free(&usual);
    record_free(&fine);
    return gap;
}

static void in_pallets_the_usual_mesh_is_as_fine_as_is_said(void **state)
{
    (void)state;
    struct gap gap = gap_of("tests/bench/hot-pallets.yaml");
    assert_near(gap.rise_K, 0, 2.5);
    assert_near(gap.lost, 0, 0.025);
    assert_near(gap.water, 0, 0.125);
    assert_near(gap.plateau_K, 0, 1.5); /* a guard: 1.1 C measured where 1 C is aimed at and not met */
    assert_near(gap.cooled_d, 0, 2);  /* a guard: under 1 d measured */
}

static void in_boards_under_a_lid_it_is_too(void **state)
{
    (void)state;
    struct gap gap = gap_of("tests/bench/hot-boards.yaml");
    assert_near(gap.rise_K, 0, 2.5);
    assert_near(gap.lost, 0, 0.025);
    assert_near(gap.water, 0, 0.125);
    assert_near(gap.plateau_K, 0, 4); /* a guard: 3.1 C measured where 1 C is aimed at and not met */
    assert_near(gap.cooled_d, 0, 3);  /* a guard: 1.6 d measured */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_pallets_the_usual_mesh_is_as_fine_as_is_said),
        cmocka_unit_test(in_boards_under_a_lid_it_is_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
