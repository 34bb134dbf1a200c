/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/mesh.c - see pile/mesh.h. */
#include "pile/mesh.h"

static const double PI = 3.14159265358979323846;
/* layers of soil from the surface down; together 2 m */
static const double SOIL_LAYER_M[MESH_SOIL_LAYERS] = {0.05, 0.12, 0.25, 0.50, 1.08};
/* rings of soil end here, in radii of the pile */
static const double RING_END[MESH_RINGS] = {1.0, 1.8, 3.0};

/* Water seeps with up to 1e-8 m2/s: through cells thinner than this it evens out within an hour or
 * two, which the longest steps would pass over. */
static const double FINE_M = 0.015;

/* How pieces thicken inward from an edge. */
struct grading {
    double first, growth, most;
};

/* Number of pieces that fill `whole`. */
static int pieces(double whole, struct grading by)
{
    double filled = 0, piece = by.first;
    int n = 0;
    while (filled < whole * (1 - 1e-9) && n < MESH_MOST_LINE) {
        filled += piece;
        piece = fmin(piece * by.growth, by.most);
        n++;
    }
    return n;
}

/* Thicknesses of n pieces that fill `whole`, the first of the grading last; returns their sum as the
 * grading has it, before they are made to fit. */
static double fill(struct grading by, int n, double *thick)
{
    double filled = 0, piece = by.first;
    for (int i = n - 1; i >= 0; i--) {
        thick[i] = piece;
        filled += piece;
        piece = fmin(piece * by.growth, by.most);
    }
    return filled;
}

static void grade(double whole, struct grading by, int n, double *thick)
{
    double low = 1.0, high = by.growth;
    for (int turn = 0; turn < 60; turn++) { /* bisect for the growth that fits exactly */
        by.growth = 0.5 * (low + high);
        if (fill(by, n, thick) > whole)
            high = by.growth;
        else
            low = by.growth;
    }
    by.growth = low;
    double filled = fill(by, n, thick);
    for (int i = 0; i < n; i++)
        thick[i] *= whole / filled;
}

static double ring_area(const struct mesh *mesh, double inner_m, double outer_m)
{
    double per = mesh->shape != MESH_LONG ? PI * (outer_m + inner_m) : 1.0;
    return mesh->times * per * (outer_m - inner_m);
}

/* Area of an upright face at this distance from the axis, per metre of height. */
static double wall_m(const struct mesh *mesh, double at_m)
{
    return mesh->times * (mesh->shape != MESH_LONG ? 2 * PI * at_m : 1.0);
}

/* How many columns stand in a row whose middle is at this height. */
static int standing(const struct mesh_design *design, const struct mesh *mesh, double middle_m)
{
    if (!design->sloping)
        return mesh->cols;
    double reach = design->reach_m * sqrt(fmax(1 - middle_m / design->height_m, 0));
    int n = 1;
    while (n < mesh->cols && 0.5 * (mesh->col_edge_m[n] + mesh->col_edge_m[n + 1]) < reach)
        n++;
    return n;
}

static bool lay_rows(struct mesh *mesh, const struct mesh_design *design, const double *thick)
{
    double bottom = 0, whole = 0;
    mesh->cells = 0;
    for (int j = 0; j < mesh->rows; j++) {
        /* the lowest row covers the whole ground, for rain and for heat below */
        int n = j == 0 ? mesh->cols : standing(design, mesh, bottom + 0.5 * thick[j]);
        mesh->row_cols[j] = n;
        mesh->row_first[j] = mesh->cells;
        mesh->row_share[j] = thick[j] * ring_area(mesh, 0, mesh->col_edge_m[n]);
        whole += mesh->row_share[j];
        for (int i = 0; i < n; i++, mesh->cells++) {
            mesh->cell_row[mesh->cells] = j;
            mesh->cell_col[mesh->cells] = i;
        }
        bottom += thick[j];
    }
    for (int j = 0; j < mesh->rows; j++)
        mesh->row_share[j] /= whole;
    mesh->designed_m3 = whole;
    return mesh->cells <= MESH_MOST_CELLS;
}

