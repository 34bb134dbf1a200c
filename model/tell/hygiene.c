/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/hygiene.c - see tell/hygiene.h.
 *
 * What is said is that material would have had the heat that a rule asks for; never that compost may
 * be used, nor that all is dead. A garden's thermometers and a forecast can prove no rule.
 */
#include "tell/hygiene.h"
#include "ask/hygiene.h"
#include "tell/range.h"
#include <ctype.h>
#include <math.h>
#include <string.h>

static const int MARKS_C[] = {45, 50, 55, 60, 65};
enum { MARKS = sizeof MARKS_C / sizeof *MARKS_C, WORDS = 512 };

struct words {
    char text[WORDS];
};

/* The table keeps to plain letters: "55 C" is said with its degree. */
static struct words in_degrees(const struct phrase_style *style, const char *plain)
{
    struct words said;
    size_t used = 0;
    for (const char *c = plain; *c && used + 8 < sizeof said.text; c++) {
        bool unit = (*c == 'C' || *c == 'F') && c >= plain + 2 && c[-1] == ' ' &&
                    isdigit((unsigned char)c[-2]) && !isalnum((unsigned char)c[1]);
        if (unit)
            used += (size_t)snprintf(said.text + used, 8, "%s", style->utf8 ? "°" : "deg");
        said.text[used++] = *c;
    }
    said.text[used] = '\0';
    return said;
}

/* A percentage without its sign, to stand in brackets. */
static struct phrase end_said(double share)
{
    struct phrase said = phrase_share(share);
    size_t length = strlen(said.text);
    if (length > 2 && strcmp(said.text + length - 2, " %") == 0)
        said.text[length - 2] = '\0';
    return said;
}

/* "60 % of it (45-75)" */
static struct phrase share_said(struct span share, const char *of)
{
    struct phrase said, low = end_said(share.low), high = end_said(share.high);
    if (strcmp(low.text, high.text) == 0)
        snprintf(said.text, sizeof said.text, "%.30s of %.50s", phrase_share(share.mid).text, of);
    else
        snprintf(said.text, sizeof said.text, "%.20s of %.34s (%.12s-%.12s)", phrase_share(share.mid).text,
                 of, low.text, high.text);
    return said;
}

static struct phrase share_of(const struct tale *tale, int rule)
{
    return share_said(range_of(tale, hygiene_share, rule, 0), "it");
}

static double heat_alone(const struct record *record, int rule, int unused)
{
    (void)unused;
    return record->day[record->days - 1].met_share[rule];
}

static void say_first_rule(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    const int rule = RULES_THREE_DAYS_55;
    phrase_line(out, "heat", "%s reached by %s; a forecast, not a record",
                in_degrees(style, rules_rows[rule].name).text, share_of(tale, rule).text);
}

/* The share of a class of seeds or germs that lives on: NAN where none were laid, else never said to be
 * nothing of them. */
static struct span alive(const struct tale *tale, double (*ask)(const struct record *, int, int), int class)
{
    const double trace = 0.001;
    struct span live = range_of(tale, ask, class, 0);
    if (isfinite(live.mid))
        live = (struct span){fmax(live.low, trace), fmax(live.mid, trace), fmax(live.high, trace)};
    return live;
}

/* "of weeds alive: 5 % of easily killed (1-20), 60 % of hardy (31-81)"; the middling class lies between. */
static void say_seeds(FILE *out, const struct tale *tale)
{
    struct span easy = alive(tale, hygiene_seeds, 0), hardy = alive(tale, hygiene_seeds, 2);
    bool both = isfinite(easy.mid) && isfinite(hardy.mid);
    if (isfinite(easy.mid) || isfinite(hardy.mid))
        phrase_line(out, "seeds", "of weeds alive: %s%s%s",
                    isfinite(easy.mid) ? share_said(easy, "easily killed").text : "", both ? ", " : "",
                    isfinite(hardy.mid) ? share_said(hardy, "hardy").text : "");
}

/* "lettuce 10 Jun: 101 days after manure (1 Mar), 120 wanted: from 29 Jun" */
static void say_wait(FILE *out, const struct hygiene_wait *wait)
{
    char later[64] = "";
    if (!wait->enough)
        snprintf(later, sizeof later, ": from %.40s", phrase_day(wait->earliest).text);
    phrase_line(out, "wait", "%s %s: %d days after manure (%s), %d wanted%s", wait->crop,
                phrase_day(wait->harvest).text, wait->days, phrase_day(wait->laid).text,
                wait->wanted, later);
}

/* The harvest that lacks most days; false where there is no manure or no harvest. */
static bool worst_wait(const struct tale *tale, struct hygiene_wait *worst)
{
    struct hygiene_wait wait[PLAN_HARVESTS];
    int waits = hygiene_waits(tale->scenario, tale->plan, wait), at = 0;
    for (int i = 1; i < waits; i++)
        if (wait[i].days - wait[i].wanted < wait[at].days - wait[at].wanted)
            at = i;
    if (waits > 0)
        *worst = wait[at];
    return waits > 0;
}

