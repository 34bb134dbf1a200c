/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plans.c - figures of the picture of plans side by side. */
#include "tell/plans.h"
#include "ask/ready.h"
#include "tell/chart.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include "tell/picture.h"
#include <math.h>
#include <stdlib.h>

enum { MOST = 16, TITLE_LETTERS = 26, ROW_LETTERS = 30 };

static const double ICE_POINT_K = 273.15, HOT_C = 55.0;
static const double LIKELY = 0.8; /* as ranges are: eight in ten */
static const double PANEL_WIDTH = 0.665;
static const double ROW_LEAST = 0.026, ROW_MOST = 0.055, ROWS_HEIGHT = 0.4;

struct sheet {
    const struct comparison *c;
    int count, row[MOST];   /* plans drawn, by work */
    date_count start;       /* day 1 */
    int days;
    double step;            /* height of a row */
};

static const struct scenario *garden(const struct comparison *c, int i)
{
    return c->contender[i].scenario;
}

/* The first letters of a text, in whole characters. */
static struct phrase shorten(const char *text, int most)
{
    struct phrase said;
    int letters = 0, cut = 0, bytes = 0;
    for (; bytes < PHRASE_TEXT - 4 && text[bytes]; bytes++)
        if (((unsigned char)text[bytes] & 0xC0) != 0x80) {
            if (letters++ == most - 2)
                cut = bytes;
        }
    if (letters <= most && !text[bytes])
        snprintf(said.text, sizeof said.text, "%s", text);
    else
        snprintf(said.text, sizeof said.text, "%.*s..", cut ? cut : bytes, text);
    return said;
}

static struct phrase plan_of(const struct comparison *c, int i, int most)
{
    char text[2 * PHRASE_TEXT + 4];
    const char *plan = garden(c, i)->plan[c->contender[i].plan].name;
    if (c->files == 1)
        return shorten(plan, most);
    snprintf(text, sizeof text, "%s, %s", shorten(garden(c, i)->name, most / 2 - 1).text,
             shorten(plan, most / 2 - 1).text);
    return shorten(text, most);
}

/* ---- the title ---- */

/* Whose need all plans are held to. */
static const struct scenario *asked_of(const struct comparison *c)
{
    return c->contender[0].asked;
}

static const char *use_of(const struct comparison *c)
{
    return ready_use_word[outcome_use(asked_of(c))];
}

/* No plan that makes it too takes less than what is shown of this one's work. */
static bool least_work(const struct comparison *c, int best)
{
    for (int i = 0; i < c->count; i++)
        if (outcome_enough(c->standing[i].chance.mid, asked_of(c)) &&
            c->standing[i].person_s.mid < c->standing[best].person_s.mid)
            return false;
    return true;
}

static void find_needed(char *text, size_t size, const struct comparison *c)
{
    int best = compare_choice(c->standing, c->contender, c->count, c->room);
    const struct standing *s = &c->standing[best];
    const struct plan_need *need = &asked_of(c)->need;
    const struct phrase plan = plan_of(c, best, TITLE_LETTERS);
    const char *name = plan.text, *use = ready_use_word[need->what];
    struct phrase by = phrase_day(need->by), likely = phrase_chance(s->chance);
    struct span asked = {need->chance, need->chance, need->chance};
    if (outcome_enough(s->chance.mid, asked_of(c)))
        snprintf(text, size, "“%s”: ready for %s by %s in %s%s", name, use, by.text, likely.text,
                 c->count > 1 && least_work(c, best) ? ", with the least work that is enough" : "");
    else
        snprintf(text, size, "%s ready for %s by %s in %s; %s%s%s%s", c->count > 1 ? "None" : "Not", use,
                 by.text, phrase_chance(asked).text, c->count > 1 ? "nearest “" : "",
                 c->count > 1 ? name : "", c->count > 1 ? "”: " : "", likely.text);
}

