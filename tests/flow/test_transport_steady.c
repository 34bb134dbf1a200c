/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/flow/test_transport_steady.c - steady conduction on the pile's own mesh against exact
 * solutions.
 *
 * With constant properties (lib/bed.h) conduction has solutions in print: Carslaw and Jaeger
 * 1959, Conduction of Heat in Solids [memory], whose series are summed here with GSL's Bessel
 * functions. The figures named beside them were computed from the same series elsewhere
 * [derived]. A state is steady where transport_fill itself says that nothing changes.
 */
#include "lib/bed.h"
#include <gsl/gsl_math.h>
#include <gsl/gsl_sf_bessel.h>

/* Uniform heat q, every cell by its volume. */
static void heat_evenly(struct bed *bed, double q_W_per_m3)
{
    for (int c = 0; c < bed->mesh.cells; c++)
        bed->source_W[c] = q_W_per_m3 * bed->mesh.volume_m3[c];
}

static void insulate(struct bed *bed, enum mesh_side side) { bed_side(bed, side, BED_INSULATED); }

/* Half a slab: q L^2/2k in the middle, 3.125 K for 10 W/m3, 0.4 W/(m K), 1 m across. With two
 * points a face, equal cells are exact but for q dx^2/8k, the half cell at the face. */
static void slab_with_even_heat_is_exact_but_for_the_half_cell(void **state)
{
    (void)state;
    struct mesh_design design = bed_slab(0.5, 20);
    struct bed bed;
    bed_make(&bed, &design, 0.4);
    insulate(&bed, MESH_WALL);
    insulate(&bed, MESH_BASE);
    heat_evenly(&bed, 10);
    bed_steady(&bed);
    double half_cell = 10 * 0.025 * 0.025 / (8 * 0.4);
    assert_near(bed_corner(&bed, bed.medium.over_K), 3.125 + half_cell, 1e-9);
    bed_free(&bed);
}

/* the excess at the axis of a long cylinder cooled through h */
static double disc_excess(int cells, double film)
{
    struct mesh_design design = bed_disc(0.5, cells);
    struct bed bed;
    bed_make(&bed, &design, 0.4);
    insulate(&bed, MESH_TOP);
    insulate(&bed, MESH_BASE);
    bed_side(&bed, MESH_WALL, film);
    heat_evenly(&bed, 10);
    bed_steady(&bed);
    double excess = bed_corner(&bed, bed.medium.over_K);
    bed_free(&bed);
    return excess;
}

/* q R^2/4k = 1.5625 K, and q R/2h = 0.25 K more through a film of 10 W/(m2 K) */
static void long_cylinder_with_even_heat_is_the_published_one(void **state)
{
    (void)state;
    assert_near(bed_limit(disc_excess(20, BED_COLD), disc_excess(40, BED_COLD)), 1.5625, 1e-6);
    assert_near(bed_limit(disc_excess(20, 10), disc_excess(40, 10)), 1.8125, 1e-6);
}

struct drum {
    double radius_m, height_m, conduct, film, q;
};

/* n-th root of m tan m = Bi, by halving: it lies in (n pi, n pi + pi/2) */
static double film_root(int n, double biot)
{
    double low = n * M_PI, high = n * M_PI + M_PI_2;
    for (int turn = 0; turn < 60; turn++) {
        double m = 0.5 * (low + high);
        if (m * tan(m) < biot)
            low = m;
        else
            high = m;
    }
    return 0.5 * (low + high);
}

/* A drum on an insulating base, cooled through a film at side and top, or a film so large that they
 * are cold: sum over n of cos(b z) (A/b^2 - B I0(b r)), b = m/H, m tan m = h H/k. */
