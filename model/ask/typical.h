/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/typical.h - one season to draw, made of many possible ones.
 *
 * Of each day temperatures, water, free air and oxygen are medians, each by itself, as JSON has them;
 * fluxes are means, which still add up to what the mean pile gains. What was done when is that of
 * one pile, the central one. Nothing else of it holds.
 */
#ifndef ASK_TYPICAL_H
#define ASK_TYPICAL_H
#include "run/record.h"

/* `room` has a number for each member. The typical season borrows the events of the central one, which
 * must outlive it; typical_free frees only its days. Fails for want of memory. */
bool typical_of(struct record *typical, const struct record *record, int members,
                const struct record *central, double *room, struct trouble *why);
void typical_free(struct record *typical);
#endif
