/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/mesh.h - the pile in space as a graph of cells and faces, with rings of soil beneath.
 *
 * Level rows of cells round an axis (bin, heap) or on both sides of a middle plane (windrow). A
 * rectangular bin takes its hydraulic radius R = 2 A/P and a multiplicity A/(pi R^2), so that both
 * its volume and its wall area are right. A heap is a paraboloid, a windrow a parabola drawn out: rows get
 * shorter upward, and their stepped surface is scaled to the true slope. Cells thicken inward from `rim_m` by at most `growth`. Rows and columns
 * stay what they are for a season; a row's height follows the volume of what it holds.
 *
 * Nodes are numbered for a narrow band: soil first (deep to shallow, outer ring to the one under
 * the pile), then the rows of the pile upward, each from the axis outward.
 */
#ifndef PILE_MESH_H
#define PILE_MESH_H
#include "base/arena.h"
#include "base/lane.h"
#include "pile/lattice.h"

enum mesh_shape { MESH_ROUND, MESH_LONG, MESH_POINT }; /* a point is a jar: one cell, no faces */
enum mesh_side { MESH_TOP, MESH_WALL, MESH_BASE };
enum { MESH_RINGS = 3, MESH_SOIL_LAYERS = 5, MESH_SOILS = MESH_RINGS * MESH_SOIL_LAYERS,
       MESH_MOST_CELLS = 20000, MESH_MOST_LINE = 200 };

/* four cells in line across a face */
enum mesh_line { MESH_BEFORE, MESH_FROM, MESH_TO, MESH_AFTER, MESH_LINE };

struct mesh_face {
    int a, b;               /* cells: a is below or inside b */
    bool upright;           /* b lies above a */
};

struct mesh_out {
    int cell;
    enum mesh_side side;
};

struct mesh_link {          /* between two soil nodes, or a soil node and what lies outside it */
    int a, b;               /* b: -1 undisturbed ground, -2 open air */
    double shape_m;         /* area over distance */
    double depth_m;         /* of the undisturbed ground it meets */
};

struct mesh {
    enum mesh_shape shape;
    double reach_m, times;  /* radius or half width; multiplicity (round) or twice the length (long) */
    double height_m;        /* as designed */
    bool fine;              /* cells so thin that water seeping between them is stiff */
    double skin_share;      /* true surface over stepped surface; 1 for upright walls */
    int rows, cols, cells, nodes, band;
    int faces, outs, links;
    int *row_cols, *row_first;      /* [rows] */
    double *row_share;              /* [rows] of the volume, as designed */
    double designed_m3;
    double *col_edge_m;             /* [cols + 1] */
    double *col_area_m2;            /* [cols], seen from above */
    int *cell_row, *cell_col;       /* [cells] */
    int *below;                     /* [cells] the cell below, or -1 at the base */
    struct mesh_face *face;
    /* [faces] the cell before a, or at an edge a itself; a; b; the one after b, or b. Apart, so that a loop
     * takes several faces at once */
    int *line[MESH_LINE];
    double *face_rise;              /* [faces] 1 if b lies above a, else 0 */
    struct mesh_out *out;
    struct mesh_link link[MESH_SOILS * 3 + 2 * MESH_SOIL_LAYERS];
    double soil_volume_m3[MESH_SOILS];
    double base_soil_m;             /* half of the uppermost soil layer */
    /* geometry that follows the volumes */
    lane *row_height_m;             /* [rows] */
    lane *volume_m3;                /* [cells] */
    lane *face_area_m2, *face_a_m, *face_b_m; /* [faces]; distances from cell centre to face */
    /* one over the distance between the middles of a and b, of a and the cell before it, of b and
     * the cell after it (of nothing, any number) */
    lane *face_per_m, *face_before_per_m, *face_after_per_m;
    lane *out_area_m2, *out_m;      /* [outs] */
    /* systems on the cells: symmetric ones (air), others (oxygen), and with the soil (heat). Edges are
     * the faces in order; with the soil, then the cells of the lowest row, soil node first. */
    struct lattice symmetric, plain, soiled;
    int *face_below, *face_inner;   /* [cells] faces of which the cell is b; -1: none */
    int *face_above, *face_outer;   /* [cells] of which it is a */
};

struct mesh_design {
    enum mesh_shape shape;
    double reach_m, times, height_m;
    bool sloping;           /* heap or windrow: rows shorten upward */
    double rim_m, growth;
    double row_most_m;      /* no row is thicker; 0 = no such limit */
    double column_growth;   /* columns may grow faster than rows; 0 = alike */
};

/* Lays out a mesh in the arena (see base/arena.h: counts only without a block). False if it would
 * have too many cells. */
bool mesh_lay(struct mesh *mesh, const struct mesh_design *design, struct arena *arena);
/* The most numbers of a matrix on a mesh of so many rows and columns (pile/lattice.h). */
size_t mesh_matrix_most(const struct mesh *mesh, bool symmetric, int soils);
/* Row heights are given: volumes, areas and distances follow. */
void mesh_stretch(struct mesh *mesh);
/* Height of the pile, m. */
lane mesh_height(const struct mesh *mesh);
/* Area of a row seen from above, m2. */
double mesh_row_area(const struct mesh *mesh, int row);
/* Thickness of a row as designed, m: the same for every member. */
double mesh_row_designed_m(const struct mesh *mesh, int row);
#endif
