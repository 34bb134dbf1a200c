/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/section.c - figures of the cross-sections, each cell in its place. */
#include "tell/section.h"
#include <math.h>
#include <string.h>

static const double ICE_POINT_K = 273.15;
static const double FOOT_M = 0.3048; /* exact */

enum quantity { TEMP, WATER, OXYGEN, QUANTITIES };

struct frame {
    double left, right, top;    /* of what is drawn, in the unit of length */
    double least[QUANTITIES], most[QUANTITIES];
};

static const struct record_picture *column(const struct record *record, int number, int columns)
{
    int last = record->pictures - 1;
    return &record->picture[columns < 2 ? 0 : (number * last + (columns - 1) / 2) / (columns - 1)];
}

static double value(const struct record_cell *cell, enum quantity quantity, bool US)
{
    double temp_C = (double)cell->temp_K - ICE_POINT_K;
    if (quantity == TEMP)
        return US ? 1.8 * temp_C + 32.0 : temp_C;
    return 100.0 * (double)(quantity == WATER ? cell->water_share : cell->oxygen_share);
}

static void range(const struct record_picture *picture, enum quantity quantity, bool US,
                  double *least, double *most)
{
    for (int i = 0; i < picture->cells; i++) {
        double here = value(&picture->cell[i], quantity, US);
        if (isfinite(here)) {
            *least = fmin(*least, here);
            *most = fmax(*most, here);
        }
    }
}

static void widen(double *least, double *most, double step)
{
    if (!(*least <= *most))
        *least = *most = 0.0;
    *least = step * floor(*least / step);
    *most = step * ceil(*most / step);
    if (!(*most > *least))
        *most = *least + step;
}

static struct frame frame_of(const struct record *record, int columns, bool US)
{
    struct frame frame = {0.0, 0.0, 0.0, {INFINITY, INFINITY, 0.0}, {-INFINITY, -INFINITY, 21.0}};
    double unit_m = US ? FOOT_M : 1.0;
    for (int k = 0; k < columns; k++) {
        const struct record_picture *picture = column(record, k, columns);
        for (int i = 0; i < picture->cells; i++) {
            const struct record_cell *cell = &picture->cell[i];
            double outer = (double)cell->outer_m / unit_m, top = (double)cell->top_m / unit_m;
            double inner = picture->mirror ? -outer : (double)cell->inner_m / unit_m;
            frame.left = isfinite(inner) ? fmin(frame.left, inner) : frame.left;
            frame.right = isfinite(outer) ? fmax(frame.right, outer) : frame.right;
            frame.top = isfinite(top) ? fmax(frame.top, top) : frame.top;
        }
        for (int q = 0; q < QUANTITIES; q++)
            range(picture, (enum quantity)q, US, &frame.least[q], &frame.most[q]);
    }
    widen(&frame.left, &frame.right, 1e-3);
    frame.top = frame.top > 0.0 ? frame.top : frame.right - frame.left;
    widen(&frame.least[TEMP], &frame.most[TEMP], US ? 20.0 : 10.0);
    widen(&frame.least[WATER], &frame.most[WATER], 10.0);
    widen(&frame.least[OXYGEN], &frame.most[OXYGEN], 1.0);
    return frame;
}

/* Two to five to a length, at round numbers. */
static double tics_step(double length)
{
    double step = pow(10.0, floor(log10(length / 2.0)));
    return length / step > 8.0 ? 5.0 * step : length / step > 4.0 ? 2.0 * step : step;
}

/* how the panels stand, in points */
struct layout {
    bool lying;         /* a row a day; else a column a day */
    double scale;       /* points for a unit of length */
    double rise;        /* from the foot of a row to that of the next */
    double high;        /* of the whole picture */
};

/* The largest panels that fit, with room for tics and the words above each: a column a day, or, where that
 * makes them larger, a row a day. What height they don't need the picture hasn't. */
static struct layout layout_of(const struct frame *frame, int days)
{
    const double words = 58.0, rows = 0.79 * CHART_HEIGHT / QUANTITIES;
    const double row_words = 26.0, row_least = 44.0, row = 0.745 * CHART_HEIGHT / days;
    double wide = frame->right - frame->left;
    double upright = fmin((0.82 * CHART_WIDTH / days - 34.0) / wide, (rows - words) / frame->top);
    double lying = fmin((0.88 * CHART_WIDTH / QUANTITIES - 40.0) / wide, (row - row_words) / frame->top);
    struct layout l = {lying > upright, fmax(upright, lying), 0.0, CHART_HEIGHT};
    l.rise = l.lying ? fmin(row, fmax(row_least, l.scale * frame->top + row_words))
                     : l.scale * frame->top + words;
    l.high -= l.lying ? days * (row - l.rise) : QUANTITIES * (rows - l.rise);
    return l;
}

