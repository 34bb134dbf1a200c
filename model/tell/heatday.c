/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/heatday.c - see tell/heatday.h. */
#include "tell/heatday.h"
#include "tell/chart.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include "tell/picture.h"
#include "tell/stack.h"
#include <math.h>

/* from nought outward; material added comes at once and would dwarf the rest */
static const struct { enum paint paint; enum budget_line line; } bands[] = {
    {PAINT_decay, BUDGET_DECAY}, {PAINT_air, BUDGET_AIR}, {PAINT_vapour, BUDGET_VAPOUR},
    {PAINT_walls, BUDGET_WALLS}, {PAINT_ground, BUDGET_GROUND}, {PAINT_top, BUDGET_TOP},
    {PAINT_sun_and_sky, BUDGET_SUN_AND_SKY}, {PAINT_rain_and_water, BUDGET_RAIN_AND_WATER}};
enum { BANDS = sizeof bands / sizeof *bands };

static bool is_seen(const struct why_tale *tale, int hour)
{
    return tale->found->able.record[0].hour[hour].seen_s > 0;
}

static struct budget_range range_of(const struct why_tale *tale, int hour)
{
    const struct able *able = &tale->found->able;
    return budget_range_of(able->record, able->members, tale->day, hour, tale->room);
}

void heatday_find(char text[FINDING_TEXT], const struct why_tale *tale)
{
    struct budget_range day = range_of(tale, -1);
    int most = budget_most(&day);
    char made[FINDING_NUMBER], lost[FINDING_NUMBER];
    struct phrase date = phrase_day(tale->scenario->start + tale->day);
    finding_number(made, day.line_W[BUDGET_DECAY].mid);
    if (most < 0) {
        snprintf(text, FINDING_TEXT, "Decay makes %s W on %.12s, and no way takes heat out of the pile", made,
                 date.text);
        return;
    }
    finding_number(lost, day.way_W[most].mid);
    snprintf(text, FINDING_TEXT, "Decay makes %s W on %.12s; %.40s most heat, %s W", made, date.text,
             why_way_takes((enum budget_way)most).text, lost);
}

static void find(char text[FINDING_TEXT], const void *what, int which)
{
    (void)which;
    heatday_find(text, what);
}

static void head(FILE *script, const struct why_tale *tale, const char *finding)
{
    char from[2 * PLAN_NAME + 128];
    const struct scenario *scenario = tale->scenario;
    snprintf(from, sizeof from, "%s; plan: %s; day %d, %s; means of %d possible piles", scenario->name,
             scenario->plan[tale->plan].name, tale->day + 1,
             phrase_date(scenario->start + tale->day).text, tale->found->able.members);
    chart_text(script, "finding", finding);
    chart_text(script, "from", from);
    fprintf(script, "days = %d\n", RECORD_HOURS);
    fputs("set xtics (", script);
    for (int hour = 0; hour <= RECORD_HOURS; hour += 3)
        fprintf(script, "%s\"%d h\" %.1f", hour ? ", " : "", hour, hour + 0.5);
    fputs(")\n", script);
    paint_write(script);
}

static void note(FILE *script, double added_J)
{
    char number[FINDING_NUMBER], text[96] = "";
    if (fabs(added_J) >= 5e4)
        snprintf(text, sizeof text, "not drawn: warmth of material added or removed, %s%s MJ",
                 added_J > 0 ? "+" : "", finding_number(number, added_J / 1e6));
    chart_text(script, "note", text);
}

static bool figures(FILE *script, const void *what, int which, const char *finding, struct trouble *why)
{
    const struct why_tale *tale = what;
    double value[BANDS * RECORD_HOURS] = {0}, added_J = 0;
    enum paint paint[BANDS];
    (void)which;
    head(script, tale, finding);
    for (int hour = 0; hour < RECORD_HOURS; hour++) {
        if (!is_seen(tale, hour))
            continue;
        struct budget_range range = range_of(tale, hour);
        for (int b = 0; b < BANDS; b++)
            value[b * RECORD_HOURS + hour] = range.line_W[bands[b].line].mid;
        added_J += range.line_W[BUDGET_ADDED].mid * 3600;
    }
    for (int b = 0; b < BANDS; b++)
        paint[b] = bands[b].paint;
    note(script, added_J);
    return stack_bars(script, paint, BANDS, value, RECORD_HOURS, why);
}

static const struct picture picture = {
    "heatday", "Heat gained and lost in each hour of one day, in watts, stacked by the way it takes; a "
               "line shows their sum"};

bool heatday_may(const char *dir, bool force, struct trouble *why)
{
    return picture_may(&(struct picture_set){.dir = dir, .force = force, .picture = &picture, .count = 1}, why);
}

bool heatday_draw(const char *dir, bool force, const struct why_tale *tale, struct trouble *why)
{
    struct picture_set set = {dir, force, &picture, 1, tale, find, figures, NULL, NULL};
    const struct scenario *scenario = tale->scenario;
    return gnuplot_accept(scenario->name, "the name of the scenario", why) &&
           gnuplot_accept(scenario->plan[tale->plan].name, "the name of the plan", why) &&
           picture_draw(&set, why);
}
