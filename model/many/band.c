/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/band.c - see many/band.h. */
#include "many/band.h"
#include <math.h>
#include <stdlib.h>

static const double LOW = 0.1, HIGH = 0.9;
static const double EIGHT_IN_TEN = 1.2815515655446004; /* standard deviations to either side */

static int later(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    if (isnan(x) || isnan(y))
        return isnan(x) - isnan(y);
    return x < y ? -1 : x > y;
}

static double quantile(const double *sorted, int count, double chance)
{
    double at = fmin(fmax(chance * (count + 1) - 1, 0), count - 1);
    int below = (int)at;
    double share = at - below;
    if (!(share > 0) || sorted[below] == sorted[below + 1])
        return sorted[below]; /* two that are infinite have no difference */
    return sorted[below] + share * (sorted[below + 1] - sorted[below]);
}

struct span band_of(double *value, int count)
{
    if (count < 1)
        return (struct span){NAN, NAN, NAN};
    qsort(value, (size_t)count, sizeof *value, later);
    return (struct span){quantile(value, count, LOW), quantile(value, count, 0.5),
                         quantile(value, count, HIGH)};
}

struct span band_chance(int seen, int members)
{
    if (members < 1)
        return (struct span){NAN, NAN, NAN};
    double n = members, share = seen / n, z2 = EIGHT_IN_TEN * EIGHT_IN_TEN;
    double middle = (share + z2 / (2 * n)) / (1 + z2 / n);
    double half = EIGHT_IN_TEN / (1 + z2 / n) * sqrt(share * (1 - share) / n + z2 / (4 * n * n));
    return (struct span){fmax(0, middle - half), share, fmin(1, middle + half)};
}