static int cell_at(const struct mesh *mesh, int row, int col)
{
    bool there = row >= 0 && row < mesh->rows && col >= 0 && col < mesh->row_cols[row];
    return there ? mesh->row_first[row] + col : -1;
}

/* Between a cell and the one beyond it, upward or outward. */
static void lay_face(struct mesh *mesh, int a, int b, bool upright)
{
    int f = mesh->faces++, j = mesh->cell_row[a], i = mesh->cell_col[a];
    int before = upright ? cell_at(mesh, j - 1, i) : cell_at(mesh, j, i - 1);
    int after = upright ? cell_at(mesh, j + 2, i) : cell_at(mesh, j, i + 2);
    mesh->face[f] = (struct mesh_face){a, b, upright};
    mesh->line[MESH_BEFORE][f] = before < 0 ? a : before;
    mesh->line[MESH_FROM][f] = a;
    mesh->line[MESH_TO][f] = b;
    mesh->line[MESH_AFTER][f] = after < 0 ? b : after;
    mesh->face_rise[f] = upright;
}

static void lay_faces(struct mesh *mesh)
{
    for (int c = 0; c < mesh->cells; c++) {
        int j = mesh->cell_row[c], i = mesh->cell_col[c];
        int above = cell_at(mesh, j + 1, i), beside = cell_at(mesh, j, i + 1);
        if (above >= 0) {
            mesh->face_above[c] = mesh->face_below[above] = mesh->faces;
            mesh->below[above] = c;
            lay_face(mesh, c, above, true);
        } else {
            mesh->out[mesh->outs++] = (struct mesh_out){c, MESH_TOP};
        }
        if (beside >= 0) {
            mesh->face_outer[c] = mesh->face_inner[beside] = mesh->faces;
            lay_face(mesh, c, beside, false);
        } else {
            mesh->out[mesh->outs++] = (struct mesh_out){c, MESH_WALL};
        }
        if (j == 0)
            mesh->out[mesh->outs++] = (struct mesh_out){c, MESH_BASE};
    }
}

static struct lattice_design lattice_of(const struct mesh *mesh, bool symmetric, int soils)
{
    return (struct lattice_design){.soils = soils, .rows = mesh->rows, .cols = mesh->cols,
                                   .band = mesh->band, .symmetric = symmetric};
}

size_t mesh_matrix_most(const struct mesh *mesh, bool symmetric, int soils)
{
    struct lattice_design design = lattice_of(mesh, symmetric, soils);
    return lattice_most(&design);
}

static void lay_lattice(struct mesh *mesh, struct lattice *lattice, bool symmetric, int soils)
{
    struct lattice_design design = lattice_of(mesh, symmetric, soils);
    lattice_lay(lattice, &design, mesh->cells, mesh->cell_row, mesh->cell_col);
    for (int f = 0; f < mesh->faces; f++)
        lattice_edge(lattice, soils + mesh->face[f].a, soils + mesh->face[f].b);
    for (int c = 0; soils > 0 && c < mesh->row_cols[0]; c++)
        lattice_edge(lattice, soils - 1, soils + c);
}

static int soil_node(int layer_from_top, int ring)
{
    return (MESH_SOIL_LAYERS - 1 - layer_from_top) * MESH_RINGS + (MESH_RINGS - 1 - ring);
}

static void add_link(struct mesh *mesh, int a, int b, double shape_m, double depth_m)
{
    mesh->link[mesh->links++] = (struct mesh_link){a, b, shape_m, depth_m};
}

