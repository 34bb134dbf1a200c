/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/pile/test_move.c - material moved by hand: nothing is lost, and it ends where it should. */
#include "pile/move.h"
#include "lib/near.h"
#include <stdlib.h>

enum { STUFFS = 3 };
static const struct mesh_design BIN = {MESH_ROUND, 0.5, 1.3, 1.0, false, 0.03, 1.28, 0, 0};
static const struct mesh_design OTHER = {MESH_ROUND, 0.4, 1.0, 1.5, false, 0.05, 1.1, 0, 0};
static const struct mesh_design HEAP = {MESH_ROUND, 1.0, 1, 1.2, true, 0.03, 1.28, 0, 0};

/* two piles with meshes of their own */
struct yard {
    struct mesh mesh[2];
    struct pile pile[2];
    void *block;
};

static double chance(uint64_t *seed)
{
    *seed = *seed * 48271 % 2147483647;
    return (double)*seed / 2147483647.0;
}

static void take(struct yard *yard, const struct mesh_design design[2], struct arena *arena)
{
    int stride = 0;
    for (int i = 0; i < 2; i++) {
        assert_true(mesh_lay(&yard->mesh[i], &design[i], arena));
        int room = yard->mesh[i].rows * yard->mesh[i].cols;
        stride = room > stride ? room : stride;
    }
    for (int i = 0; i < 2; i++) {
        yard->pile[i].mesh = &yard->mesh[i];
        pile_take(&yard->pile[i], stride, STUFFS, arena);
    }
}

/* The first pile full of anything, its volume as designed; the second one's cells hold rubbish. */
static void make(struct yard *yard, struct mesh_design first, struct mesh_design second)
{
    const struct mesh_design design[2] = {first, second};
    struct arena count = {0};
    uint64_t seed = 9;
    memset(yard, 0, sizeof *yard);
    take(yard, design, &count);
    yard->block = calloc(1, count.used);
    assert_non_null(yard->block);
    take(yard, design, &(struct arena){yard->block, count.used, 0});
    for (int i = 0; i < 2; i++)
        for (int k = 0; k < pile_amounts(&yard->pile[i]); k++)
            for (int c = 0; c < yard->mesh[i].cells; c++)
                pile_amount(&yard->pile[i], k)[c] = 1 + chance(&seed);
    for (int c = 0; c < yard->mesh[0].cells; c++)
        yard->pile[0].stock[STOCK_LOOSE_M3][c] = 2 * yard->mesh[0].volume_m3[c];
}

static int tracer(void) { return move_of_stock(STOCK_ASH_KG); }

static lane *traced(const struct pile *pile) { return pile_amount(pile, tracer()); }

/* share of the designed volume below a row */
static double below(const struct mesh *mesh, int row)
{
    double sum = 0;
    for (int j = 0; j < row; j++)
        sum += mesh->row_share[j];
    return sum;
}

static double in_row(const struct pile *pile, int row)
{
    double sum = 0;
    for (int i = 0; i < pile->mesh->row_cols[row]; i++)
        sum += traced(pile)[pile->mesh->row_first[row] + i];
    return sum;
}

static double overlap(double a, double b, double c, double d)
{
    return fmax(fmin(b, d) - fmax(a, c), 0);
}

static void totals(const struct pile *pile, double *sum)
{
    for (int k = 0; k < pile_amounts(pile); k++)
        sum[k] = pile_total(pile, pile_amount(pile, k));
}

static void every_amount_has_a_place_of_its_own(void **state)
{
    (void)state;
    struct yard yard;
    make(&yard, BIN, BIN);
    const struct pile *pile = &yard.pile[0];
    int amounts = pile_amounts(pile), seen = 0;
    assert_true(amounts <= MOVE_MOST_AMOUNTS);
    for (int s = 0; s < STATES; s++)
        if (move_of_state((enum state)s) >= 0) {
            assert_ptr_equal(pile_amount(pile, move_of_state((enum state)s)),
                             pile_state(pile, (enum state)s));
            seen++;
        }
    for (int s = 0; s < STOCKS; s++, seen++)
        assert_ptr_equal(pile_amount(pile, move_of_stock((enum stock)s)), pile->stock[s]);
    for (int i = 0; i < STUFFS; i++) {
        for (int k = 0; k < POOLS; k++, seen++)
            assert_ptr_equal(pile_amount(pile, move_of_pool(i, (enum pool)k)),
                             pile_pool(pile, i, (enum pool)k));
        assert_ptr_equal(pile_amount(pile, move_of_laid(pile, i)), pile_laid(pile, i));
        seen++;
    }
    for (int i = 0; i < RULES_STAGES; i++, seen++)
        assert_ptr_equal(pile_amount(pile, move_of_dose(pile, i)), pile_dose(pile, i));
    assert_int_equal(seen, amounts);
    free(yard.block);
}

