/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/compare.c - see tell/compare.h. */
#include "tell/compare.h"
#include "ask/ready.h"
#include "tell/json.h"
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static const double MINUTE_S = 60.0;

static const struct scenario *scenario_of(const struct comparison *c, int i)
{
    return c->contender[i].scenario;
}

/* A garden's name; that of its file where another file has the same. */
static const char *garden_of(const struct comparison *c, int i)
{
    const char *file = c->contender[i].file, *slash = strrchr(file, '/');
    for (int k = 0; k < c->count; k++)
        if (strcmp(c->contender[k].file, file) != 0 &&
            strcmp(scenario_of(c, k)->name, scenario_of(c, i)->name) == 0)
            return slash ? slash + 1 : file;
    return scenario_of(c, i)->name;
}

/* What tells a contender from the others: its plan, and its garden where there are several. */
static struct phrase name_of(const struct comparison *c, int i)
{
    struct phrase said;
    const struct scenario *scenario = scenario_of(c, i);
    if (c->files > 1)
        snprintf(said.text, sizeof said.text, "%.48s, %.40s",
                 scenario->plan[c->contender[i].plan].name, garden_of(c, i));
    else
        snprintf(said.text, sizeof said.text, "%.90s", scenario->plan[c->contender[i].plan].name);
    return said;
}

static const char *use_of(const struct comparison *c, int i)
{
    return ready_use_word[outcome_use(c->contender[i].asked)];
}

/* ---- text ---- */

static struct phrase day_said(const struct scenario *scenario, double day)
{
    return isfinite(day) ? phrase_day(scenario->start + (date_count)lround(day) - 1)
                         : (struct phrase){"later"};
}

/* "14 Apr (2 Apr-3 May)"; days beyond the season are "later". */
static struct phrase ready_said(const struct comparison *c, int i)
{
    struct phrase said;
    const struct span *day = &c->standing[i].ready_day;
    if (isnan(day->low))
        return (struct phrase){"later"};
    snprintf(said.text, sizeof said.text, "%.10s (%.10s-%.10s)", day_said(scenario_of(c, i), day->mid).text,
             day_said(scenario_of(c, i), day->low).text, day_said(scenario_of(c, i), day->high).text);
    return said;
}

static struct phrase tenths(double chance)
{
    struct phrase said;
    if (isnan(chance))
        return (struct phrase){"-"};
    if (chance < 0.05)
        return (struct phrase){"under 1 in 10"};
    if (chance > 0.95)
        return (struct phrase){"over 9 in 10"};
    snprintf(said.text, sizeof said.text, "%.0f in 10", round(10 * chance)); /* as phrase_chance */
    return said;
}

/* "for 86 min of work" */
static struct phrase price_of(const struct standing *s)
{
    struct phrase said;
    if (s->person_s.mid < MINUTE_S)
        return (struct phrase){"without work"};
    snprintf(said.text, sizeof said.text, "for %.60s of work", phrase_minutes(s->person_s.mid).text);
    return said;
}

static struct phrase none_of(const struct comparison *c)
{
    struct phrase said = {"No plan"};
    if (c->count > 1)
        snprintf(said.text, sizeof said.text, "None of these %d plans", c->count);
    return said;
}

static void say_choice(FILE *out, const struct comparison *c, int best)
{
    const struct standing *s = &c->standing[best];
    const struct scenario *scenario = c->contender[best].asked;
    struct phrase name = name_of(c, best);
    if (outcome_enough(s->chance.mid, scenario))
        phrase_line(out, NULL, "Take `%s`: ready for %s by %s in %s, %s.", name.text, use_of(c, best),
                    phrase_day(scenario->need.by).text, phrase_chance(s->chance).text,
                    price_of(s).text);
    else if (scenario->need.is)
        phrase_line(out, NULL, "%s is ready for %s by %s with the %s you ask for; %s `%s`: %s, %s.",
                    none_of(c).text, use_of(c, best), phrase_day(scenario->need.by).text,
                    tenths(scenario->need.chance).text, c->count > 1 ? "nearest is" : "there is only",
                    name.text, phrase_chance(s->chance).text, price_of(s).text);
    else if (isnan(s->ready_day.mid))
        phrase_line(out, NULL, "None is ready for %s before the season ends on %s, in the middle of "
                    "what is likely; `%s` is as good as any.", use_of(c, best),
                    phrase_day(scenario->start + scenario->last_day).text, name.text);
    else
        phrase_line(out, NULL, "`%s` is soonest ready for %s: %s, %s.", name.text, use_of(c, best),
                    ready_said(c, best).text, price_of(s).text);
}