/* One soil node: its volume, and its links downward, outward and, beside the pile, to the air. */
static void lay_soil_node(struct mesh *mesh, int layer, int ring, double top_m)
{
    double edge[MESH_RINGS + 1] = {0};
    for (int k = 0; k < MESH_RINGS; k++)
        edge[k + 1] = RING_END[k] * mesh->reach_m;
    int node = soil_node(layer, ring);
    double thick = SOIL_LAYER_M[layer], middle = top_m + 0.5 * thick;
    double area = ring_area(mesh, edge[ring], edge[ring + 1]);
    double width = edge[ring + 1] - edge[ring];
    mesh->soil_volume_m3[node] = area * thick;
    if (layer + 1 < MESH_SOIL_LAYERS)
        add_link(mesh, node, soil_node(layer + 1, ring),
                 area / (0.5 * (thick + SOIL_LAYER_M[layer + 1])), 0);
    else
        add_link(mesh, node, -1, area / (0.5 * thick), top_m + thick);
    double side = wall_m(mesh, edge[ring + 1]) * thick;
    if (ring + 1 < MESH_RINGS)
        add_link(mesh, node, soil_node(layer, ring + 1),
                 side / (0.5 * (edge[ring + 2] - edge[ring])), 0);
    else
        add_link(mesh, node, -1, side / (0.5 * width), middle);
    if (layer == 0 && ring > 0)
        add_link(mesh, node, -2, area / (0.5 * thick), 0);
}

static void lay_soil(struct mesh *mesh)
{
    mesh->links = 0;
    mesh->base_soil_m = 0.5 * SOIL_LAYER_M[0];
    double top = 0;
    for (int layer = 0; layer < MESH_SOIL_LAYERS; top += SOIL_LAYER_M[layer++])
        for (int ring = 0; ring < MESH_RINGS; ring++)
            lay_soil_node(mesh, layer, ring, top);
}

/* True area of a paraboloid, pi R/(6 H^2) ((R^2 + 4 H^2)^1.5 - R^3), or of the arcs of a parabola on
 * both sides, over that of its steps. */
static double slope_share(const struct mesh *mesh, const struct mesh_design *design)
{
    if (!design->sloping)
        return 1;
    double reach = design->reach_m, height = design->height_m;
    double slant = sqrt(reach * reach + 4 * height * height);
    double paraboloid = PI * reach / (6 * height * height) *
                        (slant * slant * slant - reach * reach * reach);
    double arc = 0.5 * (slant + reach * reach / (2 * height) * asinh(2 * height / reach));
    double truth = mesh->times * (mesh->shape == MESH_ROUND ? paraboloid : arc);
    double stepped = mesh_row_area(mesh, 0);
    for (int j = 0; j < mesh->rows; j++)
        stepped += wall_m(mesh, mesh->col_edge_m[mesh->row_cols[j]]) *
                   lane_get(mesh->row_height_m[j], 0);
    return truth / stepped;
}

static void take(struct mesh *mesh, struct arena *arena, size_t cells, size_t rows, size_t cols)
{
    mesh->row_cols = arena_take(arena, rows, sizeof(int));
    mesh->row_first = arena_take(arena, rows, sizeof(int));
    mesh->row_share = arena_take(arena, rows, sizeof(double));
    mesh->col_edge_m = arena_take(arena, cols + 1, sizeof(double));
    mesh->col_area_m2 = arena_take(arena, cols, sizeof(double));
    mesh->cell_row = arena_take(arena, cells, sizeof(int));
    mesh->cell_col = arena_take(arena, cells, sizeof(int));
    mesh->face = arena_take(arena, 2 * cells, sizeof(struct mesh_face));
    for (int i = 0; i < MESH_LINE; i++)
        mesh->line[i] = arena_take(arena, 2 * cells, sizeof(int));
    mesh->face_rise = arena_take(arena, 2 * cells, sizeof(double));
    mesh->out = arena_take(arena, 2 * rows + 2 * cols + 2, sizeof(struct mesh_out));
    mesh->row_height_m = arena_take(arena, rows, sizeof(lane));
    mesh->volume_m3 = arena_take(arena, cells, sizeof(lane));
    mesh->face_area_m2 = arena_take(arena, 2 * cells, sizeof(lane));
    mesh->face_a_m = arena_take(arena, 2 * cells, sizeof(lane));
    mesh->face_b_m = arena_take(arena, 2 * cells, sizeof(lane));
    mesh->face_per_m = arena_take(arena, 2 * cells, sizeof(lane));
    mesh->face_before_per_m = arena_take(arena, 2 * cells, sizeof(lane));
    mesh->face_after_per_m = arena_take(arena, 2 * cells, sizeof(lane));
    mesh->out_area_m2 = arena_take(arena, 2 * rows + 2 * cols + 2, sizeof(lane));
    mesh->out_m = arena_take(arena, 2 * rows + 2 * cols + 2, sizeof(lane));
    int **near[] = {&mesh->below, &mesh->face_below, &mesh->face_inner, &mesh->face_above, &mesh->face_outer};
    for (size_t i = 0; i < sizeof near / sizeof *near; i++)
        *near[i] = arena_take(arena, cells, sizeof(int));
    struct lattice_design symmetric = lattice_of(mesh, true, 0), plain = lattice_of(mesh, false, 0),
                          soiled = lattice_of(mesh, false, MESH_SOILS);
    lattice_take(&mesh->symmetric, &symmetric, arena);
    lattice_take(&mesh->plain, &plain, arena);
    lattice_take(&mesh->soiled, &soiled, arena);
}

