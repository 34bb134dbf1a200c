/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/move.c - see pile/move.h. */
#include "pile/move.h"

int move_of_state(enum state state)
{
    switch (state) {
    case STATE_HEAT_J: return 0;
    case STATE_WATER_KG: return 1;
    case STATE_MICROBE_KG: return 2;
    case STATE_HUMUS_KG: return 3;
    case STATE_NITROGEN_KG: return 4;
    case STATE_SOUR_KG: return 5;
    case STATE_LIVING_KG: return 6;
    case STATE_DRY_KG: return 7;
    default: return -1; /* clocks and the gas reading do not add */
    }
}

enum { MOVING_STATES = 8 };

int move_of_stock(enum stock stock) { return MOVING_STATES + (int)stock; }

int move_of_pool(int stuff, enum pool pool)
{
    return MOVING_STATES + STOCKS + stuff * POOLS + (int)pool;
}

int move_of_laid(const struct pile *pile, int stuff)
{
    return MOVING_STATES + STOCKS + pile->stuffs * POOLS + stuff;
}

int move_of_dose(const struct pile *pile, int stage)
{
    return MOVING_STATES + STOCKS + pile->stuffs * (POOLS + 1) + stage;
}

double move_share(const struct mesh *mesh, int cell)
{
    int row = mesh->cell_row[cell];
    return mesh->row_share[row] * mesh->col_area_m2[mesh->cell_col[cell]] / mesh_row_area(mesh, row);
}

void move_swap(struct pile *a, struct pile *b)
{
    struct pile keep = *a;
    *a = *b;
    *b = keep;
}

static void clear(struct pile *pile)
{
    int amounts = pile_amounts(pile);
    for (int k = 0; k < amounts; k++) {
        lane *amount = pile_amount(pile, k);
        for (int c = 0; c < pile->stride; c++)
            amount[c] = lane_of(0);
    }
    for (int k = 0; k < POOLS; k++)
        for (int c = 0; c < pile->stride; c++)
            pile_state(pile, (enum state)(STATE_CLOCK + k))[c] = lane_of(0);
    for (int c = 0; c < pile->stride; c++)
        pile_state(pile, STATE_OXYGEN)[c] = lane_of(0.2);
}

/* Adds a share of one cell's, or one batch's, amounts to another cell. */
static void add_cell(struct pile *to, int t, const struct pile *from, int f, lane share)
{
    int amounts = pile_amounts(to);
    for (int k = 0; k < amounts; k++)
        pile_amount(to, k)[t] += share * pile_amount(from, k)[f];
}

static void add_batch(struct pile *to, int t, const struct move_batch *batch, lane share)
{
    int amounts = pile_amounts(to);
    for (int k = 0; k < amounts; k++)
        pile_amount(to, k)[t] += share * batch->amount[k];
}

/* Adds a share of a batch to all cells by their volumes: amount by amount, along memory. */
static void spread(struct pile *to, const struct move_batch *batch, lane share)
{
    const struct mesh *mesh = to->mesh;
    double per_m2[MESH_MOST_LINE];
    for (int j = 0; j < mesh->rows; j++)
        per_m2[j] = mesh->row_share[j] / mesh_row_area(mesh, j);
    int amounts = pile_amounts(to);
    for (int k = 0; k < amounts; k++) {
        lane *amount = pile_amount(to, k), some = share * batch->amount[k];
        for (int j = 0; j < mesh->rows; j++)
            for (int i = 0; i < mesh->row_cols[j]; i++)
                amount[mesh->row_first[j] + i] += some * (per_m2[j] * mesh->col_area_m2[i]);
    }
}

/* A rank by which cells are taken or filled. Depth below the nearest surface orders a turn outside
 * in; height orders the others, with whole rows alike (they are mixed sideways by the fork). */
static double rank(const struct mesh *mesh, int cell, enum move_way way, bool filling)
{
    int row = mesh->cell_row[cell], col = mesh->cell_col[cell];
    if (way != MOVE_OUTSIDE_IN) {
        double upward = row;
        return way == MOVE_UPSIDE_DOWN && !filling ? -upward : upward;
    }
    double below_top = 0, reach = mesh->col_edge_m[mesh->row_cols[row]];
    for (int j = row; j < mesh->rows; j++)
        if (col < mesh->row_cols[j])
            below_top += mesh_row_designed_m(mesh, j) * (j == row ? 0.5 : 1.0);
    double within = reach - 0.5 * (mesh->col_edge_m[col] + mesh->col_edge_m[col + 1]);
    double depth = below_top < within ? below_top : within;
    return filling ? -depth : depth;
}

