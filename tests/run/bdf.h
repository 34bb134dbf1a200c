/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/bdf.h - SUNDIALS' CVODE set up for the season's right-hand side.
 *
 * A second opinion on run/step: backward differentiation of order 1 to 5 under CVODE's own control
 * of error and steps. Newton's matrix is the caller's (run/differences.h, bench/slopes.h), or
 * CVODE's own banded differences of the whole vector with all states of a cell side by side.
 */
#ifndef RUN_BDF_H
#define RUN_BDF_H
#include "pile/read.h"
#include "run/rates.h"
#include <cvode/cvode.h>
#include <cvode/cvode_ls.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

struct bdf;

/* Newton's matrix I - gamma J: made at y, or (slopes false) only for another gamma; solved for x.
 * All empty: CVODE's own differences. */
struct bdf_newton {
    bool (*take)(struct bdf *bdf);
    void (*make)(struct bdf *bdf, double time_s, const double *y, bool slopes, double gamma);
    void (*solve)(struct bdf *bdf, double *x);
    void (*drop)(struct bdf *bdf);
};

struct bdf {
    struct rates rates;
    double relative;            /* CVODE's tolerance */
    double patience_d;          /* see rates_fold */
    double time_s;
    struct bdf_newton newton;
    void *matrix_of_newton;     /* what `take` laid out */
    void *cvode;
    SUNContext context;
    N_Vector state, allowed;
    SUNMatrix matrix;
    SUNLinearSolver solver;
    double *y, *rate;           /* in the pile's order */
    int *order;                 /* place in the pile's order of each place in CVODE's */
    long steps, matrices;
};

static inline void bdf_unpack(const struct bdf *b, N_Vector from, double *to)
{
    const double *x = N_VGetArrayPointer(from);
    for (int n = 0; n < rates_length(&b->rates); n++)
        to[b->order[n]] = x[n];
}

static inline void bdf_pack(const struct bdf *b, const double *from, N_Vector to)
{
    double *x = N_VGetArrayPointer(to);
    for (int n = 0; n < rates_length(&b->rates); n++)
        x[n] = from[b->order[n]];
}

/* ---- what CVODE calls ------------------------------------------------------------------------ */
static inline int bdf_f(realtype t, N_Vector y, N_Vector rate, void *user)
{
    struct bdf *b = user;
    bdf_unpack(b, y, b->y);
    bool good = rates_fill(&b->rates, t, b->y, b->rate);
    bdf_pack(b, b->rate, rate);
    return good ? 0 : 1;
}

static inline int bdf_system(realtype t, N_Vector y, N_Vector fy, SUNMatrix a, booleantype old,
                             booleantype *fresh, realtype gamma, void *user, N_Vector t1,
                             N_Vector t2, N_Vector t3)
{
    struct bdf *b = user;
    (void)fy, (void)a, (void)t1, (void)t2, (void)t3;
    b->matrices += !old;
    bdf_unpack(b, y, b->y);
    b->newton.make(b, t, b->y, !old, gamma);
    *fresh = !old;
    return 0;
}

static inline SUNLinearSolver_Type bdf_type(SUNLinearSolver solver)
{
    (void)solver;
    return SUNLINEARSOLVER_DIRECT;
}

static inline int bdf_ready(SUNLinearSolver solver, SUNMatrix a)
{
    (void)solver, (void)a;
    return 0;
}

static inline int bdf_solve(SUNLinearSolver solver, SUNMatrix a, N_Vector x, N_Vector rest,
                            realtype within)
{
    struct bdf *b = solver->content;
    (void)a, (void)within;
    bdf_unpack(b, rest, b->y);
    b->newton.solve(b, b->y);
    bdf_pack(b, b->y, x);
    return 0;
}

/* ---- set up ---------------------------------------------------------------------------------- */
/* The error that is always allowed: the relative tolerance of 20 K of sensible heat, of a tenth of
 * what is there of water and dry mass together, of a day, of a thousandth of dry mass as carbon. */
static inline void bdf_allow(struct bdf *b)
{
    const struct pile *pile = &b->rates.setting->pile;
    const double soil_J_per_m3K = b->rates.setting->balance.outside.soil_J_per_m3K;
    int stride = pile->stride;
    double *a = b->y;
    for (int n = 0; n < pile_length(pile); n++)
        a[n] = 1;
    for (int c = 0; c < pile->mesh->cells; c++) {
        double dry = pile_state(pile, STATE_DRY_KG)[c], water = pile_state(pile, STATE_WATER_KG)[c];
        a[STATE_HEAT_J * stride + c] =
            20 * (READ_ORGANIC_J_PER_KGK * dry + READ_WATER_J_PER_KGK * water);
        a[STATE_WATER_KG * stride + c] = 0.1 * (dry + water);
        a[STATE_DRY_KG * stride + c] = dry;
        for (int k = STATE_MICROBE_KG; k <= STATE_LIVING_KG; k++)
            a[k * stride + c] = 1e-3 * dry;
        a[STATE_OXYGEN * stride + c] = 0.1;
    }
    for (int i = 0; i < MESH_SOILS; i++)
        a[STATES * stride + i] = 20 * soil_J_per_m3K * pile->mesh->soil_volume_m3[i];
    bdf_pack(b, a, b->allowed);
    N_VScale(b->relative, b->allowed, b->allowed);
}

