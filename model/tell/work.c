/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/work.c - figures of the picture of what a search found. */
#include "tell/work.h"
#include "ask/ready.h"
#include "tell/chart.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include "tell/phrase.h"
#include "tell/picture.h"
#include <math.h>
#include <string.h>

static const double MINUTE_S = 60.0;
/* the panel of plots/work.gp, for the size of names in it */
static const double PANEL_WIDTH = 0.885, PANEL_HEIGHT = 0.725, FOOT = -0.4, HIGH = 10.8;

static struct phrase turns_of(const struct candidate *candidate)
{
    struct phrase said = phrase_count(candidate->turns, "turn", "turns");
    if (candidate->turns == 0)
        snprintf(said.text, sizeof said.text, "no turn");
    if (candidate->covered)
        snprintf(said.text + strlen(said.text), sizeof said.text - strlen(said.text), ", covered");
    return said;
}

void work_find(char text[], size_t size, const struct search *s)
{
    const struct plan_need *need = &s->scenario->need;
    struct phrase plan = turns_of(&s->trial[s->best].candidate);
    struct span asked = {need->chance, need->chance, need->chance};
    if (s->found)
        snprintf(text, size, "Found: %s, %s of work: ready for %s by %s in %s", plan.text,
                 phrase_minutes(s->person_s.mid).text, ready_use_word[need->what],
                 phrase_day(need->by).text, phrase_chance(s->chance).text);
    else
        snprintf(text, size, "No plan tried is ready for %s by %s in %s; nearest, %s: %s",
                 ready_use_word[need->what], phrase_day(need->by).text, phrase_chance(asked).text,
                 plan.text, phrase_chance(s->chance).text);
}

static bool shown(const struct search *s, const struct search_trial *t)
{
    return t->possible && 2 * t->members >= s->members && isfinite(t->person_s);
}

/* Minutes at the right edge. */
static double widest(const struct search *s)
{
    double most = s->person_s.mid;
    for (int i = 0; i < s->trials; i++)
        if (shown(s, &s->trial[i]))
            most = fmax(most, s->trial[i].person_s);
    return isfinite(most) && most > 0.0 ? 1.06 * most / MINUTE_S : 10.0;
}

/* ---- names of points ---- */

struct name {
    struct place_label box; /* in minutes and tenths */
    int side;               /* -1: the text ends at its point */
    double x, y;            /* where the text begins or ends */
    bool stands;
};

static bool over(const struct place_label *a, const struct place_label *b)
{
    return fabs(a->x - b->x) < (a->width + b->width) / 2.0 &&
           fabs(a->y - b->y) < (a->height + b->height) / 2.0;
}

/* Left above its point, where no step of the curve runs, else right below, then right above. */
static void stand(struct name *name, int count, double x, double y, const char *text, double most,
                  const struct search *s)
{
    static const struct { int side; double rise; } places[] = {{-1, 0.75}, {1, -0.75}, {1, 0.75},
                                                               {-1, 1.5}, {1, -1.5}};
    struct name *it = &name[count];
    struct place_label size = chart_label(text, PANEL_WIDTH, PANEL_HEIGHT);
    double gap = 0.006 * most;
    it->stands = false;
    for (size_t i = 0; i < sizeof places / sizeof *places && !it->stands; i++) {
        it->side = places[i].side;
        it->box = (struct place_label){size.width * most, size.height * HIGH, 0.0, 0.0};
        it->x = x + it->side * gap;
        it->y = y + places[i].rise * it->box.height;
        it->box.x = it->x + it->side * it->box.width / 2.0;
        it->box.y = it->y;
        it->stands = it->box.x - it->box.width / 2.0 > -0.03 * most &&
                     it->box.x + it->box.width / 2.0 < most && it->y > FOOT + 0.2 && it->y < HIGH + FOOT - 0.2;
        for (int j = 0; j < count; j++)
            it->stands = it->stands && !(name[j].stands && over(&it->box, &name[j].box));
        for (int j = 0; j < s->fronts; j++) {
            struct place_label point = {gap, 0.2, s->front[j].person_s / MINUTE_S, 10.0 * s->front[j].chance};
            it->stands = it->stands && !over(&it->box, &point);
        }
    }
}

