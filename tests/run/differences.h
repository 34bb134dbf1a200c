/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/differences.h - Newton's matrix for CVODE by differences, independent of our slopes.
 *
 * Heat and water, two unknowns a node, by differences of the right-hand side: columns further apart
 * than the band are moved together, as in any banded difference Jacobian; SUNDIALS factors the
 * band. Every other state gets its own diagonal. That leaves out what crosses from one state to
 * another (and the draught, which reaches across the pile), which Newton's iteration makes good. The
 * soil has no water: its second unknown is a dummy.
 */
#ifndef RUN_DIFFERENCES_H
#define RUN_DIFFERENCES_H
#include "run/bdf.h"

enum { DIFFERENCES_LOCALS = STATES - STATE_CLOCK }; /* states with a diagonal of their own */

struct differences {
    int pairs;
    SUNMatrix slope, matrix;    /* J and I - gamma J of heat and water */
    SUNLinearSolver band;
    N_Vector pair;
    double *local[DIFFERENCES_LOCALS];
    double *here, *moved, *changed, *by;
    double gamma;
};

/* place of a pair's heat (0) or water (1) in y; -1 for the dummies */
static inline int differences_place(const struct bdf *b, int pair, int which)
{
    int stride = b->rates.setting->pile.stride;
    if (pair < MESH_SOILS)
        return which ? -1 : STATES * stride + pair;
    return (which ? STATE_WATER_KG : STATE_HEAT_J) * stride + pair - MESH_SOILS;
}

/* a ten-thousandth of a kelvin's heat, a millionth of the water */
static inline double differences_move(const struct bdf *b, const double *y, int pair, int which)
{
    const struct pile *pile = &b->rates.setting->pile;
    if (pair < MESH_SOILS)
        return 1e-4 * b->rates.setting->balance.outside.soil_J_per_m3K *
               pile->mesh->soil_volume_m3[pair];
    double water = y[STATE_WATER_KG * pile->stride + pair - MESH_SOILS];
    double dry = y[STATE_DRY_KG * pile->stride + pair - MESH_SOILS];
    double heat = READ_ORGANIC_J_PER_KGK * dry + READ_WATER_J_PER_KGK * water;
    return which ? 1e-6 * water : 1e-4 * heat;
}

static inline void differences_column(const struct bdf *b, const struct differences *d, int p,
                                      int which)
{
    int reach = b->rates.setting->pile.mesh->band;
    int low = p > reach ? p - reach : 0, high = p + reach < d->pairs ? p + reach : d->pairs - 1;
    for (int q = low; q <= high; q++)
        for (int k = 0; k < 2; k++) {
            int row = differences_place(b, q, k);
            if (row >= 0)
                SM_ELEMENT_B(d->slope, 2 * q + k, 2 * p + which) =
                    (d->changed[row] - d->here[row]) / d->by[p];
        }
}

/* one group of columns: pairs first, first + apart, first + 2 apart, ... moved together */
static inline void differences_group(struct bdf *b, struct differences *d, double time_s,
                                     const double *y, int first, int which)
{
    int apart = 2 * b->rates.setting->pile.mesh->band + 1;
    for (int p = first; p < d->pairs; p += apart)
        if (differences_place(b, p, which) >= 0) {
            d->by[p] = differences_move(b, y, p, which);
            d->moved[differences_place(b, p, which)] += d->by[p];
        }
    rates_fill(&b->rates, time_s, d->moved, d->changed);
    for (int p = first; p < d->pairs; p += apart)
        if (differences_place(b, p, which) >= 0) {
            d->moved[differences_place(b, p, which)] = y[differences_place(b, p, which)];
            differences_column(b, d, p, which);
        }
}