/* Cells by rank, equal ranks by number: insertion, since piles have few cells. */
static void order(const struct mesh *mesh, enum move_way way, bool filling, int *cells, double *ranks)
{
    for (int n = 0; n < mesh->cells; n++) {
        double r = rank(mesh, n, way, filling);
        int i = n;
        for (; i > 0 && ranks[i - 1] > r; i--) {
            ranks[i] = ranks[i - 1];
            cells[i] = cells[i - 1];
        }
        ranks[i] = r;
        cells[i] = n;
    }
}

static lane overlap(lane a0, lane a1, lane b0, lane b1)
{
    return lane_max(lane_min(a1, b1) - lane_max(a0, b0), lane_of(0));
}

/* Groups of equal rank are poured as one: each source group's volume spreads evenly over what it
 * meets of each target group. */
static int group_end(const double *ranks, int cells, int from)
{
    int to = from + 1;
    while (to < cells && ranks[to] == ranks[from])
        to++;
    return to;
}

static lane group_volume(const struct pile *pile, const int *cells, int from, int to)
{
    lane sum = lane_of(0);
    for (int i = from; i < to; i++)
        sum += pile->stock[STOCK_LOOSE_M3][cells[i]];
    return sum;
}

static double group_share(const struct mesh *mesh, const int *cells, int from, int to)
{
    double sum = 0;
    for (int i = from; i < to; i++)
        sum += move_share(mesh, cells[i]);
    return sum;
}

struct pour {
    struct pile *to;
    const struct pile *from;
    int *take, *fill;
    double *take_rank, *fill_rank;
    lane kept;          /* share that keeps its order */
    lane whole_m3;
    lane *share;        /* room for one of each target cell */
};

/* Every cell of a source group gives each cell of a target group that one's share of itself. Amount
 * after amount, since cells of one amount lie side by side. */
static void pour_cells(const struct pour *p, int s0, int s1, int t0, int t1)
{
    int amounts = pile_amounts(p->to);
    for (int k = 0; k < amounts; k++) {
        lane *to = pile_amount(p->to, k);
        const lane *from = pile_amount(p->from, k);
        for (int t = t0; t < t1; t++) {
            lane sum = to[p->fill[t]], share = p->share[t];
            for (int s = s0; s < s1; s++)
                sum += share * from[p->take[s]];
            to[p->fill[t]] = sum;
        }
    }
}

/* Source group [s0, s1) against the target groups it meets. */
static void pour_group(const struct pour *p, int s0, int s1, lane from_m3, lane to_m3)
{
    const struct mesh *mesh = p->to->mesh;
    /* a group that was taken whole (the old bottom, kept for the top) has no width and meets nothing */
    lane start = lane_of(0), width = lane_max(to_m3 - from_m3, lane_of(1e-30));
    for (int t0 = 0, t1; t0 < mesh->cells; t0 = t1) {
        t1 = group_end(p->fill_rank, mesh->cells, t0);
        double share = group_share(mesh, p->fill, t0, t1);
        lane end = start + share * p->whole_m3;
        lane meets = overlap(from_m3, to_m3, start, end) / width;
        start = end;
        if (!lane_any(lane_less(lane_of(0), meets)))
            continue;
        for (int t = t0; t < t1; t++)
            p->share[t] = p->kept * meets * (move_share(mesh, p->fill[t]) / share);
        pour_cells(p, s0, s1, t0, t1);
    }
}

