/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/draft.c - see ask/draft.h. */
#include "ask/draft.h"
#include <math.h>
#include <stdlib.h>

static const double STOCK_HEIGHT_M = 1.2, STOCK_SETTLED = 0.85; /* a bin that takes a stock [trade] */

/* The stock as layers, in a bin about as wide as it is high. */
static void build_stock(struct scenario *recipe)
{
    double volume_m3 = 0;
    for (int i = 0; i < recipe->haves; i++) {
        struct plan_layer *layer = &recipe->layer[i / PLAN_PORTIONS];
        layer->portion[layer->portions++] = recipe->have[i];
        volume_m3 += recipe->have[i].volume_m3.mid;
        recipe->layers = i / PLAN_PORTIONS + 1;
    }
    struct plan_bay *home = &recipe->bay[recipe->home];
    double filled_m3 = STOCK_SETTLED * volume_m3;
    double high_m = fmin(STOCK_HEIGHT_M, cbrt(filled_m3));
    home->shape = PLAN_BIN;
    home->length_m = home->width_m = sqrt(filled_m3 / high_m);
    home->height_m = high_m;
}

struct scenario *draft_of(const struct scenario *scenario, bool *stock)
{
    struct scenario *recipe = malloc(sizeof *recipe);
    if (!recipe)
        return NULL;
    *recipe = *scenario;
    recipe->sky = PLAN_SKY_NAMED;
    recipe->sky_row = 0;
    recipe->last_day = 1;
    recipe->plans = 1;
    recipe->plan[0].events = 0;
    *stock = recipe->layers == 0;
    if (*stock)
        build_stock(recipe);
    return recipe;
}

/* An event that would add them lists them; it is gone when the list is made. */
void draft_unknowns(struct unknowns *unknowns, struct scenario *draft, const struct plan_layer *offer,
                    const bool fixed[PARAM_ROWS])
{
    struct plan *plan = &draft->plan[0];
    plan->event[0] = (struct plan_event){.deed = PLAN_ADD, .add = *offer, .water_kg = {1, 1, 1}};
    plan->events = 1;
    for (int i = 0; i < draft->haves; i++) {
        struct plan_event *event = &plan->event[1 + i / PLAN_PORTIONS];
        if (i % PLAN_PORTIONS == 0)
            *event = (struct plan_event){.deed = PLAN_ADD};
        event->add.portion[event->add.portions++] = draft->have[i];
        plan->events = 2 + i / PLAN_PORTIONS;
    }
    unknown_list(unknowns, draft, 0, fixed);
    plan->events = 0;
}
