/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/outing.c - see tell/outing.h. */
#include "tell/outing.h"
#include "base/scroll.h"
#include "tell/errand.h"
#include "tell/steps.h"
#include "tell/tale.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LINES = 12 };

/* ---- small phrases ---- */

static struct phrase day_said(const struct outing_stop *stop, int day)
{
    return phrase_day(stop->pile.scenario->start + day);
}

static struct phrase people(struct span helpers)
{
    struct phrase said;
    if (helpers.low == helpers.high)
        return phrase_count((long)helpers.mid, "person", "people");
    snprintf(said.text, sizeof said.text, "%.0f to %.0f people", helpers.low, helpers.high);
    return said;
}

static struct phrase minutes(struct span time_s)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%.0f (%.0f-%.0f) min", fmax(1, round(time_s.mid / 60)),
             floor(time_s.low / 60), ceil(time_s.high / 60));
    return said;
}

static bool rule_only(const struct due *due)
{
    for (int i = 0; i < due->tasks; i++)
        if (due->task[i].event->when != PLAN_RULE)
            return false;
    return due->tasks > 0 && !due->build;
}

/* ---- the answer ---- */

/* "turn bay 1 into bay 2, outside in; then cover with straw, 10 cm" */
static struct saying deeds(const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    const struct scenario *scenario = stop->pile.scenario;
    struct saying said = {""};
    int days = (int)scenario->start_span_days;
    if (due->build && days > 0)
        snprintf(said.text, sizeof said.text, "begin to build in %s, to be done by %s",
                 scenario->bay[scenario->home].name, day_said(stop, days).text);
    else if (due->build)
        snprintf(said.text, sizeof said.text, "build in %s", scenario->bay[scenario->home].name);
    for (int i = 0; i < due->tasks; i++) {
        const struct due_task *task = &due->task[i];
        size_t used = strlen(said.text);
        bool rule = task->event->when == PLAN_RULE;
        struct saying name = steps_name(scenario, style, task->event, due->from, task->into);
        snprintf(said.text + used, sizeof said.text - used, "%s%.300s%s%.500s",
                 used ? "; then " : "", steps_rule(style, task->event).text, rule ? ": " : "",
                 name.text);
        used = strlen(said.text);
        if (rule)
            snprintf(said.text + used, sizeof said.text - used, " (%s possible piles)",
                     phrase_chance(task->chance).text);
    }
    return said;
}

/* Water of the day; of a rule's deeds, what they take where they are done. */
static struct phrase water_said(const struct outing_stop *stop)
{
    const struct due *due = &stop->due;
    struct phrase said = {""};
    struct span water_l = rule_only(due) ? (struct span){0, 0, 0} : due->water_kg;
    bool felt = false; /* poured until it drips: nobody knows how much before */
    for (int i = 0; i < due->tasks; i++) {
        felt = felt || due->task[i].event->until_it_drips;
        if (rule_only(due)) {
            water_l.mid += due->task[i].water_kg.mid;
            water_l.high += due->task[i].water_kg.high;
        }
    }
    double bring_l = felt ? water_l.high : water_l.mid;
    if (bring_l >= 0.5)
        snprintf(said.text, sizeof said.text, ", %s%.70s of water", felt ? "up to " : "",
                 fetch_load(stop->pile.scenario, bring_l).text);
    return said;
}

static struct span work_of(const struct due *due)
{
    struct span sum = due->person_s;
    for (int i = 0; i < due->tasks && rule_only(due); i++)
        sum = i ? (struct span){sum.low + due->task[i].person_s.low,
                                sum.mid + due->task[i].person_s.mid,
                                sum.high + due->task[i].person_s.high}
                : due->task[i].person_s;
    return sum;
}

/* "work on 8 Nov: turn into north bay, outside in" */
static struct saying next_said(const struct outing_stop *stop, const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    const struct due_pile *pile = &stop->pile;
    struct saying said;
    if (due->next_day < 0)
        return (struct saying){"no work is left in this plan"};
    snprintf(said.text, sizeof said.text, "next %s on %s: %.900s", due->next_look ? "look" : "work",
             day_said(stop, due->next_day).text,
             steps_day(pile->scenario, style, &pile->scenario->plan[pile->plan], due->next_day,
                       due->next_look)
                 .text);
    return said;
}

static void say_sentence(FILE *out, const struct outing *visit, const struct outing_stop *stop,
                         const struct phrase_style *style)
{
    const struct due *due = &stop->due;
    const struct span *helpers = &stop->pile.scenario->people.helpers;
    if (!due_any(due)) {
        phrase_line(out, NULL, "Nothing to do on %s; %s.", phrase_date(visit->date).text,
                    next_said(stop, style).text);
        return;
    }
    if (rule_only(due) && due->task[0].did == 0)
        phrase_line(out, NULL, "Look on %s: %s.", phrase_day(visit->date).text,
                    deeds(stop, style).text);
    else
        phrase_line(out, NULL, "%s %s%s %s: %s, %s each, %s in all%s.",
                    rule_only(due) ? "Look on" : "On", phrase_day(visit->date).text,
                    rule_only(due) ? ":" : "", deeds(stop, style).text, people(*helpers).text,
                    minutes(due_clock(work_of(due), *helpers)).text,
                    phrase_minutes(work_of(due).mid).text, water_said(stop).text);
}

/* Which plan, and when there is work again. */
static void say_plan(FILE *out, const struct outing_stop *stop, bool next)
{
    const struct scenario *scenario = stop->pile.scenario;
    char first[64] = "", then[160] = "";
    if (!stop->plan_named && scenario->plans > 1)
        snprintf(first, sizeof first, " (first of %d, none named)", scenario->plans);
    if (next && stop->due.next_day >= 0)
        snprintf(then, sizeof then, "; next %s on %s", stop->due.next_look ? "look" : "work",
                 day_said(stop, stop->due.next_day).text);
    else if (next)
        snprintf(then, sizeof then, "; then no work is left in it");
    phrase_line(out, "plan", "%s%s%s", scenario->plan[stop->pile.plan].name, first, then);
}

