/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/lattice.c - see pile/lattice.h.
 *
 * A matrix is first the band of what is kept, then for each red cell its diagonal, its row and its
 * column, then room for the right-hand side of what is kept.
 */
#include "pile/lattice.h"
#include "base/band.h"

static size_t width_of(const struct lattice_design *design, int band)
{
    return (size_t)(design->symmetric ? band_half_width(band) : band_width(band));
}

/* numbers of a red cell */
static int of_red(bool symmetric)
{
    return symmetric ? 1 + LATTICE_NEAR : 1 + 2 * LATTICE_NEAR;
}

size_t lattice_most(const struct lattice_design *design)
{
    size_t rows = (size_t)design->rows, cols = (size_t)design->cols, soils = (size_t)design->soils;
    int narrow = design->band < LATTICE_WIDE ? design->band : LATTICE_WIDE - 1;
    size_t most_cols = cols < LATTICE_WIDE ? cols : LATTICE_WIDE - 1;
    size_t whole = (soils + rows * most_cols) * width_of(design, narrow);
    if (cols < LATTICE_WIDE)
        return whole;
    size_t half = rows * ((cols + 1) / 2);
    size_t wide = (soils + half) * (width_of(design, design->band) + 1) +
                  half * (size_t)of_red(design->symmetric);
    return whole > wide ? whole : wide;
}

void lattice_take(struct lattice *l, const struct lattice_design *design, struct arena *arena)
{
    size_t cells = (size_t)design->rows * (size_t)design->cols, nodes = (size_t)design->soils + cells;
    size_t edges = 2 * cells + (size_t)design->cols, reds = design->cols < LATTICE_WIDE ? 0 : cells;
    l->diagonal = arena_take(arena, nodes, sizeof(int));
    l->ab = arena_take(arena, edges, sizeof(int));
    l->ba = arena_take(arena, edges, sizeof(int));
    l->place = arena_take(arena, nodes, sizeof(int));
    l->kept_node = arena_take(arena, nodes, sizeof(int));
    l->red_node = arena_take(arena, reds, sizeof(int));
    l->red_edges = arena_take(arena, reds, sizeof(int));
    l->near = arena_take(arena, reds * LATTICE_NEAR, sizeof(int));
}

static int in_band(const struct lattice *l, int row, int col)
{
    return l->symmetric ? band_half_at(l->band, row, col) : band_at(l->band, row, col);
}

/* Where the numbers of a red cell begin. */
static int red_at(const struct lattice *l, int red)
{
    int width = l->symmetric ? band_half_width(l->band) : band_width(l->band);
    return l->kept * width + red * of_red(l->symmetric);
}

static bool is_red(const struct lattice *l, int node)
{
    return l->reds > 0 && l->red_node[l->place[node]] == node;
}

void lattice_lay(struct lattice *l, const struct lattice_design *design, int cells,
                 const int *cell_row, const int *cell_col)
{
    l->symmetric = design->symmetric;
    l->band = design->band;
    l->nodes = design->soils + cells;
    l->edges = l->kept = l->reds = 0;
    for (int i = 0; i < l->nodes; i++) {
        int c = i - design->soils;
        if (design->cols >= LATTICE_WIDE && c >= 0 && (cell_row[c] + cell_col[c]) % 2) {
            l->red_edges[l->reds] = 0;
            l->red_node[l->reds] = i;
            l->place[i] = l->reds++;
        } else {
            l->kept_node[l->kept] = i;
            l->place[i] = l->kept++;
        }
    }
    for (int i = 0; i < l->nodes; i++)
        l->diagonal[i] = is_red(l, i) ? red_at(l, l->place[i]) : in_band(l, l->place[i], l->place[i]);
    l->size = red_at(l, l->reds);
}

/* Of two nodes that touch at most one is red, since soil isn't. */
void lattice_edge(struct lattice *l, int a, int b)
{
    int edge = l->edges++, pa = l->place[a], pb = l->place[b];
    bool a_red = is_red(l, a);
    if (!a_red && !is_red(l, b)) {
        l->ba[edge] = in_band(l, pb, pa);
        l->ab[edge] = l->symmetric ? l->ba[edge] : in_band(l, pa, pb);
        return;
    }
    int red = a_red ? pa : pb, slot = l->red_edges[red]++;
    l->near[red * LATTICE_NEAR + slot] = a_red ? pb : pa;
    int row = red_at(l, red) + 1 + slot, col = row + (l->symmetric ? 0 : LATTICE_NEAR);
    l->ab[edge] = a_red ? row : col;
    l->ba[edge] = a_red ? col : row;
}

void lattice_clear(const struct lattice *l, lane *matrix)
{
    for (int i = 0; i < l->size; i++)
        matrix[i] = lane_of(0);
}

/* What a red cell passes on from each of its neighbours to each other. */
static void eliminate(const struct lattice *l, lane *matrix, int red)
{
    const int *near = l->near + red * LATTICE_NEAR;
    lane *own = matrix + red_at(l, red), *row = own + 1;
    lane *col = l->symmetric ? row : row + LATTICE_NEAR;
    own[0] = 1.0 / own[0];
    for (int i = 0; i < l->red_edges[red]; i++) {
        lane share = col[i] * own[0];
        for (int j = 0; j < l->red_edges[red]; j++)
            if (!l->symmetric || near[i] >= near[j])
                matrix[in_band(l, near[i], near[j])] -= share * row[j];
    }
}

void lattice_factor(const struct lattice *l, lane *matrix)
{
    for (int q = 0; q < l->reds; q++)
        eliminate(l, matrix, q);
    if (l->symmetric)
        band_half_factor(matrix, l->kept, l->band);
    else
        band_factor(matrix, l->kept, l->band);
}

static void solve_band(const struct lattice *l, const lane *matrix, lane *x)
{
    if (l->symmetric)
        band_half_solve(matrix, l->kept, l->band, x);
    else
        band_solve(matrix, l->kept, l->band, x);
}

void lattice_solve(const struct lattice *l, lane *matrix, lane *x)
{
    if (l->reds == 0) {
        solve_band(l, matrix, x);
        return;
    }
    const int step = of_red(l->symmetric), to_col = l->symmetric ? 0 : LATTICE_NEAR;
    const lane *first = matrix + red_at(l, 0);
    lane *kept = matrix + l->size;
    for (int i = 0; i < l->kept; i++)
        kept[i] = x[l->kept_node[i]];
    const lane *own = first;
    for (int q = 0; q < l->reds; q++, own += step) {
        const int *near = l->near + q * LATTICE_NEAR;
        lane share = x[l->red_node[q]] * own[0];
        for (int i = 0; i < l->red_edges[q]; i++)
            kept[near[i]] -= share * own[1 + to_col + i];
    }
    solve_band(l, matrix, kept);
    own = first;
    for (int q = 0; q < l->reds; q++, own += step) {
        const int *near = l->near + q * LATTICE_NEAR;
        lane rest = x[l->red_node[q]];
        for (int i = 0; i < l->red_edges[q]; i++)
            rest -= own[1 + i] * kept[near[i]];
        x[l->red_node[q]] = rest * own[0];
    }
    for (int i = 0; i < l->kept; i++)
        x[l->kept_node[i]] = kept[i];
}
