/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/emulate.c - see tests/field/emulate.h. */
#include "field/emulate.h"
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A bend shows over three times the range of a constant; what no surface of that kind explains
 * (figures jump by whole days) is a fiftieth of an output's variance. Both by leaving trials of the
 * shared design out, without regard to what was measured; neither is sharp. */
static const double BEND = 3.0, ROUGH = 0.02;

static double alike(const double *a, const double *b, int inputs)
{
    double apart = 0, along = 0;
    for (int i = 0; i < inputs; i++) {
        apart += (a[i] - b[i]) * (a[i] - b[i]);
        along += a[i] * b[i];
    }
    return exp(-0.5 * apart / (BEND * BEND)) + along / inputs;
}

/* Each output's mean and spread over the trials. */
static void centre(struct emulator *e, double *const *output)
{
    for (int o = 0; o < e->outputs; o++) {
        double sum = 0, square = 0;
        for (int t = 0; t < e->trials; t++)
            sum += output[t][o];
        e->mean[o] = sum / e->trials;
        for (int t = 0; t < e->trials; t++)
            square += pow(output[t][o] - e->mean[o], 2);
        e->spread[o] = fmax(sqrt(square / e->trials), 1e-9);
    }
}

/* The pull of each trial on each output: covariance, inverted, times what was found. */
static bool solve(struct emulator *e, gsl_matrix *covariance, double *const *output)
{
    gsl_vector *column = gsl_vector_alloc((size_t)e->trials);
    bool good = column && gsl_linalg_cholesky_decomp1(covariance) == GSL_SUCCESS;
    for (int o = 0; good && o < e->outputs; o++) {
        for (int t = 0; t < e->trials; t++)
            gsl_vector_set(column, (size_t)t, (output[t][o] - e->mean[o]) / e->spread[o]);
        gsl_linalg_cholesky_svx(covariance, column);
        for (int t = 0; t < e->trials; t++)
            e->pull[t * e->outputs + o] = gsl_vector_get(column, (size_t)t);
    }
    if (column)
        gsl_vector_free(column);
    return good;
}

bool emulate_learn(struct emulator *e, int trials, int inputs, int outputs,
                   const double (*place)[EMULATE_INPUTS], double *const *output)
{
    size_t n = (size_t)trials, wide = (size_t)outputs;
    *e = (struct emulator){.trials = trials, .inputs = inputs, .outputs = outputs,
                           .place = calloc(n, sizeof *e->place),
                           .pull = calloc(n * wide, sizeof(double)),
                           .mean = calloc(wide, sizeof(double)),
                           .spread = calloc(wide, sizeof(double))};
    if (!e->place || !e->pull || !e->mean || !e->spread)
        return false;
    gsl_error_handler_t *before = gsl_set_error_handler_off();
    gsl_matrix *covariance = gsl_matrix_alloc(n, n);
    memcpy(e->place, place, n * sizeof *place);
    centre(e, output);
    for (size_t t = 0; covariance && t < n; t++)
        for (size_t s = 0; s < n; s++)
            gsl_matrix_set(covariance, t, s,
                           alike(place[t], place[s], inputs) + (s == t ? ROUGH : 0));
    bool good = covariance && solve(e, covariance, output);
    if (covariance)
        gsl_matrix_free(covariance);
    gsl_set_error_handler(before);
    return good;
}

void emulate_guess(const struct emulator *e, const double place[EMULATE_INPUTS], double *output)
{
    memset(output, 0, (size_t)e->outputs * sizeof *output);
    for (int t = 0; t < e->trials; t++) {
        double weight = alike(place, e->place[t], e->inputs);
        const double *pull = e->pull + t * e->outputs;
        for (int o = 0; o < e->outputs; o++)
            output[o] += weight * pull[o];
    }
    for (int o = 0; o < e->outputs; o++)
        output[o] = e->mean[o] + e->spread[o] * output[o];
}

void emulate_free(struct emulator *e)
{
    free(e->place);
    free(e->pull);
    free(e->mean);
    free(e->spread);
    *e = (struct emulator){0};
}
