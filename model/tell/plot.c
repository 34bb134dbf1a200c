/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plot.c - the pictures of a season. */
#include "tell/plot.h"
#include "tell/chart.h"
#include "tell/curves.h"
#include "tell/picture.h"
#include "tell/finding.h"
#include "tell/gnuplot.h"
#include "tell/section.h"
#include "tell/stack.h"

enum { PICTURES = 5, SECTIONS = 1 };

static const struct picture pictures[PICTURES] = {
    {"temperature",
     "Daily temperatures in the middle, 30 cm in, a hand deep and of the air; work done"},
    [SECTIONS] = {"sections", "Cross-sections of temperature, water and oxygen on some days"},
    {"heat", "Daily means of heat gained and lost, by the way it takes"},
    {"mass", "Dry mass at each day's end, by kind of matter"},
    {"water", "Water, free air and the least oxygen at each day's end"},
};

static const struct {
    void (*find)(char text[FINDING_TEXT], const struct record *record,
                 const struct scenario *scenario);
    bool (*write)(const struct chart *chart, struct trouble *why);
} makers[PICTURES] = {
    {finding_temperature, curves_temperature}, [SECTIONS] = {finding_sections, section_write},
    {finding_heat, stack_heat}, {finding_mass, stack_mass}, {finding_water, curves_water},
};

static void find(char text[FINDING_TEXT], const void *what, int which)
{
    const struct chart *chart = what;
    makers[which].find(text, chart->record, chart->scenario);
}

static bool figures(FILE *script, const void *what, int which, const char *finding,
                    struct trouble *why)
{
    struct chart chart = *(const struct chart *)what;
    chart.script = script;
    chart_head(&chart, finding);
    return makers[which].write(&chart, why);
}

static bool wanted(const void *what, int which)
{
    const struct chart *chart = what;
    return which != SECTIONS || chart->record->pictures > 0;
}

static int high(const void *what, int which)
{
    const struct chart *chart = what;
    return which == SECTIONS ? section_high(chart->record, chart->scenario->show == PLAN_SHOW_US) : CHART_HEIGHT;
}

bool plot_may(const char *dir, bool force, struct trouble *why)
{
    return picture_may(&(struct picture_set){.dir = dir, .force = force, .picture = pictures,
                                             .count = PICTURES}, why);
}

bool plot_season(const char *dir, bool force, const struct record *record,
                 const struct scenario *scenario, const char *plan_name, const struct span *middle_K,
                 struct trouble *why)
{
    struct chart chart = {NULL, record, scenario, plan_name, middle_K};
    struct picture_set set = {dir, force, pictures, PICTURES, &chart, find, figures, wanted, high};
    if (record->days < 1)
        return trouble_set(why, TROUBLE_NO, "the season has no day to draw");
    return gnuplot_accept(scenario->name, "the name of the scenario", why) &&
           gnuplot_accept(plan_name, "the name of the plan", why) && picture_draw(&set, why);
}