static double drum_series(const struct drum *d, double r, double z)
{
    double sum = 0;
    for (int n = 0; n < 2000; n++) {
        double m = film_root(n, d->film * d->height_m / d->conduct), b = m / d->height_m;
        double a = d->q / d->conduct * 4 * sin(m) / (2 * m + sin(2 * m)) / (b * b);
        double side = d->conduct * b * gsl_sf_bessel_I1_scaled(b * d->radius_m) +
                      d->film * gsl_sf_bessel_I0_scaled(b * d->radius_m);
        double fall = gsl_sf_bessel_I0_scaled(b * r) * exp(b * (r - d->radius_m));
        sum += cos(b * z) * a * (1 - d->film * fall / side);
    }
    return sum;
}

static void drum_make(struct bed *bed, const struct drum *d, int cols)
{
    double side = d->radius_m / cols;
    struct mesh_design design = {MESH_ROUND, d->radius_m, 1, d->height_m, false, side, 1, 0, 0};
    bed_make(bed, &design, d->conduct);
    insulate(bed, MESH_BASE);
    bed_side(bed, MESH_WALL, d->film);
    bed_side(bed, MESH_TOP, d->film);
    heat_evenly(bed, d->q);
}

/* at the middle of the base, and on the axis half way up */
static void drum_excess(const struct drum *d, int cols, double excess[2])
{
    struct bed bed;
    drum_make(&bed, d, cols);
    bed_steady(&bed);
    const lane *T = bed.medium.over_K, *low = T + bed.mesh.row_first[bed.mesh.rows / 2 - 1];
    const lane *high = T + bed.mesh.row_first[bed.mesh.rows / 2];
    excess[0] = bed_corner(&bed, T);
    excess[1] = 0.5 * ((9 * low[0] - low[1]) / 8 + (9 * high[0] - high[1]) / 8);
    bed_free(&bed);
}

static void drum_is(const struct drum *d, double want_base, double want_half)
{
    double coarse[2], fine[2];
    assert_near(drum_series(d, 0, 0), want_base, 2e-6); /* the series is the published figure, */
    drum_excess(d, 10, coarse);
    drum_excess(d, 20, fine);
    assert_near(bed_limit(coarse[0], fine[0]), want_base, 2e-5 * want_base); /* and the mesh too */
    assert_near(fine[0], want_base, 2e-3 * want_base);
    if (want_half > 0) {
        assert_near(drum_series(d, 0, 0.5 * d->height_m), want_half, 2e-6);
        assert_near(bed_limit(coarse[1], fine[1]), want_half, 2e-5 * want_half);
    }
}

/* [derived] R 0.5 m, 10 W/m3, 0.4 W/(m K), both ends and side cold, height 1 m: 1.2541476 K; the
 * same with an insulated base: 1.5342865 K there, 1.4057966 K half way up */
static void drums_with_cold_faces_are_the_published_ones(void **state)
{
    (void)state;
    drum_is(&(struct drum){0.5, 0.5, 0.4, 1e9, 10}, 1.2541476, 0);
    drum_is(&(struct drum){0.5, 1.0, 0.4, 1e9, 10}, 1.5342865, 1.4057966);
}

/* [derived] the second with a film of 10 and of 5 W/(m2 K); then R 0.6, H 1.2, k 0.3, h 8, q 30 */
static void drums_behind_a_film_are_the_published_ones(void **state)
{
    (void)state;
    drum_is(&(struct drum){0.5, 1.0, 0.4, 10, 10}, 1.7726291, 0);
    drum_is(&(struct drum){0.5, 1.0, 0.4, 5, 10}, 2.0076952, 0);
    drum_is(&(struct drum){0.6, 1.2, 0.3, 8, 30}, 9.9116953, 0);
}

