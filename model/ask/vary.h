/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/vary.h - one pile made otherwise, to be run beside it: another size, another wetness, left
 * alone, turned, covered, in winter.
 *
 * Each changes a copy of a scenario and nothing else; none of them prints, reads or runs anything.
 * Run with the same draw, a varied pile has the same unknowns, so that only what was varied
 * differs.
 */
#ifndef ASK_VARY_H
#define ASK_VARY_H
#include "run/plan.h"

/* A plan without its deeds, until the end of a day (0 is the first), or until the season's if that
 * is sooner. */
void vary_alone(struct scenario *varied, int plan, int last_day);
/* The same mix as a cube of such a side, between the same walls, on the same floor, under the same
 * lid: all amounts in proportion to what volume the pile was when built. */
void vary_cube(struct scenario *varied, double side_m, double built_m3);
/* So many times the ground and so many times all amounts: alike, it is as high as before. */
void vary_size(struct scenario *varied, double ground, double amounts);
/* Every ingredient so wet (share of the wet mass), with as much dry matter and room as it had;
 * nothing poured on. */
void vary_wet(struct scenario *varied, double water_share);
/* One event more on a day (0 is the first), after all else of that day; a turn; a cover. NULL or false
 * where the plan has no room for it. */
struct plan_event *vary_event(struct plan *plan, enum plan_deed deed, int day);
bool vary_turn(struct plan *plan, int day, enum plan_way way, int into);
bool vary_cover(struct plan *plan, int day, int cover, double thick_m);
/* So many times of what isn't known exactly. */
void vary_scale(struct span *span, double times);
/* Begun so that a day of it falls in the middle of the coldest month of its place. False where the
 * weather is that of a file, which has no other winter, or the calendar ends. */
bool vary_winter(struct scenario *varied, int day);
/* Surface over volume of a cube of such a side, all six faces, per metre. */
double vary_cube_surface(double side_m);
#endif