static void say_care(FILE *out, const struct outing *visit)
{
    bool applies[TALE_CAUTIONS] = {false};
    for (int i = 0; i < visit->stops; i++) {
        const struct due_pile *pile = &visit->stop[i].pile;
        struct tale tale = {.record = pile->record,
                            .members = pile->members,
                            .scenario = pile->scenario,
                            .plan = pile->plan};
        for (int c = 0; c < TALE_CAUTIONS && due_any(&visit->stop[i].due); c++)
            applies[c] |= tale_caution_applies(&tale, (enum tale_caution)c);
    }
    struct saying care = tale_care(applies);
    if (*care.text)
        phrase_line(out, "care", "%s", care.text);
}

/* What doesn't fit: too long for the visit, nobody there, two piles for one bay. */
static void say_look(FILE *out, const struct outing *visit)
{
    if (visit->clock_s.mid > visit->visit_s)
        phrase_line(out, "look",
                    "%s is longer than your visit of %s: bring more people, or share "
                    "it over two days",
                    phrase_minutes(visit->clock_s.mid).text, phrase_minutes(visit->visit_s).text);
    if (visit->away)
        phrase_line(out, "look", "by `people` in the scenario nobody comes on %s",
                    phrase_date(visit->date).text);
    for (int i = 0; i < visit->clashes; i++) {
        const struct outing_clash *clash = &visit->clash[i];
        phrase_line(out, "look", "%s and %s both go into %s that day: which of them?",
                    visit->stop[clash->one].pile.scenario->name,
                    visit->stop[clash->other].pile.scenario->name,
                    visit->stop[clash->one].pile.scenario->bay[clash->bay].name);
    }
}

static void say_sure(FILE *out, const struct outing *visit, enum outing_day how)
{
    static const char *const days[] = {"", "; no --day, so the day of the last reading",
                                       "; no --day and no reading, so the first day"};
    int failures = 0;
    char failed[64] = "";
    const char *unread = "";
    for (int i = 0; i < visit->stops; i++) {
        failures += visit->stop[i].failures;
        if (!*unread)
            unread = phrase_unread(visit->stop[i].pile.scenario);
    }
    if (failures)
        snprintf(failed, sizeof failed, ", %d not computed", failures);
    phrase_line(out, "sure", "forecasts: %d possible piles%s, 8 in 10 as in brackets%s%s",
                visit->stop[0].pile.members, failed, days[how], unread);
}

/* ---- one pile, and several ---- */

static void say_stop(FILE *out, const struct outing *visit, const struct outing_stop *stop,
                     const struct phrase_style *style)
{
    bool busy = due_any(&stop->due);
    say_sentence(out, visit, stop, style);
    say_plan(out, stop, busy);
    errand_write(out, stop, style);
}

static void say_one(FILE *out, const struct outing *visit, enum outing_day how,
                    const struct phrase_style *style, bool lean)
{
    say_stop(out, visit, &visit->stop[0], style);
    say_look(out, visit);
    if (!lean || how != OUTING_NAMED)
        say_sure(out, visit, how);
    say_care(out, visit);
}

static void say_several(FILE *out, const struct outing *visit, enum outing_day how,
                        const struct phrase_style *style)
{
    const struct phrase_style poured = phrase_poured(style);
    int busy = 0;
    for (int i = 0; i < visit->stops; i++)
        busy += due_any(&visit->stop[i].due);
    if (busy)
        phrase_line(
            out, NULL, "One visit on %s has work at %d of %d piles: %s, %s each, %s in all%s%s.",
            phrase_day(visit->date).text, busy, visit->stops, people(visit->helpers).text,
            minutes(visit->clock_s).text, phrase_minutes(visit->person_s.mid).text,
            visit->water_kg.mid >= 0.5 ? ", water " : "",
            visit->water_kg.mid >= 0.5 ? phrase_litres(&poured, visit->water_kg.mid).text : "");
    else
        phrase_line(out, NULL, "Nothing to do on %s at any of %d piles.",
                    phrase_date(visit->date).text, visit->stops);
    for (int i = 0; i < visit->stops; i++) {
        fprintf(out, "\n");
        phrase_line(out, NULL, "%d. %s", i + 1, visit->stop[i].pile.scenario->name);
        say_stop(out, visit, &visit->stop[i], style);
    }
    fputc('\n', out);
    say_look(out, visit);
    say_sure(out, visit, how);
    say_care(out, visit);
}

static int lines(const char *text)
{
    int count = 0;
    for (; *text; text++)
        count += *text == '\n';
    return count;
}

/* Of one pile, what the numbers rest on is left out where the work alone fills the page. */
static bool tell_one(FILE *out, const struct outing *visit, enum outing_day day,
                     const struct phrase_style *style)
{
    struct scroll scroll;
    if (!scroll_begin(&scroll))
        return false;
    say_one(scroll.out, visit, day, style, false);
    bool told = scroll_end(&scroll);
    if (told && lines(scroll.text) <= LINES)
        fputs(scroll.text, out);
    else if (told)
        say_one(out, visit, day, style, true);
    free(scroll.text);
    return told;
}

bool outing_text(FILE *out, const struct outing *visit, enum outing_day day,
                const struct phrase_style *style, struct trouble *why)
{
    if (visit->stops > 1)
        say_several(out, visit, day, style);
    else if (!tell_one(out, visit, day, style))
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    return true;
}