/* Columns that one letter of UTF-8 each takes. */
static int letters(const char *text)
{
    int count = 0;
    for (; *text; text++)
        count += ((unsigned char)*text & 0xC0) != 0x80;
    return count;
}

enum { NAME = 20, READY = 23 };

/* A name in a column of its own; where it is too long, in a line of its own. */
static void put_name(FILE *out, const char *name)
{
    int wide = letters(name);
    if (wide < NAME)
        fprintf(out, "  %s%*s", name, NAME - wide, "");
    else
        fprintf(out, "  %s\n%*s", name, NAME + 2, "");
}

/* "47 min", "2 h 16": more letters would move the columns after it. */
static struct phrase work_said(double person_s)
{
    struct phrase said = phrase_minutes(person_s);
    char *minutes = strstr(said.text, " min");
    if (minutes && strstr(said.text, " h "))
        *minutes = '\0';
    return said;
}

static void say_table(FILE *out, const struct comparison *c, const int *order, int best)
{
    char head[48], by[32] = "";
    const struct scenario *scenario = c->contender[best].asked;
    snprintf(head, sizeof head, "ready for %s", use_of(c, best));
    if (scenario->need.is)
        snprintf(by, sizeof by, "by %.20s", phrase_day(scenario->need.by).text);
    fprintf(out, "\n  %-*s%-*s%-14s%9s%6s%6s\n", NAME, "plan", READY, head, by, "work", "water", ">55 C");
    for (int i = 0; i < c->count; i++) {
        int k = order[i];
        const struct standing *s = &c->standing[k];
        char water[16];
        put_name(out, name_of(c, k).text);
        snprintf(water, sizeof water, "%.0f L", s->water_kg.mid);
        fprintf(out, "%-*s%-14s%9s%6s%4.0f d\n", READY, ready_said(c, k).text, tenths(s->chance.mid).text,
                work_said(s->person_s.mid).text, water, s->hot_days.mid);
    }
    fputc('\n', out);
}

static double whole(double days)
{
    return round(days) + 0.0; /* never "-0" */
}

/* "2 days sooner (-1 to 8)", "1 day later (-3 to 2)", "no sooner (-3 to 8 days)" */
static struct phrase sooner_said(const struct span *days)
{
    struct phrase said;
    double mid = round(days->mid), sign = mid < 0 ? -1 : 1;
    double low = mid < 0 ? -days->high : days->low, high = mid < 0 ? -days->low : days->high;
    if (mid == 0 && whole(low) == 0 && whole(high) == 0)
        return (struct phrase){"no sooner"};
    if (mid == 0)
        snprintf(said.text, sizeof said.text, "no sooner (%.0f to %.0f days)", whole(low),
                 whole(high));
    else
        snprintf(said.text, sizeof said.text, "%.0f %s %s (%.0f to %.0f)", sign * mid,
                 sign * mid == 1 ? "day" : "days", mid < 0 ? "later" : "sooner", whole(low),
                 whole(high));
    return said;
}

static void say_pair(FILE *out, const struct comparison *c, const char *label, int a, int b)
{
    struct pair p = compare_pair(&c->contender[a], &c->contender[b], c->room);
    char more[64];
    double extra_s = p.extra_person_s.mid;
    if (fabs(extra_s) < MINUTE_S / 2)
        snprintf(more, sizeof more, "no more work");
    else
        snprintf(more, sizeof more, "%.48s %s work", phrase_minutes(fabs(extra_s)).text,
                 extra_s < 0 ? "less" : "more");
    phrase_line(out, label, "%s against %s: %s, ahead in %s; %s%s", name_of(c, a).text,
                name_of(c, b).text, sooner_said(&p.sooner_days).text, tenths(p.chance_sooner).text,
                more, compare_idle(&p) ? ", hardly worth it" : "");
}

