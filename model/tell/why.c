/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/why.c - see tell/why.h. */
#include "tell/why.h"
#include "ask/outcome.h"
#include "ask/ready.h"
#include "base/near.h"
#include "tell/ails.h"
#include "tell/otherwise.h"
#include "tell/tale.h"
#include <math.h>

static const double HOUR_S = 3600;
static const double FREE = 0.8; /* of the pace it could have: hardly held back */

const char why_question[] = "Guess: by which way does most of the heat leave? steam and air, walls, top, "
                            "ground\nor water that runs out";
const char *const why_way_word[BUDGET_WAYS] = {"steam and air", "the walls", "the top", "the ground",
                                               "rain and drained water"};

const char *why_held_word(const struct held *held)
{
    static const char *const word[RECORD_LIMITS] = {
        [RECORD_TEMPERATURE] = "too cold", [RECORD_WATER] = "too dry", [RECORD_OXYGEN] = "short of air",
        [RECORD_NITROGEN] = "too little or too much nitrogen", [RECORD_FOOD] = "food used up"};
    return held->too_hot ? "too hot" : word[held->what];
}

/* ---- the guess ---- */

int why_guessed(const char *guess)
{
    static const struct { const char *word; enum budget_way way; } words[] = {
        {"steam", BUDGET_STEAM_AND_AIR}, {"vapo", BUDGET_STEAM_AND_AIR}, {"wall", BUDGET_BY_WALLS},
        {"side", BUDGET_BY_WALLS}, {"top", BUDGET_BY_TOP}, {"ground", BUDGET_BY_GROUND},
        {"soil", BUDGET_BY_GROUND}, {"bottom", BUDGET_BY_GROUND}, {"water", BUDGET_BY_WATER},
        {"rain", BUDGET_BY_WATER}, {"air", BUDGET_STEAM_AND_AIR}};
    for (size_t i = 0; guess && i < sizeof words / sizeof *words; i++)
        if (near_within(guess, words[i].word))
            return (int)words[i].way;
    return -1;
}

static void say_guess(FILE *out, const struct why_tale *tale)
{
    const struct budget_range *budget = &tale->found->budget;
    int way = why_guessed(tale->guess), most = budget_most(budget);
    if (!tale->guess)
        return;
    if (way < 0)
        phrase_line(out, "guess", "none of the ways was named");
    else if (way == most)
        phrase_line(out, "guess", "right");
    else if (budget->way_W[way].mid < 0)
        phrase_line(out, "guess", "by %s %.0f W come in, all told", why_way_word[way],
                    -budget->way_W[way].mid);
    else
        phrase_line(out, "guess", "by %s it is %.0f W", why_way_word[way], budget->way_W[way].mid);
}

/* ---- the answer ---- */

struct phrase why_way_takes(enum budget_way way)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%s take%s", why_way_word[way],
             way == BUDGET_BY_TOP || way == BUDGET_BY_GROUND ? "s" : "");
    return said;
}

/* "412 W (300-520)" */
static struct phrase watts(const struct span *span)
{
    struct phrase low, mid, high;
    snprintf(low.text, sizeof low.text, "%.0f W", span->low + 0.0);
    snprintf(mid.text, sizeof mid.text, "%.0f W", span->mid + 0.0);
    snprintf(high.text, sizeof high.text, "%.0f W", span->high + 0.0);
    return phrase_ranged(low, mid, high);
}

static struct phrase when(const struct why_tale *tale)
{
    struct phrase said;
    const char *day = phrase_day(tale->scenario->start + tale->day).text;
    if (tale->hour < 0)
        snprintf(said.text, sizeof said.text, "On %.20s (day %d)", day, tale->day + 1);
    else
        snprintf(said.text, sizeof said.text, "From %d to %d h on %.20s (day %d)", tale->hour,
                 tale->hour + 1, day, tale->day + 1);
    return said;
}

