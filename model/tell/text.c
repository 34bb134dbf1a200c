/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/text.c - a season in words and everyday units.
 *
 * The first sentence is the answer; `why`, `heat`, `have`, `sure`, `care` and `do` stand in the
 * margin below it. Days are counted from 1, temperatures are means of a day. Every line is a
 * forecast and says so once. When compost serves which use is said by tell/ready, and tried by its
 * keeper first.
 */
#include "tell/text.h"
#include "base/scroll.h"
#include "know/skies.h"
#include "many/band.h"
#include "ask/asked.h"
#include "tell/diary.h"
#include "tell/hygiene.h"
#include "tell/range.h"
#include "tell/ready.h"
#include "tell/yield.h"
#include "tell/visits.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool gets_over(const struct record *record, int hot, int unused)
{
    (void)unused;
    return asked_heat_of(record).peak_K >= (hot ? ASKED_HOT_K : ASKED_COOL_K);
}

static struct phrase date_of_day(const struct tale *tale, int day)
{
    return phrase_day(tale->scenario->start + day - 1);
}

/* "above 55 C for 9 days": the highest mark that was reached, and for how long. */
static struct phrase above(const struct phrase_style *style, const struct asked_heat *heat)
{
    double mark_K = heat->hot_days ? ASKED_HOT_K : heat->warm_days ? ASKED_WARM_K : ASKED_COOL_K;
    int days = heat->hot_days ? heat->hot_days : heat->warm_days ? heat->warm_days
                                                                 : heat->cool_days;
    struct phrase said;
    snprintf(said.text, sizeof said.text, "above %.40s for %.30s", phrase_temp(style, mark_K).text,
             phrase_count(days, "day", "days").text);
    return said;
}

/* A quantity with its range, as phrase_volume and its like say it. */
static struct phrase range_said(const struct phrase_style *style,
                                struct phrase (*say)(const struct phrase_style *, double),
                                struct span range)
{
    return phrase_ranged(say(style, range.low), say(style, range.mid), say(style, range.high));
}

static struct phrase range_said_share(struct span share)
{
    return phrase_ranged(phrase_share(share.low), phrase_share(share.mid), phrase_share(share.high));
}

/* "6 Nov (20 Oct-3 Dec)"; what lies beyond the season is said to. */
static struct phrase date_range(const struct tale *tale, struct span day)
{
    struct phrase said, low = {"?"}, high = {"after the end"};
    if (isfinite(day.low))
        low = date_of_day(tale, (int)round(day.low));
    if (isfinite(day.high))
        high = date_of_day(tale, (int)round(day.high));
    if (!isfinite(day.mid))
        return (struct phrase){"not within the season"};
    snprintf(said.text, sizeof said.text, "%.30s (%.20s-%.20s)",
             date_of_day(tale, (int)round(day.mid)).text, low.text, high.text);
    return said;
}

/* The answer for many possible piles. */
static void say_answers(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    int warm = range_count(tale, gets_over, 0, 0);
    double heats = warm / (double)tale->members;
    double hot = range_count(tale, gets_over, 1, 0) / (double)tale->members;
    struct phrase peak = phrase_temp_span(style, range_of(tale, asked_heat, ASKED_PEAK_K, 0));
    struct phrase day = phrase_whole(range_of(tale, asked_heat, ASKED_PEAK_DAY, 0), 1);
    struct phrase again = date_range(tale, range_of(tale, asked_heat, ASKED_COOL_AGAIN, 0));
    bool often_hot = hot >= 0.5;
    struct phrase days = phrase_whole(range_of(tale, asked_heat, often_hot ? ASKED_HOT_DAYS : ASKED_COOL_DAYS, 0), 1);
    struct phrase mark = phrase_temp(style, often_hot ? ASKED_HOT_K : ASKED_COOL_K);
    if (heats < 0.05)
        phrase_line(out, NULL, "Stays cool: at most %s in the middle, on day %s.", peak.text, day.text);
    else if (heats < 0.95)
        phrase_line(out, NULL, "May heat: %s to pass %s; at most %s in the middle, on day %s%s%s.",
                    phrase_chance(band_chance(warm, tale->members)).text, phrase_temp(style, ASKED_COOL_K).text,
                    peak.text, day.text, heats < 0.5 ? "" : "; cool again by ", heats < 0.5 ? "" : again.text);
    else
        phrase_line(out, NULL, "Heats: %s in the middle on day %s, above %s for %s days, cool again "
                    "by %s.", peak.text, day.text, mark.text, days.text, again.text);
}

