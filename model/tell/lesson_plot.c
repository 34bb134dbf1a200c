/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_plot.c - see tell/lesson_plot.h. */
#include "tell/lesson_plot.h"
#include "ask/lesson_try.h"
#include "many/band.h"
#include "tell/chart.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include "tell/picture.h"
#include "tell/stack.h"
#include <math.h>
#include <stdlib.h>

static const double ICE_POINT_K = 273.15, COOL_K = 303.15;
enum {
    LINES = 5,
    MOST_DAYS = 64,
    AROUND_COLD = 10,
    WATTS_LEAST = 21,
    WATTS_MOST = 56,
    BEFORE_TURN = 8
};
static const double PANEL_WIDTH = 0.86, PANEL_HEIGHT = 0.76, HIGH_PANEL = 0.475;
static const double NOWHERE = -999;

/* one line: a number of each day from one experiment */
struct line {
    const struct trial *trial;
    enum trial_thing thing;
    struct paint_row paint;
    char words[48];
};

struct sheet {
    const struct lesson_tale *tale;
    int lines, first, points; /* the first day from 0; of the blanket from the coldest day on */
    bool from_coldest, beneath;
    double upright; /* a day marked, NOWHERE = none */
    struct line line[LINES];
    struct span value[LINES][MOST_DAYS], oxygen[LINES][MOST_DAYS];
};

static void find(char text[FINDING_TEXT], const void *what, int which)
{
    lesson_find(text, what, (enum lesson_figure)which);
}

/* ---- watts ---- */

/* from nought outward; material added comes at once and would dwarf the rest */
static const struct {
    enum paint paint;
    enum budget_line line;
} bands[] = {{PAINT_decay, BUDGET_DECAY},
             {PAINT_air, BUDGET_AIR},
             {PAINT_vapour, BUDGET_VAPOUR},
             {PAINT_walls, BUDGET_WALLS},
             {PAINT_ground, BUDGET_GROUND},
             {PAINT_top, BUDGET_TOP},
             {PAINT_sun_and_sky, BUDGET_SUN_AND_SKY},
             {PAINT_rain_and_water, BUDGET_RAIN_AND_WATER}};
enum { BANDS = sizeof bands / sizeof *bands };

/* Until the middle is cool, between three and eight weeks. */
static int watt_days(const struct lesson_found *found)
{
    const struct able *able = &found->asked->able;
    int days = found->asked->scenario->last_day + 1, last = WATTS_LEAST;
    for (int d = 0; d < days && d < WATTS_MOST; d++)
        if (trial_span(found->asked, TRIAL_MIDDLE_K, d, able->room).mid > COOL_K && d + 1 > last)
            last = d + 1;
    last = found->day + LESSON_WEEK > last ? found->day + LESSON_WEEK : last;
    return last < days ? last : days;
}

static void head(FILE *script, const struct lesson_tale *tale, const struct scenario *scenario,
                 const char *plan, const char *finding)
{
    char from[2 * PLAN_NAME + 160];
    chart_text(script, "finding", finding);
    snprintf(from, sizeof from, "%s; %s; day 1 is %s; medians of %d possible piles", scenario->name,
             plan, phrase_date(scenario->start).text, tale->found->members);
    chart_text(script, "from", from);
    paint_write(script);
}

static bool write_watts(FILE *script, const struct lesson_tale *tale, const char *finding,
                        struct trouble *why)
{
    const struct lesson_found *found = tale->found;
    const struct able *able = &found->asked->able;
    int days = watt_days(found);
    double *value = calloc((size_t)days * BANDS, sizeof *value);
    enum paint paint[BANDS];
    char from[2 * PLAN_NAME + 128];
    if (!value)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
    for (int d = 0; d < days; d++) {
        struct budget_range range =
            budget_range_of(able->record, able->members, d, -1, found->room);
        for (int b = 0; b < BANDS; b++)
            value[b * days + d] = range.line_W[bands[b].line].mid;
    }
    for (int b = 0; b < BANDS; b++)
        paint[b] = bands[b].paint;
    chart_text(script, "finding", finding);
    snprintf(from, sizeof from, "%s; plan: %s; means of %d possible piles", tale->scenario->name,
             tale->scenario->plan[tale->plan].name, able->members);
    chart_text(script, "from", from);
    chart_text(script, "note", "warmth of material built in or added is not drawn");
    fprintf(script, "days = %d\n", days);
    chart_tics(script, tale->scenario->start, days, true);
    paint_write(script);
    bool good = stack_bars(script, paint, BANDS, value, days, why);
    free(value);
    return good;
}

