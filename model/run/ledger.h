/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/ledger.h - carbon, nitrogen, water, energy and seeds: in minus out equals what is there. */
#ifndef RUN_LEDGER_H
#define RUN_LEDGER_H
#include "base/trouble.h"
#include "pile/flux.h"
#include "pile/pile.h"
#include "run/moment.h"
#include "run/record.h"

struct ledger {
    lane total[FLUXES];         /* since the season's start */
    lane sum[RECORD_BALANCES];  /* signed, by balance */
    lane through[RECORD_BALANCES]; /* throughput: each named flux without its sign */
    lane worst[RECORD_BALANCES];   /* of |stored - sum|/throughput */
};

void ledger_book(struct ledger *ledger, const lane flux[FLUXES]);
/* Weighs the pile against the books. Fails, naming the balance and its largest fluxes, beyond 1e-9. */
bool ledger_check(struct ledger *ledger, const struct pile_weighed *weighed,
                  const struct moment *midnight,
                  struct trouble *why);
#endif
