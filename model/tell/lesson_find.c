/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_find.c - see tell/lesson_find.h. */
#include "tell/lesson_find.h"
#include "ask/lesson_try.h"
#include "tell/why.h"
#include <math.h>
#include <stdio.h>

static const double ICE_POINT_K = 273.15;

static double celsius(struct span temp_K)
{
    return floor(temp_K.mid - ICE_POINT_K + 0.5) + 0.0;
}

static double percent(struct span share)
{
    return floor(100 * share.mid + 0.5) + 0.0;
}

static void find_watts(char text[FINDING_TEXT], const struct lesson_tale *tale)
{
    const struct budget_range *b = &tale->found->budget;
    int most = budget_most(b);
    char made[FINDING_NUMBER], lost[FINDING_NUMBER];
    const char *day = phrase_day(tale->scenario->start + tale->found->day).text;
    finding_number(made, b->line_W[BUDGET_DECAY].mid);
    if (most < 0)
        snprintf(text, FINDING_TEXT, "On %.12s decay makes %s W", day, made);
    else
        snprintf(text, FINDING_TEXT, "On %.12s decay makes %s W; %.30s most, %s W", day, made,
                 why_way_takes((enum budget_way)most).text,
                 finding_number(lost, b->way_W[most].mid));
}

void lesson_find(char text[FINDING_TEXT], const struct lesson_tale *tale, enum lesson_figure figure)
{
    const struct lesson_found *f = tale->found;
    switch (figure) {
    case LESSON_FIGURE_SIZES:
        snprintf(text, FINDING_TEXT,
                 "The same mix on day %d: %.0f °C in a cube of %.1f m, %.0f °C in one of %.1f m",
                 f->run[LESSON_SMALL].scenario->last_day + 1, celsius(f->size[0].last_K),
                 lesson_try_side_m[0], celsius(f->size[1].last_K), lesson_try_side_m[1]);
        return;
    case LESSON_FIGURE_TURNED:
        snprintf(
            text, FINDING_TEXT,
            "Turned, the middle goes from %.0f °C to %.0f °C, then to %.0f °C; left alone %.0f °C",
            celsius(f->turn_before_K), celsius(f->turn_low_K), celsius(f->turn_top_K),
            celsius(f->turn_alone_K));
        return;
    case LESSON_FIGURE_WETNESS:
        snprintf(
            text, FINDING_TEXT,
            "Used up in %d days of the dry matter: built dry %.0f %%, damp %.0f %%, wet %.0f %%",
            f->run[LESSON_DRY].scenario->last_day + 1, percent(f->wet[0].used_share),
            percent(f->wet[1].used_share), percent(f->wet[2].used_share));
        return;
    case LESSON_FIGURE_BLANKET:
        snprintf(
            text, FINDING_TEXT,
            "On the coldest day the middle is at %.0f °C bare, at %.0f °C under %.0f cm of straw",
            celsius(f->bare_K[0]), celsius(f->covered_K[0]), 100 * lesson_try_cover_m);
        return;
    default:
        find_watts(text, tale);
    }
}
