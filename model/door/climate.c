/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/climate.c - the weather of a scenario, whatever it names, as the curves of its season.
 *
 * A file is used as far back as it goes, since it decides how much snow lies on the first day.
 */
#include "door/climate.h"
#include "door/sheet.h"
#include "many/spell.h"

/* Says which days of the season a file leaves out, by its ends. */
static bool covers(const struct weather *weather, const struct scenario *scenario,
                   struct trouble *why)
{
    date_count first = scenario->start, last = scenario->start + scenario->last_day;
    date_count has_first = weather->start, has_last = weather->start + weather->days - 1;
    char from[DATE_TEXT], to[DATE_TEXT], has_from[DATE_TEXT], has_to[DATE_TEXT];
    if (has_first <= first && has_last >= last)
        return true;
    date_write(has_first, has_from);
    date_write(has_last, has_to);
    bool early = has_first > first, late = has_last < last;
    date_write(early ? first : has_last + 1 > first ? has_last + 1 : first, from);
    date_write(late ? last : has_first - 1 < last ? has_first - 1 : last, to);
    if (early && late)
        return trouble_set(why, TROUBLE_INPUT, "%s: the season is %s to %s, but the weather is "
                           "only %s to %s; days at both ends are missing", scenario->sky_file,
                           from, to, has_from, has_to);
    return trouble_set(why, TROUBLE_INPUT, "%s: the weather is %s to %s; the days %s to %s of the "
                       "season are missing", scenario->sky_file, has_from, has_to, from, to);
}

bool climate_curve(struct curve *curve, const struct scenario *scenario, long long draw,
                   struct trouble *why)
{
    struct weather weather;
    if (scenario->sky != PLAN_SKY_FILE)
        return spell_made(curve, scenario, (uint64_t)draw, 0, why);
    if (!sheet_weather(&weather, scenario->sky_file, why))
        return false;
    bool made = covers(&weather, scenario, why) && spell_of(curve, scenario, &weather, why);
    weather_free(&weather);
    return made;
}