/* Any way, any mixing, into the same bin, another or a heap: to 1e-13. */
static void turning_keeps_every_amount(void **state)
{
    (void)state;
    const struct mesh_design from[3] = {BIN, HEAP, BIN}, to[3] = {BIN, OTHER, HEAP};
    double before[MOVE_MOST_AMOUNTS], after[MOVE_MOST_AMOUNTS];
    for (int m = 0; m < 3; m++)
        for (int way = MOVE_UPSIDE_DOWN; way <= MOVE_SAME_ORDER; way++)
            for (double mixed = 0; mixed <= 1; mixed += 0.25) {
                struct yard yard;
                make(&yard, from[m], to[m]);
                totals(&yard.pile[0], before);
                move_turn(&yard.pile[1], &yard.pile[0], (enum move_way)way, lane_of(mixed));
                totals(&yard.pile[1], after);
                for (int k = 0; k < pile_amounts(&yard.pile[0]); k++)
                    assert_near(after[k] / before[k], 1, 1e-13);
                free(yard.block);
            }
}

static void turned_material_fills_the_new_place_as_designed(void **state)
{
    (void)state;
    for (int way = MOVE_UPSIDE_DOWN; way <= MOVE_SAME_ORDER; way++) {
        struct yard yard;
        make(&yard, HEAP, OTHER);
        move_turn(&yard.pile[1], &yard.pile[0], (enum move_way)way, lane_of(0.3));
        const lane *loose = yard.pile[1].stock[STOCK_LOOSE_M3];
        double whole = pile_total(&yard.pile[1], loose);
        for (int c = 0; c < yard.mesh[1].cells; c++)
            assert_near(loose[c] / whole / move_share(&yard.mesh[1], c), 1, 1e-12);
        free(yard.block);
    }
}

static void mark_row(const struct pile *pile, int row)
{
    for (int c = 0; c < pile->mesh->cells; c++)
        traced(pile)[c] = pile->mesh->cell_row[c] == row ? move_share(pile->mesh, c) : 0;
}

/* What lay between a and b of the volume, from below, lies between 1 - b and 1 - a. */
static void turning_upside_down_reverses_the_layers(void **state)
{
    (void)state;
    for (int row = 0; row < 5; row++) {
        struct yard yard;
        make(&yard, BIN, OTHER);
        mark_row(&yard.pile[0], row);
        move_turn(&yard.pile[1], &yard.pile[0], MOVE_UPSIDE_DOWN, lane_of(0));
        double top = 1 - below(&yard.mesh[0], row), low = top - yard.mesh[0].row_share[row];
        for (int j = 0; j < yard.mesh[1].rows; j++) {
            double a = below(&yard.mesh[1], j), b = a + yard.mesh[1].row_share[j];
            assert_near(in_row(&yard.pile[1], j), overlap(a, b, low, top), 1e-12);
        }
        free(yard.block);
    }
}

static void turning_in_the_same_order_keeps_the_layers(void **state)
{
    (void)state;
    for (int row = 0; row < 5; row++) {
        struct yard yard;
        make(&yard, BIN, OTHER);
        mark_row(&yard.pile[0], row);
        move_turn(&yard.pile[1], &yard.pile[0], MOVE_SAME_ORDER, lane_of(0));
        double low = below(&yard.mesh[0], row), top = low + yard.mesh[0].row_share[row];
        for (int j = 0; j < yard.mesh[1].rows; j++) {
            double a = below(&yard.mesh[1], j), b = a + yard.mesh[1].row_share[j];
            assert_near(in_row(&yard.pile[1], j), overlap(a, b, low, top), 1e-12);
        }
        free(yard.block);
    }
}

/* how deep a cell's middle lies under the nearest surface, top or wall */
static double depth(const struct mesh *mesh, int c)
{
    int row = mesh->cell_row[c], col = mesh->cell_col[c];
    double wall = mesh->col_edge_m[mesh->row_cols[row]] -
                  0.5 * (mesh->col_edge_m[col] + mesh->col_edge_m[col + 1]);
    double top = -0.5 * mesh_row_designed_m(mesh, row);
    for (int j = row; j < mesh->rows && col < mesh->row_cols[j]; j++)
        top += mesh_row_designed_m(mesh, j);
    return fmin(wall, top);
}

/* marks cells nearer to the surface than this; returns their share of the volume */
static double mark_rim(const struct pile *pile, double within_m)
{
    double share = 0;
    for (int c = 0; c < pile->mesh->cells; c++) {
        double own = move_share(pile->mesh, c);
        traced(pile)[c] = depth(pile->mesh, c) < within_m ? own : 0;
        share += traced(pile)[c];
    }
    return share;
}

