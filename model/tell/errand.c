/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/errand.c - see tell/errand.h.
 *
 * A rise of 10 C or more within five days of a turn says that food was left; less, in moist
 * compost, that it is finishing (trade).
 */
#include "tell/errand.h"
#include "tell/steps.h"
#include <math.h>
#include <string.h>

static const double ICE_POINT_K = 273.15;
static const double COLD_K = 276.15; /* mean of a day whose night may freeze hard */
static const double RISE_K = 10.0;
/* still hot; past the hot time; cold; warmer than any weather [trade] */
static const double HOT_K = 318.15, OVER_K = 313.15, COOL_K = 283.15, WORTH_K = 293.15;

static struct phrase day_said(const struct outing_stop *stop, int day)
{
    return phrase_day(stop->pile.scenario->start + day);
}

static const struct due_task *turn_of(const struct due *due)
{
    for (int i = 0; i < due->tasks; i++)
        if (due->task[i].event->deed == PLAN_TURN)
            return &due->task[i];
    return NULL;
}

/* "59 C (47-66)" in the garden's own unit */
static struct phrase temps(const struct phrase_style *style, struct span temp_K)
{
    const char *degree = style->utf8 ? "°" : "deg";
    double factor = style->show == PLAN_SHOW_US ? 1.8 : 1.0, zero = style->show == PLAN_SHOW_US ? 32.0 : 0.0;
    struct phrase said;
    if (style->show >= PLAN_SHOW_BOTH)
        return phrase_temp_span(style, temp_K);
    double ends[] = {temp_K.low, temp_K.mid, temp_K.high};
    for (int i = 0; i < 3; i++)
        ends[i] = round(factor * (ends[i] - ICE_POINT_K) + zero) + 0.0;
    snprintf(said.text, sizeof said.text, "%.0f %s%s (%.0f to %.0f)", ends[1], degree,
             style->show == PLAN_SHOW_US ? "F" : "C", ends[0], ends[2]);
    return said;
}

static struct phrase temp(const struct phrase_style *style, double temp_K)
{
    struct phrase said = phrase_temp(style, temp_K);
    if (style->show == PLAN_SHOW_US)
        snprintf(said.text, sizeof said.text, "%.0f %sF",
                 round((temp_K - ICE_POINT_K) * 1.8 + 32.0), style->utf8 ? "°" : "deg");
    return said;
}

/* What this garden's thermometer shows of such a reading, as it did in ice water. */
static struct phrase amiss(const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct plan_thermometer *with = &stop->pile.scenario->thermometer;
    double off = round(with->ice_K * (style->show == PLAN_SHOW_US ? 1.8 : 1.0));
    struct phrase said = {""};
    if (with->in_ice && off != 0)
        snprintf(said.text, sizeof said.text, ", %.0f %s%s %s on your thermometer", fabs(off),
                 style->utf8 ? "°" : "deg", style->show == PLAN_SHOW_US ? "F" : "C",
                 off > 0 ? "more" : "less");
    return said;
}

/* What to read before a fork goes in, and when to go home again. */
static void say_first(FILE *out, const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    const struct due_task *turn = turn_of(due);
    char after[320] = "";
    if (!isfinite(due->middle_K.mid))
        return;
    double frost_K = turn && turn->event->unless_air_below_K > 0 ? turn->event->unless_air_below_K
                                                                 : ICE_POINT_K + OUTING_FROST_C;
    if (due->air_K.low < COLD_K)
        snprintf(after, sizeof after,
                 ". %sAir under %s, a crust that rings, or a middle under %s: go "
                 "home, it only sleeps",
                 turn && due->middle_K.mid < ICE_POINT_K + OUTING_ASLEEP_C
                     ? "Most likely asleep still: a later day is better. " : "",
                 temp(style, frost_K).text, temp(style, ICE_POINT_K + OUTING_ASLEEP_C).text);
    else if (turn && turn->event->when != PLAN_RULE && due->middle_K.mid >= HOT_K)
        snprintf(after, sizeof after,
                 ". Still rising since the last reading: it can wait until it "
                 "falls");
    phrase_line(out, "first", "probe: the middle should read %s%s%s",
                temps(style, due->middle_K).text, amiss(stop, style).text, after);
}

