/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/text.c - a season in words and everyday units.
 *
 * The first sentence is the answer; `why`, `heat`, `have`, `sure`, `care` and `do` stand in the
 * margin below it. Days are counted from 1, temperatures are means of a day. Every line is a
 * forecast and says so once. Nothing here judges whether compost may be used: this version works
 * out what a pile does, not whether it is ready.
 */
#include "tell/text.h"
#include "know/skies.h"
#include "tell/diary.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A middle below 40 C is past its hot phase (trade: the usual border of the two heat-loving kinds
 * of life); 45 and 55 C are the marks gardeners ask about. */
static const double COOL_K = 313.15, WARM_K = 318.15, HOT_K = 328.15;

struct heat {
    double peak_K;
    int peak_day;           /* 1 is the first */
    int hot_days, warm_days, cool_days; /* with the middle above 55, 45, 40 C */
    int last_day_above_40;  /* 0 = none */
};

static struct heat heat_of(const struct record *record)
{
    struct heat heat = {.peak_K = -INFINITY};
    for (int i = 0; i < record->days; i++) {
        double middle_K = record->day[i].middle_K;
        if (middle_K > heat.peak_K) {
            heat.peak_K = middle_K;
            heat.peak_day = i + 1;
        }
        heat.hot_days += middle_K >= HOT_K;
        heat.warm_days += middle_K >= WARM_K;
        heat.cool_days += middle_K >= COOL_K;
        if (middle_K >= COOL_K)
            heat.last_day_above_40 = i + 1;
    }
    return heat;
}

static struct phrase date_of_day(const struct tale *tale, int day)
{
    return phrase_day(tale->scenario->start + day - 1);
}

/* "above 55 C for 9 days": the highest mark that was reached, and for how long. */
static struct phrase above(const struct phrase_style *style, const struct heat *heat)
{
    double mark_K = heat->hot_days ? HOT_K : heat->warm_days ? WARM_K : COOL_K;
    int days = heat->hot_days ? heat->hot_days : heat->warm_days ? heat->warm_days
                                                                 : heat->cool_days;
    struct phrase said;
    snprintf(said.text, sizeof said.text, "above %.40s for %.30s", phrase_temp(style, mark_K).text,
             phrase_count(days, "day", "days").text);
    return said;
}

/* The answer: does it heat, how much, how long. */
static void say_answer(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    struct heat heat = heat_of(tale->record);
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
    const struct record *record = tale->record;
    const struct scenario *scenario = tale->scenario;
    char first[64] = "", water[128] = "", work[256] = "";
    if (!tale->plan_named && scenario->plans > 1)
        snprintf(first, sizeof first, " (first of %d, none named)", scenario->plans);
    if (!with_work) {
        phrase_line(out, "plan", "%s%s", scenario->plan[tale->plan].name, first);
        return;
    }
    if (record->water_l > 0.0)
        snprintf(water, sizeof water, ", water %s", phrase_litres(style, record->water_l).text);
    if (record->person_s > 0.0 || record->lifted_kg > 0.0 || !isfinite(record->person_s))
        snprintf(work, sizeof work, ", %s, %s lifted", phrase_minutes(record->person_s).text,
                 phrase_mass(style, record->lifted_kg).text);
    phrase_line(out, "plan", "%s%s: %s%s%s", scenario->plan[tale->plan].name, first,
                record->turns ? phrase_count(record->turns, "turn", "turns").text : "no turns",
                work, water);
}

/* The lines of a heat budget in a gardener's words; `added` is no loss and stays out. */
static const struct {
    const char *group, *word;
} ways[] = {{"air", "moist draught"}, {"vapour", "vapour"},   {"walls", "the walls"},
            {"top", "wind on top"},   {"sun_and_sky", "sky"}, {"ground", "the ground"},
            {"rain_and_water", "water"}};
enum { WAYS = sizeof ways / sizeof ways[0] };

/* Energy that came in by one line of the budget, J; a loss is negative. */
static double budget_J(const struct record *record, const char *group)
{
    double sum_J = 0.0;
    for (int i = 0; i < FLUXES; i++)
        if (flux_rows[i].of == FLUX_OF_ENERGY && strcmp(flux_rows[i].group, group) == 0)
            sum_J += record->flux_total[i];
    return sum_J;
}

/* What decay gave, and the three ways by which most of the heat left. */
static void say_why(FILE *out, const struct tale *tale)
{
    double left_J[WAYS], all_J = 0.0;
    char losses[160] = "";
    size_t used = 0;
    for (int i = 0; i < WAYS; i++) {
        left_J[i] = fmax(0.0, -budget_J(tale->record, ways[i].group));
        all_J += left_J[i];
    }
    for (int times = 0; times < 3 && all_J > 0.0; times++) {
        int most = 0;
        for (int i = 1; i < WAYS; i++)
            if (left_J[i] > left_J[most])
                most = i;
        if (left_J[most] < 0.01 * all_J)
            break;
        used += (size_t)snprintf(losses + used, sizeof losses - used, "%s %s %s",
                                 times ? "," : "; it left by", ways[most].word,
                                 phrase_share(left_J[most] / all_J).text);
        left_J[most] = 0.0;
    }
    phrase_line(out, "why", "decay gives %.0f MJ%s",
                budget_J(tale->record, "decay") / 1e6, losses);
}