/* ---- lines ---- */

static struct paint_row painted(enum paint paint)
{
    return paint_rows[paint];
}

static void add(struct sheet *sheet, const struct trial *trial, enum trial_thing thing, int nth,
                const char *format, double number)
{
    struct line *line = &sheet->line[sheet->lines++];
    *line = (struct line){.trial = trial, .thing = thing, .paint = paint_nth(nth)};
    snprintf(line->words, sizeof line->words, "%.20s", "");
    if (number > 0)
        snprintf(line->words, sizeof line->words, number < 10 ? "cube of %.1f m" : "%.0f %% water",
                 number);
    else
        snprintf(line->words, sizeof line->words, "%s", format);
}

static void add_air(struct sheet *sheet, const struct trial *trial)
{
    sheet->line[sheet->lines++] = (struct line){.trial = trial,
                                                .thing = TRIAL_AIR_K,
                                                .paint = painted(PAINT_outside),
                                                .words = "outside air"};
}

static struct sheet sheet_of(const struct lesson_tale *tale, enum lesson_figure figure)
{
    const struct lesson_found *f = tale->found;
    struct sheet sheet = {.tale = tale, .points = LESSON_TRIAL_DAYS, .upright = NOWHERE};
    int season = f->alone->scenario->last_day + 1;
    switch (figure) {
    case LESSON_FIGURE_SIZES:
        for (int i = 0; i < LESSON_SIZES; i++)
            add(&sheet, &f->run[LESSON_SMALL + i], TRIAL_MIDDLE_K, i ? 0 : 2, "",
                lesson_try_side_m[i]);
        add_air(&sheet, &f->run[LESSON_SMALL]);
        break;
    case LESSON_FIGURE_WETNESS:
        for (int i = 0; i < LESSON_WETS; i++)
            add(&sheet, &f->run[LESSON_DRY + i], TRIAL_MIDDLE_K,
                i == 1 ? 0
                : i    ? 1
                       : 2,
                "", 100 * lesson_try_water_share[i]);
        break;
    case LESSON_FIGURE_TURNED:
        sheet.first = f->turn_day > BEFORE_TURN ? f->turn_day - BEFORE_TURN : 0;
        sheet.points = f->turn_day + TRIAL_AFTER_TURN + 1 - sheet.first;
        sheet.beneath = true;
        sheet.upright = f->turn_day + 1;
        add(&sheet, &f->run[LESSON_TURNED], TRIAL_MIDDLE_K, 0, "turned", 0);
        add(&sheet, f->alone, TRIAL_MIDDLE_K, 2, "left alone", 0);
        break;
    default:
        sheet.first = -AROUND_COLD;
        sheet.points = 2 * AROUND_COLD + 1;
        sheet.from_coldest = true;
        sheet.upright = 0;
        add(&sheet, &f->run[LESSON_COVERED], TRIAL_MIDDLE_K, 0, "middle, under straw", 0);
        add(&sheet, f->bare, TRIAL_MIDDLE_K, 2, "middle, bare", 0);
        add(&sheet, &f->run[LESSON_COVERED], TRIAL_HAND_DEEP_K, 3, "a hand deep, under straw", 0);
        add(&sheet, f->bare, TRIAL_HAND_DEEP_K, 4, "a hand deep, bare", 0);
        add_air(&sheet, f->bare);
        return sheet;
    }
    if (sheet.first + sheet.points > season)
        sheet.points = season - sheet.first;
    return sheet;
}

