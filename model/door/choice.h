/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/choice.h - what the command line picks out of a scenario: a plan, a day, days to draw. */
#ifndef DOOR_CHOICE_H
#define DOOR_CHOICE_H
#include "door/ask.h"
#include "run/plan.h"

enum { CHOICE_PICTURES = 6 };

/* The row of a plan by its name, -1 when there is none. */
int choice_named(const struct scenario *scenario, const char *name, struct trouble *why);
/* The row of the plan asked for; the first if none was; -1 when there is no such plan. */
int choice_plan(const struct ask *ask, const struct scenario *scenario, struct trouble *why);
/* Is there a pile to run, built or found (which is one layer)? */
bool choice_built(const struct scenario *scenario, const char *file, struct trouble *why);
/* --day as a number from 1 within the season; 0 when none was asked, -1 when it is outside. */
int choice_day(const struct ask *ask, const struct scenario *scenario, struct trouble *why);
/* Days of a season of so many whose cross-section is kept; returns how many. */
int choice_pictures(int picture_day[CHOICE_PICTURES], int asked, int days);
#endif