/* The other ways, the larger first; those that bring heat in say so. */
static struct saying others(const struct budget_range *budget, int most)
{
    struct saying said = {""};
    bool told[BUDGET_WAYS] = {false};
    if (most >= 0)
        told[most] = true;
    for (;;) {
        int next = -1;
        for (int way = 0; way < BUDGET_WAYS; way++)
            if (!told[way] && (next < 0 || budget->way_W[way].mid > budget->way_W[next].mid))
                next = way;
        if (next < 0)
            return said;
        told[next] = true;
        double W = round(budget->way_W[next].mid);
        if (W > 0)
            saying_add(&said, "%s%s %.0f", *said.text ? ", " : "", why_way_word[next], W);
        if (W < 0)
            saying_add(&said, "%s%.0f W %s in by %s", *said.text ? ", " : "", -W,
                       W == -1 ? "comes" : "come", why_way_word[next]);
    }
}

static void say_answer(FILE *out, const struct why_tale *tale)
{
    const struct budget_range *budget = &tale->found->budget;
    int most = budget_most(budget);
    double added = budget->line_W[BUDGET_ADDED].mid;
    double stored = round(budget->line_W[BUDGET_STORED].mid - added);
    struct saying rest = others(budget, most);
    if (most < 0)
        phrase_line(out, NULL, "%s no way takes heat out of the pile: %s W. Decay makes %s; the pile warms "
                    "by %.0f W.", when(tale).text, rest.text, watts(&budget->line_W[BUDGET_DECAY]).text,
                    stored + 0.0);
    else
        phrase_line(out, NULL, "%s %s most heat, %.0f W%s%s. Decay makes %s; the pile %s %.0f W.",
                    when(tale).text, why_way_takes((enum budget_way)most).text,
                    budget->way_W[most].mid, *rest.text ? "; " : "", rest.text,
                    watts(&budget->line_W[BUDGET_DECAY]).text,
                    stored < 0 ? "cools by" : "warms by", fabs(stored));
}

/* ---- feel ---- */

static struct phrase people(double W)
{
    struct phrase said;
    double count = W / WHY_PERSON_W;
    if (count < 1)
        snprintf(said.text, sizeof said.text, "%.0f %% of a person", 100 * count + 0.0);
    else if (count < 1.5)
        snprintf(said.text, sizeof said.text, "one person");
    else
        snprintf(said.text, sizeof said.text, "%.0f people", count);
    return said;
}

static void say_feel(FILE *out, const struct why_tale *tale)
{
    const struct budget_range *budget = &tale->found->budget;
    double dried_l = budget->dried_kg_per_s.mid * HOUR_S;
    char drying[64] = "";
    if (dried_l >= 0.005)
        snprintf(drying, sizeof drying, "; steam %.2g L/h", dried_l);
    phrase_line(out, "feel", "as %s at rest (%.0f W each, ISO 8996)%s",
                people(budget->line_W[BUDGET_DECAY].mid).text, WHY_PERSON_W, drying);
}

/* ---- why ---- */

/* Below 30 cm the outer 15 would be half of it or more (run/place): its rim is told by what it lies beneath. */
static const char *place_said(const struct why_tale *tale, const struct phrase_style *style,
                              enum record_place place)
{
    static const double LOW_M = 0.30;
    static const char *const low[RECORD_PLACES] = {"core (innermost third)", "between them",
                                                   "rim (top and sides)"};
    static const char *const word[RECORD_PLACES] = {"core (innermost)", "between them", "rim (outer 15 cm)"};
    if (place == RECORD_RIM && style->show == PLAN_SHOW_US && tale->found->deep_m >= LOW_M)
        return "rim (outer 6 in)";
    return (tale->found->deep_m < LOW_M ? low : word)[place];
}