void compare_sentence(FILE *out, const struct comparison *c)
{
    say_choice(out, c, compare_choice(c->standing, c->contender, c->count, c->room));
}

struct compare_row compare_row(const struct comparison *c, int i)
{
    const struct standing *s = &c->standing[i];
    struct compare_row row = {.plan = name_of(c, i), .ready = ready_said(c, i),
                              .chance = tenths(s->chance.mid), .work = phrase_minutes(s->person_s.mid)};
    snprintf(row.water.text, sizeof row.water.text, "%.0f L", s->water_kg.mid);
    snprintf(row.hot.text, sizeof row.hot.text, "%.0f d", s->hot_days.mid);
    return row;
}

void compare_against(FILE *out, const struct comparison *c, const char *label)
{
    int order[COMPARE_MOST];
    compare_order(order, c->standing, c->count);
    for (int i = 1; i < c->count; i++)
        say_pair(out, c, label, order[i], order[0]);
}

/* Each against the one with the least work; the one taken comes first. The long form has a table. */
static void say_pairs(FILE *out, const struct comparison *c, const int *order, int best)
{
    enum { BRIEF = 3 };
    int least = order[0], said = 0;
    if (best != least) {
        say_pair(out, c, "why", best, least);
        said++;
    }
    for (int i = 1; i < c->count && said < BRIEF; i++)
        if (order[i] != best)
            say_pair(out, c, said++ ? "" : "why", order[i], least);
}

/* ---- the long form ---- */

/* What the table above tells by its middle alone, with its range. */
static void say_ranges(FILE *out, const struct comparison *c, const int *order,
                       const struct phrase_style *style)
{
    bool us = style->show == PLAN_SHOW_US;
    fprintf(out, "\n  %-*s%-17s%-14s%-14shottest, %s%s\n", NAME, "plan", "work, min", "water, L", ">55 C, days",
            style->utf8 ? "°" : "deg", us ? "F" : "C");
    for (int i = 0; i < c->count; i++) {
        const struct standing *s = &c->standing[order[i]];
        double zero = us ? 255.372222 : 273.15, degree = us ? 1.8 : 1;
        struct span peak = {s->peak_K.low - zero, s->peak_K.mid - zero, s->peak_K.high - zero};
        put_name(out, name_of(c, order[i]).text);
        fprintf(out, "%-17s%-14s", phrase_whole(s->person_s, 1 / MINUTE_S).text,
                phrase_whole(s->water_kg, 1).text);
        fprintf(out, "%-14s%s\n", phrase_whole(s->hot_days, 1).text, phrase_whole(peak, degree).text);
    }
}

/* "57 min", "-57 min" */
static struct phrase extra_said(double time_s)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%s%.60s", time_s <= -MINUTE_S / 2 ? "-" : "",
             phrase_minutes(fabs(time_s)).text);
    return said;
}

static void say_differences(FILE *out, const struct comparison *c, const int *order, int b)
{
    fprintf(out, "\n  against %s\n  %-*s%-18s%-14s%-14s%12s\n", name_of(c, order[b]).text, NAME, "",
            "days sooner", "sooner", "hotter", "more work");
    for (int a = b + 1; a < c->count; a++) {
        struct pair p = compare_pair(&c->contender[order[a]], &c->contender[order[b]], c->room);
        put_name(out, name_of(c, order[a]).text);
        fprintf(out, "%-18s", phrase_whole(p.sooner_days, 1).text);
        fprintf(out, "%-14s%-14s%12s\n", tenths(p.chance_sooner).text, tenths(p.chance_hotter).text,
                extra_said(p.extra_person_s.mid).text);
    }
}