/* Soil first, then all states of a cell side by side. */
static inline void bdf_order(struct bdf *b)
{
    int stride = b->rates.setting->pile.stride, n = 0;
    for (int i = 0; i < MESH_SOILS; i++)
        b->order[n++] = STATES * stride + i;
    for (int c = 0; c < stride; c++)
        for (int k = 0; k < STATES; k++)
            b->order[n++] = k * stride + c;
}

/* CVODE wants a matrix and a solver that it can hold; ours have nothing in them. */
static inline void bdf_handles(struct bdf *b)
{
    b->matrix = SUNBandMatrix(1, 0, 0, b->context);
    b->solver = SUNLinSolNewEmpty(b->context);
    b->solver->content = b;
    b->solver->ops->gettype = bdf_type;
    b->solver->ops->setup = bdf_ready;
    b->solver->ops->solve = bdf_solve;
    CVodeSetLinearSolver(b->cvode, b->solver, b->matrix);
    CVodeSetLinSysFn(b->cvode, bdf_system);
}

static inline void bdf_own_differences(struct bdf *b)
{
    sunindextype half = STATES * (b->rates.setting->pile.mesh->band + 1) - 1;
    b->matrix = SUNBandMatrix(rates_length(&b->rates), half, half, b->context);
    b->solver = SUNLinSol_Band(b->state, b->matrix, b->context);
    CVodeSetLinearSolver(b->cvode, b->solver, b->matrix);
}

/* False where there is no memory; bdf_free in any case. */
static inline bool bdf_take(struct bdf *b, struct setting *setting, double relative,
                            double patience_d, const struct bdf_newton *newton)
{
    int length = pile_length(&setting->pile);
    *b = (struct bdf){.relative = relative, .patience_d = patience_d, .newton = *newton};
    rates_take(&b->rates, setting);
    b->y = calloc((size_t)length, sizeof *b->y);
    b->rate = calloc((size_t)length, sizeof *b->rate);
    b->order = calloc((size_t)length, sizeof *b->order);
    if (SUNContext_Create(NULL, &b->context) < 0 || !b->y || !b->rate || !b->order)
        return false;
    bdf_order(b);
    b->state = N_VNew_Serial(length, b->context);
    b->allowed = N_VNew_Serial(length, b->context);
    b->cvode = CVodeCreate(CV_BDF, b->context);
    if (!b->state || !b->allowed || !b->cvode)
        return false;
    N_VConst(1, b->allowed);
    N_VConst(1, b->state);
    CVodeInit(b->cvode, bdf_f, 0, b->state);
    CVodeSetUserData(b->cvode, b);
    CVodeSVtolerances(b->cvode, relative, b->allowed);
    CVodeSetMaxNumSteps(b->cvode, -1);
    CVodeSetMaxStep(b->cvode, 14400);
    if (!b->newton.make)
        bdf_own_differences(b);
    else
        bdf_handles(b);
    return !b->newton.take || b->newton.take(b);
}

static inline void bdf_free(struct bdf *b)
{
    if (b->newton.drop)
        b->newton.drop(b);
    if (b->newton.make)
        SUNLinSolFreeEmpty(b->solver);
    else
        SUNLinSolFree(b->solver);
    SUNMatDestroy(b->matrix);
    CVodeFree(&b->cvode);
    N_VDestroy(b->state);
    N_VDestroy(b->allowed);
    SUNContext_Free(&b->context);
    rates_free(&b->rates);
    free(b->y);
    free(b->rate);
    free(b->order);
}

/* From the pile as it stands, after a deed. */
static inline void bdf_begin(struct bdf *b, double time_s)
{
    bdf_allow(b);
    rates_begin(&b->rates, b->y);
    bdf_pack(b, b->y, b->state);
    b->time_s = time_s;
    CVodeReInit(b->cvode, time_s, b->state);
    CVodeSVtolerances(b->cvode, b->relative, b->allowed);
    CVodeSetInitStep(b->cvode, 1);
}

/* One step of CVODE, not beyond a moment; the pile follows. */
static inline bool bdf_step(struct bdf *b, double until_s)
{
    realtype now_s;
    CVodeSetStopTime(b->cvode, until_s);
    if (CVode(b->cvode, until_s, b->state, &now_s, CV_ONE_STEP) < 0)
        return false;
    b->time_s = now_s;
    b->steps++;
    bdf_unpack(b, b->state, b->y);
    rates_fold(&b->rates, b->y, b->patience_d);
    return true;
}
#endif