static inline void differences_locals(struct bdf *b, struct differences *d, double time_s,
                                      const double *y)
{
    const struct pile *pile = &b->rates.setting->pile;
    for (int k = 0; k < DIFFERENCES_LOCALS; k++) {
        int from = (STATE_CLOCK + k) * pile->stride;
        for (int c = 0; c < pile->mesh->cells; c++) {
            d->by[c] = 1e-6 * fabs(y[from + c]) + 1e-9;
            d->moved[from + c] += d->by[c];
        }
        rates_fill(&b->rates, time_s, d->moved, d->changed);
        for (int c = 0; c < pile->mesh->cells; c++) {
            d->local[k][c] = (d->changed[from + c] - d->here[from + c]) / d->by[c];
            d->moved[from + c] = y[from + c];
        }
    }
}

static inline void differences_make(struct bdf *b, double time_s, const double *y, bool slopes,
                                    double gamma)
{
    struct differences *d = b->matrix_of_newton;
    int apart = 2 * b->rates.setting->pile.mesh->band + 1;
    if (slopes) {
        memcpy(d->moved, y, (size_t)rates_length(&b->rates) * sizeof *y);
        rates_fill(&b->rates, time_s, y, d->here);
        SUNMatZero(d->slope);
        for (int first = 0; first < apart; first++)
            for (int which = 0; which < 2; which++)
                differences_group(b, d, time_s, y, first, which);
        differences_locals(b, d, time_s, y);
    }
    SUNMatCopy(d->slope, d->matrix);
    SUNMatScaleAddI(-gamma, d->matrix);
    SUNLinSolSetup(d->band, d->matrix);
    d->gamma = gamma;
}

static inline void differences_solve(struct bdf *b, double *x)
{
    struct differences *d = b->matrix_of_newton;
    const struct pile *pile = &b->rates.setting->pile;
    double *pair = N_VGetArrayPointer(d->pair);
    for (int p = 0; p < 2 * d->pairs; p++) {
        int at = differences_place(b, p / 2, p % 2);
        pair[p] = at < 0 ? 0 : x[at];
    }
    SUNLinSolSolve(d->band, d->matrix, d->pair, d->pair, 0);
    for (int p = 0; p < 2 * d->pairs; p++)
        if (differences_place(b, p / 2, p % 2) >= 0)
            x[differences_place(b, p / 2, p % 2)] = pair[p];
    for (int k = 0; k < DIFFERENCES_LOCALS; k++)
        for (int c = 0; c < pile->mesh->cells; c++)
            x[(STATE_CLOCK + k) * pile->stride + c] /= 1 - d->gamma * d->local[k][c];
}

static inline bool differences_take(struct bdf *b)
{
    struct differences *d = b->matrix_of_newton = calloc(1, sizeof *d);
    if (!d)
        return false;
    size_t length = (size_t)rates_length(&b->rates);
    int half = 2 * b->rates.setting->pile.mesh->band + 1;
    double **whole[] = {&d->here, &d->moved, &d->changed, &d->by};
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
        *whole[i] = calloc(length, sizeof(double));
    for (int k = 0; k < DIFFERENCES_LOCALS; k++)
        d->local[k] = calloc(length, sizeof(double));
    d->pairs = MESH_SOILS + b->rates.setting->pile.stride;
    d->slope = SUNBandMatrix(2 * d->pairs, half, half, b->context);
    d->matrix = SUNBandMatrixStorage(2 * d->pairs, half, half, 2 * half, b->context);
    d->pair = N_VNew_Serial(2 * d->pairs, b->context);
    d->band = SUNLinSol_Band(d->pair, d->matrix, b->context);
    return d->band != NULL;
}

static inline void differences_drop(struct bdf *b)
{
    struct differences *d = b->matrix_of_newton;
    double *whole[] = {d->here, d->moved, d->changed, d->by};
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
        free(whole[i]);
    for (int k = 0; k < DIFFERENCES_LOCALS; k++)
        free(d->local[k]);
    SUNLinSolFree(d->band);
    SUNMatDestroy(d->slope);
    SUNMatDestroy(d->matrix);
    N_VDestroy(d->pair);
    free(d);
}

static const struct bdf_newton DIFFERENCES = {differences_take, differences_make, differences_solve,
                                              differences_drop};
#endif
