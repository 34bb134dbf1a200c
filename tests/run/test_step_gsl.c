/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_step_gsl.c - our steps against GSL's on the same right-hand side.
 *
 * Another second opinion: the variable-coefficient backward differentiation of the GNU Scientific
 * Library (msbdf; Galassi et al., GNU Scientific Library Reference Manual, chapter Ordinary
 * Differential Equations, memory). It wants a full matrix, so the mesh is coarse and the span the
 * five days in which the pile heats.
 */
#include "run/fixed.h"
#include "run/rates.h"
#include "run/standing.h"
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

enum { FROM_DAY = 2, DAYS = 5, MOST = 600 };
/* a clock may go this far before pools are folded: the series of run/balance errs by 1e-7 then */
static const double FOLD_S = 1800;

/* The states that GSL is given: those of cells, without the room that the pile keeps for more. */
static int packed(const struct pile *pile, int place[MOST])
{
    int count = 0;
    for (int k = 0; k < STATES; k++)
        for (int c = 0; c < pile->mesh->cells; c++)
            place[count++] = k * pile->stride + c;
    for (int i = 0; i < MESH_SOILS; i++)
        place[count++] = STATES * pile->stride + i;
    assert_true(count < MOST);
    return count;
}

/* Every unknown in its own scale, so that one absolute tolerance means the same for all. */
struct system {
    struct rates rates;
    int count, place[MOST];
    double scale[MOST];
    double *y, *rate;
};

static void unpack(const struct system *s, const double *x, double *y)
{
    for (int n = 0; n < s->count; n++)
        y[s->place[n]] = x[n] * s->scale[n];
}

static int fill(double time_s, const double x[], double rate[], void *of)
{
    struct system *s = of;
    unpack(s, x, s->y);
    if (!rates_fill(&s->rates, time_s, s->y, s->rate))
        return GSL_EBADFUNC;
    for (int n = 0; n < s->count; n++)
        rate[n] = s->rate[s->place[n]] / s->scale[n];
    return GSL_SUCCESS;
}

/* The full matrix by forward differences; Newton needs no derivative in time. */
static int jacobian(double time_s, const double x[], double *slope, double per_time[], void *of)
{
    struct system *s = of;
    double here[MOST], moved[MOST], changed[MOST];
    if (fill(time_s, x, here, s) != GSL_SUCCESS)
        return GSL_EBADFUNC;
    memcpy(moved, x, (size_t)s->count * sizeof *x);
    for (int n = 0; n < s->count; n++) {
        double by = 1e-6 * (fabs(x[n]) + 1e-3);
        moved[n] = x[n] + by;
        if (fill(time_s, moved, changed, s) != GSL_SUCCESS)
            return GSL_EBADFUNC;
        for (int i = 0; i < s->count; i++)
            slope[i * s->count + n] = (changed[i] - here[i]) / by;
        moved[n] = x[n];
        per_time[n] = 0;
    }
    return GSL_SUCCESS;
}

static void begin(struct system *s, struct standing *standing, double *x)
{
    const struct pile *pile = &standing->setting.pile;
    size_t length = (size_t)pile_length(pile);
    rates_take(&s->rates, &standing->setting);
    s->y = calloc(length, sizeof(double));
    s->rate = calloc(length, sizeof(double));
    s->count = packed(pile, s->place);
    rates_begin(&s->rates, s->y);
    for (int n = 0; n < s->count; n++) {
        double size = fabs(s->y[s->place[n]]);
        s->scale[n] = size > 0 ? size : 1; /* clocks: a day */
        x[n] = s->y[s->place[n]] / s->scale[n];
    }
}

/* GSL's driver from midnight to midnight; the pile settles there as in a season. */
static void by_gsl(struct standing *standing, double tolerance)
{
    double x[MOST], now_s = FROM_DAY * SETTING_DAY_S;
    struct system s = {0};
    begin(&s, standing, x);
    gsl_odeiv2_system system = {fill, jacobian, (size_t)s.count, &s};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_msbdf, 10, tolerance, tolerance);
    assert_non_null(driver);
    gsl_odeiv2_driver_set_hmax(driver, FOLD_S);
    for (int day = FROM_DAY; day < FROM_DAY + DAYS; day++) {
        around_day(&standing->setting.around, day);
        while (now_s < (day + 1) * SETTING_DAY_S - 1) {
            double next_s = fmin(now_s + FOLD_S, (day + 1) * SETTING_DAY_S);
            assert_int_equal(gsl_odeiv2_driver_apply(driver, &now_s, next_s, x), GSL_SUCCESS);
            unpack(&s, x, s.y);
            rates_fold(&s.rates, s.y, 0);
        }
        setting_settle(&standing->setting, (day + 1) * SETTING_DAY_S);
    }
    gsl_odeiv2_driver_free(driver);
    rates_free(&s.rates);
    free(s.y);
    free(s.rate);
}

static void by_ours(struct standing *standing)
{
    for (int day = FROM_DAY; day < FROM_DAY + DAYS; day++) {
        around_day(&standing->setting.around, day);
        standing_go(standing, (day + 1) * SETTING_DAY_S);
        setting_settle(&standing->setting, (day + 1) * SETTING_DAY_S);
    }
}

static struct standing *coarse(double tolerance_K)
{
    struct standing *s = standing_open("tests/bench/hot-pallets.yaml");
    fixed(&s->param);
    s->param.rim_m = 0.1;
    s->param.mesh_growth = 1.5;
    s->param.tolerance_K = 0.001; /* both begin from the same state */
    standing_build(s, FROM_DAY);
    s->setting.step.tolerance_K = tolerance_K;
    return s;
}

/* Largest difference of a cell's temperature; dry mass and water of the whole pile. */
struct gap {
    double over_K, dry, water;
};

static struct gap compare(const struct standing *a, const struct standing *b)
{
    const struct pile *pa = &a->setting.pile, *pb = &b->setting.pile;
    struct gap gap = {0};
    for (int c = 0; c < pa->mesh->cells; c++)
        gap.over_K =
            fmax(gap.over_K, fabs(a->setting.watch.over_K[c] - b->setting.watch.over_K[c]));
    gap.dry = pile_total(pa, pile_state(pa, STATE_DRY_KG)) /
              pile_total(pb, pile_state(pb, STATE_DRY_KG)) - 1;
    gap.water = pile_total(pa, pile_state(pa, STATE_WATER_KG)) /
                pile_total(pb, pile_state(pb, STATE_WATER_KG)) - 1;
    return gap;
}

static void five_days_of_a_heating_pile_are_as_gsl_has_them(void **state)
{
    (void)state;
    struct standing *other = coarse(0.001), *usual = coarse(param_usual().tolerance_K),
                    *careful = coarse(0.001);
    double start_K = careful->setting.watch.over_K[0];
    by_gsl(other, 1e-7);
    by_ours(usual);
    by_ours(careful);
    assert_true(careful->setting.watch.over_K[0] > start_K + 10); /* something happens */
    struct gap gap = compare(usual, other), small = compare(careful, other);
    /* at the usual tolerance of a step 0.02 C was measured, at a hundredth of it 0.0004 C */
    assert_near(gap.over_K, 0, 0.2);
    assert_near(gap.dry, 0, 5e-4);
    assert_near(gap.water, 0, 1e-3);
    assert_near(small.over_K, 0, 0.002);
    assert_near(small.dry, 0, 5e-6);
    assert_near(small.water, 0, 5e-6);
    standing_free(other);
    standing_free(usual);
    standing_free(careful);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_days_of_a_heating_pile_are_as_gsl_has_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
