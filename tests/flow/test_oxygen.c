/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/flow/test_oxygen.c - how deep oxygen reaches into material that uses it.
 *
 * Two limits of the uptake have solutions by hand, as old as Thiele (1939) [memory]: the same rate
 * wherever there is any (half share near zero), and a rate in proportion (half share very large).
 * Figures [derived]: diffusivity 0.25 x 2.068e-5 m2/s, 8.709 mol/m3 outside, 1e-3 mol/(m3 s).
 */
#include "lib/bed.h"
#include <gsl/gsl_math.h>

static const double USE_MOL = 1e-3, DIFFUSE = 0.25 * 2.068e-5;
static const double OUTSIDE_MOL = 0.2095 * 101325 / (8.314462618 * 293.15);
static const double OXYGEN_KG_PER_MOL = 0.031998;

/* Gas in which the oxygen's diffusivity and concentration are those above. */
static void airy(struct bed *bed, const struct mesh_design *design)
{
    bed_make(bed, design, 0.4);
    double dry = OUTSIDE_MOL / GAS_OXYGEN_OUTSIDE * 0.028960;
    for (int c = 0; c < bed->mesh.cells; c++) {
        bed->medium.dry_rho[c] = bed->medium.rho[c] = dry;
        bed->medium.diffusive[c] = dry * DIFFUSE * 2.178 / 1.820;
        bed->source_W[c] = USE_MOL * OXYGEN_KG_PER_MOL * bed->mesh.volume_m3[c]; /* uptake, kg/s */
        bed->work[0][c] = GAS_OXYGEN_OUTSIDE;
    }
    bed->outside.dry_rho = bed->outside.rho = dry;
    bed->outside.skin[design->shape == MESH_LONG ? MESH_TOP : MESH_WALL].open_share = 1;
}

/* The same half share in every cell. */
static void solve(struct bed *bed, double half_share)
{
    static lane half[MESH_MOST_CELLS];
    for (int c = 0; c < bed->mesh.cells; c++)
        half[c] = half_share;
    oxygen_solve(&bed->oxygen, &bed->mesh, &bed->medium, &bed->air, &bed->outside, bed->source_W,
                 bed->work[0], half);
}

/* As in a season, each solution starts from the last; here until it stays. */
static void settle(struct bed *bed, double half_share)
{
    double change = 1;
    for (int turn = 0; turn < 3000 && change > 1e-13; turn++) {
        solve(bed, half_share);
        change = 0;
        for (int c = 0; c < bed->mesh.cells; c++) {
            change = fmax(change, fabs(bed->oxygen.share[c] - bed->work[0][c]));
            bed->work[0][c] = bed->oxygen.share[c];
        }
    }
    assert_near(change, 0, 1e-12);
}

/* Oxygen in the middle over that outside, the half thickness or radius given. */
static double middle(struct mesh_design design, double half_share)
{
    struct bed bed;
    airy(&bed, &design);
    settle(&bed, half_share);
    double left = bed_corner(&bed, bed.oxygen.share) / GAS_OXYGEN_OUTSIDE;
    bed_free(&bed);
    return left;
}

/* sqrt(2 D c/R) = 0.3001 m for a slab, 2 sqrt(D c/R) = 0.4244 m for a cylinder: there the middle
 * just runs out; at nine tenths of it 1 - 0.81 is left, at twice a parabola reaches zero half
 * way. */
static void oxygen_of_a_slab_reaches_as_deep_as_the_square_root_says(void **state)
{
    (void)state;
    double reach = sqrt(2 * DIFFUSE * OUTSIDE_MOL / USE_MOL);
    assert_near(reach, 0.3001, 1e-4);
    assert_near(middle(bed_slab(0.9 * reach, 40), 1e-6), 0.19, 0.002);
    assert_near(middle(bed_slab(reach, 40), 1e-6), 0, 0.002);
    struct bed bed;
    struct mesh_design deep = bed_slab(2 * reach, 80);
    airy(&bed, &deep);
    settle(&bed, 1e-5);
    for (int c = 0; c < bed.mesh.cells; c++) {
        double left = ((c + 0.5) / 40 - 1); /* of the reach, from where it runs out */
        double want = left > 0 ? left * left : 0;
        assert_near(bed.oxygen.share[c] / GAS_OXYGEN_OUTSIDE, want, 0.003);
    }
    bed_free(&bed);
}

