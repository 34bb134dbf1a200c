/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_shows.c - see tell/lesson_shows.h.
 *
 * Every number is of the pile's runs, but for air with 21 % oxygen [memory].
 */
#include "tell/lesson_shows.h"
#include "ask/lesson_try.h"
#include "ask/ready.h"
#include "ask/vary.h"
#include "tell/why.h"
#include <math.h>
#include <string.h>

static struct phrase temp(const struct phrase_style *style, struct span temp_K)
{
    return phrase_temp_span(style, temp_K);
}

static double whole(double value)
{
    return floor(value + 0.5) + 0.0;
}

/* Whole numbers, "3 (1-5)". */
struct phrase lesson_shows_count(struct span span)
{
    struct phrase said;
    if (!isfinite(span.mid))
        return (struct phrase){"unknown"};
    if (whole(span.low) == whole(span.high))
        snprintf(said.text, sizeof said.text, "%.0f", whole(span.mid));
    else
        snprintf(said.text, sizeof said.text, "%.0f (%.0f-%.0f)", whole(span.mid), whole(span.low),
                 whole(span.high));
    return said;
}

struct phrase lesson_shows_percent(struct span share)
{
    struct span times = {100 * share.low, 100 * share.mid, 100 * share.high};
    struct phrase said = lesson_shows_count(times);
    strncat(said.text, " %", sizeof said.text - strlen(said.text) - 1);
    return said;
}

static struct phrase mass(const struct phrase_style *style, struct span kg)
{
    return phrase_ranged(phrase_mass(style, kg.low), phrase_mass(style, kg.mid),
                         phrase_mass(style, kg.high));
}

/* A difference of temperatures: "4 °C (2-6)", "7 °F (4-11)" for a keeper who thinks in them. */
static struct phrase warmer(const struct phrase_style *style, struct span gain_K)
{
    bool us = style->show == PLAN_SHOW_US;
    struct phrase number = phrase_whole(gain_K, us ? 1.8 : 1), said;
    size_t lead = strcspn(number.text, " ");
    snprintf(said.text, sizeof said.text, "%.*s %s%s%.60s", (int)lead, number.text,
             style->utf8 ? "°" : "deg", us ? "F" : "C", number.text + lead);
    return said;
}

/* ---- what the program shows ---- */

static struct saying show_needs(const struct lesson_tale *tale, const struct phrase_style *style)
{
    const struct lesson_found *f = tale->found;
    struct saying said = {""};
    saying_add(
        &said,
        "Food: %s dry, of which %s can be eaten in time; the rest is woody stuff, old soil and "
        "ash. ",
        mass(style, f->dry_kg).text, mass(style, f->quick_kg).text);
    saying_add(&said, "Water: %s. Air: %s of the space. ", mass(style, f->water_kg).text,
               lesson_shows_percent(f->free_air_share).text);
    saying_add(
        &said,
        "The crowd, bacteria and fungi, is there from the start. Left alone it uses up %s dry "
        "by %s; each kilogram sets %s MJ of heat free.",
        mass(style, f->used_kg).text,
        phrase_day(tale->scenario->start + tale->scenario->last_day).text,
        lesson_shows_count(f->heat_MJ_per_kg).text);
    return said;
}

static void say_ways(struct saying *said, const struct budget_range *budget)
{
    bool told[BUDGET_WAYS] = {false};
    for (int n = 0; n < BUDGET_WAYS; n++) {
        int most = -1;
        for (int way = 0; way < BUDGET_WAYS; way++)
            if (!told[way] && (most < 0 || budget->way_W[way].mid > budget->way_W[most].mid))
                most = way;
        told[most] = true;
        double W = whole(budget->way_W[most].mid);
        if (W != 0)
            saying_add(
                said, W > 0 ? "%s%s %.0f W" : "%s%s, the other way round, %.0f W", n ? ", " : "",
                W > 0 ? why_way_takes((enum budget_way)most).text : why_way_word[most], fabs(W));
    }
    double added_W = whole(budget->line_W[BUDGET_ADDED].mid);
    if (added_W != 0)
        saying_add(said, ", warmth of what was added or taken out %.0f W", added_W);
}