/* Volume under a paraboloid, or under a parabola drawn out on both sides. */
static double curve_volume(const struct mesh *mesh, const struct mesh_design *design)
{
    double box = ring_area(mesh, 0, design->reach_m) * design->height_m;
    return box * (mesh->shape == MESH_LONG ? 2.0 / 3.0 : 0.5);
}

bool mesh_lay(struct mesh *mesh, const struct mesh_design *design, struct arena *arena)
{
    bool point = design->shape == MESH_POINT;
    mesh->shape = design->shape;
    mesh->reach_m = design->reach_m;
    mesh->times = design->times;
    mesh->height_m = design->height_m;
    mesh->fine = !point && design->rim_m < FINE_M;
    struct grading up = {design->rim_m, design->growth,
                         design->row_most_m > 0 ? fmax(design->row_most_m, design->rim_m) : 1e9};
    struct grading in = {design->rim_m,
                         design->column_growth > 0 ? design->column_growth : design->growth, 1e9};
    mesh->rows = point ? 1 : pieces(design->height_m, up);
    mesh->cols = point ? 1 : pieces(design->reach_m, in);
    if ((long)mesh->rows * mesh->cols > MESH_MOST_CELLS)
        return false;
    mesh->band = mesh->cols < MESH_RINGS ? MESH_RINGS : mesh->cols;
    take(mesh, arena, (size_t)mesh->rows * (size_t)mesh->cols, (size_t)mesh->rows,
         (size_t)mesh->cols);
    if (!arena->block)
        return true; /* counting */
    double thick[MESH_MOST_LINE];
    grade(design->reach_m, in, mesh->cols, thick);
    mesh->col_edge_m[0] = 0;
    for (int i = 0; i < mesh->cols; i++) {
        mesh->col_edge_m[i + 1] = mesh->col_edge_m[i] + thick[i];
        mesh->col_area_m2[i] = ring_area(mesh, mesh->col_edge_m[i], mesh->col_edge_m[i + 1]);
    }
    grade(design->height_m, up, mesh->rows, thick);
    lay_rows(mesh, design, thick);
    /* steps hold a little more than the curve: rows are that much lower */
    double fits = design->sloping ? curve_volume(mesh, design) / mesh->designed_m3 : 1.0;
    mesh->designed_m3 *= fits;
    for (int j = 0; j < mesh->rows; j++)
        mesh->row_height_m[j] = lane_of(fits * thick[j]);
    mesh->faces = mesh->outs = 0;
    for (int c = 0; c < mesh->cells; c++)
        mesh->below[c] = mesh->face_below[c] = mesh->face_inner[c] = mesh->face_above[c] =
            mesh->face_outer[c] = -1;
    if (!point)
        lay_faces(mesh);
    lay_soil(mesh);
    lay_lattice(mesh, &mesh->symmetric, true, 0);
    lay_lattice(mesh, &mesh->plain, false, 0);
    lay_lattice(mesh, &mesh->soiled, false, MESH_SOILS);
    mesh->nodes = MESH_SOILS + mesh->cells;
    mesh->skin_share = slope_share(mesh, design);
    mesh_stretch(mesh);
    return true;
}

