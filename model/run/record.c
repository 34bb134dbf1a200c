/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/record.c - what a season leaves behind: the names of its balances, and its end. */
#include "run/record.h"
#include <stdlib.h>

/* the order of enum flux_of would be energy first; a reader of a ledger asks for mass first */
const char *const record_balance_name[RECORD_BALANCES] = {"carbon", "nitrogen", "water", "energy",
                                                          "seeds"};

/* Frees what the record owns and leaves it empty, so that freeing twice is harmless. */
void record_free(struct record *record)
{
    for (int i = 0; record->picture && i < record->pictures; i++)
        free(record->picture[i].cell);
    free(record->picture);
    if (!record->lent) {
        free(record->event);
        free(record->day);
    }
    free(record->seen);
    free(record->hour);
    record->hour = NULL;
    record->picture = NULL;
    record->event = NULL;
    record->day = NULL;
    record->seen = NULL;
    record->lent = false;
    record->pictures = record->events = record->days = 0;
}