static struct saying show_watts(const struct lesson_tale *tale)
{
    static const char *const how[] = {"the day asked for", "the day of the last reading",
                                      "the middle furthest above the air"};
    const struct lesson_found *f = tale->found;
    const struct budget_range *b = &f->budget;
    double made_W = b->line_W[BUDGET_DECAY].mid, stored_W = whole(b->line_W[BUDGET_STORED].mid);
    struct saying said = {""}, ways = {""};
    saying_add(&said, "On %s (day %d, %s) decay makes %s W, as much as %.1f people sitting still. ",
               phrase_day(tale->scenario->start + f->day).text, f->day + 1, how[f->how],
               lesson_shows_count(b->line_W[BUDGET_DECAY]).text, made_W / WHY_PERSON_W);
    say_ways(&ways, b);
    saying_capital(ways.text);
    saying_add(&said, "%s. ", ways.text);
    if (stored_W >= 1)
        saying_add(&said, "%.0f W stay and warm the pile. ", stored_W);
    else if (stored_W <= -1)
        saying_add(&said, "That is %.0f W more than is made: the pile cools. ", -stored_W);
    saying_add(&said, "Made is lost and kept: nothing else is left over.");
    return said;
}

static struct saying show_sizes(const struct lesson_tale *tale, const struct phrase_style *style)
{
    const struct lesson_found *f = tale->found;
    struct saying said = {""};
    for (int i = 0; i < LESSON_SIZES; i++)
        saying_add(
            &said,
            "A cube of %s: at most %s, at 45 %sC or more on %s of %d days, and on the last at %s. ",
            phrase_length(style, lesson_try_side_m[i]).text, temp(style, f->size[i].peak_K).text,
            style->utf8 ? "°" : "deg", lesson_shows_count(f->size[i].warm_days).text,
            f->run[LESSON_SMALL + i].scenario->last_day + 1, temp(style, f->size[i].last_K).text);
    saying_add(
        &said,
        "The large one is the warmer on the last in %d of %d possible piles. To each cubic metre "
        "the small one "
        "has %.0f m2 of surface, the large one %.0f: heat is made in the volume and lost at the "
        "surface.",
        f->larger_warmer, f->size_pairs, vary_cube_surface(lesson_try_side_m[0]),
        vary_cube_surface(lesson_try_side_m[1]));
    return said;
}

static struct saying show_turn(const struct lesson_tale *tale, const struct phrase_style *style)
{
    const struct lesson_found *f = tale->found;
    struct saying said = {""};
    saying_add(
        &said,
        "Left alone but for a turn, all mixed, on %s (day %d): the middle is at %s the day before "
        "and at %s at its lowest by the day after. ",
        phrase_day(tale->scenario->start + f->turn_day).text, f->turn_day + 1,
        temp(style, f->turn_before_K).text, temp(style, f->turn_low_K).text);
    saying_add(&said,
               "Then it rises to %s, %s days after the turn; without the turn it is at most %s in "
               "those ten "
               "days. It rises above that in %d of %d possible piles. ",
               temp(style, f->turn_top_K).text, lesson_shows_count(f->turn_after_days).text,
               temp(style, f->turn_alone_K).text, f->turn_rises, f->turn_pairs);
    saying_add(
        &said,
        "Oxygen where it is least: %s the evening before, %s that evening (21 %% in the open air).",
        lesson_shows_percent(f->oxygen_before_share).text,
        lesson_shows_percent(f->oxygen_after_share).text);
    return said;
}

