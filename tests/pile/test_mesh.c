/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/pile/test_mesh.c - the pile's mesh against solid geometry, and its numbering. */
#include "pile/mesh.h"
#include "lib/near.h"
#include <stdlib.h>

static const double PI = 3.14159265358979323846;

static void *lay(struct mesh *mesh, const struct mesh_design *design)
{
    struct arena count = {0};
    memset(mesh, 0, sizeof *mesh);
    assert_true(mesh_lay(mesh, design, &count));
    void *block = calloc(1, count.used);
    assert_non_null(block);
    assert_true(mesh_lay(mesh, design, &(struct arena){block, count.used, 0}));
    return block;
}

static double area_of(const struct mesh *mesh, enum mesh_side side)
{
    double sum = 0;
    for (int o = 0; o < mesh->outs; o++)
        sum += mesh->out[o].side == side ? mesh->out_area_m2[o] : 0;
    return sum;
}

static double volume_of(const struct mesh *mesh)
{
    double sum = 0;
    for (int c = 0; c < mesh->cells; c++)
        sum += mesh->volume_m3[c];
    return sum;
}

/* 1.2 x 0.8 x 1 m: a round mesh of its hydraulic radius, laid down as often as its area needs */
static struct mesh_design bin(void)
{
    double length = 1.2, width = 0.8, reach = length * width / (length + width);
    double times = length * width / (PI * reach * reach);
    return (struct mesh_design){MESH_ROUND, reach, times, 1.0, false, 0.02, 1.28, 0, 0};
}

static void rectangular_bin_has_its_volume_and_all_its_faces(void **state)
{
    (void)state;
    struct mesh mesh;
    struct mesh_design design = bin();
    void *block = lay(&mesh, &design);
    assert_near(volume_of(&mesh), 1.2 * 0.8 * 1.0, 1e-12);
    assert_near(mesh.designed_m3, 0.96, 1e-12);
    assert_near(area_of(&mesh, MESH_WALL), 2 * (1.2 + 0.8) * 1.0, 1e-12);
    assert_near(area_of(&mesh, MESH_TOP), 0.96, 1e-12);
    assert_near(area_of(&mesh, MESH_BASE), 0.96, 1e-12);
    assert_near(mesh_height(&mesh), 1.0, 1e-12);
    free(block);
}

static void cells_thicken_inward_by_no_more_than_they_may(void **state)
{
    (void)state;
    struct mesh mesh;
    struct mesh_design design = bin();
    void *block = lay(&mesh, &design);
    const double *edge = mesh.col_edge_m;
    assert_near(edge[mesh.cols], 0.48, 1e-12);
    assert_true(edge[mesh.cols] - edge[mesh.cols - 1] <= 0.02 + 1e-9);
    assert_true(mesh.row_height_m[mesh.rows - 1] <= 0.02 + 1e-9);
    for (int i = 1; i < mesh.cols; i++) {
        double ratio = (edge[i] - edge[i - 1]) / (edge[i + 1] - edge[i]);
        assert_true(ratio >= 1 - 1e-9 && ratio <= 1.28 + 1e-9);
    }
    for (int j = 1; j < mesh.rows; j++) {
        double ratio = mesh.row_height_m[j - 1] / mesh.row_height_m[j];
        assert_true(ratio >= 1 - 1e-9 && ratio <= 1.28 + 1e-9);
    }
    free(block);
}

/* A paraboloid, pi R^2 H/2; a parabola drawn out, 4/3 R H a metre. The lowest row covers the whole
 * ground; steps then hold more than the curve, so that all rows are made a little lower. */
static void heap_and_windrow_hold_their_volume(void **state)
{
    (void)state;
    static const double shape[][2] = {{0.6, 1}, {0.75, 1.2}, {1, 1.2}, {1.5, 1.5}, {0.5, 0.6}};
    for (size_t i = 0; i < sizeof shape / sizeof *shape; i++) {
        double R = shape[i][0], H = shape[i][1];
        struct mesh mesh;
        void *block = lay(&mesh, &(struct mesh_design){MESH_ROUND, R, 1, H, true, 0.02, 1.28, 0, 0});
        assert_near(volume_of(&mesh) / (0.5 * PI * R * R * H), 1, 1e-12);
        assert_near(area_of(&mesh, MESH_BASE) / (PI * R * R), 1, 1e-12);
        free(block);
        block = lay(&mesh, &(struct mesh_design){MESH_LONG, R, 6, H, true, 0.02, 1.28, 0, 0});
        assert_near(volume_of(&mesh) / (3 * 4.0 / 3 * R * H), 1, 1e-12);
        free(block);
    }
}

/* The surface that air meets, without the ground: a paraboloid turned, integrated here by
 * slices. */
static double dome(double R, double H)
{
    const int slices = 100000;
    double sum = 0;
    for (int i = 0; i < slices; i++) {
        double r = R * (i + 0.5) / slices, slope = 2 * H * r / (R * R);
        sum += 2 * PI * r * sqrt(1 + slope * slope) * R / slices;
    }
    return sum;
}