static void oxygen_of_a_cylinder_reaches_as_deep_as_the_square_root_says(void **state)
{
    (void)state;
    double reach = 2 * sqrt(DIFFUSE * OUTSIDE_MOL / USE_MOL);
    assert_near(reach, 0.4244, 1e-4);
    assert_near(middle(bed_disc(0.9 * reach, 40), 1e-6), 0.19, 0.002);
    assert_near(middle(bed_disc(reach, 40), 1e-6), 0, 0.002);
}

/* Rate in proportion, slab of 0.5 m: 1/cosh(phi) in the middle, tanh(phi)/phi of the uptake,
 * that is 0.187847 and 0.416834 with phi = L sqrt(k/D). */
static void slab_with_uptake_in_proportion_is_thieles(void **state)
{
    (void)state;
    const double half = 1e6; /* so large that the rate is a straight line */
    double left[2], used[2];
    for (int n = 0; n < 2; n++) {
        struct mesh_design slab = bed_slab(0.5, 20 << n);
        struct bed bed;
        double sum = 0, full = 0;
        airy(&bed, &slab);
        for (int c = 0; c < bed.mesh.cells; c++)
            bed.source_W[c] *= half / GAS_OXYGEN_OUTSIDE;
        settle(&bed, half);
        for (int c = 0; c < bed.mesh.cells; c++) {
            sum += bed.oxygen.factor[c] * half / GAS_OXYGEN_OUTSIDE;
            full += 1;
        }
        left[n] = bed_corner(&bed, bed.oxygen.share) / GAS_OXYGEN_OUTSIDE;
        used[n] = sum / full;
        bed_free(&bed);
    }
    double phi = 0.5 * sqrt(USE_MOL / OUTSIDE_MOL / DIFFUSE);
    assert_near(1 / cosh(phi), 0.187847, 1e-6);
    assert_near(tanh(phi) / phi, 0.416834, 1e-6);
    assert_near(bed_limit(left[0], left[1]), 0.187847, 3e-5);
    assert_near(bed_limit(used[0], used[1]), 0.416834, 3e-5);
}

static const struct mesh_design HEAP = {MESH_ROUND, 1.0, 1, 1.2, true, 0.05, 1.28, 0, 0};

static void draughty_heap(struct bed *bed)
{
    airy(bed, &HEAP);
    for (int side = 0; side < 3; side++)
        bed->outside.skin[side].open_share = side == MESH_BASE ? 0.05 : 0.8;
    for (int c = 0; c < bed->mesh.cells; c++)
        bed->medium.rho[c] -= 0.2 * (1 + (c % 5));
    air_solve(&bed->air, &bed->mesh, &bed->medium, &bed->outside);
}

/* Nothing used: outside air everywhere, since the draught keeps its dry air. */
static void unused_oxygen_is_that_of_outside_in_any_draught(void **state)
{
    (void)state;
    struct bed bed;
    draughty_heap(&bed);
    for (int c = 0; c < bed.mesh.cells; c++)
        bed.source_W[c] = 0;
    solve(&bed, 0.01);
    for (int c = 0; c < bed.mesh.cells; c++) {
        assert_near(bed.oxygen.share[c], GAS_OXYGEN_OUTSIDE, 1e-12);
        assert_near(bed.oxygen.factor[c], GAS_OXYGEN_OUTSIDE / (0.01 + GAS_OXYGEN_OUTSIDE), 1e-12);
    }
    /* Monod's form: half the rate where oxygen is at the half share */
    solve(&bed, GAS_OXYGEN_OUTSIDE);
    for (int c = 0; c < bed.mesh.cells; c++)
        assert_near(bed.oxygen.factor[c], 0.5, 1e-12);
    bed_free(&bed);
}

