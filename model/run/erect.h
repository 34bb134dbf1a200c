/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/erect.h - the first deed: the recipe laid into the empty pile, or a pile found standing. */
#ifndef RUN_ERECT_H
#define RUN_ERECT_H
#include "run/keeper.h"

/* Those members' piles; other amounts are changed too, and put back by run/some. */
void erect_pile(struct keeper *keeper, lane_mask who);
#endif
