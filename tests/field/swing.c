/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/swing.c - see tests/field/swing.h. */
#include "field/swing.h"
#include "many/crew.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { PAIR = 2, AT_ONCE = TRIAL_WIDE / PAIR }; /* each constant low and high */
static const double HALF_WAY = 0.5, FAR = 3;    /* places; half widths */

static double saturating(double position)
{
    return position / (1 + fabs(position) / FAR);
}

static double apart(const struct trial *trial, const double *low, const double *high)
{
    double sum = 0, weight = 0;
    for (int i = 0; i < trial->experiments; i++) {
        const struct experiment *e = trial->experiment[i];
        double each = 1 / sqrt(e->figures);
        for (int f = 0; trial_counts(e) && f < e->figures; f++) {
            int at = trial->first_figure[i] + f;
            sum += each * fabs(saturating(trial_position(&e->figure[f], low[at])) -
                               saturating(trial_position(&e->figure[f], high[at])));
            weight += each;
        }
    }
    return sum / weight;
}

void swing_print(const struct tried *tried)
{
    double *value[TRIAL_WIDE];
    for (int i = 0; i < TRIAL_WIDE; i++)
        value[i] = calloc((size_t)tried->trial->figures, sizeof(double));
    for (int first = PARAM_COARSER; first < tried->held; first += AT_ONCE) {
        struct param param[TRIAL_WIDE];
        for (int i = 0; i < TRIAL_WIDE; i++) {
            const struct tried_constant *c = &tried->hold[first + i / PAIR];
            param[i] = tried_param(tried, NULL);
            if (first + i / PAIR < tried->held)
                param_put(&param[i], c->row, tried_value(c, i % PAIR ? HALF_WAY : -HALF_WAY));
        }
        trial_evaluate(tried->trial, param, value, crew_threads());
        for (int i = 0; i < AT_ONCE && first + i < tried->held; i++) {
            printf("%.3f %s\n", apart(tried->trial, value[PAIR * i], value[PAIR * i + 1]),
                   tried->hold[first + i].row->name);
            fflush(stdout);
        }
    }
    for (int i = 0; i < TRIAL_WIDE; i++)
        free(value[i]);
}