/* The film may be the air's, a cover's resistance or both in series: only their sum matters. */
static void film_of_air_and_cover_resist_in_series(void **state)
{
    (void)state;
    struct drum d = {0.5, 1.0, 0.4, 5, 10};
    struct bed bed;
    drum_make(&bed, &d, 10);
    bed_steady(&bed);
    double cover_alone = bed_corner(&bed, bed.medium.over_K);
    bed.outside.film_W_per_m2K = 6; /* 1/6 + 1/30 = 1/5, radiation part of the film */
    bed.outside.radiant_W_per_m2K = 4;
    bed_side(&bed, MESH_WALL, 10);
    bed_side(&bed, MESH_TOP, 10);
    bed_steady(&bed);
    assert_near(bed_corner(&bed, bed.medium.over_K), cover_alone, 1e-10);
    bed_free(&bed);
}

/* ---- manufactured solution ------------------------------------------------------------------ */

/* T = A cos(a r^2) cos(b z): zero on side and top, level at base and axis; its source by hand.
 * [method: Roache 1998, Salari and Knupp 2000; abstracts seen] */
static double manufactured_error(int cols, double growth)
{
    const double R = 0.5, H = 1, k = 0.4, A = 30, a = M_PI / (2 * R * R), b = M_PI / (2 * H);
    struct mesh_design design = {MESH_ROUND, R, 1, H, false, R / cols, growth, 0, 0};
    struct bed bed;
    double sum = 0, whole = 0, z = 0;
    bed_make(&bed, &design, k);
    insulate(&bed, MESH_BASE);
    double exact[3200];
    assert_true(bed.mesh.cells <= 3200);
    for (int j = 0, c = 0; j < bed.mesh.rows; z += bed.mesh.row_height_m[j++])
        for (int i = 0; i < bed.mesh.cols; i++, c++) {
            double r = 0.5 * (bed.mesh.col_edge_m[i] + bed.mesh.col_edge_m[i + 1]);
            double s = a * r * r, up = cos(b * (z + 0.5 * bed.mesh.row_height_m[j]));
            exact[c] = A * cos(s) * up;
            bed.source_W[c] = bed.mesh.volume_m3[c] * k * A * up *
                              (4 * a * sin(s) + 4 * a * s * cos(s) + b * b * cos(s));
        }
    bed_steady(&bed);
    for (int c = 0; c < bed.mesh.cells; c++) {
        double off = bed.medium.over_K[c] - exact[c];
        sum += off * off * bed.mesh.volume_m3[c];
        whole += bed.mesh.volume_m3[c];
    }
    bed_free(&bed);
    return sqrt(sum / whole);
}

static void conduction_is_of_order_two_on_even_cells(void **state)
{
    (void)state;
    double e[3] = {manufactured_error(10, 1), manufactured_error(20, 1), manufactured_error(40, 1)};
    assert_near(log2(e[0] / e[1]), 2, 0.05);
    assert_near(log2(e[1] / e[2]), 2, 0.02);
    assert_true(e[2] < 0.01); /* of a field of 30 K */
}

/* Cells that grow inward by 1.28 from 2 cm, as in a season, then from 1 and 0.5 cm by the square
 * root and the fourth root of it: the same grading, twice as fine each time. */
static void conduction_is_of_order_two_on_graded_cells(void **state)
{
    (void)state;
    double e[3] = {manufactured_error(25, 1.28), manufactured_error(50, sqrt(1.28)),
                   manufactured_error(100, sqrt(sqrt(1.28)))};
    assert_near(log2(e[0] / e[1]), 2, 0.15);
    assert_near(log2(e[1] / e[2]), 2, 0.15);
    assert_true(e[0] < 0.5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slab_with_even_heat_is_exact_but_for_the_half_cell),
        cmocka_unit_test(long_cylinder_with_even_heat_is_the_published_one),
        cmocka_unit_test(drums_with_cold_faces_are_the_published_ones),
        cmocka_unit_test(drums_behind_a_film_are_the_published_ones),
        cmocka_unit_test(film_of_air_and_cover_resist_in_series),
        cmocka_unit_test(conduction_is_of_order_two_on_even_cells),
        cmocka_unit_test(conduction_is_of_order_two_on_graded_cells),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
