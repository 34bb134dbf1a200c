/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/learn.c - see tell/learn.h. */
#include "tell/learn.h"
#include "ask/outcome.h"
#include "tell/ails.h"
#include "tell/json.h"
#include "tell/logsheet.h"
#include "tell/range.h"
#include "tell/ready.h"
#include "tell/saying.h"
#include <math.h>
#include <string.h>

static const double ICE_POINT_K = 273.15;

static date_count day_read(const struct learn_tale *t, const struct plan_reading *reading)
{
    return t->after->scenario->start + (date_count)floor(reading->day);
}

static const char *where(const struct plan_reading *reading, char text[40])
{
    switch (reading->what) {
    case PLAN_READ_MIDDLE: return "middle";
    case PLAN_READ_AIR: return "air";
    case PLAN_READ_SQUEEZE: return "squeeze";
    case PLAN_READ_HEIGHT: return "height";
    case PLAN_READ_INSIDE: break;
    }
    if (fabs(reading->depth_m - 0.10) < 1e-9)
        return "hand deep";
    snprintf(text, 40, "%.0f cm in", 100 * reading->depth_m);
    return text;
}

/* ---- text ---- */

static double ask_water(const struct record *record, int day, int unused)
{
    (void)unused;
    return record->day[day - 1].water_share;
}

static struct phrase percent_span(struct span share)
{
    return phrase_span(share, 100);
}

/* Is it wetter or drier than was thought, by more than a sixth of what was thought possible? */
static bool wetness_changed(struct span before, struct span after)
{
    return fabs(after.mid - before.mid) > 0.35 * (before.high - before.low);
}

/* Readings that a pile could fit or not: those of the air aren't asked. */
static int weighed(const struct learn_tale *t)
{
    int count = 0;
    for (int i = 0; i < t->learnt->readings; i++) {
        const struct plan_reading *r = t->learnt->reading[i].reading;
        count += r->what != PLAN_READ_AIR && r->day < t->now;
    }
    return count;
}

/* The day that is told of. */
static struct phrase today(const struct learn_tale *t)
{
    return phrase_day(t->after->scenario->start + t->now - 1);
}

static void say_answer(FILE *out, const struct learn_tale *t, const struct cause_odds *odds,
                       int causes)
{
    char ready[READY_SAID];
    struct saying said = {""};
    struct span before = range_of(t->before, ask_water, t->now, 0);
    struct span after = range_of(t->after, ask_water, t->now, 0);
    ready_sentence(ready, t->after, true);
    if (2 * t->learnt->suspects > weighed(t))
        saying_add(&said, "No possible pile shows most of your readings, so that they say little of yours. ");
    else if (wetness_changed(before, after))
        saying_add(&said, "On %s the pile is %s than was forecast: %s %% water, not %s. ", today(t).text,
                   after.mid < before.mid ? "drier" : "wetter", percent_span(after).text,
                   percent_span(before).text);
    else if (ails_likely(odds, causes) && !ails_clear(odds, causes))
        saying_add(&said, "What holds the pile back isn't clear yet. ");
    else if (ails_likely(odds, causes))
        saying_add(&said, "The pile is most likely %s. ", ails_said(odds, 1).text);
    else
        saying_add(&said, "Your readings fit the pile you described, which works as it should. ");
    saying_add(&said, "%s", ready);
    phrase_line(out, NULL, "%s", said.text);
}

/* The latest temperature in the middle, and the highest before it. */
static void say_course(struct saying *said, const struct learn_tale *t,
                       const struct phrase_style *style)
{
    const struct scenario *scenario = t->after->scenario;
    const struct plan_reading *last = NULL, *most = NULL;
    for (int i = 0; i < scenario->readings; i++) {
        const struct plan_reading *r = &scenario->reading[i];
        if (r->what != PLAN_READ_MIDDLE || t->learnt->reading[i].suspect || r->day >= t->now)
            continue;
        if (!last || r->day > last->day)
            last = r;
        if (!most || r->value > most->value)
            most = r;
    }
    if (most && most != last)
        saying_add(said, "%s on %s, ", phrase_temp(style, most->value).text,
                   phrase_day(day_read(t, most)).text);
    if (last)
        saying_add(said, "%s on %s: ", phrase_temp(style, last->value).text,
                   phrase_day(day_read(t, last)).text);
}

static void say_why(FILE *out, const struct learn_tale *t, const struct phrase_style *style,
                    const struct cause_odds *odds, int causes)
{
    struct saying said = {""};
    say_course(&said, t, style);
    saying_add(&said, "%s", ails_said(odds, causes).text);
    phrase_line(out, "why", "%s", said.text);
}

