/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/steps.c - see tell/steps.h.
 *
 * How each way of turning is done by hand is common practice among gardeners (trade); what the
 * model makes of it stands in run/hands and run/fork.
 */
#include "tell/steps.h"
#include "know/bound.h"
#include "run/calendar.h"
#include <math.h>
#include <stdarg.h>
#include <string.h>

const char *steps_deed(enum plan_deed deed)
{
    static const char *const words[] = {"turn",    "water",  "add",     "cover",
                                        "uncover", "loosen", "pick out"};
    return words[deed];
}

const char *steps_way(enum plan_way way)
{
    static const char *const words[] = {"layer by layer", "mixed", "outside in", "out and back"};
    return words[way];
}

/* ---- names and conditions ---- */

static const char *bay_name(const struct scenario *scenario, int bay)
{
    return bay == PLAN_NEXT_BAY ? "the next free bay" : scenario->bay[bay].name;
}

static void name_turn(struct saying *steps, const struct scenario *scenario,
                      const struct plan_event *event, int from, int into)
{
    int bay = into >= 0 ? into : event->into;
    saying_add(steps, "turn");
    if (from >= 0)
        saying_add(steps, " %s", scenario->bay[from].name);
    if (bay == PLAN_SAME_BAY || (from >= 0 && bay == from))
        saying_add(steps, "%s", event->way == PLAN_OUT_AND_BACK ? "" : " where it is");
    else
        saying_add(steps, " into %s", bay_name(scenario, bay));
    saying_add(steps, ", %s", steps_way(event->way));
    if (event->pick_sticks)
        saying_add(steps, ", sticks picked out");
}

static void name_add(struct saying *steps, const struct scenario *scenario,
                     const struct phrase_style *style, const struct plan_event *event)
{
    saying_add(steps, "add ");
    fetch_layer(steps, scenario, style, &event->add, false);
    if (event->bury_m > 0)
        saying_add(steps, ", under %s", phrase_length(style, event->bury_m).text);
}

struct saying steps_name(const struct scenario *scenario, const struct phrase_style *style,
                         const struct plan_event *event, int from, int into)
{
    struct saying steps = {""};
    switch (event->deed) {
    case PLAN_TURN:
        name_turn(&steps, scenario, event, from, into);
        break;
    case PLAN_WATER:
        if (event->until_it_drips)
            saying_add(&steps, "water it until it drips");
        else
            saying_add(&steps, "pour on %s of water",
                       fetch_load(scenario, event->water_kg.mid).text);
        break;
    case PLAN_ADD:
        name_add(&steps, scenario, style, event);
        break;
    case PLAN_COVER:
        if (event->cover >= 0) {
            saying_add(&steps, "cover with %s", bound_rows[event->cover].name);
            if (event->cover_m >= FETCH_LOOSE_M) /* a sheet has no thickness to speak of */
                saying_add(&steps, ", %s", phrase_length(style, event->cover_m).text);
        } else {
            saying_add(&steps, "cover with ");
            fetch_layer(&steps, scenario, style, &event->add, false);
        }
        break;
    case PLAN_UNCOVER:
        saying_add(&steps, "take off %s",
                   event->cover >= 0 ? bound_rows[event->cover].name : "all that covers it");
        break;
    case PLAN_LOOSEN:
        saying_add(&steps, "loosen it");
        break;
    case PLAN_PICK:
        saying_add(&steps, "pick out sticks");
        break;
    }
    return steps;
}

struct saying steps_day(const struct scenario *scenario, const struct phrase_style *style,
                        const struct plan *plan, int day, bool rules)
{
    struct saying steps = {""};
    for (int e = 0; e < plan->events; e++)
        if (calendar_comes(scenario, &plan->event[e], day)
            && (plan->event[e].when == PLAN_RULE) == rules)
            saying_add(&steps, "%s%s", *steps.text ? "; " : "",
                       steps_name(scenario, style, &plan->event[e], -1, -1).text);
    return steps;
}

