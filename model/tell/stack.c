/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/stack.c - figures of the pictures that stack areas: heat by its way, dry mass by pool. */
#include "tell/stack.h"
#include "base/unit.h"
#include "tell/finding.h"
#include "tell/paint.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double DAY_S = 86400.0;
/* panel as placed by plots/heat.gp and plots/mass.gp */
static const double PANEL_WIDTH = 0.67, PANEL_HEIGHT = 0.72;
enum { BANDS = 12 };

struct stack {
    int bands, days;
    enum paint paint[BANDS];    /* from nought outward */
    bool there[BANDS];          /* not nought every day */
    double *value;              /* [bands][days] */
    double *edge;               /* [bands][4][days]: gain's inner and outer edge, loss's */
    double least, most;         /* of the axis */
};

enum edge { GAIN_INNER, GAIN_OUTER, LOSS_INNER, LOSS_OUTER, EDGES };

static double *edge(const struct stack *stack, int band, enum edge which)
{
    return stack->edge + ((size_t)band * EDGES + which) * (size_t)stack->days;
}

static void stack_free(struct stack *stack)
{
    free(stack->value);
    free(stack->edge);
}

static bool stack_make(struct stack *stack, const enum paint *paint, int bands, int days,
                       struct trouble *why)
{
    *stack = (struct stack){.bands = bands, .days = days};
    memcpy(stack->paint, paint, (size_t)bands * sizeof *paint);
    stack->value = calloc((size_t)bands * (size_t)days, sizeof *stack->value);
    stack->edge = calloc((size_t)bands * EDGES * (size_t)days, sizeof *stack->edge);
    return (stack->value && stack->edge) ||
           trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
}

/* A day whose figures aren't all numbers is left white: a stack with a hole shows wrong sums. */
static void pile_up(struct stack *stack)
{
    for (int i = 0; i < stack->days; i++) {
        double gain = 0.0, loss = 0.0;
        for (int b = 0; b < stack->bands; b++) {
            double value = stack->value[b * stack->days + i];
            edge(stack, b, GAIN_INNER)[i] = gain;
            edge(stack, b, LOSS_INNER)[i] = loss;
            gain += isnan(value) ? NAN : fmax(value, 0.0);
            loss += isnan(value) ? NAN : fmin(value, 0.0);
            edge(stack, b, GAIN_OUTER)[i] = gain;
            edge(stack, b, LOSS_OUTER)[i] = loss;
        }
        if (isfinite(gain) && isfinite(loss)) {
            stack->most = fmax(stack->most, gain);
            stack->least = fmin(stack->least, loss);
            continue;
        }
        for (int b = 0; b < stack->bands; b++)
            for (int e = 0; e < EDGES; e++)
                edge(stack, b, (enum edge)e)[i] = NAN;
    }
    double margin = 0.04 * (stack->most - stack->least);
    stack->most += margin > 0.0 ? margin : 1.0;
    stack->least -= stack->least < 0.0 ? margin : 0.0;
}

/* Two lines a day, at its ends: columns are the day, the edges of each band, the sum. */
static void bars_write(const struct stack *stack, FILE *script)
{
    fputs("$BANDS << END\n", script);
    for (int i = 0; i < stack->days; i++) {
        int last = stack->bands - 1;
        double sum = edge(stack, last, GAIN_OUTER)[i] + edge(stack, last, LOSS_OUTER)[i];
        for (int end = 0; end < 2; end++) {
            fprintf(script, "%.1f", i + 0.5 + end);
            for (int b = 0; b < stack->bands; b++)
                for (int e = 0; e < EDGES; e++)
                    chart_value(script, edge(stack, b, (enum edge)e)[i]);
            chart_value(script, sum);
            putc('\n', script);
        }
    }
    fputs("END\n", script);
}

/* The letter of a band in the legend, which reads from the outermost band inward. */
static char letter(const struct stack *stack, int band)
{
    char here = 'A';
    for (int b = stack->bands - 1; b > band; b--)
        here = (char)(here + stack->there[b]);
    return here;
}

/* Names stand inside the bands that are thick enough, on each side; where a name has no room, its
 * letter may. So a picture in grey can be read too. */
static void names_write(const struct stack *stack, FILE *script)
{
    double span = stack->most - stack->least;
    for (int i = 0; i < stack->bands * EDGES * stack->days; i++)
        stack->edge[i] = (stack->edge[i] - stack->least) / span;
    fputs("$NAMES << END\n", script);
    for (int b = 0; b < stack->bands; b++)
        for (int side = 0; side < 2; side++) {
            const double *low = edge(stack, b, side ? LOSS_OUTER : GAIN_INNER);
            const double *high = edge(stack, b, side ? LOSS_INNER : GAIN_OUTER);
            const char code[2] = {letter(stack, b), '\0'};
            const char *name[2] = {paint_rows[stack->paint[b]].label, code};
            for (int try = 0; try < 2; try++) {
                struct place_label label = chart_label(name[try], PANEL_WIDTH, PANEL_HEIGHT);
                if (!place_in_band(&label, low, high, stack->days))
                    continue;
                chart_name(script, label.x * stack->days + 0.5, stack->least + label.y * span,
                           name[try], paint_text(stack->paint[b]));
                break;
            }
        }
    chart_names_end(script);
}

