/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/steps.h - what is done to a pile, in a gardener's words: its name, how it is done, and on
 * what condition.
 */
#ifndef TELL_STEPS_H
#define TELL_STEPS_H
#include "tell/fetch.h"

/* the words of a scenario and of JSON */
const char *steps_deed(enum plan_deed deed);
const char *steps_way(enum plan_way way);

/* "turn bay 1 into bay 2, outside in"; from and into are bays, -1 where they aren't known yet. */
struct saying steps_name(const struct scenario *scenario, const struct phrase_style *style,
                         const struct plan_event *event, int from, int into);
/* All deeds of a day of the plan, those with a date or those by a rule: "turn into bay 2, outside
 * in; cover with straw, 10 cm". */
struct saying steps_day(const struct scenario *scenario, const struct phrase_style *style,
                        const struct plan *plan, int day, bool rules);
/* "if the middle reads below 45 C, unless the air is below -5 C"; empty where it has a date. */
struct saying steps_rule(const struct phrase_style *style, const struct plan_event *event);
/* How a deed is done, step by step, and where its water goes, on a pile whose innermost lies so deep: its
 * skin is never more than half of that. NAN where it isn't known. */
struct saying steps_how(const struct phrase_style *style, const struct plan_event *event,
                        bool stays, double deep_m);
#endif
