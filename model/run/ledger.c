/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/ledger.c - see run/ledger.h. */
#include "run/ledger.h"

static const double BROKEN = 1e-9;
/* balances in the order of record_balance_name */
static const int BALANCE_OF[] = {[FLUX_OF_ENERGY] = 3, [FLUX_OF_WATER] = 2, [FLUX_OF_CARBON] = 0,
                                 [FLUX_OF_NITROGEN] = 1, [FLUX_OF_SEEDS] = 4};

void ledger_book(struct ledger *l, const lane flux[FLUXES])
{
    for (int k = 0; k < FLUXES; k++) {
        int balance = BALANCE_OF[flux_rows[k].of];
        l->total[k] += flux[k];
        l->sum[balance] += flux[k];
        l->through[balance] += lane_abs(flux[k]);
    }
}

/* The flux that moved most of a balance since the start: where to look first. */
static enum flux largest(const struct ledger *l, int balance, int member)
{
    int best = 0;
    double most = -1;
    for (int k = 0; k < FLUXES; k++) {
        double size = fabs(lane_get(l->total[k], member));
        if (BALANCE_OF[flux_rows[k].of] == balance && size > most) {
            most = size;
            best = k;
        }
    }
    return (enum flux)best;
}

bool ledger_check(struct ledger *l, const struct pile_weighed *w, const struct moment *midnight,
                  struct trouble *why)
{
    const lane stored[RECORD_BALANCES] = {w->carbon_kg, w->nitrogen_kg, w->water_kg, w->heat_J,
                                          w->seeds};
    for (int b = 0; b < RECORD_BALANCES; b++) {
        lane gap = lane_abs(stored[b] - l->sum[b]) / lane_max(l->through[b], lane_of(1e-300));
        l->worst[b] = lane_if(midnight->who, lane_max(l->worst[b], gap), l->worst[b]);
        for (int i = 0; i < LANES; i++)
            if (!(lane_get(gap, i) <= BROKEN))
                return trouble_set(why, TROUBLE_LEDGER,
                                   "the balance of %s is open by %.3g of its throughput on day %d "
                                   "(its largest flux: %s); this is a defect of the program",
                                   record_balance_name[b], lane_get(gap, i), midnight->day[i] + 1,
                                   flux_rows[largest(l, b, i)].name);
    }
    return true;
}