/* The rim fills the innermost cells, their share and no more: none of it stays outside. */
static void turning_outside_in_moves_the_rim_to_the_core(void **state)
{
    (void)state;
    for (double within = 0.04; within < 0.2; within += 0.03) {
        struct yard yard;
        make(&yard, BIN, BIN);
        double rim = mark_rim(&yard.pile[0], within);
        move_turn(&yard.pile[1], &yard.pile[0], MOVE_OUTSIDE_IN, lane_of(0));
        double deepest = 0;
        for (int c = 0; c < yard.mesh[1].cells; c++) {
            double deeper = 0, d = depth(&yard.mesh[1], c), own = move_share(&yard.mesh[1], c);
            for (int e = 0; e < yard.mesh[1].cells; e++)
                deeper += depth(&yard.mesh[1], e) > d - 1e-12 ? move_share(&yard.mesh[1], e) : 0;
            double full = traced(&yard.pile[1])[c] / own;
            if (deeper <= rim)
                assert_near(full, 1, 1e-9);
            if (deeper - own >= rim + 0.2) /* surely outside of what the rim fills */
                assert_near(full, 0, 1e-9);
            deepest = fmax(deepest, full * d);
        }
        assert_true(deepest > 0.3);
        free(yard.block);
    }
}

/* In a heap as well: what was in the outer half of the volume lies deeper than what was in the
 * inner. */
static void turning_a_heap_outside_in_changes_rim_and_core(void **state)
{
    (void)state;
    struct yard yard;
    make(&yard, HEAP, BIN);
    double rim = mark_rim(&yard.pile[0], 0.12), mean_rim = 0, mean_core = 0;
    move_turn(&yard.pile[1], &yard.pile[0], MOVE_OUTSIDE_IN, lane_of(0));
    for (int c = 0; c < yard.mesh[1].cells; c++) {
        double d = depth(&yard.mesh[1], c), mark = traced(&yard.pile[1])[c];
        mean_rim += d * mark / rim;
        mean_core += d * (move_share(&yard.mesh[1], c) - mark) / (1 - rim);
    }
    assert_true(rim > 0.1 && rim < 0.9);
    assert_true(mean_rim > mean_core);
    free(yard.block);
}

static void full_mixing_makes_every_cell_alike(void **state)
{
    (void)state;
    struct yard yard;
    double sum[MOVE_MOST_AMOUNTS];
    make(&yard, HEAP, BIN);
    totals(&yard.pile[0], sum);
    move_turn(&yard.pile[1], &yard.pile[0], MOVE_UPSIDE_DOWN, lane_of(1));
    for (int k = 0; k < pile_amounts(&yard.pile[1]); k++)
        for (int c = 0; c < yard.mesh[1].cells; c++)
            assert_near(pile_amount(&yard.pile[1], k)[c] / sum[k] / move_share(&yard.mesh[1], c), 1,
                        1e-12);
    free(yard.block);
}

static struct move_batch batch_of(const struct pile *pile, double loose_m3)
{
    struct move_batch batch;
    uint64_t seed = 21;
    memset(&batch, 0, sizeof batch);
    for (int k = 0; k < pile_amounts(pile); k++)
        batch.amount[k] = 3 + chance(&seed);
    batch.amount[move_of_stock(STOCK_LOOSE_M3)] = loose_m3;
    return batch;
}

/* Laid on top or buried, in a bin or on a heap; the soil beneath is not touched. */
static void adding_keeps_every_amount(void **state)
{
    (void)state;
    for (int m = 0; m < 2; m++)
        for (double bury = 0; bury < 1.6; bury += 0.2) {
            struct yard yard;
            double before[MOVE_MOST_AMOUNTS], after[MOVE_MOST_AMOUNTS];
            make(&yard, m ? HEAP : BIN, m ? HEAP : BIN);
            struct move_batch batch = batch_of(&yard.pile[0], 0.2);
            pile_soil(&yard.pile[0])[4] = 77;
            totals(&yard.pile[0], before);
            move_add(&yard.pile[0], &yard.pile[1], &batch, bury);
            totals(&yard.pile[0], after);
            for (int k = 0; k < pile_amounts(&yard.pile[0]); k++)
                assert_near(after[k] / (before[k] + batch.amount[k]), 1, 1e-13);
            assert_near(pile_soil(&yard.pile[0])[4], 77, 0);
            free(yard.block);
        }
}

/* Only the batch is marked. On top: the uppermost of the volume. Buried 0.5 m: the rows above
 * are as they were. Core and rim stay apart: each column keeps what it had. */