static void say_sure(FILE *out, const struct comparison *c, const struct phrase_style *style)
{
    char failed[48] = "";
    const char *unread = "";
    for (int i = 0; i < c->count && !*unread; i++)
        unread = phrase_unread(scenario_of(c, i));
    if (c->failures)
        snprintf(failed, sizeof failed, "; %d not computed", c->failures);
    phrase_line(out, "sure", "forecasts: the same %d possible piles %s, 8 in 10 as in brackets%s; never "
                "ready counts as the day after the end%s", c->members,
                c->files > 1 ? "under each plan, in the weather of its own place and days"
                             : "in the same weather for each plan", failed, unread);
    if (c->count > 1)
        phrase_line(out, "pairs", "each pile against itself under the other plan, and the middle of those "
                    "differences: it needn't be the difference of the table's middles");
    phrase_line(out, ">55 C", "days with the middle above %s; a forecast, not a record",
                phrase_temp(style, 328.15).text);
}

/* What concerns any of them. */
static void say_care(FILE *out, const struct comparison *c)
{
    bool applies[TALE_CAUTIONS] = {false};
    for (int k = 0; k < c->count; k++) {
        const struct tale tale = {.scenario = scenario_of(c, k), .plan = c->contender[k].plan};
        for (int i = 0; i < TALE_CAUTIONS; i++)
            applies[i] |= tale_caution_applies(&tale, (enum tale_caution)i);
        applies[TALE_HOT] |= c->standing[k].peak_K.mid >= TALE_HOT_K;
    }
    phrase_line(out, "care", "%s", tale_care(applies).text);
}

void compare_text(FILE *out, const struct comparison *c, const struct phrase_style *style, bool in_full)
{
    int order[COMPARE_MOST];
    int best = compare_choice(c->standing, c->contender, c->count, c->room);
    compare_order(order, c->standing, c->count);
    say_choice(out, c, best);
    say_table(out, c, order, best);
    say_pairs(out, c, order, best);
    if (in_full)
        say_ranges(out, c, order, style);
    for (int b = 0; in_full && b < c->count - 1; b++)
        say_differences(out, c, order, b);
    if (in_full)
        fputc('\n', out);
    say_sure(out, c, style);
    say_care(out, c);
}

/* ---- JSON ---- */

static json_t *pair_object(const struct comparison *c, int a, int b)
{
    struct pair p = compare_pair(&c->contender[a], &c->contender[b], c->room);
    json_t *object = json_object();
    const int side[] = {a, b};
    static const char *const plan_key[] = {"a", "b"}, *const file_key[] = {"a_file", "b_file"};
    for (int i = 0; i < 2; i++) {
        const struct contender *contender = &c->contender[side[i]];
        json_put_text(object, plan_key[i], contender->scenario->plan[contender->plan].name);
        json_put_text(object, file_key[i], contender->file);
    }
    json_put_number(object, "ready_days_sooner", p.sooner_days.mid);
    json_put_number(object, "low", p.sooner_days.low);
    json_put_number(object, "high", p.sooner_days.high);
    json_put_number(object, "chance_a_sooner", p.chance_sooner);
    json_put_number(object, "chance_a_hotter", p.chance_hotter);
    json_put_span(object, "extra_person_minutes", p.extra_person_s, 1 / MINUTE_S);
    json_put(object, "a_worth_its_work", json_boolean(!compare_idle(&p)));
    return object;
}

bool compare_json(FILE *out, const struct comparison *c, json_t *runs, struct trouble *why)
{
    json_t *object = json_object(), *pairs = json_array();
    int best = compare_choice(c->standing, c->contender, c->count, c->room);
    for (int a = 0; a < c->count; a++)
        for (int b = a + 1; b < c->count; b++)
            json_array_append_new(pairs, pair_object(c, a, b));
    json_put(object, "plans", runs);
    json_put(object, "pairs", pairs);
    json_put_text(object, "take", scenario_of(c, best)->plan[c->contender[best].plan].name);
    json_put_text(object, "take_file", c->contender[best].file);
    return json_write(out, object, why);
}