/* "core (innermost): short of air, 34 % (20-50) of its best pace" */
static void add_place(struct saying *said, const struct why_tale *tale, const struct phrase_style *style,
                      enum record_place place)
{
    struct held rank[RECORD_LIMITS];
    const struct able *able = &tale->found->able;
    int count = held_rank_of(rank, able->record, able->members, tale->day, place, tale->room);
    if (count == 0)
        return;
    struct span f = held_range(able->record, able->members, tale->day, place, rank[0].what, tale->room);
    struct phrase share;
    snprintf(share.text, sizeof share.text, "%.0f %%", 100 * f.mid);
    if (round(100 * f.low) != round(100 * f.high))
        snprintf(share.text, sizeof share.text, "%.0f %% (%.0f-%.0f)", 100 * f.mid, 100 * f.low,
                 100 * f.high);
    saying_add(said, "%s%s: ", *said->text ? "; " : "", place_said(tale, style, place));
    if (f.mid >= FREE)
        saying_add(said, "hardly held back");
    else if (rank[0].what == RECORD_FOOD)
        saying_add(said, "%s of its food left", share.text);
    else
        saying_add(said, "%s, %s of its best pace", why_held_word(&rank[0]), share.text);
}

static void say_why(FILE *out, const struct why_tale *tale, const struct phrase_style *style, bool in_full)
{
    struct saying said = {""};
    for (int place = 0; place < RECORD_PLACES; place++)
        if (in_full || place != RECORD_SHOULDER)
            add_place(&said, tale, style, (enum record_place)place);
    phrase_line(out, "why", "%s", said.text);
}

/* A pile that is warm needs no doctor. */
static void say_ails(FILE *out, const struct why_tale *tale)
{
    const struct why_found *found = tale->found;
    struct saying test = ails_test(found->odds, found->causes, cause_squeezed(tale->scenario, tale->day + 1));
    if (!ails_likely(found->odds, found->causes))
        return;
    phrase_line(out, "ails", "that day: %s", ails_said(found->odds, found->causes).text);
    if (*test.text)
        phrase_line(out, "test", "%s", test.text);
}

/* ---- sure ---- */

static const char *how_said(enum why_day how)
{
    return how == WHY_NAMED ? "" : how == WHY_READING ? "; day: last reading"
                                                      : "; day: furthest above the air";
}

static void say_sure(FILE *out, const struct why_tale *tale)
{
    const struct why_found *found = tale->found;
    char failed[48] = "", fit[128] = "";
    if (tale->readings)
        snprintf(fit, sizeof fit, " that fit your %s",
                 phrase_count(tale->readings, "reading", "readings").text);
    if (found->able.failures)
        snprintf(failed, sizeof failed, "; %d not computed", found->able.failures);
    phrase_line(out, "sure", "%d possible piles%s, watts their means; `%s`%s%s", found->able.members,
                fit, tale->scenario->plan[tale->plan].name, how_said(tale->how), failed);
}

/* ---- do ---- */

static bool is_work(enum change_kind kind)
{
    return kind == CHANGE_TURN_MIXED || kind == CHANGE_TURN_IN || kind == CHANGE_LOOSEN ||
           kind == CHANGE_GREENS || kind == CHANGE_BROWNS || kind == CHANGE_WATER;
}

static void say_do(FILE *out, const struct why_tale *tale, const struct phrase_style *style)
{
    const struct why_found *found = tale->found;
    const char *use = ready_use_word[found->use];
    for (int i = 0; i < found->tells; i++) {
        const struct why_effect *effect = &found->effect[found->told[i]];
        const char *label = i == 0 ? "do" : "";
        if (effect->members == 0)
            continue;
        phrase_line(out, label, "%s: %s", otherwise_said(effect, tale->scenario, style).text,
                    otherwise_does(effect, use, style).text);
    }
    if (found->tells == 0)
        phrase_line(out, "do", "%s", found->after_days < 1 ? "nothing: it is the season's last day"
                                                          : "no change could be tried");
}