/* What a thermometer elsewhere would see, how much of it got hot, and whether air ran short. */
static void say_heat(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    double hand_K = -INFINITY, deep_K = -INFINITY, over = 0.0, starved = 0.0;
    char air[128] = "";
    for (int i = 0; i < tale->record->days; i++) {
        const struct record_day *day = &tale->record->day[i];
        hand_K = fmax(hand_K, day->hand_deep_K);
        deep_K = fmax(deep_K, day->deep_30cm_K);
        over = fmax(over, day->over_55C_share);
        starved = fmax(starved, day->starved_share);
    }
    if (starved >= 0.05)
        snprintf(air, sizeof air, ", up to %s of it short of air", phrase_share(starved).text);
    if (over < 0.005)
        phrase_line(out, "heat", "at most %s 30 cm in, %s a hand deep%s",
                    phrase_temp(style, deep_K).text, phrase_temp(style, hand_K).text, air);
    else
        phrase_line(out, "heat", "at most %s 30 cm in, %s a hand deep; up to %s of it above %s%s",
                    phrase_temp(style, deep_K).text, phrase_temp(style, hand_K).text,
                    phrase_share(over).text, phrase_temp(style, HOT_K).text, air);
}

/* What is there at the end. */
static void say_have(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    const struct record *record = tale->record;
    if (record->days == 0)
        return;
    const struct record_day *first = &record->day[0], *last = &record->day[record->days - 1];
    phrase_line(out, "have", "%s: %s left of %s, %s high, %s, %s water, C:N %.0f",
                date_of_day(tale, record->days).text, phrase_volume(style, last->volume_m3).text,
                phrase_volume(style, first->volume_m3).text,
                phrase_length(style, last->height_m).text, phrase_mass(style, last->wet_kg).text,
                phrase_share(last->water_share).text, last->carbon_kg / last->nitrogen_kg);
}

/* The day that was asked for. */
static void say_day(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    if (tale->day < 1 || tale->day > tale->record->days)
        return;
    const struct record_day *day = &tale->record->day[tale->day - 1];
    phrase_line(out, "day", "%s (day %d): middle %s, 30 cm in %s, a hand deep %s, air %s, %s water",
                date_of_day(tale, tale->day).text, tale->day,
                phrase_temp(style, day->middle_K).text, phrase_temp(style, day->deep_30cm_K).text,
                phrase_temp(style, day->hand_deep_K).text, phrase_temp(style, day->air_K).text,
                phrase_share(day->water_share).text);
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

/* What the answer rests on. */
static void say_sure(FILE *out, const struct tale *tale)
{
    const struct scenario *scenario = tale->scenario;
    char sky[160], assumed[128] = "";
    name_sky(sky, sizeof sky, tale);
    if (scenario->assumed)
        snprintf(assumed, sizeof assumed, "; %s (midden check)",
                 phrase_count(scenario->assumed, "value assumed", "values assumed").text);
    phrase_line(out, "sure", "forecasts only: central pile, no range; %s%s; readiness not computed",
                sky, assumed);
}

static void say_care(FILE *out, const struct tale *tale)
{
    char text[512] = "";
    size_t used = 0;
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(tale, (enum tale_caution)i) && used < sizeof text)
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s", used ? "; " : "",
                                     tale_caution_brief((enum tale_caution)i));
    phrase_line(out, "care", "%s", text);
}

static const double WORTH_PROBING_K = 303.15; /* below 30 C a thermometer tells little of a pile */

/* The cheapest test of the forecast is a thermometer on the day it should be hottest. */
static void say_do(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    struct heat heat = heat_of(tale->record);
    if (heat.peak_day && heat.peak_K > WORTH_PROBING_K)
        phrase_line(out, "do", "probe the middle on %s: far from %s, doubt the rest",
                    date_of_day(tale, heat.peak_day).text, phrase_temp(style, heat.peak_K).text);
}

/* The short form; leaner and leaner, by leaving out the lines that --long still gives. */
static void say_all(FILE *out, const struct tale *tale, const struct phrase_style *style, int lean)
{
    say_answer(out, tale, style);
    say_plan(out, tale, style, lean < 3);
    if (lean < 2)
        say_why(out, tale);
    if (lean < 3)
        say_heat(out, tale, style);
    say_have(out, tale, style);
    say_day(out, tale, style);
    say_sure(out, tale);
    say_care(out, tale);
    if (lean < 1)
        say_do(out, tale, style);
}

/* What the long form says of weed seeds. A share is never said to be nothing or all of them. */
static void say_seeds(FILE *out, const struct record *record)
{
    static const char *const classes[] = {"heat kills easily", "are middling", "are hardy"};
    for (int i = 0; i < 3; i++) {
        double live = record->seeds_alive[i] / record->seeds_at_start[i];
        if (isfinite(live))
            phrase_line(out, "seeds", "%s of those that %s may still be alive",
                        live < 0.01 ? "under 1 %" : phrase_share(live).text, classes[i]);
    }
}

static void say_long(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    say_all(out, tale, style, 0);
    say_seeds(out, tale->record);
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
        char *text = NULL;
        size_t size = 0;
        FILE *memory = open_memstream(&text, &size);
        if (!memory)
            return NULL;
        say_all(memory, tale, style, lean);
        if (fclose(memory) != 0) {
            free(text);
            return NULL;
        }
        if (lean == 3 || lines(text) <= TEXT_LINES)
            return text;
        free(text);
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
