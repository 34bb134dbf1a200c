/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/visits.c - see tell/visits.h. */
#include "tell/visits.h"
#include "many/band.h"
#include <math.h>

static const double SECONDS_A_MINUTE = 60.0;
static const double LIKELY = 0.2; /* more often than that it takes too long: worth a line */

static const char *const weekdays[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};
static const char *const doing[] = {
    [PLAN_TURN] = "turning", [PLAN_WATER] = "watering", [PLAN_ADD] = "adding",
    [PLAN_COVER] = "covering", [PLAN_UNCOVER] = "uncovering", [PLAN_LOOSEN] = "loosening",
    [PLAN_PICK] = "picking out sticks"};

/* "95 (60-150) min", or "95 min" */
static struct phrase minutes(struct span time_s)
{
    struct phrase said;
    double low = time_s.low / SECONDS_A_MINUTE, high = time_s.high / SECONDS_A_MINUTE;
    double mid = time_s.mid / SECONDS_A_MINUTE;
    if (round(low) == round(high))
        snprintf(said.text, sizeof said.text, "%.0f min", mid);
    else
        snprintf(said.text, sizeof said.text, "%.0f (%.0f-%.0f) min", mid, low, high);
    return said;
}

void visits_line(FILE *out, const struct tale *tale)
{
    struct visit_too_long longest =
        visit_too_long(tale->record, tale->members, &tale->scenario->people, tale->room);
    if (!(longest.over > LIKELY * tale->members))
        return;
    double helpers = tale->scenario->people.helpers.mid;
    double over_min = longest.over_s / SECONDS_A_MINUTE;
    char much[256];
    if (round(over_min) >= 1)
        snprintf(much, sizeof much, "%.0f min more than a visit of %s", over_min,
                 phrase_minutes(longest.allowed_s).text);
    else
        snprintf(much, sizeof much, "more than a visit of %s in %s",
                 phrase_minutes(longest.allowed_s).text,
                 phrase_chance(band_chance(longest.over, tale->members)).text);
    date_count day = tale->scenario->start + longest.usual.day;
    phrase_line(out, "time", "%s on %s takes %s by the clock with %g %s: %s",
                doing[longest.usual.deed], phrase_day(day).text, minutes(longest.clock_s).text,
                helpers, helpers > 1 ? "people" : "person", much);
}

void visits_odd(char text[VISITS_TEXT], const struct visit_odd *odd,
                const struct scenario *scenario)
{
    date_count date = scenario->start + odd->day;
    const char *plan = scenario->plan[odd->plan].name, *weekday = weekdays[date_weekday(date)];
    switch (odd->what) {
    case VISIT_AWAY:
        snprintf(text, VISITS_TEXT, "plan \"%s\": %s is a day away; done all the same", plan,
                 phrase_date(date).text);
        break;
    case VISIT_WEEKDAY:
        snprintf(text, VISITS_TEXT, "plan \"%s\": %s is a %s, none of your days; done all the same",
                 plan, phrase_date(date).text, weekday);
        break;
    case VISIT_NEVER:
        snprintf(text, VISITS_TEXT, "plan \"%s\": what comes round from %s, a %s, never meets a "
                 "day of yours; it is never done", plan, phrase_date(date).text, weekday);
        break;
    }
}