static void say_names(FILE *script, const struct search *s, double most)
{
    struct name name[SEARCH_FRONT + 1];
    int count = s->fronts + 1;
    fprintf(script, "names = %d\narray NAME[%d]; array AT_X[%d]; array AT_Y[%d]; array SIDE[%d]\n", count,
            count, count, count, count);
    for (int i = 0; i < count; i++) {
        bool best = i == 0;
        const struct search_front *f = best ? NULL : &s->front[i - 1];
        struct phrase said = turns_of(best ? &s->trial[s->best].candidate : &f->candidate), text;
        snprintf(text.text, sizeof text.text, "%s%.60s", best ? s->found ? "found: " : "nearest: " : "",
                 said.text);
        stand(name, i, (best ? s->person_s.mid : f->person_s) / MINUTE_S,
              10.0 * (best ? s->chance.mid : f->chance), text.text, most, s);
        fprintf(script, "NAME[%d] = '%s'; AT_X[%d] =", i + 1, name[i].stands ? text.text : "", i + 1);
        chart_value(script, name[i].x);
        fprintf(script, "; AT_Y[%d] =", i + 1);
        chart_value(script, name[i].y);
        fprintf(script, "; SIDE[%d] = %d\n", i + 1, name[i].side);
    }
}

/* ---- what is drawn ---- */

static void words(FILE *script, const struct search *s)
{
    char text[240];
    const struct plan_need *need = &s->scenario->need;
    struct span asked = {need->chance, need->chance, need->chance};
    snprintf(text, sizeof text, "%s; %d plans tried in %d seasons%s", s->scenario->name, s->trials,
             s->seasons, s->finished ? "" : "; the search was cut short");
    chart_text(script, "from", text);
    snprintf(text, sizeof text, "ready for %s by %s: so many in 10", ready_use_word[need->what],
             phrase_day(need->by).text);
    chart_text(script, "wanted", text);
    snprintf(text, sizeof text, "asked: %s", phrase_chance(asked).text);
    chart_text(script, "asked", text);
    snprintf(text, sizeof text, "Large: the plan told of, from %d possible piles%s, with sampling error. "
             "Steps: most chance for the work, judged by the piles of the search. Dots: all judged so.", s->told_members,
             s->told_fresh ? " the search never used" : "");
    chart_text(script, "note", text);
}

static void points(FILE *script, const struct search *s, double most)
{
    fputs("$TRIED << END\n-1 -9\n", script); /* a block needs a point: the first is outside */
    for (int i = 0; i < s->trials; i++)
        if (shown(s, &s->trial[i]))
            fprintf(script, "%.6g %.6g\n", s->trial[i].person_s / MINUTE_S, 10.0 * s->trial[i].chance);
    fputs("END\n$FRONT << END\n", script);
    for (int i = 0; i < s->fronts; i++)
        fprintf(script, "%.6g %.6g\n", s->front[i].person_s / MINUTE_S, 10.0 * s->front[i].chance);
    fprintf(script, "%.6g %.6g\nEND\n$BEST << END\n", most,
            s->fronts ? 10.0 * s->front[s->fronts - 1].chance : -9.0);
    chart_value(script, s->person_s.mid / MINUTE_S);
    chart_value(script, 10.0 * s->chance.mid);
    chart_value(script, 10.0 * s->chance.low);
    chart_value(script, 10.0 * s->chance.high);
    fputs("\nEND\n", script);
}

static bool figures(FILE *script, const void *what, int which, const char *finding,
                    struct trouble *why)
{
    const struct search *s = what;
    double most = widest(s);
    (void)which;
    (void)why;
    chart_text(script, "finding", finding);
    words(script, s);
    fprintf(script, "most = %g\nlevel = %g\n", most, 10.0 * s->scenario->need.chance);
    paint_write(script);
    points(script, s, most);
    say_names(script, s, most);
    return true;
}

static void find(char text[FINDING_TEXT], const void *what, int which)
{
    (void)which;
    work_find(text, FINDING_TEXT, what);
}

static const struct picture picture = {
    "work", "Minutes of work of each plan tried, and its chance of being ready in time; the curve of "
            "the most chance for the work, the chance asked, and the plan found"};

bool work_may(const char *dir, bool force, struct trouble *why)
{
    return picture_may(&(struct picture_set){.dir = dir, .force = force, .picture = &picture, .count = 1}, why);
}

bool work_draw(const char *dir, bool force, const struct search *search, struct trouble *why)
{
    struct picture_set set = {dir, force, &picture, 1, search, find, figures, NULL, NULL};
    return gnuplot_accept(search->scenario->name, "the name of the scenario", why) &&
           picture_draw(&set, why);
}