static struct saying show_wets(const struct lesson_tale *tale, const struct phrase_style *style)
{
    static const char *const name[LESSON_WETS] = {"Dry", "Damp", "Wet"};
    const struct lesson_found *f = tale->found;
    struct saying said = {""};
    for (int i = 0; i < LESSON_WETS; i++)
        saying_add(&said,
                   "%s, built with %.0f %% water (that evening %s, and %s of the space is air): at "
                   "most %s; "
                   "%s of the dry matter used up in %d days; oxygen down to %s. ",
                   name[i], 100 * lesson_try_water_share[i],
                   lesson_shows_percent(f->wet[i].water_share).text,
                   lesson_shows_percent(f->wet[i].free_air_share).text,
                   temp(style, f->wet[i].peak_K).text,
                   lesson_shows_percent(f->wet[i].used_share).text,
                   f->run[LESSON_DRY + i].scenario->last_day + 1,
                   lesson_shows_percent(f->wet[i].oxygen_least_share).text);
    double damp = round(100 * f->wet[1].used_share.mid), wet = round(100 * f->wet[2].used_share.mid);
    saying_add(&said, "The damp one uses up most in %d of %d possible piles", f->damp_most, f->wet_sets);
    if (2 * f->damp_most < f->wet_sets && wet > damp)
        saying_add(&said, " only: in this mix the wet one's %.0f %% is above its %.0f %%", wet, damp);
    saying_add(&said, ". Small life eats in water; where water fills the gaps, no air comes to it.");
    return said;
}

/* Where the season goes on for long enough after the coldest day in 8 of 10 piles. */
static void say_waking(struct saying *said, const struct lesson_found *f)
{
    saying_add(said, "Bare, decay makes %s W on that day", lesson_shows_count(f->cold_made_W).text);
    if (isfinite(f->later_made_W.mid) && isfinite(f->later_made_W.high))
        saying_add(said, " and up to %s W later: in %d of %d it %s.",
                   lesson_shows_count(f->later_made_W).text, f->wakes, f->winter_pairs,
                   2 * f->wakes > f->winter_pairs ? "only paused" : "picks up again");
    else
        saying_add(said, "; the season ends too soon after it to tell whether the pile wakes.");
}

static struct saying show_winter(const struct lesson_tale *tale, const struct phrase_style *style)
{
    const struct lesson_found *f = tale->found;
    const struct scenario *winter = f->bare->scenario;
    struct saying said = {""};
    if (f->winter_moved)
        saying_add(&said, "This season has no frost, so the same pile is begun on %s. ",
                   phrase_date(winter->start).text);
    saying_add(&said, "Each season's coldest day, about %s, is at %s, day and night together. ",
               phrase_day(winter->start + (date_count)whole(f->cold_day.mid)).text,
               temp(style, f->cold_air_K).text);
    saying_add(&said, "Left alone and bare, the middle is at %s then, a hand deep %s. ",
               temp(style, f->bare_K[0]).text, temp(style, f->bare_K[1]).text);
    saying_add(&said,
               "Under %s of straw since %s the middle is %s warmer, pile by pile, a hand deep %s. ",
               phrase_length(style, lesson_try_cover_m).text,
               phrase_day(winter->start + f->cover_day).text, warmer(style, f->gain_K[0]).text,
               warmer(style, f->gain_K[1]).text);
    say_waking(&said, f);
    return said;
}

static struct phrase ready_on(const struct lesson_tale *tale, struct span day)
{
    struct phrase said, end = phrase_day(tale->scenario->start + tale->scenario->last_day);
    if (isnan(day.mid)) {
        snprintf(said.text, sizeof said.text, "after %.40s", end.text);
        return said;
    }
    struct phrase mid = phrase_day(tale->scenario->start + (date_count)whole(day.mid) - 1);
    struct phrase low = phrase_day(tale->scenario->start + (date_count)whole(day.low) - 1);
    struct phrase high;
    if (isnan(day.high))
        snprintf(high.text, sizeof high.text, "after %.40s", end.text);
    else
        high = phrase_day(tale->scenario->start + (date_count)whole(day.high) - 1);
    snprintf(said.text, sizeof said.text, "%.20s (%.20s-%.28s)", mid.text, low.text, high.text);
    return said;
}

/* "2 days sooner", "5 days later" */
static struct phrase sooner(double days)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%.60s %s",
             phrase_count((long)whole(fabs(days)), "day", "days").text,
             whole(days) < 0 ? "later" : "sooner");
    return said;
}

