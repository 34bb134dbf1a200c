/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/ready.c - see tell/ready.h.
 *
 * Uses are explained where they are first named: mulch lies on top, bed compost is dug in, pot
 * compost is sown into. A date is a median with the range of eight in ten; what may come after the
 * season's end is said to.
 */
#include "tell/ready.h"
#include "ask/outcome.h"
#include <math.h>
#include <string.h>

static const char *const use_said[READY_USES] = {"as mulch (laid on top)", "for beds (dug in)",
                                                 "for pots and seed trays (sown into)"};
static const char *const why_said[READY_WHYS] = {
    [READY_WORKING] = "still working, with food left",
    [READY_SMALL] = "too small to stay warm",
    [READY_COLD] = "held back by the cold outside",
    [READY_FROZEN] = "frozen: asleep, not finished",
    [READY_DRY] = "too dry to work",
    [READY_WET] = "too wet for air to get in",
    [READY_AIRLESS] = "starved of air",
    [READY_HUNGRY] = "starved of nitrogen (too few greens)",
    [READY_WOODY] = "too woody still",
    [READY_RESTING] = "resting, which takes its weeks",
};

static struct ready_summary summary_of(const struct tale *tale, int use)
{
    return ready_summary(tale->record, tale->members, tale->scenario, use, tale->room);
}

static struct phrase date_of_day(const struct tale *tale, double day)
{
    return phrase_day(tale->scenario->start + (date_count)round(day) - 1);
}

static struct phrase season_end(const struct tale *tale)
{
    return date_of_day(tale, tale->record->days);
}

struct phrase ready_date(const struct tale *tale, struct span day)
{
    struct phrase said;
    if (!isfinite(day.mid) && isfinite(day.low))
        snprintf(said.text, sizeof said.text, "%.20s at the earliest",
                 date_of_day(tale, day.low).text);
    else if (!isfinite(day.mid))
        snprintf(said.text, sizeof said.text, "after %.20s", season_end(tale).text);
    else if (day.low == day.high || tale->members == 1)
        return date_of_day(tale, day.mid);
    else if (!isfinite(day.high))
        snprintf(said.text, sizeof said.text, "%.20s (%.20s-after %.20s)",
                 date_of_day(tale, day.mid).text, date_of_day(tale, day.low).text,
                 season_end(tale).text);
    else
        snprintf(said.text, sizeof said.text, "%.20s (%.20s-%.20s)",
                 date_of_day(tale, day.mid).text, date_of_day(tale, day.low).text,
                 date_of_day(tale, day.high).text);
    return said;
}

/* "about 14 Apr (2 Apr-3 May)", "not before 23 May" */
static struct phrase about(const struct tale *tale, struct span day)
{
    struct phrase said;
    if (isfinite(day.mid))
        snprintf(said.text, sizeof said.text, "about %.80s", ready_date(tale, day).text);
    else
        snprintf(said.text, sizeof said.text, "not before %.20s",
                 isfinite(day.low) ? date_of_day(tale, day.low).text : season_end(tale).text);
    return said;
}

static struct phrase needed_day(const struct tale *tale)
{
    return date_of_day(tale, ready_told_day(tale->record, tale->scenario));
}

/* Always the chance to be ready, as every command tells it: "7 (6-8) in 10 only". */
static struct phrase how_likely(const struct ready_summary *s)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%.80s only",
             phrase_chance(band_chance(s->members - s->not_ready, s->members)).text);
    return said;
}

/* Is it by the day of need, as surely as its keeper asks? */
static bool in_time(const struct tale *tale, const struct ready_summary *summary)
{
    if (!tale->scenario->need.is)
        return isfinite(summary->day.mid);
    return outcome_enough(summary->chance.mid, tale->scenario);
}

/* The use to be told of beside the one that is needed. */
static int other_use(int use, bool ready)
{
    return use == READY_POTS || (!ready && use == READY_BEDS) ? use - 1 : use + 1;
}

/* The half of the sentence that is of the use in need. */
static void say_need(char text[READY_SAID], const struct tale *tale, int use,
                     const struct ready_summary *s, bool ready)
{
    const char *held = s->why == READY_IS ? "it may just fail" : why_said[s->why];
    int good = s->members - s->not_ready;
    if (ready)
        snprintf(text, READY_SAID, "Ready %s about %s", use_said[use],
                 ready_date(tale, s->day).text);
    else if (tale->members == 1)
        snprintf(text, READY_SAID, "Not ready %s by %s: %s; %s", use_said[use],
                 needed_day(tale).text, held, about(tale, s->day).text);
    else
        snprintf(text, READY_SAID, "%s ready %s by %s: %s (else %s%s); %s%s",
                 2 * good >= s->members && isfinite(s->day.mid) ? "Perhaps" : "Not likely",
                 use_said[use], needed_day(tale).text, how_likely(s).text,
                 s->why == READY_IS ? "" : "by then most often ", held,
                 isfinite(s->day.mid) ? "likeliest " : "", about(tale, s->day).text);
}

void ready_sentence(char text[READY_SAID], const struct tale *tale, bool brief)
{
    *text = '\0';
    if (tale->record->days == 0)
        return;
    int use = tale->scenario->need.is ? tale->scenario->need.what : READY_BEDS;
    struct ready_summary summary = summary_of(tale, use);
    bool ready = in_time(tale, &summary);
    int other = other_use(use, ready);
    say_need(text, tale, use, &summary, ready);
    size_t used = strlen(text);
    if (brief)
        snprintf(text + used, READY_SAID - used, ".");
    else
        snprintf(text + used, READY_SAID - used, "; %s %s.", use_said[other],
                 about(tale, summary_of(tale, other).day).text);
}

void ready_lines(FILE *out, const struct tale *tale)
{
    for (int use = 0; use < READY_USES; use++) {
        struct ready_summary s = summary_of(tale, use);
        char chance[160] = "", held[96] = "";
        if (tale->scenario->need.is && tale->members > 1)
            snprintf(chance, sizeof chance, "; by %.20s %.60s", needed_day(tale).text,
                     phrase_chance(s.chance).text);
        if (s.why != READY_IS)
            snprintf(held, sizeof held, "; else %s %s", *chance ? "by then" : "at the season's end",
                     why_said[s.why]);
        phrase_line(out, "ready", "%s: %s%s%s", use_said[use], ready_date(tale, s.day).text, chance,
                    held);
    }
}

/* Sight, smell and cress: what anybody can try [trade; garden guides, seen]. */
void ready_try(FILE *out, const struct tale *tale)
{
    bool pots = tale->scenario->need.is && tale->scenario->need.what == READY_POTS;
    phrase_line(out, "do",
                "first: turned and wetted it stays cool for a week; a moist handful smells "
                "of earth after 5 days in a bag; %s comes up in it as in soil",
                pots ? "what you will sow" : "cress");
}
