/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/settle.h - the pile settles, each midnight and after every deed; what lasts a day follows. */
#ifndef RUN_SETTLE_H
#define RUN_SETTLE_H
#include "run/balance.h"

/* Settles the pile: volumes shrink with mass, creep over `days`, are pressed by what lies above;
 * geometry and everything that lasts a day follows. dry_before: dry mass at the last settling, or
 * NULL when nothing has been lost since (somebody has just worked on it). */
void settle_pile(struct balance *balance, lane_mask who, lane days, const lane *dry_before);
#endif