/* The answer: does it heat, how much, how long. */
static void say_answer(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    if (tale->members > 1) {
        say_answers(out, tale, style);
        return;
    }
    struct asked_heat heat = asked_heat_of(tale->record);
    int days = tale->record->days;
    struct phrase peak = phrase_temp(style, heat.peak_K);
    if (heat.peak_day == 0)
        phrase_line(out, NULL, "Nothing can be said: the season has no days.");
    else if (heat.cool_days == 0)
        phrase_line(out, NULL, "Stays cool: at most %s in the middle, on day %d (%s).",
                    peak.text, heat.peak_day, date_of_day(tale, heat.peak_day).text);
    else if (heat.last_day_above_40 == days)
        phrase_line(out, NULL, "Heats: %s in the middle on day %d, %s, and is still hot on %s.",
                    peak.text, heat.peak_day, above(style, &heat).text,
                    date_of_day(tale, days).text);
    else
        phrase_line(out, NULL, "Heats: %s in the middle on day %d, %s, cool again by %s.",
                    peak.text, heat.peak_day, above(style, &heat).text,
                    date_of_day(tale, heat.last_day_above_40 + 1).text);
}

/* Which plan this is, and the work it makes. */
static void say_plan(FILE *out, const struct tale *tale, const struct phrase_style *style,
                     bool with_work)
{
    const struct scenario *scenario = tale->scenario;
    char first[64] = "", water[128] = "", work[256] = "", turned[128];
    if (!tale->plan_named && scenario->plans > 1)
        snprintf(first, sizeof first, " (first of %d, none named)", scenario->plans);
    if (!with_work) {
        phrase_line(out, "plan", "%s%s", scenario->plan[tale->plan].name, first);
        return;
    }
    const struct phrase_style poured = phrase_poured(style);
    double person_s = range_of(tale, asked_work, ASKED_PERSON_S, 0).mid;
    double water_l = range_of(tale, asked_work, ASKED_WATER_L, 0).mid;
    struct span lifted = range_of(tale, asked_work, ASKED_LIFTED_KG, 0);
    struct span turns = range_of(tale, asked_work, ASKED_TURNS, 0);
    if (water_l > 0.0)
        snprintf(water, sizeof water, ", water %s", phrase_litres(&poured, water_l).text);
    if (person_s > 0.0 || lifted.mid > 0.0 || !isfinite(person_s))
        snprintf(work, sizeof work, ", %s, %s lifted", phrase_minutes(person_s).text,
                 range_said(style, phrase_mass, lifted).text);
    if (turns.low < turns.high)
        snprintf(turned, sizeof turned, "%s turns", phrase_whole(turns, 1).text);
    else
        snprintf(turned, sizeof turned, "%s",
                 turns.mid > 0 ? phrase_count((long)turns.mid, "turn", "turns").text : "no turns");
    phrase_line(out, "plan", "%s%s: %s%s%s", scenario->plan[tale->plan].name, first, turned, work,
                water);
}

/* What decay gave, and the three ways by which most of the heat left. */
static void say_why(FILE *out, const struct tale *tale)
{
    double share[ASKED_WAYS];
    char losses[160] = "";
    size_t used = 0;
    for (int i = 0; i < ASKED_WAYS; i++)
        share[i] = range_of(tale, asked_way, i, 0).mid;
    for (int times = 0; times < 3; times++) {
        int most = 0;
        for (int i = 1; i < ASKED_WAYS; i++)
            if (share[i] > share[most])
                most = i;
        if (share[most] < 0.01)
            break;
        used += (size_t)snprintf(losses + used, sizeof losses - used, "%s %s %s",
                                 times ? "," : "; it left by", asked_way_words[most],
                                 phrase_share(share[most]).text);
        share[most] = 0.0;
    }
    struct span decay = range_of(tale, asked_decay_J, 0, 0);
    struct span decay_MJ = {decay.low / 1e6, decay.mid / 1e6, decay.high / 1e6};
    phrase_line(out, "why", "decay gives %s MJ%s", phrase_whole(decay_MJ, 1).text, losses);
}

