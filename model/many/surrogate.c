/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/surrogate.c - see many/surrogate.h.
 *
 * An input's weight is the share of the outputs' variance that goes with it, above what chance alone
 * would show; the noise is the one of a few that guesses left-out runs best.
 */
#include "many/surrogate.h"
#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double BENT = 0.3;             /* of the covariance, beside what is straight */
static const double NOISE[] = {0.02, 0.06, 0.2, 0.6, 2};
enum { NOISES = sizeof NOISE / sizeof NOISE[0] };

/* mean and standard deviation of every column of a table */
static void column_of(const double *table, int rows, int columns, int c, double *mean, double *sd)
{
    double sum = 0, squares = 0;
    for (int i = 0; i < rows; i++)
        sum += table[(size_t)i * (size_t)columns + (size_t)c];
    *mean = sum / rows;
    for (int i = 0; i < rows; i++) {
        double d = table[(size_t)i * (size_t)columns + (size_t)c] - *mean;
        squares += d * d;
    }
    *sd = sqrt(squares / rows);
}

/* Mean over outputs of the squared correlation with an input, less what chance shows. */
static double matters(int runs, int inputs, int outputs, const double *input, const double *output,
                      int k)
{
    double mean, sd, sum = 0;
    int told = 0;
    column_of(input, runs, inputs, k, &mean, &sd);
    for (int j = 0; j < outputs; j++) {
        double out_mean, out_sd, product = 0;
        column_of(output, runs, outputs, j, &out_mean, &out_sd);
        if (!(out_sd > 0) || !(sd > 0))
            continue;
        for (int i = 0; i < runs; i++)
            product += (input[i * inputs + k] - mean) * (output[i * outputs + j] - out_mean);
        product /= runs * sd * out_sd;
        sum += fmax(0, product * product - 2.0 / runs);
        told++;
    }
    return told ? sum / told : 0;
}

static void choose(struct surrogate *s, int runs, int inputs, int outputs, const double *input,
                   const double *output)
{
    double all = 0;
    s->chosen = 0;
    for (int k = 0; k < inputs; k++) {
        double weight = matters(runs, inputs, outputs, input, output, k);
        int at = s->chosen < SURROGATE_INPUTS ? s->chosen : SURROGATE_INPUTS - 1;
        if (!(weight > 0) || (s->chosen == SURROGATE_INPUTS && weight <= s->weight[at]))
            continue;
        for (; at > 0 && s->weight[at - 1] < weight; at--) {
            s->weight[at] = s->weight[at - 1];
            s->input[at] = s->input[at - 1];
        }
        s->weight[at] = weight;
        s->input[at] = k;
        s->chosen += s->chosen < SURROGATE_INPUTS;
    }
    for (int k = 0; k < s->chosen; k++)
        all += s->weight[k];
    for (int k = 0; k < s->chosen; k++)
        s->weight[k] /= all;
}

static double covariance(const struct surrogate *s, const double *a, const double *b)
{
    double straight = 0;
    for (int k = 0; k < s->chosen; k++)
        straight += s->weight[k] * a[k] * b[k];
    return straight + BENT * straight * straight;
}

/* Inverse of the covariance with some noise; false where it has none. The mean of each output is taken off
 * before. */
static bool invert(const struct surrogate *s, double noise, gsl_matrix *inverse)
{
    for (int i = 0; i < s->runs; i++)
        for (int j = 0; j < s->runs; j++)
            gsl_matrix_set(inverse, (size_t)i, (size_t)j,
                           covariance(s, s->place + (size_t)i * (size_t)s->chosen,
                                      s->place + (size_t)j * (size_t)s->chosen)
                               + (i == j ? noise : 0));
    return gsl_linalg_cholesky_decomp1(inverse) == GSL_SUCCESS &&
           gsl_linalg_cholesky_invert(inverse) == GSL_SUCCESS;
}

