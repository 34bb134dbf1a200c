/* SPDX-License-Identifier: GPL-3.0-or-later */
/* open/forecast.h - a season of possible piles with every range of it taken, so that whoever asks
 * afterwards only reads.
 */
#ifndef OPEN_FORECAST_H
#define OPEN_FORECAST_H
#include "ask/ready.h"
#include "many/able.h"
#include "tell/tale.h"

enum { FORECAST_QUANTITIES = 16, FORECAST_FIGURES = 13, FORECAST_SEEDS = 3, FORECAST_GERMS = 2,
       FORECAST_CLASSES = FORECAST_SEEDS + FORECAST_GERMS };

struct forecast {
    struct scenario *scenario;  /* its own copy */
    int plan, days;
    struct crew_done done;
    struct able able;
    struct span *day;           /* [days][FORECAST_QUANTITIES] */
    struct span season[FORECAST_FIGURES];
    struct ready_summary ready[READY_USES];
    struct span met[RULES], first_met[RULES];
    struct span alive[FORECAST_CLASSES];
    const char *caution[TALE_CAUTIONS];
    int cautions;
};

struct forecast_order {
    int plan, members, threads; /* members 1 is the central pile */
    long long draw;
    const struct param *param;
    const bool *fixed;          /* [PARAM_ROWS] */
    const volatile sig_atomic_t *stop;
    void (*told)(void *listener, int done, int of);
    void *listener;
};

/* Runs and reads it; forecast_free in any case. */
bool forecast_make(struct forecast *forecast, const struct scenario *scenario,
                   const struct forecast_order *order, struct trouble *why);
void forecast_free(struct forecast *forecast);

/* The name of a quantity of a day: rows of tell/column that JSON promises, in their order. */
const char *forecast_quantity(int quantity);
/* Of one member, from 0. */
double forecast_day(const struct forecast *forecast, int quantity, int row, int member);
double forecast_season(const struct forecast *forecast, int figure, int member);
#endif
