/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/pile/test_lattice.c - systems on the cells of meshes, narrow and wide, against GSL's dense ones. */
#include "pile/mesh.h"
#include "lib/near.h"
#include <gsl/gsl_linalg.h>
#include <stdlib.h>

static double chance(uint64_t *seed)
{
    *seed = *seed * 48271 % 2147483647;
    return (double)*seed / 2147483647.0;
}

static void lay(struct mesh *mesh, const struct mesh_design *design, void **block)
{
    struct arena arena = {0};
    assert_true(mesh_lay(mesh, design, &arena));
    arena.size = arena.used;
    arena.used = 0;
    arena.block = *block = aligned_alloc(64, arena.size);
    assert_non_null(*block);
    memset(*block, 0, arena.size);
    assert_true(mesh_lay(mesh, design, &arena));
}

struct system {
    const struct lattice *at;
    gsl_matrix *dense;
    lane *matrix;
};

/* One edge: what leaves each end, all of it arriving at the other but for a leak. */
static void add_edge(struct system *s, int edge, int a, int b, uint64_t *seed)
{
    size_t ra = (size_t)a, rb = (size_t)b;
    double from_a = chance(seed), from_b = s->at->symmetric ? from_a : chance(seed);
    *gsl_matrix_ptr(s->dense, ra, ra) += from_a;
    *gsl_matrix_ptr(s->dense, rb, rb) += from_b;
    *gsl_matrix_ptr(s->dense, rb, ra) -= from_a;
    *gsl_matrix_ptr(s->dense, ra, rb) -= from_b;
    s->matrix[s->at->diagonal[a]] += from_a;
    s->matrix[s->at->diagonal[b]] += from_b;
    s->matrix[s->at->ba[edge]] -= from_a;
    if (!s->at->symmetric)
        s->matrix[s->at->ab[edge]] -= from_b;
}

static void fill(struct system *s, const struct mesh *mesh, int soils, uint64_t *seed)
{
    lattice_clear(s->at, s->matrix);
    gsl_matrix_set_zero(s->dense);
    for (int f = 0; f < mesh->faces; f++)
        add_edge(s, f, soils + mesh->face[f].a, soils + mesh->face[f].b, seed);
    for (int c = 0; soils > 0 && c < mesh->row_cols[0]; c++)
        add_edge(s, mesh->faces + c, soils - 1, soils + c, seed);
    for (int i = 0; i < s->at->nodes; i++) {
        double leak = 0.01 + 0.1 * chance(seed);
        *gsl_matrix_ptr(s->dense, (size_t)i, (size_t)i) += leak;
        s->matrix[s->at->diagonal[i]] += leak;
    }
}

/* Twice with the same factors. */
static void compare(struct system *s, uint64_t *seed)
{
    size_t nodes = (size_t)s->at->nodes;
    gsl_vector *right = gsl_vector_alloc(nodes), *want = gsl_vector_alloc(nodes);
    gsl_permutation *order = gsl_permutation_alloc(nodes);
    lane *x = aligned_alloc(64, (nodes * sizeof(lane) + 63) / 64 * 64);
    int sign;
    assert_non_null(x);
    gsl_linalg_LU_decomp(s->dense, order, &sign);
    lattice_factor(s->at, s->matrix);
    for (int turn = 0; turn < 2; turn++) {
        for (size_t i = 0; i < nodes; i++) {
            gsl_vector_set(right, i, chance(seed) - 0.5);
            x[i] = lane_of(gsl_vector_get(right, i));
        }
        gsl_linalg_LU_solve(s->dense, order, right, want);
        double most = fmax(gsl_vector_max(want), -gsl_vector_min(want));
        lattice_solve(s->at, s->matrix, x);
        for (size_t i = 0; i < nodes; i++)
            assert_near(lane_get(x[i], 0), gsl_vector_get(want, i), 1e-11 * most);
    }
    free(x);
    gsl_permutation_free(order);
    gsl_vector_free(right);
    gsl_vector_free(want);
}

static void try_lattice(const struct mesh *mesh, const struct lattice *at, int soils, uint64_t *seed)
{
    size_t most = mesh_matrix_most(mesh, at->symmetric, soils);
    struct system s = {.at = at, .dense = gsl_matrix_alloc((size_t)at->nodes, (size_t)at->nodes),
                       .matrix = aligned_alloc(64, (most * sizeof(lane) + 63) / 64 * 64)};
    assert_non_null(s.matrix);
    assert_true((size_t)(at->size + (at->reds ? at->kept : 0)) <= most);
    fill(&s, mesh, soils, seed);
    compare(&s, seed);
    gsl_matrix_free(s.dense);
    free(s.matrix);
}

/* Of every shape, so many columns of even width. */
static void try_shape(enum mesh_shape shape, bool sloping, int cols, int rows)
{
    struct mesh_design design = {.shape = shape, .reach_m = 1, .times = 1, .height_m = rows * 1.0 / cols,
                                 .sloping = sloping, .rim_m = 1.0 / cols, .growth = 1.0001};
    struct mesh mesh = {0};
    void *block;
    uint64_t seed = 11 + (uint64_t)cols;
    lay(&mesh, &design, &block);
    assert_int_equal(mesh.cols, cols);
    assert_true((mesh.plain.reds > 0) == (cols >= LATTICE_WIDE));
    try_lattice(&mesh, &mesh.symmetric, 0, &seed);
    try_lattice(&mesh, &mesh.plain, 0, &seed);
    try_lattice(&mesh, &mesh.soiled, MESH_SOILS, &seed);
    free(block);
}

static void a_solution_on_the_cells_is_gsls_dense_one(void **state)
{
    (void)state;
    static const int COLS[] = {3, 8, LATTICE_WIDE - 1, LATTICE_WIDE, LATTICE_WIDE + 1};
    for (size_t i = 0; i < sizeof COLS / sizeof *COLS; i++)
        for (int rows = 1; rows <= 7; rows += 3) {
            try_shape(MESH_ROUND, false, COLS[i], rows);
            try_shape(MESH_ROUND, true, COLS[i], rows);
            try_shape(MESH_LONG, true, COLS[i], rows);
        }
}

/* Room asked for a mesh of most rows and most columns holds any with fewer. */
static void room_for_the_largest_is_room_for_all(void **state)
{
    (void)state;
    static const int SIDES[] = {1, 5, LATTICE_WIDE - 1, LATTICE_WIDE, LATTICE_WIDE + 7, 60};
    enum { N = sizeof SIDES / sizeof *SIDES };
    for (int i = 0; i < N; i++)
        for (int j = i; j < N; j++)
            for (int half = 0; half < 2; half++) {
                struct mesh small = {.rows = 40, .cols = SIDES[i], .band = SIDES[i] > 3 ? SIDES[i] : 3};
                struct mesh large = {.rows = 40, .cols = SIDES[j], .band = SIDES[j] > 3 ? SIDES[j] : 3};
                assert_true(mesh_matrix_most(&small, half, MESH_SOILS) <=
                            mesh_matrix_most(&large, half, MESH_SOILS));
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_solution_on_the_cells_is_gsls_dense_one),
        cmocka_unit_test(room_for_the_largest_is_room_for_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
