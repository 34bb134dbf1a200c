/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/flow/test_air.c - draught: still where it must be, a stack's velocity, the onset of
 * convection.
 *
 * Convection in a porous layer heated from below sets in at a Rayleigh number of 4 pi^2
 * between closed plates [Horton and Rogers 1945, Lapwood 1948, memory] and of 27.10 under an
 * open top [the same eigenvalue problem; derived]: the draught, its buoyancy and the heat it
 * carries together.
 */
#include "lib/bed.h"
#include <gsl/gsl_math.h>

static double chance(uint64_t *seed)
{
    *seed = *seed * 48271 % 2147483647;
    return (double)*seed / 2147483647.0;
}

static void open_sides(struct bed *bed, double top, double wall, double base)
{
    bed->outside.skin[MESH_TOP].open_share = top;
    bed->outside.skin[MESH_WALL].open_share = wall;
    bed->outside.skin[MESH_BASE].open_share = base;
}

static const struct mesh_design HEAP = {MESH_ROUND, 1.0, 1, 1.2, true, 0.04, 1.28, 0, 0};

static void solve(struct bed *bed)
{
    air_solve(&bed->air, &bed->mesh, &bed->medium, &bed->outside);
}

/* Different ways for the air, one density: exactly nothing, not merely little. */
static void air_of_one_density_stands_still_exactly(void **state)
{
    (void)state;
    struct bed bed;
    uint64_t seed = 3;
    bed_make(&bed, &HEAP, 0.4);
    open_sides(&bed, 1, 0.5, 0.1);
    for (int c = 0; c < bed.mesh.cells; c++)
        bed.medium.mobility[c] *= exp(6 * chance(&seed));
    solve(&bed);
    for (int f = 0; f < bed.mesh.faces; f++)
        assert_true(bed.air.face_kg_per_s[f] == 0);
    for (int o = 0; o < bed.mesh.outs; o++)
        assert_true(bed.air.out_kg_per_s[o] == 0);
    bed_free(&bed);
}

/* Heavier air at the same height everywhere along a level, walled in: it rests in layers. */
static void air_in_level_layers_rests_in_a_closed_bin(void **state)
{
    (void)state;
    struct bed bed;
    struct mesh_design bin = {MESH_ROUND, 0.5, 1, 1, false, 0.04, 1.28, 0, 0};
    bed_make(&bed, &bin, 0.4);
    open_sides(&bed, 1, 0, 0);
    for (int c = 0; c < bed.mesh.cells; c++)
        bed.medium.rho[c] = 1.0 + 0.02 * bed.mesh.cell_row[c];
    solve(&bed);
    double most = bed.air.face_g[0] * 9.81 * 0.3; /* what buoyancy could drive */
    for (int f = 0; f < bed.mesh.faces; f++)
        assert_near(bed.air.face_kg_per_s[f] / most, 0, 1e-12);
    bed_free(&bed);
}

/* [derived] permeability 1e-8 m2, gas saturated at 60 C, outside 10 C and 75 %, 2.0e-5 Pa s:
 * Darcy's u = k g (rho_out - rho)/mu = 1.283e-3 m/s, whatever the height */
static void open_column_draws_at_the_stack_velocity(void **state)
{
    (void)state;
    for (double height = 0.5; height < 3; height *= 2) {
        struct mesh_design column = bed_slab(height, 12);
        struct bed bed;
        lane slope, p = gas_pressure_Pa(60, &slope), out_p = 0.75 * gas_pressure_Pa(10, &slope);
        bed_make(&bed, &column, 0.4);
        open_sides(&bed, 1, 0, 1);
        double dry = gas_dry_density(60, p, 101325), out_dry = gas_dry_density(10, out_p, 101325);
        for (int c = 0; c < bed.mesh.cells; c++) {
            bed.medium.dry_rho[c] = dry;
            bed.medium.rho[c] = gas_density(dry, gas_humidity(p, 101325), GAS_OXYGEN_OUTSIDE);
        }
        bed.outside.dry_rho = out_dry;
        bed.outside.rho =
            gas_density(out_dry, gas_humidity(out_p, 101325), GAS_OXYGEN_OUTSIDE);
        solve(&bed);
        for (int f = 0; f < bed.mesh.faces; f++)
            assert_near(bed.air.face_kg_per_s[f] / (dry * bed.mesh.col_area_m2[0]), 1.283e-3, 1e-6);
        bed_free(&bed);
    }
}

/* Rough material, hot and cold, at any openings: what flows into a cell flows out of it. */
static void dry_air_is_conserved_in_every_cell(void **state)
{
    (void)state;
    struct bed bed;
    uint64_t seed = 11;
    bed_make(&bed, &HEAP, 0.4);
    open_sides(&bed, 1, 0.3, 0.02);
    for (int c = 0; c < bed.mesh.cells; c++) {
        bed.medium.mobility[c] *= exp(8 * chance(&seed) - 4);
        bed.medium.rho[c] = 0.8 + 0.5 * chance(&seed);
        bed.medium.dry_rho[c] = 0.95 * bed.medium.rho[c];
    }
    solve(&bed);
    double *left = bed.change, most = 0;
    for (int f = 0; f < bed.mesh.faces; f++) {
        left[bed.mesh.face[f].a] -= bed.air.face_kg_per_s[f];
        left[bed.mesh.face[f].b] += bed.air.face_kg_per_s[f];
        most = fmax(most, fabs(bed.air.face_kg_per_s[f]));
    }
    for (int o = 0; o < bed.mesh.outs; o++)
        left[bed.mesh.out[o].cell] -= bed.air.out_kg_per_s[o];
    assert_true(most > 1e-9);
    for (int c = 0; c < bed.mesh.cells; c++)
        assert_near(left[c] / most, 0, 1e-12);
    bed_free(&bed);
}