static double arch(double R, double H)
{
    const int slices = 100000;
    double sum = 0;
    for (int i = 0; i < slices; i++) {
        double slope = 2 * H * (i + 0.5) / slices / R;
        sum += 2 * sqrt(1 + slope * slope) * R / slices;
    }
    return sum;
}

static double shown(const struct mesh *mesh)
{
    return area_of(mesh, MESH_TOP) + area_of(mesh, MESH_WALL);
}

static void heap_and_windrow_show_the_air_their_true_surface(void **state)
{
    (void)state;
    static const double shape[][2] = {{0.6, 1}, {0.75, 1.2}, {1, 1.2}, {1.5, 1.5}, {0.5, 0.6}};
    for (size_t i = 0; i < sizeof shape / sizeof *shape; i++) {
        double R = shape[i][0], H = shape[i][1];
        struct mesh mesh;
        void *block = lay(&mesh, &(struct mesh_design){MESH_ROUND, R, 1, H, true, 0.02, 1.28, 0, 0});
        assert_near(shown(&mesh) / dome(R, H), 1, 1e-9);
        assert_true(mesh.skin_share < 1);
        free(block);
        block = lay(&mesh, &(struct mesh_design){MESH_LONG, R, 6, H, true, 0.02, 1.28, 0, 0});
        assert_near(shown(&mesh) / (3 * arch(R, H)), 1, 1e-9);
        free(block);
    }
}

/* Every node is linked to none farther off than the band, so that a banded matrix holds them. */
static void neighbours_lie_within_the_band(void **state)
{
    (void)state;
    static const struct mesh_design design[] = {
        {MESH_ROUND, 0.48, 1.3, 1, false, 0.02, 1.28, 0, 0}, {MESH_ROUND, 1, 1, 1.2, true, 0.02, 1.28, 0, 0},
        {MESH_LONG, 1, 6, 1.2, true, 0.02, 1.28, 0, 0},      {MESH_ROUND, 0.03, 1, 1, false, 0.02, 1.28, 0, 0}};
    for (size_t i = 0; i < sizeof design / sizeof *design; i++) {
        struct mesh mesh;
        void *block = lay(&mesh, &design[i]);
        for (int f = 0; f < mesh.faces; f++) {
            assert_true(mesh.face[f].b > mesh.face[f].a);
            assert_true(mesh.face[f].b - mesh.face[f].a <= mesh.band);
        }
        for (int l = 0; l < mesh.links; l++)
            assert_true(mesh.link[l].b < 0 || abs(mesh.link[l].a - mesh.link[l].b) <= mesh.band);
        for (int c = 0; c < mesh.row_cols[0]; c++) /* base cells and the soil under them */
            assert_true(c + 1 <= mesh.band);
        assert_int_equal(mesh.nodes, MESH_SOILS + mesh.cells);
        free(block);
    }
}

/* Each cell has four sides: faces to neighbours or to the outside; at the axis, none. */
static void every_cell_is_closed_all_round(void **state)
{
    (void)state;
    struct mesh mesh;
    void *block = lay(&mesh, &(struct mesh_design){MESH_ROUND, 1, 1, 1.2, true, 0.02, 1.28, 0, 0});
    int sides[2000] = {0};
    for (int f = 0; f < mesh.faces; f++) {
        sides[mesh.face[f].a]++;
        sides[mesh.face[f].b]++;
    }
    for (int o = 0; o < mesh.outs; o++)
        sides[mesh.out[o].cell]++;
    for (int c = 0; c < mesh.cells; c++)
        assert_int_equal(sides[c], mesh.cell_col[c] == 0 ? 3 : 4);
    free(block);
}

/* Two metres of soil out to three radii, in five layers and three rings, none left out. */
static void soil_fills_the_ground_out_to_three_radii(void **state)
{
    (void)state;
    struct mesh mesh;
    struct mesh_design design = bin();
    void *block = lay(&mesh, &design);
    double sum = 0, under = 0;
    for (int i = 0; i < MESH_SOILS; i++) {
        assert_true(mesh.soil_volume_m3[i] > 0);
        sum += mesh.soil_volume_m3[i];
        under += i % MESH_RINGS == MESH_RINGS - 1 ? mesh.soil_volume_m3[i] : 0;
    }
    assert_near(sum, 0.96 * 9 * 2, 1e-12);
    assert_near(under, 0.96 * 2, 1e-12);
    assert_near(mesh.soil_volume_m3[MESH_SOILS - 1], 0.96 * 0.05, 1e-12); /* next to the pile */
    free(block);
}

/* Heat that a warm disc loses to the ground around it, per kelvin and conductivity: all but the
 * open air's links, ground beyond at rest. Solved by sweeps, since it is small. */
