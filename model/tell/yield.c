/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/yield.c - see tell/yield.h. */
#include "tell/yield.h"
#include "base/unit.h"
#include "ask/ready.h"
#include "tell/range.h"
#include <math.h>

enum { US = 1 };
static const double FOOT2_M2 = 0.09290304;

static struct span range(const struct tale *tale, enum yield_thing thing)
{
    return range_of(tale, yield_of, (int)thing, ready_told_day(tale->record, tale->scenario));
}

static struct phrase said(const struct phrase_style *style,
                          struct phrase (*say)(const struct phrase_style *, double),
                          struct span span)
{
    return phrase_ranged(say(style, span.low), say(style, span.mid), say(style, span.high));
}

/* Litres throughout where there is little: a range keeps to one unit. */
static struct phrase volume_said(const struct phrase_style *style, struct span volume)
{
    static const double LITTLE_M3 = 0.1;
    struct span litres = {1e3 * volume.low, 1e3 * volume.mid, 1e3 * volume.high};
    if (volume.low < LITTLE_M3)
        return phrase_litres_span(style, litres);
    return said(style, phrase_volume, volume);
}

static struct phrase share(struct span span)
{
    return phrase_ranged(phrase_share(span.low), phrase_share(span.mid), phrase_share(span.high));
}

/* " = 3 1/2 barrows" */
static struct phrase barrows(const struct scenario *scenario, double volume_m3)
{
    struct phrase text = {""};
    double count = volume_m3 / scenario->barrow_m3;
    if (scenario->barrow_m3 > 0 && isfinite(count) && count >= 0.25)
        snprintf(text.text, sizeof text.text, " = %.60s",
                 phrase_vessels(count, count < 9.75 ? 2 : 1, "barrow", "barrows").text);
    return text;
}

static struct phrase area(const struct phrase_style *style, double area_m2)
{
    struct phrase text;
    if (style->show == US)
        snprintf(text.text, sizeof text.text, "%.0f ft2", area_m2 / FOOT2_M2);
    else
        snprintf(text.text, sizeof text.text, area_m2 < 9.95 ? "%.1f m2" : "%.0f m2", area_m2);
    return text;
}

/* "1.5 cm": the depth of a bed is said finer than the height of a pile */
static struct phrase depth(const struct phrase_style *style, double depth_m)
{
    struct phrase text;
    if (style->show == US)
        snprintf(text.text, sizeof text.text, "%.1f in", depth_m / 0.0254);
    else
        snprintf(text.text, sizeof text.text, "%.1f cm", 100 * depth_m);
    return text;
}

/* ": covers 12 (9-16) m2 of your 14 m2 at 2.5 cm", or more than was asked for, in brief only that it is */
static void say_beds(char *text, size_t size, const struct tale *tale,
                     const struct phrase_style *style, struct span volume, bool brief)
{
    const struct plan_need *need = &tale->scenario->need;
    struct span m2 = {yield_bed_m2(need, volume.low), yield_bed_m2(need, volume.mid),
                      yield_bed_m2(need, volume.high)};
    *text = '\0';
    if (!isfinite(m2.mid))
        return;
    struct phrase covers =
        phrase_ranged(area(style, m2.low), area(style, m2.mid), area(style, m2.high));
    struct phrase asked = area(style, need->bed_area_m2), deep = depth(style, need->bed_depth_m);
    if (brief && yield_bed_share(need, volume.low) >= 1)
        snprintf(text, size, ": enough for your %.30s", asked.text);
    else if (yield_bed_share(need, volume.low) >= 1)
        snprintf(text, size, ": enough for your %.30s at %.30s, or for %.60s", asked.text,
                 deep.text, covers.text);
    else
        snprintf(text, size, ": covers %.60s of your %.30s at %.30s", covers.text, asked.text,
                 deep.text);
}

void yield_line(FILE *out, const struct tale *tale, const struct phrase_style *style, bool brief)
{
    if (tale->record->days == 0)
        return;
    char beds[160], weight[2 * PHRASE_TEXT + 16] = "";
    int day = ready_told_day(tale->record, tale->scenario);
    struct span volume = range(tale, YIELD_VOLUME_M3), water = range(tale, YIELD_WATER_SHARE);
    say_beds(beds, sizeof beds, tale, style, volume, brief);
    if (!brief)
        snprintf(weight, sizeof weight, "; %s, %s water",
                 said(style, phrase_mass, range(tale, YIELD_WET_KG)).text, share(water).text);
    phrase_line(out, "have", "%s: %s%s%s%s", phrase_day(tale->scenario->start + day - 1).text,
                volume_said(style, volume).text, barrows(tale->scenario, volume.mid).text, beds, weight);
}

void yield_more(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    if (tale->record->days == 0)
        return;
    bool pounds = style->show == PLAN_SHOW_US;
    const char *unit = pounds ? "lb" : "kg";
    double times = pounds ? 1 / UNIT_POUND_KG : 1;
    struct span nitrogen = range(tale, YIELD_NITROGEN_KG);
    phrase_line(out, "left", "%s of %s when laid, %s high; C:N %s",
                share(range(tale, YIELD_OF_LAID)).text,
                phrase_volume(style, range(tale, YIELD_LAID_M3).mid).text,
                said(style, phrase_length, range(tale, YIELD_HEIGHT_M)).text,
                phrase_span(range(tale, YIELD_C_TO_N), 1).text);
    phrase_line(out, "sieve",
                "keeps %s, %s: bits still to be told as leaf, stalk or stick; back "
                "on the pile with them",
                volume_said(style, range(tale, YIELD_STICKS_M3)).text,
                said(style, phrase_mass, range(tale, YIELD_STICKS_KG)).text);
    phrase_line(out, "feeds",
                "%s %s of nitrogen, of which plants get about %s %s in the first year",
                phrase_span(nitrogen, times).text, unit,
                phrase_span(yield_first_year_kg(nitrogen), times).text, unit);
}