/* Of a day, or of so many days from each pile's own coldest one. */
static struct span at(const struct sheet *sheet, const struct trial *trial, enum trial_thing thing,
                      int day)
{
    const struct able *able = &trial->able;
    double *room = sheet->tale->found->room;
    int count = 0;
    if (!sheet->from_coldest)
        return trial_span(trial, thing, day, room);
    for (int m = 0; m < able->members; m++) {
        int there = trial_coldest(&able->record[m]) + day;
        if (there >= 0 && there < able->record[m].days)
            room[count++] = trial_number(&able->record[m], thing, there);
    }
    return count ? band_of(room, count) : (struct span){NAN, NAN, NAN};
}

/* Steps of the axis: 10 °C, or 5 where it is short. */
static void fill(struct sheet *sheet, double *least, double *most)
{
    for (int k = 0; k < sheet->lines; k++)
        for (int i = 0; i < sheet->points; i++) {
            const struct line *line = &sheet->line[k];
            struct span K = at(sheet, line->trial, line->thing, sheet->first + i);
            struct span C = {K.low - ICE_POINT_K, K.mid - ICE_POINT_K, K.high - ICE_POINT_K};
            sheet->value[k][i] = C;
            if (sheet->beneath)
                sheet->oxygen[k][i] = at(sheet, line->trial, TRIAL_OXYGEN, sheet->first + i);
            *least = fmin(*least, sheet->from_coldest ? C.mid : C.low);
            *most = fmax(*most, sheet->from_coldest ? C.mid : C.high);
        }
    double step = sheet->from_coldest ? 5 : 10;
    *least = step * floor(*least / step);
    *most = step * ceil(*most / step);
}

static double x_of(const struct sheet *sheet, double point)
{
    return sheet->first + point + !sheet->from_coldest;
}

static void rows(FILE *script, const struct sheet *sheet, const char *block, bool oxygen)
{
    fprintf(script, "$%s << END\n", block);
    for (int k = 0; k < sheet->lines; k++) {
        for (int i = 0; i < sheet->points; i++) {
            struct span value = oxygen ? sheet->oxygen[k][i] : sheet->value[k][i];
            double times = oxygen ? 100 : 1;
            chart_value(script, x_of(sheet, i));
            chart_value(script, times * value.mid);
            chart_value(script, times * value.low);
            chart_value(script, times * value.high);
            putc('\n', script);
        }
        fputs("\n\n", script);
    }
    fputs("END\n", script);
}

/* Names on their lines; false where one finds no room. */
static bool names(FILE *script, const struct sheet *sheet, double least, double most)
{
    static double value[LINES][MOST_DAYS];
    const double *line[LINES];
    struct place_label label[LINES];
    bool all = true;
    for (int k = 0; k < sheet->lines; k++) {
        line[k] = value[k];
        for (int i = 0; i < sheet->points; i++)
            value[k][i] = (sheet->value[k][i].mid - least) / (most - least);
    }
    struct place_panel panel = {sheet->points, sheet->lines, line, 0, NULL};
    for (int k = 0; k < sheet->lines; k++) {
        label[k] = chart_label(sheet->line[k].words, PANEL_WIDTH,
                               sheet->beneath ? HIGH_PANEL : PANEL_HEIGHT);
        all = place_on_line(&label[k], k, &panel, label, k) && all;
    }
    for (int k = 0; k < sheet->lines; k++)
        fprintf(script, "ON_X[%d] = %.6g; ON_Y[%d] = %.6g\n", k + 1,
                all ? x_of(sheet, label[k].x * sheet->points - 0.5) : NOWHERE, k + 1,
                all ? least + label[k].y * (most - least) : 0.0);
    return all;
}

static void tics(FILE *script, const struct sheet *sheet, const struct scenario *scenario)
{
    int step = sheet->from_coldest ? 2 : sheet->points > 14 ? 3 : 2;
    fputs("set_tics = 'set xtics (", script);
    for (int i = 0; i < sheet->points; i += step) {
        char date[CHART_DATE];
        int x = (int)x_of(sheet, i);
        chart_date(date, scenario->start + sheet->first + i);
        if (sheet->from_coldest)
            fprintf(script, "%s\"%d\" %d", i ? ", " : "", x, x);
        else
            fprintf(script, "%s\"%s\\nday %d\" %d", i ? ", " : "", date, x, x);
    }
    fputs(")'\n", script);
}

