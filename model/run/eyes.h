/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/eyes.h - what a person at the pile sees of it, and whether a rule then tells them to act.
 *
 * At ten in the morning, through a thermometer that is off by as much on every day and by a little
 * more on each, and by a handful from where an arm reaches. The central pile is seen as it is. The
 * errors of a day depend on the member and the day alone, so that two rules that look at one place
 * on one morning read the same.
 */
#ifndef RUN_EYES_H
#define RUN_EYES_H
#include "run/setting.h"

/* What a place's temperature is taken for: the reading, less what the thermometer shows in ice. */
double eyes_temp_K(const struct setting *setting, enum plan_place place, int day, int member);
/* What the air of that hour is taken for. */
double eyes_air_K(const struct setting *setting, int day, int member);
/* How wet a handful from a place feels, as a share of water, and the word for that. */
double eyes_handful_share(const struct setting *setting, enum plan_place place, int day,
                          int member);
enum plan_squeeze eyes_squeeze(const struct setting *setting, enum plan_place place, int day,
                               int member);
/* Somebody looks at the pile for an event on a rule: does the rule say to act? Remembers what was
 * seen, for rules that wait until a temperature passes. */
bool eyes_look(struct setting *setting, int event, int day, int member);
#endif