/* The power of ten that three numbers are told in, by threes; 0 where they can be written out. */
static int power_of(double most)
{
    return most > 0 && (most < 0.001 || most >= 1e5) ? 3 * (int)floor(log10(most) / 3) : 0;
}

/* Decimals that leave the largest of them two figures. */
static int places_of(double most)
{
    return most > 0 ? (int)fmax(0, 1 - floor(log10(most))) : 0;
}

/* To three figures of the largest: nobody knows more of it. */
static double blunt(double value, double most)
{
    double step = most > 0 ? pow(10, floor(log10(most)) - 2) : 1;
    return step > 1 ? round(value / step) * step : value;
}

static struct phrase value_span(const struct learn_unknown *u, struct span span)
{
    struct phrase said;
    double factor = strcmp(u->unit, "share") == 0 ? 100 : 1;
    bool found = u->unknown->kind == UNKNOWN_FOUND_MIDDLE || u->unknown->kind == UNKNOWN_FOUND_HAND;
    double zero = found ? ICE_POINT_K : 0;
    double low = factor * (span.low - zero), mid = factor * (span.mid - zero);
    double high = factor * (span.high - zero);
    double most = fmax(fabs(mid), fmax(fabs(low), fabs(high)));
    int power = power_of(most);
    char times[16] = "";
    double scale = pow(10, power);
    most /= scale;
    if (power)
        snprintf(times, sizeof times, " x 10^%d", power);
    int places = places_of(most);
    char end[2][32];
    snprintf(end[0], sizeof end[0], "%.*f", places, blunt(low / scale, most));
    snprintf(end[1], sizeof end[1], "%.*f", places, blunt(high / scale, most));
    if (strcmp(end[0], end[1]) == 0)
        snprintf(said.text, sizeof said.text, "%.*f%s", places, blunt(mid / scale, most), times);
    else
        snprintf(said.text, sizeof said.text, "%.*f (%s%s%s)%s", places, blunt(mid / scale, most), end[0],
                 low < 0 ? " to " : "-", end[1], times);
    return said;
}

static const char *unit_of(const struct learn_unknown *u)
{
    bool degrees = u->unknown->kind == UNKNOWN_FOUND_MIDDLE || u->unknown->kind == UNKNOWN_FOUND_HAND ||
                   u->unknown->kind == UNKNOWN_THERMOMETER;
    return degrees ? "°C" : strcmp(u->unit, "share") == 0 ? "%" : strcmp(u->unit, "1") == 0 ? "" : u->unit;
}

/* "decay of cellulose (slow_per_day): 0.05 (0.02-0.18) 1/d, was 0.15 (0.05-0.23)": a number of the table by
 * what it means, and by the name that --set takes. */
static void add_unknown(struct saying *said, const struct learn_unknown *u)
{
    const struct unknown *of = u->unknown;
    const char *unit = unit_of(u);
    if (of->kind == UNKNOWN_PARAM)
        saying_add(said, "%s (%s)", param_rows[of->row].meaning, of->name);
    else
        saying_add(said, "%s%s", of->name, of->kind == UNKNOWN_THERMOMETER ? " off by" : "");
    saying_add(said, ": %s%s%s, was %s", value_span(u, u->after).text, *unit ? " " : "", unit,
               value_span(u, u->before).text);
}

static double ask_free_air(const struct record *record, int day, int unused)
{
    (void)unused;
    return record->day[day - 1].free_air_share;
}

/* What a keeper can picture: water, air, and what was learnt of materials and amounts. */
static void say_learnt(FILE *out, const struct learn_tale *t)
{
    struct saying said = {""};
    int named = 0;
    saying_add(&said, "%s: water %s %%, was %s", today(t).text,
               percent_span(range_of(t->after, ask_water, t->now, 0)).text,
               percent_span(range_of(t->before, ask_water, t->now, 0)).text);
    saying_add(&said, "; air in its gaps %s %% of the room, was %s",
               percent_span(range_of(t->after, ask_free_air, t->now, 0)).text,
               percent_span(range_of(t->before, ask_free_air, t->now, 0)).text);
    for (int i = 0; i < t->learnt->taught && named < 1; i++) {
        const struct learn_unknown *u = &t->learnt->unknown[i];
        if (u->unknown->kind == UNKNOWN_PARAM)
            continue;
        named++;
        saying_add(&said, "; ");
        add_unknown(&said, u);
    }
    phrase_line(out, "learnt", "%s", said.text);
}

/* Days from early to late, where all of them are within the season. */
static double ready_width(const struct tale *tale)
{
    struct span day = ready_summary(tale->record, tale->members, tale->scenario,
                                    outcome_use(tale->scenario), tale->room).day;
    return day.high - day.low;
}