static bool write_lines(FILE *script, const struct lesson_tale *tale, enum lesson_figure figure,
                        const char *finding)
{
    static const char *const plan[LESSON_FIGURES] = {
        [LESSON_FIGURE_SIZES] = "the mix as two cubes, left alone",
        [LESSON_FIGURE_TURNED] = "turned once, all mixed",
        [LESSON_FIGURE_WETNESS] = "all of it so wet, left alone",
        [LESSON_FIGURE_BLANKET] = "left alone"};
    struct sheet *sheet = malloc(sizeof *sheet);
    double least = 0, most = 5;
    if (!sheet)
        return false;
    *sheet = sheet_of(tale, figure);
    fill(sheet, &least, &most);
    const struct scenario *scenario = sheet->line[0].trial->scenario;
    head(script, tale, scenario, plan[figure], finding);
    fprintf(script,
            "lines = %d\nspacing = 2\nfirst = %g\nlast = %g\nleast = %g\nmost = %g\nbeneath = %d\n"
            "upright = %g\nbands = %d\nstep = %d\n",
            sheet->lines, x_of(sheet, -0.5), x_of(sheet, sheet->points - 0.5), least, most,
            sheet->beneath, sheet->upright, !sheet->from_coldest, most - least > 30 ? 10 : 5);
    chart_text(script, "ylabel_above",
               sheet->from_coldest ? "mean of the day, °C"
                                   : "middle of the pile, mean of the day, °C");
    chart_text(script, "ylabel_beneath", "least oxygen, evening, %");
    chart_text(script, "xlabel_below",
               sheet->from_coldest ? "days from each season's coldest day"
                                   : "date, and day since the pile was finished");
    chart_text(script, "note",
               sheet->from_coldest ? ""
                                   : "line: each day's median; shaded: 8 in 10 possible piles");
    tics(script, sheet, scenario);
    fprintf(script,
            "array WORDS[%d]; array COLOUR[%d]; array DASH[%d]; array MARK[%d]; array ON_X[%d]; "
            "array ON_Y[%d]\n",
            sheet->lines, sheet->lines, sheet->lines, sheet->lines, sheet->lines, sheet->lines);
    for (int k = 0; k < sheet->lines; k++) {
        const struct line *line = &sheet->line[k];
        fprintf(script, "WORDS[%d] = '%s'; COLOUR[%d] = '#%06x'; DASH[%d] = %d; MARK[%d] = %d\n",
                k + 1, line->words, k + 1, line->paint.colour, k + 1, line->paint.dash, k + 1,
                line->paint.marker);
    }
    rows(script, sheet, "LINES", false);
    rows(script, sheet, "BENEATH", true);
    fprintf(script, "named = %d\n", names(script, sheet, least, most));
    free(sheet);
    return true;
}

static bool figures(FILE *script, const void *what, int which, const char *finding,
                    struct trouble *why)
{
    if (which == LESSON_FIGURE_WATTS)
        return write_watts(script, what, finding, why);
    return write_lines(script, what, (enum lesson_figure)which, finding)
           || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
}

static const struct picture pictures[LESSON_FIGURES] = {
    {"lesson_watts", "Heat made and lost in watts, a bar a day, stacked by the way it takes"},
    {"lesson_sizes", "The middle of a small and of a large cube of the same mix, day by day"},
    {"lesson_turned",
     "Above, the middle of the pile turned once and left alone; beneath, its least oxygen"},
    {"lesson_wetness", "The middle of the same pile built dry, damp and wet, day by day"},
    {"lesson_blanket", "A hand deep, bare and under straw, around each season's coldest day"}};

bool lesson_plot_may(const char *dir, bool force, struct trouble *why)
{
    return picture_may(&(struct picture_set){.dir = dir, .force = force, .picture = pictures,
                                             .count = LESSON_FIGURES}, why);
}

bool lesson_plot_draw(const char *dir, bool force, const struct lesson_tale *tale,
                      struct trouble *why)
{
    struct picture_set set = {dir, force, pictures, LESSON_FIGURES, tale, find, figures, NULL, NULL};
    return gnuplot_accept(tale->scenario->name, "the name of the scenario", why)
           && gnuplot_accept(tale->scenario->plan[tale->plan].name, "the name of the plan", why)
           && picture_draw(&set, why);
}