static const char *sooner_said(char *text, size_t size, const struct pair *p, const char *other)
{
    double days = floor(fabs(p->sooner_days.mid) + 0.5);
    if (days < 1.0)
        snprintf(text, size, ", but in the median is ready no sooner and no later");
    else if (p->sooner_days.mid > 0)
        snprintf(text, size, " and is ready sooner, in the median by %.0f days", days);
    else
        snprintf(text, size, ", but “%s” is ready sooner, in the median by %.0f days", other, days);
    return text;
}

/* Two plans: the warmer one, and whether that helps. */
static bool find_pair(char *text, size_t size, const struct comparison *c)
{
    struct pair p = compare_pair(&c->contender[0], &c->contender[1], c->room), q;
    q = compare_pair(&c->contender[1], &c->contender[0], c->room);
    int a = q.chance_hotter > p.chance_hotter;
    char sooner[224];
    if (!((a ? q : p).chance_hotter >= LIKELY))
        return false;
    if (isnan(c->standing[0].ready_day.mid) && isnan(c->standing[1].ready_day.mid))
        snprintf(sooner, sizeof sooner, ", but neither is likely to be ready within the season");
    else
        sooner_said(sooner, sizeof sooner, a ? &q : &p, plan_of(c, !a, TITLE_LETTERS).text);
    snprintf(text, size, "“%s” gets hotter%s", plan_of(c, a, TITLE_LETTERS).text, sooner);
    return true;
}

static date_count ready_date(const struct comparison *c, int i)
{
    return garden(c, i)->start + (date_count)lround(c->standing[i].ready_day.mid) - 1;
}

static void find_soonest(char *text, size_t size, const struct comparison *c)
{
    int best = compare_choice(c->standing, c->contender, c->count, c->room);
    bool first = true;
    if (isnan(c->standing[best].ready_day.mid)) {
        snprintf(text, size, "%s likely to be ready for %s within the season",
                 c->count > 1 ? "None is" : "Not", use_of(c));
        return;
    }
    for (int i = 0; i < c->count; i++)
        first = first && (i == best || isnan(c->standing[i].ready_day.mid) ||
                          ready_date(c, i) > ready_date(c, best));
    snprintf(text, size, "“%s”: ready for %s on %s in the median%s",
             plan_of(c, best, TITLE_LETTERS).text, use_of(c), phrase_day(ready_date(c, best)).text,
             c->count == 1 ? "" : first ? ", sooner than all others" : ", and none sooner");
}

void plans_find(char text[], size_t size, const struct comparison *c)
{
    if (asked_of(c)->need.is)
        find_needed(text, size, c);
    else if (c->count != 2 || !find_pair(text, size, c))
        find_soonest(text, size, c);
}

/* ---- what is drawn ---- */

static void sheet_make(struct sheet *sheet, const struct comparison *c)
{
    int order[COMPARE_MOST];
    int best = compare_choice(c->standing, c->contender, c->count, c->room);
    bool there = false;
    compare_order(order, c->standing, c->count);
    *sheet = (struct sheet){.c = c, .count = c->count < MOST ? c->count : MOST,
                            .start = garden(c, 0)->start};
    for (int i = 0; i < sheet->count; i++)
        there = (sheet->row[i] = order[i]) == best || there;
    if (!there)
        sheet->row[sheet->count - 1] = best;
    for (int i = 0; i < sheet->count; i++)
        if (garden(c, sheet->row[i])->start < sheet->start)
            sheet->start = garden(c, sheet->row[i])->start;
    for (int i = 0; i < sheet->count; i++) {
        const struct scenario *scenario = garden(c, sheet->row[i]);
        int last = (int)(scenario->start - sheet->start) + scenario->last_day + 1;
        sheet->days = last > sheet->days ? last : sheet->days;
    }
    sheet->step = fmin(ROW_MOST, fmax(ROW_LEAST, ROWS_HEIGHT / sheet->count));
}

/* Day 1 of a plan's season is so many days after that of the picture. */
static int later(const struct sheet *sheet, int i)
{
    return (int)(garden(sheet->c, sheet->row[i])->start - sheet->start);
}