static void added_material_lies_where_it_was_laid(void **state)
{
    (void)state;
    for (double bury = 0; bury < 0.8; bury += 0.25) {
        struct yard yard;
        make(&yard, BIN, BIN);
        const struct mesh *mesh = &yard.mesh[0];
        double old = pile_total(&yard.pile[0], yard.pile[0].stock[STOCK_LOOSE_M3]), new = 0.4;
        struct move_batch batch = batch_of(&yard.pile[0], new);
        for (int c = 0; c < mesh->cells; c++)
            traced(&yard.pile[0])[c] = 0;
        batch.amount[tracer()] = 1;
        move_add(&yard.pile[0], &yard.pile[1], &batch, bury);
        double low = old * (1 - bury) / (old + new), top = low + new / (old + new);
        for (int j = 0; j < mesh->rows; j++) {
            double a = below(mesh, j), b = a + mesh->row_share[j];
            assert_near(in_row(&yard.pile[0], j), overlap(a, b, low, top) / (top - low), 1e-12);
        }
        free(yard.block);
    }
}

static double in_column(const struct pile *pile, int col)
{
    double sum = 0;
    for (int c = 0; c < pile->mesh->cells; c++)
        sum += pile->mesh->cell_col[c] == col ? traced(pile)[c] : 0;
    return sum;
}

static void adding_leaves_core_and_rim_what_they_were(void **state)
{
    (void)state;
    struct yard yard;
    double had[MESH_MOST_LINE];
    make(&yard, HEAP, HEAP);
    struct move_batch batch = batch_of(&yard.pile[0], 0.3);
    batch.amount[tracer()] = 0;
    for (int i = 0; i < yard.mesh[0].cols; i++)
        had[i] = in_column(&yard.pile[0], i);
    move_add(&yard.pile[0], &yard.pile[1], &batch, 0.3);
    for (int i = 0; i < yard.mesh[0].row_cols[0]; i++)
        assert_near(in_column(&yard.pile[0], i) / had[i], 1, 1e-13);
    free(yard.block);
}

static void taking_from_the_bottom_keeps_every_amount(void **state)
{
    (void)state;
    for (double thick = 0.05; thick < 3; thick *= 1.7) {
        struct yard yard;
        struct move_batch batch;
        double before[MOVE_MOST_AMOUNTS], after[MOVE_MOST_AMOUNTS];
        make(&yard, HEAP, HEAP);
        totals(&yard.pile[0], before);
        move_take_bottom(&yard.pile[0], &batch, thick);
        totals(&yard.pile[0], after);
        for (int k = 0; k < pile_amounts(&yard.pile[0]); k++) {
            assert_near((after[k] + batch.amount[k]) / before[k], 1, 1e-13);
            assert_true(after[k] > 0 && batch.amount[k] > 0); /* never all of it */
        }
        free(yard.block);
    }
}

/* A third of a bin 1 m high: a third of each amount if it is alike throughout, all from below. */
static void the_bottom_is_what_is_taken(void **state)
{
    (void)state;
    struct yard yard;
    struct move_batch batch;
    make(&yard, BIN, BIN);
    for (int c = 0; c < yard.mesh[0].cells; c++)
        traced(&yard.pile[0])[c] = yard.mesh[0].volume_m3[c];
    double whole = pile_total(&yard.pile[0], traced(&yard.pile[0]));
    move_take_bottom(&yard.pile[0], &batch, 1.0 / 3);
    assert_near(batch.amount[tracer()] / whole, 1.0 / 3, 1e-12);
    assert_near(in_row(&yard.pile[0], 0), 0, 0);
    int last = yard.mesh[0].rows - 1;
    assert_near(in_row(&yard.pile[0], last) / (whole * yard.mesh[0].row_share[last]), 1, 1e-12);
    free(yard.block);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_amount_has_a_place_of_its_own),
        cmocka_unit_test(turning_keeps_every_amount),
        cmocka_unit_test(turned_material_fills_the_new_place_as_designed),
        cmocka_unit_test(turning_upside_down_reverses_the_layers),
        cmocka_unit_test(turning_in_the_same_order_keeps_the_layers),
        cmocka_unit_test(turning_outside_in_moves_the_rim_to_the_core),
        cmocka_unit_test(turning_a_heap_outside_in_changes_rim_and_core),
        cmocka_unit_test(full_mixing_makes_every_cell_alike),
        cmocka_unit_test(adding_keeps_every_amount),
        cmocka_unit_test(added_material_lies_where_it_was_laid),
        cmocka_unit_test(adding_leaves_core_and_rim_what_they_were),
        cmocka_unit_test(taking_from_the_bottom_keeps_every_amount),
        cmocka_unit_test(the_bottom_is_what_is_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
