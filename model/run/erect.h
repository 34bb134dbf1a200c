/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/erect.h - the first deed: the recipe laid into the empty pile, or a pile found standing. */
#ifndef RUN_ERECT_H
#define RUN_ERECT_H
#include "run/keeper.h"

void erect_pile(struct keeper *keeper);
#endif
