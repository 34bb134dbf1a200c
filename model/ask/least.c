/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/least.c - see ask/least.h.
 *
 * Branch and bound, depth first: kinds in their order, each with 1, 2, 3 ... of it. A branch ends
 * where its cost reaches that of the best found. The last kind isn't gone through: each condition
 * bounds it from one side, and the least number between the bounds is the cheapest.
 */
#include "ask/least.h"
#include <math.h>
#include <string.h>

struct search {
    const struct least *least;
    int count[LEAST_KINDS], best[LEAST_KINDS];
    double best_cost;
    double slack[LEAST_ROWS];   /* what the kinds taken so far leave of each limit */
};

/* sums of a few hundred terms err by less than this, relative to what is added */
static const double ROUNDING = 1e-9;

/* The least number of the last kind that meets every condition, or -1. */
static int last_needed(const struct search *s)
{
    const struct least *least = s->least;
    int last = least->kinds - 1;
    double low = 0, high = least->most[last];
    for (int r = 0; r < least->rows; r++) {
        double use = least->use[r][last], slack = s->slack[r];
        double spare = ROUNDING * (1 + fabs(least->limit[r]));
        if (use > 0)
            high = fmin(high, floor((slack + spare) / use));
        else if (use < 0)
            low = fmax(low, ceil((slack + spare) / use));
        else if (slack + spare < 0)
            return -1;
    }
    return low <= high ? (int)low : -1;
}

static void look(struct search *s, double cost)
{
    int last = s->least->kinds - 1, number = last_needed(s);
    cost += number * s->least->cost[last];
    if (number < 0 || !(cost < s->best_cost - ROUNDING))
        return;
    s->best_cost = cost;
    s->count[last] = number;
    memcpy(s->best, s->count, sizeof s->best);
    s->count[last] = 0;
}

static void spend(struct search *s, int kind, double times)
{
    for (int r = 0; r < s->least->rows; r++)
        s->slack[r] -= times * s->least->use[r][kind];
}

static void branch(struct search *s, int from, int parts, double cost)
{
    const struct least *least = s->least;
    look(s, cost);
    for (int kind = from; parts > 0 && kind < least->kinds - 1; kind++) {
        double slack[LEAST_ROWS];
        memcpy(slack, s->slack, sizeof slack);
        for (int n = 1; n <= least->most[kind]; n++) {
            double with = cost + least->fetch[kind] + n * least->cost[kind];
            if (!(with < s->best_cost - ROUNDING))
                break;
            spend(s, kind, 1);
            s->count[kind] = n;
            branch(s, kind + 1, parts - 1, with);
        }
        s->count[kind] = 0;
        memcpy(s->slack, slack, sizeof slack);
    }
}

bool least_find(const struct least *least, int count[LEAST_KINDS])
{
    struct search s = {.least = least, .best_cost = INFINITY};
    memcpy(s.slack, least->limit, sizeof s.slack);
    branch(&s, 0, least->parts, 0);
    memcpy(count, s.best, sizeof s.best);
    return isfinite(s.best_cost);
}