/* A band that is nought every day is left out of the legend, unless all are. */
static void stack_write(struct stack *stack, FILE *script)
{
    int shown = 0;
    for (int b = 0; b < stack->bands; b++)
        for (int i = 0; i < stack->days; i++)
            stack->there[b] = stack->there[b] || stack->value[b * stack->days + i] != 0.0;
    if (letter(stack, -1) == 'A')
        memset(stack->there, true, sizeof stack->there);
    pile_up(stack);
    bars_write(stack, script);
    fprintf(script, "least = %.6g\nmost = %.6g\nsum_column = %d\n", stack->least, stack->most,
            2 + stack->bands * EDGES);
    fprintf(script, "array COLOUR[%d]; array WORDS[%d]; array COLUMN[%d]\n", stack->bands,
            stack->bands, stack->bands);
    for (int b = stack->bands - 1; b >= 0; b--)
        if (stack->there[b]) {
            const struct paint_row *row = &paint_rows[stack->paint[b]];
            shown++;
            fprintf(script, "COLOUR[%d] = '#%06x'; WORDS[%d] = '%c  %s'; COLUMN[%d] = %d\n", shown,
                    row->colour, shown, letter(stack, b), row->label, shown, 2 + b * EDGES);
        }
    fprintf(script, "bands = %d\n", shown);
    names_write(stack, script);
}

bool stack_bars(FILE *script, const enum paint *paint, int bands, const double *value, int bars,
                struct trouble *why)
{
    struct stack stack;
    bool good = stack_make(&stack, paint, bands, bars, why);
    if (good) {
        memcpy(stack.value, value, (size_t)bands * (size_t)bars * sizeof *value);
        stack_write(&stack, script);
    }
    stack_free(&stack);
    return good;
}

/* A budget line that has no paint of its own is none of a season's: tests see to it. */
bool stack_heat(const struct chart *chart, struct trouble *why)
{
    static const enum paint paint[] = {PAINT_decay,  PAINT_air,         PAINT_vapour,
                                       PAINT_walls,  PAINT_ground,      PAINT_top,
                                       PAINT_sun_and_sky, PAINT_rain_and_water};
    enum { COUNT = sizeof paint / sizeof *paint };
    struct stack stack;
    double added_J = 0.0;
    char added[FINDING_NUMBER];
    bool good = stack_make(&stack, paint, COUNT, chart->record->days, why);
    for (int f = 0; good && f < FLUXES; f++) {
        int b = 0;
        if (flux_rows[f].of != FLUX_OF_ENERGY)
            continue;
        while (b < COUNT && paint[b] != (enum paint)paint_find(flux_rows[f].group))
            b++;
        for (int i = 0; i < stack.days; i++)
            if (b < COUNT)
                stack.value[b * stack.days + i] += chart->record->day[i].flux[f] / DAY_S;
            else
                added_J += chart->record->day[i].flux[f];
    }
    if (good) {
        stack_write(&stack, chart->script);
        if (isfinite(added_J) && fabs(added_J) >= 5e4)
            fprintf(chart->script,
                    "note = 'not drawn: warmth of material added or removed, %s%s MJ'\n",
                    added_J > 0.0 ? "+" : "", finding_number(added, added_J / 1e6));
        else
            fputs("note = ''\n", chart->script);
    }
    stack_free(&stack);
    return good;
}

/* What lasts is at the bottom, what goes first on top. */
bool stack_mass(const struct chart *chart, struct trouble *why)
{
    static const enum paint paint[] = {PAINT_humus_and_ash, PAINT_lignin,      PAINT_slow,
                                       PAINT_microbes,      PAINT_protein_fat, PAINT_fast};
    static const int pool[] = {5, 3, 2, 4, 1, 0};
    enum { COUNT = sizeof pool / sizeof *pool };
    struct stack stack;
    bool US = chart->scenario->show == PLAN_SHOW_US, good;
    good = stack_make(&stack, paint, COUNT, chart->record->days, why);
    for (int b = 0; good && b < COUNT; b++)
        for (int i = 0; i < stack.days; i++)
            stack.value[b * stack.days + i] =
                chart->record->day[i].pool_kg[pool[b]] / (US ? UNIT_POUND_KG : 1.0);
    if (good) {
        stack_write(&stack, chart->script);
        fprintf(chart->script, "unit = '%s'; other = '%s'; size = %.9g\n", US ? "lb" : "kg",
                US ? "kg" : "lb", US ? UNIT_POUND_KG : 1.0 / UNIT_POUND_KG);
    }
    stack_free(&stack);
    return good;
}
