/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/otherwise.c - see tell/otherwise.h. */
#include "tell/otherwise.h"
#include "know/bound.h"
#include <math.h>

static const double F_PER_K = 1.8, M_TO_CM = 100;

const char *const otherwise_key[CHANGE_KINDS] = {
    [CHANGE_WATER] = "water", [CHANGE_TURN_MIXED] = "turn mixed", [CHANGE_TURN_IN] = "turn outside in",
    [CHANGE_LOOSEN] = "loosen", [CHANGE_COVER] = "cover", [CHANGE_GREENS] = "greens",
    [CHANGE_BROWNS] = "browns", [CHANGE_LID] = "lid", [CHANGE_CHOPPED] = "chopped",
    [CHANGE_TWICE] = "twice as much", [CHANGE_FENCED] = "half the ground"};

const char *const otherwise_bar[CHANGE_FAILS + 1] = {
    [CHANGE_CAN] = "", [CHANGE_HAS] = "so already", [CHANGE_WET_ENOUGH] = "wet enough",
    [CHANGE_DRY_ENOUGH] = "not too wet", [CHANGE_SAME_DAY] = "turned or built that day",
    [CHANGE_FOUND] = "found standing", [CHANGE_HIGH] = "not low in a bin", [CHANGE_GROWS] = "more is to come",
    [CHANGE_NONE] = "none at hand", [CHANGE_FAILS] = "can't be done"};

static struct phrase added(const struct why_effect *effect, const char *how)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "add %ld %s of %.40s %s",
             lround(effect->change.vessels), lround(effect->change.vessels) == 1 ? "bucket" : "buckets", effect->stuff, how);
    return said;
}

struct phrase otherwise_said(const struct why_effect *effect, const struct scenario *scenario,
                             const struct phrase_style *style)
{
    struct phrase said = {""};
    char deep[32];
    const struct change *change = &effect->change;
    struct phrase_style poured = phrase_poured(style);
    (void)scenario;
    switch (change->kind) {
    case CHANGE_WATER:
        snprintf(said.text, sizeof said.text, "pour %.60s", phrase_litres(&poured, change->water_l).text);
        break;
    case CHANGE_TURN_MIXED: return (struct phrase){"turn it, mixed"};
    case CHANGE_TURN_IN: return (struct phrase){"turn it, outside in"};
    case CHANGE_LOOSEN: return (struct phrase){"loosen it in place"};
    case CHANGE_COVER:
        if (M_TO_CM * change->cover_m < 1) /* a sheet has no thickness to speak of */
            snprintf(said.text, sizeof said.text, "lay %.40s on it", bound_rows[change->cover].name);
        else
            snprintf(said.text, sizeof said.text, "lay %.20s of %.40s on it",
                     phrase_length(style, change->cover_m).text, bound_rows[change->cover].name);
        break;
    case CHANGE_GREENS:
        snprintf(deep, sizeof deep, "%.20s deep", phrase_length(style, change->bury_m).text);
        return added(effect, deep);
    case CHANGE_BROWNS: return added(effect, "turned in");
    case CHANGE_LID: return (struct phrase){"a lid from the start"};
    case CHANGE_CHOPPED: return (struct phrase){"all chopped from the start"};
    case CHANGE_TWICE:
        snprintf(said.text, sizeof said.text, "twice as much from the start, %s",
                 change->higher ? "so higher" : "on twice the ground");
        break;
    case CHANGE_FENCED:
        snprintf(said.text, sizeof said.text, "the same fenced in to %.24s x %.24s from the start",
                 phrase_length(style, change->length_m).text, phrase_length(style, change->width_m).text);
        break;
    case CHANGE_KINDS: break;
    }
    return said;
}

/* ---- what it does ---- */

/* "3 °C warmer (1-5)" */
static struct phrase span_said(struct span span, const char *unit, const char *word)
{
    struct phrase said;
    double low = round(span.low), high = round(span.high);
    if (low == high)
        snprintf(said.text, sizeof said.text, "%.0f%.12s %s", round(span.mid), unit, word);
    else
        snprintf(said.text, sizeof said.text, "%.0f%.12s %s (%.0f-%.0f)", round(span.mid), unit, word,
                 low, high);
    return said;
}

static struct span turned(struct span span)
{
    return (struct span){-span.high, -span.mid, -span.low};
}

/* "+3", "-2", and "0" without a sign */
static struct phrase signed_whole(double value)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, round(value) == 0 ? "%.0f" : "%+.0f", round(value) + 0.0);
    return said;
}

/* "-2 to +1 °C" */
static struct phrase ends_said(struct span span, const char *unit)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%.20s to %.20s%.12s", signed_whole(span.low).text,
             signed_whole(span.high).text, unit);
    return said;
}

/* A difference in the degrees of the keeper. */
static struct span degrees(const struct why_effect *effect, const struct phrase_style *style)
{
    double factor = style->show == PLAN_SHOW_US ? F_PER_K : 1;
    const struct span *K = &effect->middle_K;
    return (struct span){factor * K->low, factor * K->mid, factor * K->high};
}

static const char *degree_word(const struct phrase_style *style)
{
    return style->show == PLAN_SHOW_US ? (style->utf8 ? " °F" : " degF") : (style->utf8 ? " °C" : " degC");
}

static bool is_nought(struct span span)
{
    return round(span.low) == 0 && round(span.high) == 0;
}

static struct saying middle_said(const struct why_effect *e, const struct phrase_style *style)
{
    struct saying said = {""};
    struct span span = degrees(e, style);
    const char *degree = degree_word(style);
    if (why_warms(e))
        saying_add(&said, "middle %s", span_said(span, degree, "warmer").text);
    else if (why_cools(e))
        saying_add(&said, "middle %s", span_said(turned(span), degree, "cooler").text);
    else if (is_nought(span))
        saying_add(&said, "middle no warmer");
    else
        saying_add(&said, "middle %s, warmer in %d of %d piles", ends_said(span, degree).text,
                   e->warmer, e->members);
    return said;
}

static struct saying ready_said(const struct why_effect *e, const char *use)
{
    struct saying said = {""};
    double mid = fabs(round(e->ready_days.mid));
    const char *unit = mid == 1 ? " day" : " days";
    if (e->never_with == e->members && e->never_without == e->members)
        saying_add(&said, "%s not ready this season either way", use);
    else if (why_hastens(e))
        saying_add(&said, "%s %s", use, span_said(turned(e->ready_days), unit, "sooner").text);
    else if (why_delays(e))
        saying_add(&said, "%s %s", use, span_said(e->ready_days, unit, "later").text);
    else if (is_nought(e->ready_days))
        saying_add(&said, "%s no sooner", use);
    else
        saying_add(&said, "%s %s, sooner in %d of %d", use, ends_said(e->ready_days, " days").text,
                   e->sooner, e->members);
    return said;
}

/* What is clear comes first; what isn't is told by its ends, and by how many piles say so. */
struct saying otherwise_does(const struct why_effect *effect, const char *use,
                             const struct phrase_style *style)
{
    struct saying said = {""}, middle = middle_said(effect, style), ready = ready_said(effect, use);
    bool dated = why_hastens(effect) || why_delays(effect);
    saying_add(&said, "%s; %s", dated ? ready.text : middle.text, dated ? middle.text : ready.text);
    return said;
}