/* "water, browns (turned or built that day); " */
static void add_barred(struct saying *said, const struct why_found *found, enum change_bar bar)
{
    bool any = false;
    for (int kind = 0; kind < CHANGE_KINDS; kind++)
        if (found->effect[kind].change.bar == bar) {
            saying_add(said, "%s%s", any ? ", " : "", otherwise_key[kind]);
            any = true;
        }
    if (any)
        saying_add(said, " (%s); ", otherwise_bar[bar]);
}

/* What was left out, and what the numbers of the others are. */
static void say_not(FILE *out, const struct why_tale *tale)
{
    struct saying said = {""};
    if (tale->found->after_days < 1)
        return;
    for (int bar = CHANGE_CAN + 1; bar <= CHANGE_FAILS; bar++)
        add_barred(&said, tale->found, (enum change_bar)bar);
    phrase_line(out, "not", "%s%d tried; degrees: middle, next %s", said.text, tale->found->tried,
                phrase_count(tale->found->after_days, "day", "days").text);
}

static void say_care(FILE *out, const struct why_tale *tale)
{
    bool applies[TALE_CAUTIONS] = {false}, work = false;
    const struct tale season = {.scenario = tale->scenario, .plan = tale->plan};
    for (int i = 0; i < tale->found->tells; i++)
        work |= is_work((enum change_kind)tale->found->told[i]);
    for (int i = 0; i < TALE_CAUTIONS; i++)
        applies[i] = tale_caution_applies(&season, (enum tale_caution)i);
    applies[TALE_HOT] = tale->found->middle_K.mid >= TALE_HOT_K;
    if (work)
        phrase_line(out, "care", "%s", tale_care(applies).text);
}

/* ---- in full ---- */

static void say_table(FILE *out, const struct why_tale *tale)
{
    static const char *const words[BUDGET_LINES] = {
        "made by decay", "vapour through top and walls", "air drawn through, with its vapour",
        "conducted through the walls", "top to the air", "conducted to the ground",
        "sun and sky", "rain, poured and drained water", "material added or taken out",
        "stored: the pile warms or cools"};
    const struct budget_range *budget = &tale->found->budget;
    fprintf(out, "\n  %-38s%8s  %s\n", "gains +, losses -", "W", "8 in 10");
    for (int i = 0; i < BUDGET_LINES; i++) {
        const struct span *W = &budget->line_W[i];
        fprintf(out, "  %-38s%+8.1f  %+.1f to %+.1f\n", words[i], W->mid + 0.0, W->low + 0.0,
                W->high + 0.0);
    }
    fputc('\n', out);
}

static void say_limits(FILE *out, const struct why_tale *tale, const struct phrase_style *style)
{
    static const char *const words[RECORD_LIMITS] = {"warmth", "water", "air", "nitrogen", "food left"};
    const struct able *able = &tale->found->able;
    fprintf(out, "\n  %-26s", "% of its best pace");
    for (int k = 0; k < RECORD_LIMITS; k++)
        fprintf(out, "%10s", words[k]);
    fputc('\n', out);
    for (int p = 0; p < RECORD_PLACES; p++) {
        if (isnan(held_range(able->record, able->members, tale->day, (enum record_place)p, RECORD_FOOD,
                             tale->room).mid))
            continue;
        fprintf(out, "  %-26s", place_said(tale, style, (enum record_place)p));
        for (int k = 0; k < RECORD_LIMITS; k++) {
            struct span f = held_range(able->record, able->members, tale->day, (enum record_place)p,
                                       (enum record_limit)k, tale->room);
            fprintf(out, "%10.0f", 100 * f.mid);
        }
        fputc('\n', out);
    }
    fputc('\n', out);
}

void why_text(FILE *out, const struct why_tale *tale, const struct phrase_style *style, bool in_full)
{
    say_answer(out, tale);
    say_guess(out, tale);
    if (in_full)
        say_table(out, tale);
    say_feel(out, tale);
    say_why(out, tale, style, in_full);
    if (in_full)
        say_limits(out, tale, style);
    say_ails(out, tale);
    say_sure(out, tale);
    say_do(out, tale, style);
    say_not(out, tale);
    say_care(out, tale);
}