struct saying steps_rule(const struct phrase_style *style, const struct plan_event *event)
{
    static const char *const places[] = {"the middle", "30 cm in", "a hand deep"};
    static const char *const squeezes[] = {"is dusty", "crumbles", "holds together", "drips",
                                           "runs"};
    struct saying steps = {""};
    if (event->when != PLAN_RULE)
        return steps;
    saying_add(&steps, "if ");
    if (event->rule_K > 0)
        saying_add(&steps, "%s %s %s %s", places[event->rule_place],
                   !event->rule_passes  ? "reads"
                   : event->rule_hotter ? "has risen"
                                        : "has fallen",
                   event->rule_hotter ? "above" : "below", phrase_temp(style, event->rule_K).text);
    if (event->rule_squeeze >= 0)
        saying_add(&steps, "%sa handful from %s %s%s", event->rule_K > 0 ? " and " : "",
                   places[event->squeeze_place], squeezes[event->rule_squeeze],
                   event->rule_squeeze ? " or is drier" : "");
    if (event->unless_air_below_K > 0)
        saying_add(&steps, ", unless the air is below %s",
                   phrase_temp(style, event->unless_air_below_K).text);
    if (event->unless_frozen)
        saying_add(&steps, "%s the crust rings",
                   event->unless_air_below_K > 0 ? " or" : ", unless");
    if (event->at_most_days > 0 && event->at_most_days < 366)
        saying_add(&steps, ", %d days or more after the last time", event->at_most_days);
    return steps;
}

/* ---- how ---- */

/* the ways of turning: with a second bay, and where the pile stays; outside in, after the skin */
static const struct {
    const char *across, *stays;
} turns[] = {
    [PLAN_LAYER_BY_LAYER] =
        {"fork it over from the top down: the order turns over, the old bottom "
         "ends on top as a blanket",
         "fork it out onto sheets, each layer beside the last; put back first what came "
         "off first: the order turns over, the old bottom ends on top"},
    [PLAN_MIXED] = {"shake every forkful over the whole floor of the new place, a hand high at a "
                    "time: wet by dry, warm by cold",
                    "fork it out onto a sheet and shake every forkful as it goes back, a hand high "
                    "at a time: wet by dry, warm by cold"},
    [PLAN_OUTSIDE_IN] = {" aside; old middle round the new rim; skin inside",
                         " on one sheet, old middle on another; old middle back round the rim, skin "
                         "inside"},
    [PLAN_OUT_AND_BACK] = {"fork it out beside the bay, then back: last out, first in, so that the "
                           "old order returns, loose",
                           "fork it out beside the bay, then back: last out, first in, so that the "
                           "old order returns, loose"},
};

/* "skin (outer 20 cm)", less where half the way to the innermost is less; in one unit, being in brackets */
static void add_skin(struct saying *steps, const struct phrase_style *style, double deep_m)
{
    static const double SKIN_M = 0.2;
    struct phrase_style one = *style;
    if (one.show == PLAN_SHOW_BOTH)
        one.show = PLAN_SHOW_METRIC;
    saying_add(steps, "skin (outer %s)", phrase_length(&one, fmin(SKIN_M, 0.5 * deep_m)).text);
}

static void how_turn(struct saying *steps, const struct phrase_style *style,
                     const struct plan_event *event, bool stays, double deep_m)
{
    if (event->keep_top_m > 0)
        saying_add(steps, "%s of old bottom aside for the top; ",
                   phrase_length(style, event->keep_top_m).text);
    if (event->way == PLAN_OUTSIDE_IN)
        add_skin(steps, style, deep_m);
    saying_add(steps, "%s", stays ? turns[event->way].stays : turns[event->way].across);
    if (event->pick_sticks)
        saying_add(steps, "; sticks go aside as they show");
    if (event->until_it_drips)
        saying_add(steps, "; wet each hand's height until a squeezed handful drips");
    else if (event->water_kg.mid > 0)
        saying_add(steps, "; share the water out, some for each hand's height");
}

struct saying steps_how(const struct phrase_style *style, const struct plan_event *event,
                        bool stays, double deep_m)
{
    struct saying steps = {""};
    switch (event->deed) {
    case PLAN_TURN:
        how_turn(&steps, style, event, stays, deep_m);
        break;
    case PLAN_WATER:
        saying_add(&steps,
                   "make holes with a bar and pour slowly, half an hour in all; where it runs out "
                   "below, pour no more");
        break;
    case PLAN_ADD:
        saying_add(&steps, event->bury_m > 0 ? "open the top, lay it in, close it again"
                                             : "spread it evenly to the edges");
        break;
    case PLAN_COVER:
        saying_add(&steps, event->cover >= 0 && event->cover_m < FETCH_LOOSE_M
                               ? "lay it over the edges and weigh it down"
                               : "spread it evenly, right to the edges");
        break;
    case PLAN_UNCOVER:
        saying_add(&steps, "lift it off and keep it dry for the next time");
        break;
    case PLAN_LOOSEN:
        saying_add(&steps,
                   "push a bar or the fork in to the middle every 20 to 30 cm, rock it, draw it "
                   "out; nothing changes place");
        break;
    case PLAN_PICK:
        saying_add(&steps, "fork through it and take out what is still stick or stalk");
        break;
    }
    return steps;
}