void move_turn(struct pile *to, const struct pile *from, enum move_way way, lane mixed)
{
    enum { MOST = 2048 };
    int take[MOST], fill[MOST], cells = from->mesh->cells;
    double take_rank[MOST], fill_rank[MOST];
    lane share[MOST];
    bool few = cells <= MOST && to->mesh->cells <= MOST;
    lane whole = pile_total(from, from->stock[STOCK_LOOSE_M3]);
    clear(to);
    struct pour p = {to, from, take, fill, take_rank, fill_rank,
                     few ? 1.0 - mixed : lane_of(0), whole, share};
    if (!few) /* finer meshes than tests use are simply mixed */
        mixed = lane_of(1);
    else {
        order(from->mesh, way, false, take, take_rank);
        order(to->mesh, way, true, fill, fill_rank);
        lane at = lane_of(0);
        for (int s0 = 0, s1; s0 < cells; s0 = s1) {
            s1 = group_end(take_rank, cells, s0);
            lane end = at + group_volume(from, take, s0, s1);
            pour_group(&p, s0, s1, at, end);
            at = end;
        }
    }
    struct move_batch all;
    int amounts = pile_amounts(from);
    for (int k = 0; k < amounts; k++)
        all.amount[k] = pile_total(from, pile_amount(from, k));
    spread(to, &all, mixed);
}

/* Share of a row that lies below a height, and the height where the row begins. */
static lane share_below(const struct mesh *mesh, int row, lane bottom_m, lane height_m)
{
    lane share = (height_m - bottom_m) / mesh->row_height_m[row];
    return lane_max(lane_min(share, lane_of(1)), lane_of(0));
}

/* One column of the pile with a batch let in at a height: what lies above it moves up. */
static void add_column(struct pile *to, const struct pile *from, int col, lane height_m,
                       const struct move_batch *batch, double batch_share)
{
    const struct mesh *mesh = from->mesh;
    const lane *loose = from->stock[STOCK_LOOSE_M3];
    /* water poured alone has no volume of its own */
    lane extra = lane_max(batch_share * batch->amount[move_of_stock(STOCK_LOOSE_M3)], lane_of(1e-12));
    lane whole = extra, let_in = lane_of(0), bottom = lane_of(0);
    double designed = 0;
    int rows = 0;
    for (; rows < mesh->rows && col < mesh->row_cols[rows]; rows++) {
        int cell = mesh->row_first[rows] + col;
        whole += loose[cell];
        let_in += loose[cell] * share_below(mesh, rows, bottom, height_m);
        designed += move_share(mesh, cell);
        bottom += mesh->row_height_m[rows];
    }
    lane start = lane_of(0);
    for (int t = 0; t < rows; t++) {
        int cell = mesh->row_first[t] + col;
        lane end = start + whole * (move_share(mesh, cell) / designed), at = lane_of(0);
        add_batch(to, cell, batch, batch_share * overlap(let_in, let_in + extra, start, end) / extra);
        for (int s = 0; s < rows; s++) {
            int source = mesh->row_first[s] + col;
            lane next = at + loose[source];
            lane meets = overlap(lane_min(at, let_in), lane_min(next, let_in), start, end) +
                         overlap(lane_max(at, let_in) + extra, lane_max(next, let_in) + extra,
                                 start, end);
            if (lane_any(lane_less(lane_of(0), meets)))
                add_cell(to, cell, from, source, meets / loose[source]);
            at = next;
        }
        start = end;
    }
}

void move_add(struct pile *pile, struct pile *spare, const struct move_batch *batch, double bury_m)
{
    const struct mesh *mesh = pile->mesh;
    lane height = lane_max(mesh_height(mesh) - bury_m, lane_of(0));
    spare->mesh = pile->mesh;
    clear(spare);
    for (int i = 0; i < MESH_SOILS; i++)
        pile_soil(spare)[i] = pile_soil(pile)[i];
    for (int i = 0; i < mesh->cols; i++)
        add_column(spare, pile, i, height, batch, mesh->col_area_m2[i] / mesh_row_area(mesh, 0));
    move_swap(pile, spare);
}

void move_take_bottom(struct pile *pile, struct move_batch *batch, double thick_m)
{
    const struct mesh *mesh = pile->mesh;
    int amounts = pile_amounts(pile);
    lane least = lane_min(lane_of(thick_m), 0.8 * mesh_height(mesh)), bottom = lane_of(0);
    *batch = (struct move_batch){{lane_of(0)}};
    for (int j = 0; j < mesh->rows; bottom += mesh->row_height_m[j++]) {
        lane share = share_below(mesh, j, bottom, least);
        for (int c = mesh->row_first[j]; c < mesh->row_first[j] + mesh->row_cols[j]; c++)
            for (int k = 0; k < amounts; k++) {
                lane moved = share * pile_amount(pile, k)[c];
                batch->amount[k] += moved;
                pile_amount(pile, k)[c] -= moved;
            }
    }
}