static double warmth_C(const struct sheet *sheet, int i, int day)
{
    const struct contender *c = &sheet->c->contender[sheet->row[i]];
    int own = day - later(sheet, i);
    return own >= 0 && own < c->days && c->middle_K ? c->middle_K[own].mid - ICE_POINT_K : NAN;
}

/* Markers of a plan stand apart from those of the others. */
static void curves(FILE *script, const struct sheet *sheet)
{
    int every = 1 + sheet->days / 10;
    fputs("$CURVES << END\n", script);
    for (int i = 0; i < sheet->count; i++) {
        fputs(i ? "\n\n" : "", script);
        for (int day = 0; day < sheet->days; day++) {
            double warm_C = warmth_C(sheet, i, day);
            fprintf(script, "%d", day + 1);
            chart_value(script, warm_C);
            chart_value(script, (day + i * every / sheet->count) % every ? NAN : warm_C);
            putc('\n', script);
        }
    }
    fputs("END\n", script);
}

static void axis(const struct sheet *sheet, double *least, double *most)
{
    *least = 0.0;
    *most = HOT_C + 6.0;
    for (int i = 0; i < sheet->count; i++)
        for (int day = 0; day < sheet->days; day++) {
            *least = fmin(*least, warmth_C(sheet, i, day));
            *most = fmax(*most, warmth_C(sheet, i, day));
        }
    *least = 10.0 * floor(*least / 10.0);
    *most = 10.0 * ceil(*most / 10.0);
}

/* Names on the lines that have room for one; the rows below name them all. */
static bool names(FILE *script, const struct sheet *sheet, double least, double most,
                  struct trouble *why)
{
    const double *line[MOST + 1];
    struct place_label label[MOST];
    int lines = sheet->count + 1, taken = 0;
    double *value = calloc((size_t)lines * (size_t)sheet->days, sizeof *value);
    if (!value)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
    for (int i = 0; i < lines; i++) {
        line[i] = value + i * sheet->days;
        for (int day = 0; day < sheet->days; day++)
            value[i * sheet->days + day] =
                ((i < sheet->count ? warmth_C(sheet, i, day) : HOT_C) - least) / (most - least);
    }
    struct place_panel panel = {sheet->days, lines, line, 0, NULL};
    for (int i = 0; i < sheet->count; i++) {
        struct phrase name = plan_of(sheet->c, sheet->row[i], ROW_LETTERS);
        label[taken] = chart_label(name.text, PANEL_WIDTH, 0.68 - sheet->step * sheet->count);
        bool on = place_on_line(&label[taken], i, &panel, label, taken);
        fprintf(script, "ON_X[%d] = %.6g; ON_Y[%d] = %.6g\n", i + 1,
                on ? label[taken].x * sheet->days + 0.5 : -1.0, i + 1,
                on ? least + label[taken].y * (most - least) : 0.0);
        taken += on;
    }
    free(value);
    return true;
}

/* Row, ends of the bar, median, foot and length of the arrow, day of need, colour, marker. */
static void row(FILE *script, const struct sheet *sheet, int i, const struct paint_row *paint)
{
    const struct plan_need *need = &asked_of(sheet->c)->need;
    const struct span *day = &sheet->c->standing[sheet->row[i]].ready_day;
    double shift = later(sheet, i), end = sheet->days + 0.5, foot = end - 0.03 * sheet->days;
    bool open = isnan(day->high);
    chart_value(script, sheet->count - i);
    chart_value(script, day->low + shift);
    chart_value(script, isnan(day->low) ? NAN : open ? fmax(foot, day->low + shift) : day->high + shift);
    chart_value(script, day->mid + shift);
    chart_value(script, open ? foot : NAN);
    chart_value(script, open ? end - foot : NAN);
    chart_value(script, need->is ? (double)(need->by - sheet->start) + 1.0 : NAN);
    fprintf(script, " %u %d\n", paint->colour, paint->marker);
}

