/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/least.h - the fewest whole vessels that meet some linear conditions.
 *
 *   minimise  sum cost[k] n[k] + fetch[k] (if any)
 *   with      sum use[r][k] n[k] <= limit[r],   0 <= n[k] <= most[k],
 *
 * n whole, and at most `parts` of the kinds taken beside the last one, which is water. A gardener
 * who is told to fetch five things fetches none, so `parts` is small; with it the search is short
 * enough to be exact: every pair is gone through, and what of the last kind is needed follows from the
 * conditions.
 */
#ifndef ASK_LEAST_H
#define ASK_LEAST_H
#include <stdbool.h>

enum { LEAST_KINDS = 40, LEAST_ROWS = 8 };

struct least {
    int kinds, rows;            /* the last kind is counted apart from `parts` */
    int parts;
    double use[LEAST_ROWS][LEAST_KINDS], limit[LEAST_ROWS];
    double cost[LEAST_KINDS];   /* of one, above 0 */
    double fetch[LEAST_KINDS];  /* once if there is any of it; not of the last */
    int most[LEAST_KINDS];      /* 0 = not to be had */
};

/* False when nothing meets the conditions. Of several at the same cost the first in the order of the
 * kinds. */
bool least_find(const struct least *least, int count[LEAST_KINDS]);
#endif
