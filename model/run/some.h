/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/some.h - a deed for some of the members side by side.
 *
 * A deed is a map on the amounts of all lanes. What it does to members that it passes by is undone:
 * their amounts and notes are set aside before it and put back afterwards. What follows from amounts
 * (geometry, skins, pores) is masked where it is made.
 */
#ifndef RUN_SOME_H
#define RUN_SOME_H
#include "run/keeper.h"

/* Before a deed for these, and after it. */
void some_begin(struct keeper *keeper, lane_mask who);
void some_end(struct keeper *keeper, lane_mask who);
#endif