static void words(FILE *script, const struct sheet *sheet)
{
    const struct comparison *c = sheet->c;
    char from[2 * PLAN_NAME + 64], note[200] = "", ready[200], date[CHART_DATE];
    struct date start = date_of(sheet->start);
    const struct plan_need *need = &asked_of(c)->need;
    chart_date(date, sheet->start);
    snprintf(from, sizeof from, "%s%s; from %s %d; %d possible piles, the same under each plan",
             garden(c, 0)->name, c->files > 1 ? " and others" : "", date, start.year, c->members);
    chart_text(script, "from", from);
    snprintf(ready, sizeof ready, "ready for %s: median (mark), 8 in 10 (bar), arrow: later%s%s",
             use_of(c), need->is ? "; upright: needed by " : "",
             need->is ? phrase_day(need->by).text : "");
    chart_text(script, "ready", ready);
    if (sheet->count < c->count)
        snprintf(note, sizeof note, "%d of %d plans: those with the least work, and the one to take",
                 sheet->count, c->count);
    chart_text(script, "note", note);
}

static void sheet_rows(FILE *script, const struct sheet *sheet)
{
    fprintf(script, "array NAME[%d]; array SHORT[%d]; array WORK[%d]; array COLOUR[%d]; array DASH[%d]; "
            "array MARK[%d]; array ON_X[%d]; array ON_Y[%d]\n", sheet->count, sheet->count, sheet->count,
            sheet->count, sheet->count, sheet->count, sheet->count, sheet->count);
    for (int i = 0; i < sheet->count; i++) {
        int k = sheet->row[i];
        struct paint_row paint = paint_nth(i);
        char name[24];
        snprintf(name, sizeof name, "NAME[%d]", i + 1);
        chart_text(script, name, plan_of(sheet->c, k, ROW_LETTERS).text);
        fprintf(script, "SHORT[%d] = NAME[%d]; WORK[%d] = '%s'; COLOUR[%d] = '#%06x'; DASH[%d] = %d; "
                "MARK[%d] = %d\n", i + 1, i + 1, i + 1,
                phrase_minutes(sheet->c->standing[k].person_s.mid).text, i + 1, paint.colour, i + 1,
                paint.dash, i + 1, paint.marker);
    }
    fputs("$ROWS << END\n", script);
    for (int i = 0; i < sheet->count; i++) {
        struct paint_row paint = paint_nth(i);
        row(script, sheet, i, &paint);
    }
    fputs("END\n", script);
}

static bool figures(FILE *script, const void *what, int which, const char *finding,
                    struct trouble *why)
{
    const struct sheet *sheet = what;
    double least, most;
    (void)which;
    axis(sheet, &least, &most);
    chart_text(script, "finding", finding);
    words(script, sheet);
    fprintf(script, "days = %d\nplans = %d\nstep = %g\nleast = %g\nmost = %g\nhot = %g\n", sheet->days,
            sheet->count, sheet->step, least, most, HOT_C);
    chart_tics(script, sheet->start, sheet->days, false);
    paint_write(script);
    sheet_rows(script, sheet);
    curves(script, sheet);
    return names(script, sheet, least, most, why);
}

static void find(char text[FINDING_TEXT], const void *what, int which)
{
    (void)which;
    plans_find(text, FINDING_TEXT, ((const struct sheet *)what)->c);
}

static const struct picture picture = {
    "plans", "Above, the middle's temperature under each plan; below, a row a plan: when it is "
             "ready, the day of need, and the work"};

bool plans_may(const char *dir, bool force, struct trouble *why)
{
    return picture_may(&(struct picture_set){.dir = dir, .force = force, .picture = &picture, .count = 1}, why);
}

bool plans_draw(const char *dir, bool force, const struct comparison *c, struct trouble *why)
{
    struct sheet sheet;
    struct picture_set set = {dir, force, &picture, 1, &sheet, find, figures, NULL, NULL};
    for (int i = 0; i < c->count; i++)
        if (!gnuplot_accept(garden(c, i)->name, "the name of the scenario", why) ||
            !gnuplot_accept(garden(c, i)->plan[c->contender[i].plan].name, "the name of the plan", why))
            return false;
    sheet_make(&sheet, c);
    return picture_draw(&set, why);
}
