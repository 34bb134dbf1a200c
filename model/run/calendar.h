/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/calendar.h - on which days somebody can come to the pile, and when an event comes round. */
#ifndef RUN_CALENDAR_H
#define RUN_CALENDAR_H
#include "run/plan.h"

/* Is a day of the season (0 = the start date) one of the keepers' days, and none away? Weekdays
 * bind only if the keepers said them. */
bool calendar_open(const struct scenario *scenario, int day);
bool calendar_away(const struct scenario *scenario, int day);
/* Does an event come round on a day? A dated one does on its day, whatever the calendar says, since
 * its keeper wrote so; a rhythm, and looking by a rule, wait for the next turn that is open. */
bool calendar_comes(const struct scenario *scenario, const struct plan_event *event, int day);
/* How often it comes round in the season. */
int calendar_times(const struct scenario *scenario, const struct plan_event *event);
#endif