static void say_bring(FILE *out, const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    const struct scenario *scenario = stop->pile.scenario;
    struct saying stuff = {""};
    int bay = outing_bay(stop) >= 0 ? outing_bay(stop) : due->from;
    if (due->build)
        stuff = fetch_bring(scenario, style, NULL, due->from);
    for (int i = 0; i < due->tasks; i++) {
        struct saying more = fetch_bring(scenario, style, due->task[i].event, bay);
        size_t used = strlen(stuff.text);
        if (*more.text)
            snprintf(stuff.text + used, sizeof stuff.text - used, "%s%.500s", used ? "; " : "",
                     more.text);
    }
    if (*stuff.text)
        phrase_line(out, "bring", "%s; thermometer", stuff.text);
}

static void say_do(FILE *out, const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    if (due->build)
        phrase_line(out, "do", "%s", fetch_build(stop->pile.scenario, style).text);
    for (int i = 0; i < due->tasks; i++)
        phrase_line(out, "do", "%s",
                    steps_how(style, due->task[i].event, due->task[i].into == due->from, due->deep_m).text);
}

/* The forecast for the days to read on: "20 Oct 48 C (40-55), ...". */
static struct saying forecast(const struct outing_stop *stop, const struct phrase_style *style)
{
    struct saying said = {""};
    for (int i = 0; i < DUE_READS; i++) {
        const struct due_reading *read = &stop->due.read[i];
        size_t used = strlen(said.text);
        if (read->day >= 0 && isfinite(read->middle_K.mid))
            snprintf(said.text + used, sizeof said.text - used, "%s%s %s", used ? "; " : "",
                     day_said(stop, read->day).text, temps(style, read->middle_K).text);
    }
    return said;
}

/* What a reading after a turn says of the plan. */
static struct saying after_turn(const struct due *due, const struct phrase_style *style)
{
    struct saying said;
    bool F = style->show == PLAN_SHOW_US;
    if (due->middle_K.mid >= HOT_K)
        snprintf(said.text, sizeof said.text, ". Below %s though moist: cooling for good%s",
                 temp(style, OVER_K).text, due->next_day >= 0 ? ", the next turn can wait" : "");
    else
        snprintf(said.text, sizeof said.text,
                 ". %.0f %s%s warmer than before: food was left; less, "
                 "though moist: it is finishing%s",
                 F ? RISE_K * 1.8 : RISE_K, style->utf8 ? "°" : "deg", F ? "F" : "C",
                 due->next_day >= 0 ? ", the next turn can be left out" : "");
    return said;
}

/* Which reading would change the plan. */
static struct saying change(const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    struct span reading_K = due->read[due->read[1].day >= 0].middle_K;
    struct saying said = {""};
    if (!isfinite(reading_K.mid))
        return said;
    if (turn_of(due))
        return after_turn(due, style);
    if (reading_K.low >= WORTH_K)
        snprintf(said.text, sizeof said.text,
                 ". Below %s: squeeze a handful from 30 cm in; it "
                 "crumbles: water it; it drips: loosen it",
                 temp(style, reading_K.low).text);
    else if (due->next_day >= 0)
        snprintf(said.text, sizeof said.text,
                 ". Above %s: it wakes sooner than forecast, and so can "
                 "the work",
                 temp(style, reading_K.high).text);
    return said;
}

static void say_after(FILE *out, const struct outing_stop *stop, const struct phrase_style *style)
{
    struct saying expected = forecast(stop, style);
    bool busy = due_any(&stop->due),
         frost = turn_of(&stop->due) && stop->due.read[0].middle_K.mid < COOL_K;
    if (frost) /* numbers near the ice point would say nothing */
        phrase_line(out, "after", "the middle after a mild week: in frost a reading says little");
    else if (*expected.text)
        phrase_line(out, busy ? "after" : "read", "the middle: %s%s%s", expected.text,
                    busy ? "" : amiss(stop, style).text, change(stop, style).text);
}

void errand_write(FILE *out, const struct outing_stop *stop, const struct phrase_style *style)
{
    bool busy = due_any(&stop->due);
    if (busy && !stop->due.build)
        say_first(out, stop, style);
    if (busy) {
        say_bring(out, stop, style);
        say_do(out, stop, style);
    }
    say_after(out, stop, style);
}