/* What comes in from outside, less what goes out with the air, kg/s. */
static double arrives(const struct bed *bed)
{
    double sum = 0;
    for (int o = 0; o < bed->mesh.outs; o++) {
        int c = bed->mesh.out[o].cell;
        double g = 1.820 / 2.178 * bed->mesh.out_area_m2[o] * bed->medium.diffusive[c] /
                   bed->mesh.out_m[o] * bed->outside.skin[bed->mesh.out[o].side].open_share;
        double flow = bed->air.out_kg_per_s[o], y = bed->oxygen.share[c];
        sum += g * (GAS_OXYGEN_OUTSIDE - y) - (flow > 0 ? flow * y : flow * GAS_OXYGEN_OUTSIDE);
    }
    return sum * GAS_OXYGEN_KG;
}

static void oxygen_that_arrives_is_the_oxygen_used(void **state)
{
    (void)state;
    struct bed bed;
    double used = 0;
    draughty_heap(&bed);
    settle(&bed, 0.01);
    for (int c = 0; c < bed.mesh.cells; c++)
        used += bed.oxygen.factor[c] * bed.source_W[c];
    assert_true(used > 0);
    assert_near(arrives(&bed) / used, 1, 1e-9);
    bed_free(&bed);
}

/* Uptake from none to a million times a hot pile's, felt from a whiff to plenty, one call: y >
 * 0. */
static void oxygen_stays_positive_whatever_is_asked(void **state)
{
    (void)state;
    struct bed bed;
    draughty_heap(&bed);
    for (double more = 1; more <= 1e6; more *= 100)
        for (double felt = 1e-12; felt < 1; felt *= 1e3)
            for (double half = 1e-8; half < 1; half *= 1e2) {
                double ask = 1e-3 * OXYGEN_KG_PER_MOL * more;
                for (int c = 0; c < bed.mesh.cells; c++) {
                    bed.source_W[c] = c % 3 ? ask * bed.mesh.volume_m3[c] : 0;
                    bed.work[0][c] = c % 2 ? felt : GAS_OXYGEN_OUTSIDE;
                }
                solve(&bed, half);
                for (int c = 0; c < bed.mesh.cells; c++) {
                    assert_true(bed.oxygen.share[c] > 0);
                    assert_true(bed.oxygen.share[c] <= GAS_OXYGEN_OUTSIDE * 1.000001);
                    assert_true(bed.oxygen.factor[c] > 0 && bed.oxygen.factor[c] < 1);
                }
            }
    bed_free(&bed);
}

/* [derived] vapour dilutes: unused oxygen of saturated pore gas at 60 C is 0.2095 x 0.803 */
static void vapour_takes_oxygens_place(void **state)
{
    (void)state;
    struct bed bed;
    lane slope, p = gas_pressure_Pa(60, &slope);
    draughty_heap(&bed);
    for (int c = 0; c < bed.mesh.cells; c++) {
        bed.source_W[c] = 0;
        bed.medium.vapour_Pa[c] = p;
    }
    solve(&bed, 0.01);
    double moist = 0.2095 * (101325 - 19943.76) / 101325; /* 16.8 % */
    assert_near(bed.oxygen.factor[0], moist / (0.01 + moist), 1e-6);
    bed_free(&bed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(oxygen_of_a_slab_reaches_as_deep_as_the_square_root_says),
        cmocka_unit_test(oxygen_of_a_cylinder_reaches_as_deep_as_the_square_root_says),
        cmocka_unit_test(slab_with_uptake_in_proportion_is_thieles),
        cmocka_unit_test(unused_oxygen_is_that_of_outside_in_any_draught),
        cmocka_unit_test(oxygen_that_arrives_is_the_oxygen_used),
        cmocka_unit_test(oxygen_stays_positive_whatever_is_asked),
        cmocka_unit_test(vapour_takes_oxygens_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