static double ask_middle_next(const struct record *record, int day, int unused)
{
    (void)unused;
    int at = day + 6 < record->days ? day + 6 : record->days - 1;
    return record->day[at].middle_K;
}

static void say_sure(FILE *out, const struct learn_tale *t, const struct phrase_style *style)
{
    struct span before = range_of(t->before, ask_middle_next, t->now, 0);
    struct span after = range_of(t->after, ask_middle_next, t->now, 0);
    double was = ready_width(t->before), is = ready_width(t->after);
    struct saying said = {""};
    saying_add(&said, "a week on the middle has %s", phrase_temp_span(style, after).text);
    saying_add(&said, "; without the readings %s", phrase_temp_span(style, before).text);
    if (isfinite(was) && isfinite(is))
        saying_add(&said, "; the day it is ready is known to %.0f days, before to %.0f", is, was);
    phrase_line(out, "sure", "%s", said.text);
}

static void say_suspects(FILE *out, const struct learn_tale *t, const struct phrase_style *style)
{
    struct saying said = {""};
    int shown = 0;
    for (int i = 0; i < t->learnt->readings && shown < 2; i++) {
        const struct learn_reading *r = &t->learnt->reading[i];
        char place[40];
        if (!r->suspect || r->reading->what > PLAN_READ_INSIDE)
            continue;
        saying_add(&said, "%s%s, %s on %s (%s expected)", shown++ ? "; " : "",
                   phrase_temp(style, r->reading->value).text, where(r->reading, place),
                   phrase_day(day_read(t, r->reading)).text, phrase_temp_span(style, r->after).text);
    }
    if (shown && t->learnt->suspects > shown)
        saying_add(&said, "; %d more (--long shows which)", t->learnt->suspects - shown);
    if (shown)
        phrase_line(out, "odd", "left out: %s. A slip of the pen, or the tip in a hole?", said.text);
    else if (t->learnt->suspects)
        phrase_line(out, "odd", "left out: %s that no possible pile explains (--long shows which)",
                    phrase_count(t->learnt->suspects, "reading", "readings").text);
}

static double ask_water_wanted(const struct record *record, int day, int unused)
{
    (void)unused;
    return cause_water_l(record, day);
}

/* The test first, since a remedy for the wrong cause is work lost; of water, how much. */
static void say_do(FILE *out, const struct learn_tale *t, const struct phrase_style *style,
                   const struct cause_odds *odds, int causes)
{
    struct saying test = ails_test(odds, causes, cause_squeezed(t->after->scenario, t->now));
    if (*test.text)
        phrase_line(out, "do", "%s", test.text);
    if (causes > 0 && odds[0].cause == CAUSE_DRY) {
        struct phrase_style poured = phrase_poured(style);
        phrase_line(out, *test.text ? "then" : "do", "%s of water would put it right if none ran "
                    "through: pour it slowly, layer by layer while you turn",
                    phrase_litres_span(&poured, range_of(t->after, ask_water_wanted, t->now, 0)).text);
    }
}

static void say_readings(FILE *out, const struct learn_tale *t, const struct phrase_style *style)
{
    fputs("\nreading             shown          piles show\n", out);
    for (int i = 0; i < t->learnt->readings; i++) {
        const struct learn_reading *r = &t->learnt->reading[i];
        char place[40];
        bool temp = r->reading->what <= PLAN_READ_INSIDE;
        if (r->reading->day >= t->now)
            continue;
        struct phrase shown = {"-"}, fitted = {"-"};
        if (temp || r->reading->what == PLAN_READ_AIR)
            shown = phrase_temp(style, r->reading->value);
        if (r->reading->what == PLAN_READ_HEIGHT)
            snprintf(shown.text, sizeof shown.text, "%.0f cm", 100 * r->reading->value);
        if (r->reading->what == PLAN_READ_SQUEEZE)
            snprintf(shown.text, sizeof shown.text, "%s", logsheet_squeezes[r->reading->squeeze][0]);
        if (temp)
            fitted = phrase_temp_span(style, r->after);
        else if (r->reading->what == PLAN_READ_HEIGHT)
            snprintf(fitted.text, sizeof fitted.text, "%.60s cm", phrase_span(r->after, 100).text);
        else if (r->reading->what == PLAN_READ_SQUEEZE)
            snprintf(fitted.text, sizeof fitted.text, "%.60s %% water",
                     phrase_span(r->after, 100).text);
        fprintf(out, "%-7s %-11s %-15s %s%s\n", phrase_day(day_read(t, r->reading)).text,
                where(r->reading, place), shown.text, fitted.text, r->suspect ? "  left out" : "");
    }
}