static double disc_loss(const struct mesh *mesh, double area_m2)
{
    double T[MESH_SOILS] = {0}, g0 = area_m2 / mesh->base_soil_m;
    for (int sweep = 0; sweep < 20000; sweep++) {
        double flow[MESH_SOILS] = {0}, all[MESH_SOILS] = {0};
        for (int l = 0; l < mesh->links; l++) {
            const struct mesh_link *k = &mesh->link[l];
            if (k->b == -2)
                continue;
            all[k->a] += k->shape_m;
            flow[k->a] += k->shape_m * (k->b >= 0 ? T[k->b] : 0);
            if (k->b >= 0) {
                all[k->b] += k->shape_m;
                flow[k->b] += k->shape_m * T[k->a];
            }
        }
        flow[MESH_SOILS - 1] += g0;
        all[MESH_SOILS - 1] += g0;
        for (int i = 0; i < MESH_SOILS; i++)
            T[i] = flow[i] / all[i];
    }
    return g0 * (1 - T[MESH_SOILS - 1]);
}

/* [memory] Carslaw and Jaeger (1959): an isothermal disc on a half-space loses 4 k R a kelvin.
 * Three rings and 2 m of soil come within 12 %; one column under the pile would give a fifth of
 * it. */
static void a_disc_on_the_ground_loses_about_what_theory_says(void **state)
{
    (void)state;
    for (double R = 0.4; R < 1.1; R += 0.3) {
        struct mesh mesh;
        void *block = lay(&mesh, &(struct mesh_design){MESH_ROUND, R, 1, 1, false, 0.02, 1.28, 0, 0});
        assert_near(disc_loss(&mesh, PI * R * R) / (4 * R), 1, 0.12);
        free(block);
    }
}

/* Settling to half the height halves volumes and walls, and leaves the top and base. */
static void geometry_follows_the_height_of_rows(void **state)
{
    (void)state;
    struct mesh mesh;
    struct mesh_design design = bin();
    void *block = lay(&mesh, &design);
    for (int j = 0; j < mesh.rows; j++)
        mesh.row_height_m[j] *= 0.5;
    mesh_stretch(&mesh);
    assert_near(volume_of(&mesh), 0.48, 1e-12);
    assert_near(area_of(&mesh, MESH_WALL), 2, 1e-12);
    assert_near(area_of(&mesh, MESH_TOP), 0.96, 1e-12);
    assert_near(mesh_height(&mesh), 0.5, 1e-12);
    for (int f = 0; f < mesh.faces; f++)
        assert_near(mesh.face_per_m[f] * (mesh.face_a_m[f] + mesh.face_b_m[f]), 1, 1e-14);
    free(block);
}

static void designed_shares_and_thicknesses_add_up(void **state)
{
    (void)state;
    struct mesh mesh;
    void *block = lay(&mesh, &(struct mesh_design){MESH_ROUND, 1, 1, 1.2, true, 0.02, 1.28, 0, 0});
    double share = 0, height = 0;
    for (int j = 0; j < mesh.rows; j++) {
        share += mesh.row_share[j];
        height += mesh_row_designed_m(&mesh, j);
        assert_near(mesh_row_designed_m(&mesh, j), mesh.row_height_m[j], 1e-14);
        assert_true(j == 0 || mesh.row_cols[j] <= mesh.row_cols[j - 1]);
    }
    assert_near(share, 1, 1e-14);
    assert_near(height, mesh_height(&mesh), 1e-13);
    assert_true(height < 1.2 && height > 0.9 * 1.2); /* lowered so that the volume is the curve's */
    free(block);
}

static void mesh_with_too_many_cells_is_refused(void **state)
{
    (void)state;
    struct mesh mesh;
    struct mesh_design fine = {MESH_ROUND, 1, 1, 1, false, 0.002, 1, 0, 0};
    struct arena count = {0};
    memset(&mesh, 0, sizeof mesh);
    assert_false(mesh_lay(&mesh, &fine, &count));
}

static void jar_is_one_cell_without_faces(void **state)
{
    (void)state;
    struct mesh mesh;
    void *block = lay(&mesh, &(struct mesh_design){MESH_POINT, 0.1, 1, 0.1, false, 0.02, 1.28, 0, 0});
    assert_int_equal(mesh.cells, 1);
    assert_int_equal(mesh.faces + mesh.outs, 0);
    free(block);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rectangular_bin_has_its_volume_and_all_its_faces),
        cmocka_unit_test(cells_thicken_inward_by_no_more_than_they_may),
        cmocka_unit_test(heap_and_windrow_hold_their_volume),
        cmocka_unit_test(heap_and_windrow_show_the_air_their_true_surface),
        cmocka_unit_test(neighbours_lie_within_the_band),
        cmocka_unit_test(every_cell_is_closed_all_round),
        cmocka_unit_test(soil_fills_the_ground_out_to_three_radii),
        cmocka_unit_test(a_disc_on_the_ground_loses_about_what_theory_says),
        cmocka_unit_test(geometry_follows_the_height_of_rows),
        cmocka_unit_test(designed_shares_and_thicknesses_add_up),
        cmocka_unit_test(mesh_with_too_many_cells_is_refused),
        cmocka_unit_test(jar_is_one_cell_without_faces),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
