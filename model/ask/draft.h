/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/draft.h - a scenario as a recipe alone: no weather and no plan has a part in it. */
#ifndef ASK_DRAFT_H
#define ASK_DRAFT_H
#include "many/unknown.h"

/* A copy under any sky, of one day on which nothing is done. Where nothing is built its stock becomes
 * the layers, in a bin that takes it; *stock says so. NULL when there is not enough memory; to be
 * freed. */
struct scenario *draft_of(const struct scenario *scenario, bool *stock);
/* What isn't known of it, of an offer and a stock beside it, and of water that may be poured. */
void draft_unknowns(struct unknowns *unknowns, struct scenario *draft, const struct plan_layer *offer,
                    const bool fixed[PARAM_ROWS]);
#endif