/* What was learnt, the most first; of the rest only how many they are. */
static void say_unknowns(FILE *out, const struct learn_tale *t)
{
    const struct learnt *l = t->learnt;
    int others = l->unknowns - l->taught;
    fputc('\n', out);
    if (l->taught == 0)
        phrase_line(out, NULL, "Of the figures that the forecast starts from none alone is better known now: all "
                    "%d as before (--json has them).", l->unknowns);
    else
        phrase_line(out, NULL, "Learnt of one unknown at a time, the most first:");
    for (int i = 0; i < l->taught; i++) {
        struct saying said = {""};
        add_unknown(&said, &l->unknown[i]);
        phrase_hang(out, "  -", 4, said.text);
    }
    if (l->taught > 0 && others > 0)
        fprintf(out, "and %s as before (--json has them all)\n", phrase_count(others, "other", "others").text);
}

void learn_text(FILE *out, const struct learn_tale *t, const struct phrase_style *style,
                bool long_form)
{
    struct cause_odds odds[CAUSES];
    int causes = cause_odds(odds, t->after->record, t->after->members, t->after->scenario, t->now);
    say_answer(out, t, odds, causes);
    say_why(out, t, style, odds, causes);
    say_learnt(out, t);
    say_sure(out, t, style);
    say_suspects(out, t, style);
    say_do(out, t, style, odds, causes);
    if (!long_form)
        return;
    say_readings(out, t, style);
    say_unknowns(out, t);
}

/* ---- JSON ---- */

static void put_value(json_t *object, const char *key, const struct plan_reading *r, double value)
{
    json_put_number(object, key, r->what <= PLAN_READ_AIR ? value - ICE_POINT_K : value);
}

static json_t *reading_object(const struct learn_tale *t, const struct learn_reading *r)
{
    json_t *object = json_object();
    char place[40], date[DATE_TEXT];
    const struct plan_reading *reading = r->reading;
    bool temp = reading->what <= PLAN_READ_AIR;
    date_write(day_read(t, reading), date);
    json_put_text(object, "date", date);
    json_put_text(object, "where", where(reading, place));
    json_put_number(object, "reading_c", temp ? reading->value - ICE_POINT_K : (double)NAN);
    json_put_number(object, "fitted_c", temp ? r->after.mid - ICE_POINT_K : (double)NAN);
    put_value(object, "low", reading, r->after.low);
    put_value(object, "high", reading, r->after.high);
    put_value(object, "expected_low", reading, r->before.low);
    put_value(object, "expected_high", reading, r->before.high);
    if (reading->what == PLAN_READ_HEIGHT) {
        json_put_number(object, "reading_m", reading->value);
        json_put_number(object, "fitted_m", r->after.mid);
    }
    if (reading->what == PLAN_READ_SQUEEZE)
        json_put_number(object, "fitted_water_share", r->after.mid);
    json_put(object, "suspect", json_boolean(r->suspect));
    json_put_number(object, "wild_chance", r->wild);
    return object;
}

static json_t *span_object(struct span span)
{
    json_t *object = json_object();
    json_put_number(object, "median", span.mid);
    json_put_number(object, "low", span.low);
    json_put_number(object, "high", span.high);
    return object;
}

static json_t *unknown_object(const struct learn_unknown *u)
{
    json_t *object = json_object();
    json_put_text(object, "name", u->unknown->name);
    json_put_text(object, "unit", u->unit);
    json_put(object, "before", span_object(u->before));
    json_put(object, "after", span_object(u->after));
    json_put(object, "learnt", json_boolean(u->taught));
    return object;
}

bool learn_json(FILE *out, const struct learn_tale *t, struct trouble *why)
{
    json_t *object = json_object(), *readings = json_array(), *unknowns = json_array();
    struct cause_odds odds[CAUSES];
    int causes = cause_odds(odds, t->after->record, t->after->members, t->after->scenario, t->now);
    char now[DATE_TEXT];
    date_write(t->after->scenario->start + t->now - 1, now);
    for (int i = 0; i < t->learnt->readings; i++)
        if (t->learnt->reading[i].reading->day < t->now)
            json_array_append_new(readings, reading_object(t, &t->learnt->reading[i]));
    for (int i = 0; i < t->learnt->unknowns; i++)
        json_array_append_new(unknowns, unknown_object(&t->learnt->unknown[i]));
    json_put_text(object, "now", now);
    json_put(object, "readings", readings);
    json_put(object, "unknowns", unknowns);
    json_put(object, "causes", ails_causes(odds, causes));
    json_put(object, "test", ails_test_object(odds, causes, cause_squeezed(t->after->scenario, t->now)));
    json_put_span(object, "water_wanted_l", range_of(t->after, ask_water_wanted, t->now, 0), 1);
    json_put_number(object, "walks_kept_share", t->now_share);
    json_put(object, "forecast", json_season_object(t->after, true));
    return json_write(out, object, why);
}