/* Which is ready first is said only where so many piles can tell; neither is in a pile that isn't ready under
 * either plan. Minutes for a day won are said where 8 in 10 piles win any. */
static void say_gain(struct saying *said, const struct lesson_found *f)
{
    const struct pair *pair = &f->pair;
    const struct span *days = &pair->sooner_days;
    char range[128] = "";
    if (whole(days->low) != whole(days->high))
        snprintf(range, sizeof range, " (pile by pile: %.50s to %.50s)", sooner(days->low).text,
                 sooner(days->high).text);
    if (!compare_clear(pair)) {
        int same = pair->piles - pair->sooner - pair->later;
        saying_add(said, "With the work it is ready sooner in %d of %d piles and later in %d%s: %s. `midden "
                   "compare` can ask more piles.", pair->sooner, pair->piles, pair->later, range,
                   2 * same > pair->piles ? "in most neither is first" : "too close to tell which is first");
        return;
    }
    saying_add(said, "With the work it is ready %s%s", sooner(days->mid).text, range);
    if (whole(days->low) >= 1)
        saying_add(said, ", about %s for each day won",
                   phrase_minutes(f->pair.extra_person_s.mid / days->mid).text);
    else
        saying_add(said, ": no clear gain of time");
    saying_add(said, ".");
}

static struct saying show_plans(const struct lesson_tale *tale)
{
    const struct lesson_found *f = tale->found;
    const char *use = ready_use_word[outcome_use(f->asked->scenario)];
    struct saying said = {""};
    for (int k = 0; k < 2; k++) {
        int i = k ? !f->busy : f->busy;
        const struct contender *c = &f->contender[i];
        const struct standing *s = &f->standing[i];
        saying_add(&said, "`%.40s`: %s of work for one person, ready for %s %s",
                   c->scenario->plan[c->plan].name, phrase_minutes(s->person_s.mid).text, use,
                   ready_on(tale, s->ready_day).text);
        if (f->asked->scenario->need.is)
            saying_add(&said, ", by %s %s", phrase_day(f->asked->scenario->need.by).text,
                       phrase_chance(s->chance).text);
        saying_add(&said, ". ");
    }
    say_gain(&said, f);
    return said;
}

static struct saying show_log(const struct lesson_tale *tale, const struct phrase_style *style)
{
    const struct lesson_found *f = tale->found;
    struct saying said = {""};
    if (f->next_day < 0)
        saying_add(&said, "The season ends within a week, so nothing is forecast. ");
    else
        saying_add(&said,
                   "On %s: middle %s, 30 cm in %s, a hand deep %s. 2 of 10 possible piles lie "
                   "outside each "
                   "range, so one reading outside proves nothing. ",
                   phrase_day(tale->scenario->start + f->next_day).text,
                   temp(style, f->next_middle_K).text, temp(style, f->next_deep_30cm_K).text,
                   temp(style, f->next_hand_deep_K).text);
    saying_add(
        &said,
        "Week after week outside, with a thermometer that shows 0 %sC in ice water and the depth "
        "right: then the forecast is wrong, and `midden learn` says which pile fits better. The "
        "sheet: "
        "midden sheet %s",
        style->utf8 ? "°" : "deg", tale->file);
    return said;
}

struct saying lesson_shows(const struct lesson_tale *tale, enum lesson_step step,
                           const struct phrase_style *style)
{
    switch (step) {
    case LESSON_HANDS:
        return (struct saying){"Nothing yet: the forecast waits until the guesses are written."};
    case LESSON_NEEDS:
        return show_needs(tale, style);
    case LESSON_WATTS:
        return show_watts(tale);
    case LESSON_SIZE:
        return show_sizes(tale, style);
    case LESSON_FORK:
        return show_turn(tale, style);
    case LESSON_WATER:
        return show_wets(tale, style);
    case LESSON_WINTER:
        return show_winter(tale, style);
    case LESSON_CHOICE:
        return show_plans(tale);
    default:
        return show_log(tale, style);
    }
}
