/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_frank_kamenetskii.c - the size above which heat that feeds on itself has no steady
 * state.
 *
 * Heat q exp(b T) in a body whose surface is held at T = 0: steady only while q b L^2/k stays
 * below 0.878 in a slab of half thickness L, 2 in a long cylinder and 3.32 in a sphere
 * [Frank-Kamenetskii 1939, 1955; 0.88, 2 and 3.32 seen in an abstract and a theory page; more
 * digits, and films, derived]. The program's own conduction on its own mesh, with this heat in place
 * of decay. A sphere is a disc's graph with the areas and volumes of shells: transport sees no more.
 */
#include "lib/bed.h"

static const double CONDUCT = 0.4, RISE_PER_K = 0.0693147180559945; /* doubles in ten kelvin */

/* Heat and its slope at the temperatures of the moment. */
static void feed(struct bed *bed, double q_W_per_m3)
{
    for (int c = 0; c < bed->mesh.cells; c++) {
        bed->source_W[c] =
            q_W_per_m3 * bed->mesh.volume_m3[c] * exp(RISE_PER_K * bed->medium.over_K[c]);
        bed->source_slope[c] = RISE_PER_K * bed->source_W[c];
    }
}

/* Newton from cold rises toward the lower steady state if there is one, and else runs away. */
static bool steady(struct bed *bed, double q_W_per_m3)
{
    for (int c = 0; c < bed->mesh.cells; c++)
        bed->medium.over_K[c] = 0;
    for (int turn = 0; turn < 60; turn++) {
        feed(bed, q_W_per_m3);
        double change = bed_newton(bed);
        if (!(change < 200))
            return false;
        if (change < 1e-9)
            return true;
    }
    return false;
}

enum body { SLAB, CYLINDER, SPHERE };

static void make_shells(struct bed *bed)
{
    const double pi = 3.14159265358979323846, *edge = bed->mesh.col_edge_m;
    for (int i = 0; i < bed->mesh.cols; i++)
        bed->mesh.volume_m3[i] = 4.0 / 3 * pi * (pow(edge[i + 1], 3) - pow(edge[i], 3));
    for (int f = 0; f < bed->mesh.faces; f++)
        bed->mesh.face_area_m2[f] = 4 * pi * pow(edge[bed->mesh.face[f].b], 2);
    for (int o = 0; o < bed->mesh.outs; o++)
        if (bed->mesh.out[o].side == MESH_WALL)
            bed->mesh.out_area_m2[o] = 4 * pi * pow(edge[bed->mesh.cols], 2);
}

/* Critical q b L^2/k of a body 1 m in half thickness or radius, and b times the middle's excess. */
static double critical(enum body body, int cells, double film, double *excess)
{
    struct mesh_design design = body == SLAB ? bed_slab(1, cells) : bed_disc(1, cells);
    struct bed bed;
    double low = 0.01, high = 5;
    bed_make(&bed, &design, CONDUCT);
    if (body == SPHERE)
        make_shells(&bed);
    bed_side(&bed, MESH_BASE, BED_INSULATED);
    bed_side(&bed, design.shape == MESH_LONG ? MESH_WALL : MESH_TOP, BED_INSULATED);
    bed_side(&bed, design.shape == MESH_LONG ? MESH_TOP : MESH_WALL, film);
    while (high - low > 1e-8) {
        double middle = 0.5 * (low + high);
        if (steady(&bed, middle * CONDUCT / RISE_PER_K))
            low = middle;
        else
            high = middle;
    }
    assert_true(steady(&bed, low * CONDUCT / RISE_PER_K));
    *excess = RISE_PER_K * bed_corner(&bed, bed.medium.over_K);
    bed_free(&bed);
    return low;
}

static void critical_is(enum body body, double film, double want, double want_excess)
{
    double excess[2];
    double coarse = critical(body, 20, film, &excess[0]);
    double fine = critical(body, 40, film, &excess[1]);
    assert_near(fine / want, 1, 1e-3);
    assert_near(bed_limit(coarse, fine) / want, 1, 2e-5);
    assert_near(excess[1], want_excess, 0.005);
}

static void slab_runs_away_above_its_critical_size(void **state)
{
    (void)state;
    critical_is(SLAB, BED_COLD, 0.87846, 1.1868);
}

static void cylinder_runs_away_above_its_critical_size(void **state)
{
    (void)state;
    critical_is(CYLINDER, BED_COLD, 2.0, 1.3863);
}

static void sphere_runs_away_above_its_critical_size(void **state)
{
    (void)state;
    double excess, coarse = critical(SPHERE, 20, BED_COLD, &excess);
    double fine = critical(SPHERE, 40, BED_COLD, &excess);
    assert_near(fine / 3.32199, 1, 2e-3);
    assert_near(bed_limit(coarse, fine) / 3.32199, 1, 1e-4);
}

/* [derived] through a film, h L/k = 10 and 1: 0.72898 and 0.27067 in a slab, 1.65384 and 0.57580
 * in a cylinder */
static void a_film_lowers_the_critical_size(void **state)
{
    (void)state;
    critical_is(SLAB, 10 * CONDUCT, 0.72898, 1.1832);
    critical_is(SLAB, CONDUCT, 0.27067, 1.1051);
    critical_is(CYLINDER, 10 * CONDUCT, 1.65384, 1.3776);
    critical_is(CYLINDER, CONDUCT, 0.57580, 1.1878);
}

/* [derived] 10 W/m3 at the surroundings' temperature, doubling in ten kelvin, 0.4 W/(m K): a
 * slab of 0.71 m half thickness, a cylinder of 1.07 m radius */
static void a_lively_pile_is_critical_at_about_a_metre(void **state)
{
    (void)state;
    double excess, slab = critical(SLAB, 40, BED_COLD, &excess);
    double cylinder = critical(CYLINDER, 40, BED_COLD, &excess);
    assert_near(sqrt(slab * CONDUCT / (10 * RISE_PER_K)), 0.71, 0.005);
    assert_near(sqrt(cylinder * CONDUCT / (10 * RISE_PER_K)), 1.07, 0.005);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slab_runs_away_above_its_critical_size),
        cmocka_unit_test(cylinder_runs_away_above_its_critical_size),
        cmocka_unit_test(sphere_runs_away_above_its_critical_size),
        cmocka_unit_test(a_film_lowers_the_critical_size),
        cmocka_unit_test(a_lively_pile_is_critical_at_about_a_metre),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