/* From a cell's middle, `half` away from its face, to that of the cell beyond it in line. */
static lane gap(const struct mesh *mesh, int cell, int beyond, bool upright, lane half)
{
    if (beyond == cell)
        return half;
    if (upright)
        return half + 0.5 * mesh->row_height_m[mesh->cell_row[beyond]];
    int i = mesh->cell_col[beyond];
    return half + 0.5 * (mesh->col_edge_m[i + 1] - mesh->col_edge_m[i]);
}

static void stretch_face(struct mesh *mesh, int f)
{
    const struct mesh_face *face = &mesh->face[f];
    int j = mesh->cell_row[face->a], i = mesh->cell_col[face->a];
    if (face->upright) {
        mesh->face_area_m2[f] = lane_of(mesh->col_area_m2[i]);
        mesh->face_a_m[f] = 0.5 * mesh->row_height_m[j];
        mesh->face_b_m[f] = 0.5 * mesh->row_height_m[j + 1];
    } else {
        const double *edge = mesh->col_edge_m;
        mesh->face_area_m2[f] = wall_m(mesh, edge[i + 1]) * mesh->row_height_m[j];
        mesh->face_a_m[f] = lane_of(0.5 * (edge[i + 1] - edge[i]));
        mesh->face_b_m[f] = lane_of(0.5 * (edge[i + 2] - edge[i + 1]));
    }
    mesh->face_per_m[f] = 1.0 / (mesh->face_a_m[f] + mesh->face_b_m[f]);
    int before = mesh->line[MESH_BEFORE][f], after = mesh->line[MESH_AFTER][f];
    mesh->face_before_per_m[f] = 1.0 / gap(mesh, face->a, before, face->upright, mesh->face_a_m[f]);
    mesh->face_after_per_m[f] = 1.0 / gap(mesh, face->b, after, face->upright, mesh->face_b_m[f]);
}

static void stretch_out(struct mesh *mesh, int o)
{
    int c = mesh->out[o].cell, j = mesh->cell_row[c], i = mesh->cell_col[c];
    const double *edge = mesh->col_edge_m;
    if (mesh->out[o].side == MESH_WALL) {
        mesh->out_area_m2[o] = mesh->skin_share * wall_m(mesh, edge[i + 1]) * mesh->row_height_m[j];
        mesh->out_m[o] = lane_of(0.5 * (edge[i + 1] - edge[i]));
    } else {
        double skin = mesh->out[o].side == MESH_TOP ? mesh->skin_share : 1.0;
        mesh->out_area_m2[o] = lane_of(skin * mesh->col_area_m2[i]);
        mesh->out_m[o] = 0.5 * mesh->row_height_m[j];
    }
}

void mesh_stretch(struct mesh *mesh)
{
    for (int c = 0; c < mesh->cells; c++)
        mesh->volume_m3[c] =
            mesh->col_area_m2[mesh->cell_col[c]] * mesh->row_height_m[mesh->cell_row[c]];
    for (int f = 0; f < mesh->faces; f++)
        stretch_face(mesh, f);
    for (int o = 0; o < mesh->outs; o++)
        stretch_out(mesh, o);
}

lane mesh_height(const struct mesh *mesh)
{
    lane height = lane_of(0);
    for (int j = 0; j < mesh->rows; j++)
        height += mesh->row_height_m[j];
    return height;
}

double mesh_row_area(const struct mesh *mesh, int row)
{
    return ring_area(mesh, 0, mesh->col_edge_m[mesh->row_cols[row]]);
}

double mesh_row_designed_m(const struct mesh *mesh, int row)
{
    return mesh->row_share[row] * mesh->designed_m3 / mesh_row_area(mesh, row);
}