/* ---- onset of convection -------------------------------------------------------------------- */

enum { ACROSS_HEIGHT = 16 };
static const double CONDUCT = 0.4, HOT_K = 10;

/* A layer 1 m high between a warm base and a cool top, wide enough for half a wave of this
 * number. */
static void layer_make(struct bed *bed, double wave, bool open_top)
{
    double cell = 1.0 / ACROSS_HEIGHT;
    struct mesh_design layer = {MESH_LONG, M_PI / wave, 1, 1, false, cell, 1, 0, 0};
    bed_make(bed, &layer, CONDUCT);
    /* a closed box fixes no pressure: a pinhole in the wall does, and lets through 1e-8 of a
     * draught */
    open_sides(bed, open_top ? 1 : 0, open_top ? 0 : 1e-8, 0);
    bed_side(bed, MESH_WALL, BED_INSULATED);
    bed->soil_over_K[MESH_SOILS - 1] = HOT_K;
    bed_steady(bed); /* at rest: conduction alone */
    for (int c = 0; c < bed->mesh.cells; c++) {
        int i = bed->mesh.cell_col[c];
        double x = 0.5 * (bed->mesh.col_edge_m[i] + bed->mesh.col_edge_m[i + 1]);
        double z = (bed->mesh.cell_row[c] + 0.5) * cell;
        bed->work[0][c] = bed->medium.over_K[c];
        bed->medium.over_K[c] += 1e-4 * cos(wave * x) * sin(M_PI * z);
    }
}

/* Density falls with warmth so that the layer has this Rayleigh number, k g drho H/(mu a) with
 * a = conductivity/(density x heat capacity of the air that moves) [Boussinesq]. */
static void weigh(struct bed *bed, double rayleigh)
{
    double diffusivity = CONDUCT / (bed->medium.dry_rho[0] * GAS_DRY_J_PER_KGK);
    double lighter = rayleigh * diffusivity / (bed->medium.mobility[0] * GAS_GRAVITY) / HOT_K;
    for (int c = 0; c < bed->mesh.cells; c++)
        bed->medium.rho[c] = bed->outside.rho - lighter * bed->medium.over_K[c];
}

static double disturbance(const struct bed *bed)
{
    double sum = 0;
    for (int c = 0; c < bed->mesh.cells; c++)
        sum += gsl_pow_2(bed->medium.over_K[c] - bed->work[0][c]);
    return sqrt(sum);
}

/* Euler steps up to a time told in H^2/diffusivity: whether a mode grows does not depend on
 * them. */
static void advance(struct bed *bed, double rayleigh, double time)
{
    double step = 0.2 / (ACROSS_HEIGHT * ACROSS_HEIGHT);
    for (int n = 0; n < time / step; n++) {
        weigh(bed, rayleigh);
        solve(bed);
        bed_rate(bed, CONDUCT, bed->work[1]); /* capacity such that a diffusion time is 1 s */
        for (int c = 0; c < bed->mesh.cells; c++)
            bed->medium.over_K[c] += step * bed->work[1][c];
    }
}

/* e-foldings in a tenth of the diffusion time, once the other modes have died away */
static double growth(double wave, bool open_top, double rayleigh)
{
    struct bed bed;
    layer_make(&bed, wave, open_top);
    advance(&bed, rayleigh, 0.25);
    double before = disturbance(&bed);
    advance(&bed, rayleigh, 0.1);
    double grown = log(disturbance(&bed) / before);
    bed_free(&bed);
    return grown;
}

/* The number at which nothing grows, between 5 % under and over by the chord. */
static double onset(double wave, bool open_top, double critical)
{
    double under = growth(wave, open_top, 0.95 * critical);
    double over = growth(wave, open_top, 1.05 * critical);
    assert_true(under < 0 && over > 0);
    return critical * (0.95 + 0.1 * under / (under - over));
}

static void closed_layer_turns_over_at_four_pi_squared(void **state)
{
    (void)state;
    assert_near(onset(M_PI, false, 4 * M_PI * M_PI), 4 * M_PI * M_PI, 0.01 * 4 * M_PI * M_PI);
}

static void layer_under_an_open_top_turns_over_at_27(void **state)
{
    (void)state;
    assert_near(onset(2.32621, true, 27.09763), 27.09763, 0.01 * 27.09763);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_of_one_density_stands_still_exactly),
        cmocka_unit_test(air_in_level_layers_rests_in_a_closed_bin),
        cmocka_unit_test(open_column_draws_at_the_stack_velocity),
        cmocka_unit_test(dry_air_is_conserved_in_every_cell),
        cmocka_unit_test(closed_layer_turns_over_at_four_pi_squared),
        cmocka_unit_test(layer_under_an_open_top_turns_over_at_27),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