/* What a thermometer elsewhere would see, how much of it got hot, and whether air ran short. */
static void say_heat(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    char air[128] = "", over[256] = "";
    double starved = range_of(tale, asked_most, ASKED_MOST_STARVED, 0).mid;
    struct span hot = range_of(tale, asked_most, ASKED_MOST_OVER_55, 0);
    if (starved >= 0.05)
        snprintf(air, sizeof air, ", up to %s of it short of air", phrase_share(starved).text);
    if (hot.mid >= 0.005)
        snprintf(over, sizeof over, "; up to %s of it above %s",
                 range_said_share(hot).text, phrase_temp(style, ASKED_HOT_K).text);
    phrase_line(out, "heat", "at most %s 30 cm in, %s a hand deep%s%s",
                phrase_temp_span(style, range_of(tale, asked_most, ASKED_MOST_30CM_K, 0)).text,
                phrase_temp_span(style, range_of(tale, asked_most, ASKED_MOST_HAND_K, 0)).text, over, air);
}

enum of_day { DAY_MIDDLE, DAY_30CM, DAY_HAND, DAY_AIR, DAY_WATER };

static double ask_day(const struct record *record, int row, int which)
{
    const struct record_day *day = &record->day[row];
    const double of_day[] = {day->middle_K, day->deep_30cm_K, day->hand_deep_K, day->air_K,
                             day->water_share};
    return of_day[which];
}

/* The day that was asked for. */
static void say_day(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    if (tale->day < 1 || tale->day > tale->record->days)
        return;
    int row = tale->day - 1;
    phrase_line(out, "day", "%s (day %d): middle %s, 30 cm in %s, a hand deep %s, air %s, %s water",
                date_of_day(tale, tale->day).text, tale->day,
                phrase_temp_span(style, range_of(tale, ask_day, row, DAY_MIDDLE)).text,
                phrase_temp_span(style, range_of(tale, ask_day, row, DAY_30CM)).text,
                phrase_temp_span(style, range_of(tale, ask_day, row, DAY_HAND)).text,
                phrase_temp(style, range_of(tale, ask_day, row, DAY_AIR).mid).text,
                range_said_share(range_of(tale, ask_day, row, DAY_WATER)).text);
}

/* Where the weather came from. */
static void name_sky(char *text, size_t size, const struct tale *tale)
{
    const struct scenario *scenario = tale->scenario;
    char year[48];
    if (tale->draw == 0)
        snprintf(year, sizeof year, "mean year");
    else
        snprintf(year, sizeof year, "--draw %lld", tale->draw);
    if (scenario->sky == PLAN_SKY_FILE)
        snprintf(text, size, "weather of your file");
    else if (scenario->sky == PLAN_SKY_NAMED)
        snprintf(text, size, "invented sky \"%s\" (%s)", skies_rows[scenario->sky_row].name, year);
    else
        snprintf(text, size, "weather made from your normals (%s)", year);
}

/* What the answer rests on; briefly, without which sky and how many values were assumed. */
static void say_sure(FILE *out, const struct tale *tale, bool briefly)
{
    const struct scenario *scenario = tale->scenario;
    char sky[160], assumed[128] = "";
    name_sky(sky, sizeof sky, tale);
    if (briefly && scenario->sky != PLAN_SKY_FILE)
        snprintf(sky, sizeof sky, "made-up weather");
    if (scenario->assumed && !briefly)
        snprintf(assumed, sizeof assumed, "; %s (midden check)",
                 phrase_count(scenario->assumed, "value assumed", "values assumed").text);
    char piles[96] = "central pile, no range";
    if (tale->members > 1)
        snprintf(piles, sizeof piles, "%d possible piles, 8 in 10 %sin brackets", tale->members,
                 briefly ? "" : "as ");
    if (tale->failures)
        snprintf(piles + strlen(piles), sizeof piles - strlen(piles), ", %d not computed",
                 tale->failures);
    phrase_line(out, "sure", "forecasts only: %s; %s%s%s", piles, sky, assumed, phrase_unread(scenario));
}