static void panels_write(FILE *script, const struct frame *frame, int days)
{
    struct layout l = layout_of(frame, days);
    double wide = frame->right - frame->left;
    fprintf(script, "lying = %d\nleft = %.6g; right = %.6g; top = %.6g\n", l.lying, frame->left, frame->right,
            frame->top);
    fprintf(script, "width = %.6g\nheight = %.6g\nrise = %.6g\n", l.scale * wide / CHART_WIDTH,
            l.scale * frame->top, l.rise);
    double step = tics_step(fmax(wide, frame->top));
    fprintf(script, "set ytics %.6g\n", tics_step(frame->top));
    for (int bare = 0; bare < 2; bare++) {
        int tics = 0, first = (int)ceil(frame->left / step - 1e-6);
        fprintf(script, "%s_tics = 'set xtics (", bare ? "bare" : "full");
        for (int i = first; i * step <= frame->right + 1e-6 * wide; i++) {
            fputs(tics++ ? ", " : "", script);
            if (bare)
                fprintf(script, "\"\" %.6g", i * step);
            else
                fprintf(script, "\"%.3g\" %.6g", fabs(i * step), i * step);
        }
        fputs(")'\n", script);
    }
}

static void box(const struct record_cell *cell, bool US, bool mirrored, FILE *script)
{
    double unit_m = US ? FOOT_M : 1.0;
    double inner = (double)cell->inner_m / unit_m, outer = (double)cell->outer_m / unit_m;
    chart_value(script, mirrored ? -outer : inner);
    chart_value(script, mirrored ? -inner : outer);
    chart_value(script, (double)cell->bottom_m / unit_m);
    chart_value(script, (double)cell->top_m / unit_m);
    for (int q = 0; q < QUANTITIES; q++)
        chart_value(script, value(cell, (enum quantity)q, US));
    putc('\n', script);
}

static void words_write(const struct chart *chart, const struct record_picture *picture, int number,
                        bool US)
{
    const char *unit[QUANTITIES] = {US ? "°F" : "°C", "%", "%"};
    FILE *script = chart->script;
    char date[CHART_DATE];
    chart_date(date, chart->scenario->start + picture->day - 1);
    fprintf(script, "HEAD[%d] = 'day %d, %s'\n", number, picture->day, date);
    for (int q = 0; q < QUANTITIES; q++) {
        double least = INFINITY, most = -INFINITY;
        range(picture, (enum quantity)q, US, &least, &most);
        fprintf(script, "RANGE[%d] = ", (number - 1) * QUANTITIES + q + 1);
        least = floor(least + 0.5) + 0.0;
        most = floor(most + 0.5) + 0.0;
        if (least < most)
            fprintf(script, "'%.0f to %.0f %s'\n", least, most, unit[q]);
        else if (isfinite(least))
            fprintf(script, "'%.0f %s'\n", least, unit[q]);
        else
            fputs("'unknown'\n", script);
    }
}

/* So many days from the first, of `columns` that are picked, under one frame. */
static bool days_write(const struct chart *chart, int columns, int first, int count,
                       struct trouble *why)
{
    const struct record *record = chart->record;
    FILE *script = chart->script;
    bool US = chart->scenario->show == PLAN_SHOW_US;
    if (columns < 1 || first + count > columns)
        return trouble_set(why, TROUBLE_NO, "the season kept no cross-section to draw");
    struct frame frame = frame_of(record, columns, US);
    fprintf(script, "columns = %d\nlength = '%s'\ntemp = '%s'\n", count, US ? "ft" : "m",
            US ? "°F" : "°C");
    panels_write(script, &frame, count < SECTION_COLUMNS ? count : SECTION_COLUMNS);
    fprintf(script, "array LEAST[3] = [%g, %g, %g]\narray MOST[3] = [%g, %g, %g]\n",
            frame.least[0], frame.least[1], frame.least[2], frame.most[0], frame.most[1],
            frame.most[2]);
    fprintf(script, "array HEAD[%d]\narray RANGE[%d]\n", count, count * QUANTITIES);
    for (int k = 0; k < count; k++)
        words_write(chart, column(record, first + k, columns), k + 1, US);
    fputs("$CELLS << END\n", script);
    for (int k = 0; k < count; k++) {
        const struct record_picture *picture = column(record, first + k, columns);
        for (int i = 0; i < picture->cells; i++) {
            box(&picture->cell[i], US, false, script);
            if (picture->mirror)
                box(&picture->cell[i], US, true, script);
        }
        fputs("NaN NaN NaN NaN NaN NaN NaN\n\n\n", script);
    }
    fputs("END\n", script);
    return true;
}

bool section_write(const struct chart *chart, struct trouble *why)
{
    int kept = chart->record->pictures;
    int columns = kept < SECTION_COLUMNS ? kept : SECTION_COLUMNS;
    return days_write(chart, columns, 0, columns, why);
}

bool section_some(const struct chart *chart, int first, int count, struct trouble *why)
{
    return days_write(chart, chart->record->pictures, first, count, why);
}

int section_high(const struct record *record, bool US)
{
    int days = record->pictures < SECTION_COLUMNS ? record->pictures : SECTION_COLUMNS;
    if (days < 1)
        return CHART_HEIGHT;
    struct frame frame = frame_of(record, days, US);
    return (int)ceil(layout_of(&frame, days).high);
}

double section_spare(const struct record *record, double room_wide, double room_high)
{
    if (record->pictures < 1)
        return 0.0;
    struct frame frame = frame_of(record, record->pictures, false);
    return fmax(0.0, room_high - room_wide * frame.top / (frame.right - frame.left));
}