/* How far off guesses of left-out runs are, for one output: pull/diagonal of the inverse (Rasmussen
 * and Williams, eq. 5.12 [memory]). Leaves the pulls. */
static double left_out(const struct surrogate *s, const gsl_matrix *inverse, int outputs, int j,
                       const double *output, double *pull)
{
    double squares = 0;
    for (int i = 0; i < s->runs; i++) {
        pull[i] = 0;
        for (int n = 0; n < s->runs; n++)
            pull[i] += gsl_matrix_get(inverse, (size_t)i, (size_t)n)
                       * (output[n * outputs + j] - s->mean[j]);
        double off = pull[i] / gsl_matrix_get(inverse, (size_t)i, (size_t)i);
        squares += off * off;
    }
    return sqrt(squares / s->runs);
}

/* Tries a noise and keeps it where it guesses better, all outputs together, each in its own scale. */
static double learn_with(struct surrogate *s, double noise, double best, gsl_matrix *inverse,
                         const double *output, double *pull, double *unsure)
{
    double sum = 0;
    if (!invert(s, noise, inverse))
        return best;
    for (int j = 0; j < s->outputs; j++) {
        double sd;
        column_of(output, s->runs, s->outputs, j, &s->mean[j], &sd);
        unsure[j] = left_out(s, inverse, s->outputs, j, output, pull + (size_t)j * (size_t)s->runs);
        if (sd > 0)
            sum += unsure[j] / sd;
    }
    if (sum < best) {
        memcpy(s->pull, pull, (size_t)(s->outputs * s->runs) * sizeof *pull);
        memcpy(s->unsure, unsure, (size_t)s->outputs * sizeof *unsure);
    }
    return fmin(sum, best);
}

bool surrogate_learn(struct surrogate *s, int runs, int inputs, int outputs, const double *input,
                     const double *output)
{
    *s = (struct surrogate){.runs = runs, .outputs = outputs};
    choose(s, runs, inputs, outputs, input, output);
    s->place = calloc((size_t)runs * SURROGATE_INPUTS, sizeof *s->place);
    s->pull = calloc((size_t)outputs * (size_t)runs + 1, sizeof *s->pull);
    s->mean = calloc((size_t)outputs + 1, sizeof *s->mean);
    s->unsure = calloc((size_t)outputs + 1, sizeof *s->unsure);
    double *pull = calloc((size_t)outputs * (size_t)runs + 1, sizeof *pull);
    double *unsure = calloc((size_t)outputs + 1, sizeof *unsure);
    gsl_matrix *inverse = gsl_matrix_alloc((size_t)runs, (size_t)runs);
    bool good = s->place && s->pull && s->mean && s->unsure && pull && unsure && inverse;
    for (int i = 0; good && i < runs; i++)
        for (int k = 0; k < s->chosen; k++)
            s->place[i * s->chosen + k] = input[i * inputs + s->input[k]];
    double best = INFINITY;
    for (int n = 0; good && n < NOISES; n++)
        best = learn_with(s, NOISE[n], best, inverse, output, pull, unsure);
    gsl_matrix_free(inverse);
    free(pull);
    free(unsure);
    return good;
}

void surrogate_guess(const struct surrogate *s, const double *input, double *output)
{
    double here[SURROGATE_INPUTS];
    for (int k = 0; k < s->chosen; k++)
        here[k] = input[s->input[k]];
    memcpy(output, s->mean, (size_t)s->outputs * sizeof *output);
    for (int i = 0; i < s->runs; i++) {
        double near = covariance(s, here, s->place + (size_t)i * (size_t)s->chosen);
        for (int j = 0; j < s->outputs; j++)
            output[j] += near * s->pull[(size_t)j * (size_t)s->runs + (size_t)i];
    }
}

void surrogate_free(struct surrogate *s)
{
    free(s->place);
    free(s->pull);
    free(s->mean);
    free(s->unsure);
    *s = (struct surrogate){0};
}
