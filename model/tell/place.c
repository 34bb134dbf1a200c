/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/place.c - where a name can stand in a picture without covering what is drawn. */
#include "tell/place.h"
#include <math.h>

struct reach {
    double least, most, mean; /* of the values under a label; NAN when there are none */
};

static void reach_add(struct reach *reach, double value, int *count)
{
    if (isnan(value))
        return;
    reach->least = fmin(reach->least, value);
    reach->most = fmax(reach->most, value);
    reach->mean = *count ? reach->mean + (value - reach->mean) / (*count + 1) : value;
    ++*count;
}

/* A line at x, its values joined by slopes and its ends held. */
static double height_at(const double *line, int points, double x)
{
    double place = fmin(fmax(x * points - 0.5, 0.0), points - 1.0);
    int left = (int)place;
    double rest = place - left;
    return rest > 0.0 ? line[left] + rest * (line[left + 1] - line[left]) : line[left];
}

/* Of a line under a label, looked at closely enough to miss no value. */
static struct reach reach(const double *line, int points, const struct place_label *label)
{
    struct reach reach = {NAN, NAN, NAN};
    int steps = 24 + 2 * (int)(label->width * points), count = 0;
    for (int i = 0; i <= steps; i++) {
        double x = label->x + label->width * ((double)i / steps - 0.5);
        reach_add(&reach, height_at(line, points, x), &count);
    }
    return reach;
}

/* Of the edge of a band, whose values are bars. */
static struct reach reach_bars(const double *line, int points, const struct place_label *label)
{
    struct reach reach = {NAN, NAN, NAN};
    int from = (int)floor((label->x - label->width / 2.0) * points), count = 0;
    int to = (int)floor((label->x + label->width / 2.0) * points);
    for (int i = from < 0 ? 0 : from; i <= to && i < points; i++)
        reach_add(&reach, line[i], &count);
    return reach;
}

static bool meets(const struct place_label *a, const struct place_label *b)
{
    return fabs(a->x - b->x) < (a->width + b->width) / 2.0 &&
           fabs(a->y - b->y) < (a->height + b->height) / 2.0;
}

/* Free height between a label and the nearest other line; negative if one touches it. */
static double clearance(const struct place_label *label, int which, const struct place_panel *panel)
{
    double clear = 1.0, half = label->height / 2.0;
    for (int j = 0; j < panel->lines; j++) {
        if (j == which)
            continue;
        struct reach other = reach(panel->line[j], panel->points, label);
        if (isnan(other.least))
            continue;
        double gap = fmax(other.least - label->y, label->y - other.most) - half;
        clear = fmin(clear, gap);
    }
    return clear;
}

static int crossings(const struct place_label *label, const struct place_panel *panel)
{
    int count = 0;
    for (int i = 0; i < panel->uprights; i++)
        count += fabs(panel->upright[i] - label->x) < label->width / 2.0;
    return count;
}

/* How well a label stands; below 0 it must not. A name is read as that of the nearest line, so the
 * others must be farther away than its own; near its line and off the uprights is better. */
static double worth(const struct place_label *label, int which, const struct place_panel *panel,
                    const struct place_label *placed, int taken)
{
    double half = label->height / 2.0;
    if (label->y - half < 0.0 || label->y + half > 1.0)
        return -1.0;
    for (int i = 0; i < taken; i++)
        if (meets(label, &placed[i]))
            return -1.0;
    double own = fabs(reach(panel->line[which], panel->points, label).mean - label->y) - half;
    double clear = clearance(label, which, panel);
    if (!(clear >= 1.1 * own && clear >= 0.6 * half))
        return -1.0;
    return fmax(0.0, 1.0 + fmin(clear, 0.1) - 3.0 * own - 0.1 * crossings(label, panel));
}

bool place_on_line(struct place_label *label, int which, const struct place_panel *panel,
                   const struct place_label *placed, int taken)
{
    struct place_label best = *label;
    double best_worth = -1.0;
    for (int i = 0; i < panel->points; i++)
        for (int side = -1; side <= 1; side += 2) {
            struct place_label here = *label;
            here.x = (i + 0.5) / panel->points;
            if (here.x - here.width / 2.0 < 0.0 || here.x + here.width / 2.0 > 1.0)
                continue;
            struct reach own = reach(panel->line[which], panel->points, &here);
            here.y = side > 0 ? own.most + 0.6 * here.height : own.least - 0.6 * here.height;
            double value = isnan(here.y) ? -1.0 : worth(&here, which, panel, placed, taken);
            if (value > best_worth) {
                best_worth = value;
                best = here;
            }
        }
    *label = best;
    return best_worth >= 0.0;
}

bool place_in_band(struct place_label *label, const double *low, const double *high, int points)
{
    double thickest = 0.8 * label->height; /* its letters are lower than its line */
    bool found = false;
    for (int i = 0; i < points; i++) {
        struct place_label here = *label;
        here.x = (i + 0.5) / points;
        if (here.x - here.width / 2.0 < 0.0 || here.x + here.width / 2.0 > 1.0)
            continue;
        double floor_y = reach_bars(low, points, &here).most;
        double roof_y = reach_bars(high, points, &here).least;
        if (roof_y - floor_y > thickest) {
            thickest = roof_y - floor_y;
            *label = here;
            label->y = (floor_y + roof_y) / 2.0;
            found = true;
        }
    }
    return found;
}