static void say_waits(FILE *out, const struct tale *tale)
{
    struct hygiene_wait wait[PLAN_HARVESTS];
    int waits = hygiene_waits(tale->scenario, tale->plan, wait);
    for (int i = 0; i < waits; i++)
        say_wait(out, &wait[i]);
    if (waits > 0)
        phrase_line(out, "wait", "counted as for raw manure: 120 days to harvest where what is eaten "
                    "touches soil, 90 where it doesn't (7 CFR 205.203(c)(1)). A log that shows the "
                    "heat of that law's own rule would end the wait; a forecast doesn't");
}

static void say_rule(FILE *out, const struct tale *tale, const struct phrase_style *style, int rule)
{
    const struct rules_row *row = &rules_rows[rule];
    char half[48] = "", turns[160] = "", source[WORDS];
    double first = range_of(tale, hygiene_first, rule, 0).mid;
    double needed = range_of(tale, hygiene_turns_needed, rule, 0).mid;
    if (isfinite(first))
        snprintf(half, sizeof half, ", half by %.20s",
                 phrase_day(tale->scenario->start + (long)round(first) - 1).text);
    if (needed >= 0.5)
        snprintf(turns, sizeof turns, ", %.30s short (%.90s has had the heat)",
                 phrase_count((long)round(needed), "turn", "turns").text,
                 share_said(range_of(tale, heat_alone, rule, 0), "it").text);
    snprintf(source, sizeof source, "%s: %s (%s); %s", row->where, row->source, row->mark, row->reading);
    phrase_line(out, "rule", "%s: %s%s%s. %s", in_degrees(style, row->name).text,
                share_of(tale, rule).text, half, turns, in_degrees(style, source).text);
}

static void say_alive(FILE *out, const char *label, const char *what, struct span live, const char *more)
{
    if (isfinite(live.mid))
        phrase_line(out, label, "%s may still be alive%s", share_said(live, what).text, more);
}

static void say_lives(FILE *out, const struct tale *tale)
{
    static const char *const seeds[] = {"those that heat kills easily", "those that are middling",
                                        "those that are hardy"};
    static const char *const germs[] = {"gut bacteria from the manure", "worm eggs from the manure"};
    for (int i = 0; i < 3; i++)
        say_alive(out, "seeds", seeds[i], alive(tale, hygiene_seeds, i), "");
    for (int i = 0; i < 2; i++)
        say_alive(out, "germs", germs[i], alive(tale, hygiene_germs, i),
                  i == 0 ? "; moist compost that is only partly killed can be settled anew, from cold "
                           "edges, tools and birds" : "");
}

static void say_place(FILE *out, const struct tale *tale, const char *name, enum hygiene_place place)
{
    char text[256] = "";
    size_t used = 0;
    bool apart = false;
    for (int i = 0; i < MARKS && used < sizeof text; i++) {
        double days = round(range_of(tale, hygiene_days, (int)place, MARKS_C[i]).mid);
        double longest = round(range_of(tale, hygiene_run, (int)place, MARKS_C[i]).mid);
        char bracket[24] = "";
        if (longest < days)
            snprintf(bracket, sizeof bracket, " (%.0f)", longest);
        apart |= longest < days;
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%.0f%s at %d", i ? ", " : "", days, bracket,
                                 MARKS_C[i]);
    }
    phrase_line(out, "days", "%s, days%s at these C or more: %s", name, apart ? " (longest run, where they are apart)" : "", text);
}

static void say_all(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    phrase_line(out, "rules", "shares of the dry mass, as laid, that would have had each rule's heat "
                "while at least 40 %% water. A garden pile cannot prove a hygiene rule. (seen): we read "
                "its text; (memory): we did not");
    for (int i = 0; i < RULES; i++)
        say_rule(out, tale, style, i);
    say_place(out, tale, "the middle", HYGIENE_MIDDLE);
    say_place(out, tale, "the coldest tenth", HYGIENE_COLDEST);
    phrase_line(out, "log", "a log on paper would need, each day of the heat: middle, 30 cm in and a hand "
                "deep, in four places; a handful squeezed; every turn and every load that came after; "
                "the thermometer checked in ice water");
    if (!hygiene_dung(tale->scenario, tale->plan))
        phrase_line(out, "wait", "plants alone, as laid: the rules speak of seeds and plant disease here, "
                    "and ask for no days between compost and harvest");
    say_waits(out, tale);
    say_lives(out, tale);
}

void hygiene_lines(FILE *out, const struct tale *tale, const struct phrase_style *style)
{
    if (tale->record->days > 0)
        say_all(out, tale, style);
}

void hygiene_brief(FILE *out, const struct tale *tale, const struct phrase_style *style, int most)
{
    struct hygiene_wait worst;
    if (tale->record->days == 0 || most < 1)
        return;
    bool waits = worst_wait(tale, &worst), both = waits && most >= 3;
    if (waits && !worst.enough && !both)
        say_wait(out, &worst);
    else
        say_first_rule(out, tale, style);
    if (most >= 2)
        say_seeds(out, tale);
    if (both)
        say_wait(out, &worst);
}