static void say_care(FILE *out, const struct tale *tale)
{
    bool applies[TALE_CAUTIONS];
    for (int i = 0; i < TALE_CAUTIONS; i++)
        applies[i] = tale_caution_applies(tale, (enum tale_caution)i);
    phrase_line(out, "care", "%s", tale_care(applies).text);
}

static const double WORTH_PROBING_K = 303.15; /* below 30 C a thermometer tells little of a pile */

/* The day's mean in the middle; days count from 1. */
static double middle_K(const struct record *record, int day, int unused)
{
    (void)unused;
    return record->day[day - 1].middle_K;
}

/* The cheapest test of the forecast is a thermometer on the day it should be hottest. What is read then is the
 * middle of that day, not the peak that each possible pile has on a day of its own. */
static void say_do(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    double day = range_of(tale, asked_heat, ASKED_PEAK_DAY, 0).mid;
    if (!(day >= 1))
        return;
    struct span middle = range_of(tale, middle_K, (int)round(day), 0);
    if (middle.mid > WORTH_PROBING_K)
        phrase_line(out, "do", "probe the middle on %s: far from %s, doubt the rest",
                    date_of_day(tale, (int)round(day)).text, phrase_temp_span(style, middle).text);
}

enum { LEANEST = 9 };

/* The short form; leaner and leaner, by leaving out the lines that --long still gives. */
static void say_all(FILE *out, const struct tale *tale, const struct phrase_style *style, int lean)
{
    char ready[READY_SAID];
    bool needed = tale->scenario->need.is; /* then that is what was asked */
    ready_sentence(ready, tale, lean >= 5);
    if (*ready && needed)
        phrase_line(out, NULL, "%s", ready);
    say_answer(out, tale, style);
    if (*ready && !needed)
        phrase_line(out, NULL, "%s", ready);
    say_plan(out, tale, style, lean < 5);
    visits_line(out, tale);
    if (lean < 2)
        say_why(out, tale);
    if (lean < 3)
        say_heat(out, tale, style);
    hygiene_brief(out, tale, style, lean < 7 ? 3 : LEANEST - lean);
    yield_line(out, tale, style, lean >= 4);
    say_day(out, tale, style);
    say_sure(out, tale, lean >= 6);
    say_care(out, tale);
    if (lean < 1)
        say_do(out, tale, style);
}

void text_margin(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    say_all(out, tale, style, 0);
}

struct phrase text_sky(const struct tale *tale)
{
    struct phrase said;
    name_sky(said.text, sizeof said.text, tale);
    return said;
}

static void say_long(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    say_all(out, tale, style, 0);
    ready_lines(out, tale);
    ready_try(out, tale);
    yield_more(out, tale, style);
    hygiene_lines(out, tale, style);
    for (int i = 0; i < tale->scenario->assumed; i++)
        phrase_line(out, "assumed", "%s", tale->scenario->assumption[i]);
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(tale, (enum tale_caution)i))
            phrase_line(out, "care", "%s", tale_caution_full((enum tale_caution)i));
    diary_write(out, tale, style);
}

static int lines(const char *text)
{
    int count = 0;
    for (; *text; text++)
        count += *text == '\n';
    return count;
}

/* Says it into memory first, leaner until it fits. */
static char *short_form(const struct tale *tale, const struct phrase_style *style)
{
    for (int lean = 0;; lean++) {
        struct scroll scroll;
        if (!scroll_begin(&scroll))
            return NULL;
        say_all(scroll.out, tale, style, lean);
        if (!scroll_end(&scroll) || lean == LEANEST || lines(scroll.text) <= TEXT_LINES)
            return scroll.text;
        free(scroll.text);
    }
}

bool text_season(FILE *out, const struct tale *tale, const struct phrase_style *style,
                 bool long_form, struct trouble *why)
{
    if (long_form) {
        say_long(out, tale, style);
        return true;
    }
    char *text = short_form(tale, style);
    if (!text)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the answer");
    fputs(text, out);
    free(text);
    return true;
}
