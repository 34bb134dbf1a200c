/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/handful.h - a squeezed handful: how wet each of its five words is, and how wet a pile is wanted.
 *
 * The five words stand for 30, 40, 48, 55 and 65 % water; halfway between, one gives way to the next
 * [trade]. What suits a pile is 50 to 60 % [NRAES-54 1992, memory]: its middle is wanted, its end is
 * where a pile begins to be too wet.
 */
#ifndef RUN_HANDFUL_H
#define RUN_HANDFUL_H
#include "run/plan.h"

extern const double handful_wanted_share, handful_wet_share;

/* Share of water that a word stands for; the share up to which it is said, without end for the last. */
double handful_share(enum plan_squeeze word);
double handful_most(enum plan_squeeze word);
enum plan_squeeze handful_word(double water_share);
/* Water that brings so much dry matter, so wet, to what is wanted, were none to run through. */
double handful_thirst_kg(double dry_kg, double water_share);
#endif
