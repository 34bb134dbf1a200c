/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/validate.c - every published experiment in tests/field run as an ensemble and scored.
 *
 *     validate FOLDER [MEMBERS [ID...]]          with the constants of know/param
 *     validate -left-out FOLDER [MEMBERS [ID...]]  each experiment with those fitted without it
 *
 * prints a table in Markdown (docs/validation.md) with totals; of what was left out the
 * totals alone. A figure is met when the median of the members lies within the band of its score, and
 * covered when the middle eight in ten of them overlap the published value.
 */
#include "field/fitted.h"
#include "field/measure.h"
#include "door/climate.h"
#include "many/band.h"
#include "many/crew.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { USUAL_MEMBERS = 32, DRAW = 1 };

static void stop(const struct trouble *why)
{
    fprintf(stderr, "validate: %s\n", why->text);
    exit(1);
}

/* ---- running ---- */

/* One run of an experiment: so many members of it. */
static void run_members(const char *folder, const struct experiment *e, const struct figures_run *run,
                        int members, const struct fitted *fitted, struct crew_done *done)
{
    static const bool fixed[PARAM_ROWS];
    struct trouble *why = calloc(1, sizeof *why);
    struct scenario *s = calloc(1, sizeof *s);
    struct param param = fitted ? fitted_without(fitted, e->id) : param_usual();
    struct curve sky;
    int plan;
    if (!figures_open(s, &plan, folder, e, run, why) || !climate_curve(&sky, s, DRAW, why))
        stop(why);
    struct crew crew = {.scenario = s, .plan = plan, .param = &param,
                        .fixed = fixed, .sky = s->sky == PLAN_SKY_FILE ? &sky : NULL, .draw = DRAW,
                        .first = 1, .last = members, .threads = crew_threads()};
    if (!crew_run(done, &crew, why))
        stop(why);
    for (int i = 0; i < members; i++)
        if (done->failed[i])
            fprintf(stderr, "validate: %s/%s member %d left out: %s\n", e->id, run->file, i + 1,
                     done->failed[i]);
    curve_free(&sky);
    free(s);
    free(why);
}

/* ---- scoring ---- */

struct score {
    struct span band;
    bool met, two_sided, covered;
};

static const char preface[] =
    "# Published experiments against the model\n\n"
    "Made by `make validate`; not edited by hand. Every experiment of `tests/field` is run as an ensemble\n"
    "over what its text leaves open and over the model's own unknowns, with one set of constants for all.\n"
    "A figure is **met** when the median of the ensemble lies within the band of its score; `8 in 10` is\n"
    "where the middle 80 % of the ensemble lie. `docs/experiments.md` says how the bands were chosen, what\n"
    "was fitted, and how well what was left out of a fit is met.\n";

struct totals {
    int figures, met, two_sided, covered, experiments, courses;
    double met_share;           /* summed over experiments */
    double peak_error_K, peak_worst_K, time_error_d, course_error_K, course_worst_K;
    int peaks, times;
};

static struct score score_of(const struct experiment *e, const struct figure *f,
                             struct crew_done *done, int members)
{
    struct score s = {.two_sided = !isnan(f->low) && !isnan(f->high)};
    double *value = calloc((size_t)members, sizeof *value);
    s.band = band_of(value, measure_members(value, e, f, done, members));
    s.met = figures_met(f, s.band.mid);
    s.covered = s.two_sided && s.band.low <= f->high && s.band.high >= f->low;
    free(value);
    return s;
}

static bool ends_with(const char *text, const char *end)
{
    size_t a = strlen(text), b = strlen(end);
    return a >= b && strcmp(text + a - b, end) == 0;
}

/* Distance from a published range. */
static double apart(double value, double low, double high)
{
    return value < low ? low - value : value > high ? value - high : 0;
}

static void count(struct totals *t, const struct figure *f, const struct score *s)
{
    t->figures++;
    t->met += s->met;
    t->two_sided += s->two_sided;
    t->covered += s->covered;
    if (!s->two_sided || f->against != FIGURES_ALONE)
        return;
    double error = apart(s->band.mid, f->low, f->high);
    if (ends_with(f->measure, "max_c")) {
        t->peaks++;
        t->peak_error_K += error;
        t->peak_worst_K = fmax(t->peak_worst_K, error);
    }
    if (ends_with(f->measure, "day_of_max") && isfinite(error)) {
        t->times++;
        t->time_error_d += error;
    }
}

/* For a picture: of each day of a run the range of the middle, then the published points of that run,
 * in build/course-ID-RUN.dat. */
static void keep_course(const struct experiment *e, int run, const struct crew_done *done, int members)
{
    char path[96];
    snprintf(path, sizeof path, "build/course-%s-%s.dat", e->id, e->run[run].file);
    FILE *out = fopen(path, "w");
    double *value = calloc((size_t)members, sizeof *value);
    int days = 0;
    for (int m = 0; m < members; m++)
        days = done->failed[m] ? days : done->record[m].days;
    for (int d = 0; out && d < days; d++) {
        int count = 0;
        for (int m = 0; m < members; m++)
            if (!done->failed[m])
                value[count++] = done->record[m].day[d].middle_K - 273.15;
        struct span range = band_of(value, count);
        fprintf(out, "%d %.4g %.4g %.4g\n", d + 1, range.low, range.mid, range.high);
    }
    if (out)
        fputs("\n\n", out);
    for (int i = 0; out && i < e->points; i++)
        if (e->point[i].run == run)
            fprintf(out, "%g %g\n", e->point[i].day, e->point[i].value);
    if (out)
        fclose(out);
    free(value);
}

/* Temperature courses: the median of the members at each published point, and how far it is off. */
static void count_course(struct totals *t, const struct experiment *e, struct crew_done *done,
                         int members, bool print)
{
    double sum = 0, worst = 0;
    if (e->points == 0 || strcmp(e->point[0].measure, "middle_c") != 0)
        return;
    if (print)
        printf("\n| middle of | day | published, C | median | 8 in 10 | off by, K |\n"
               "| --- | --- | --- | --- | --- | --- |\n");
    for (int i = 0; i < e->points; i++) {
        const struct figures_point *p = &e->point[i];
        double *value = calloc((size_t)members, sizeof *value);
        for (int m = 0; m < members; m++)
            value[m] = done[p->run].failed[m] ? (double)NAN
                                              : measure_of(&done[p->run].record[m], p->measure, p->day,
                                                           p->day, NAN);
        struct span range = band_of(value, members);
        double off = range.mid - p->value;
        sum += fabs(off);
        worst = fmax(worst, fabs(off));
        if (print)
            printf("| %s | %.3g | %.3g | %.3g | %.3g to %.3g | %+.1f |\n", e->run[p->run].file, p->day, p->value,
                   range.mid, range.low, range.high, off);
        free(value);
    }
    for (int r = 0; print && r < e->runs; r++)
        keep_course(e, r, &done[r], members);
    if (print)
        printf("\n%s: course of %d points, mean error %.1f K, worst %.1f K.\n", e->id, e->points,
               sum / e->points, worst);
    t->courses++;
    t->course_error_K += sum / e->points;
    t->course_worst_K = fmax(t->course_worst_K, worst);
}

/* ---- printing ---- */

static void put(double value)
{
    if (isnan(value))
        printf("-");
    else if (isinf(value))
        printf("never");
    else
        printf("%.3g", value);
}

static void put_range(double low, double high)
{
    if (isnan(low) && isnan(high)) {
        printf("-");
    } else if (isnan(low)) {
        printf("<= ");
        put(high);
    } else if (isnan(high)) {
        printf(">= ");
        put(low);
    } else {
        put(low);
        if (low != high) {
            printf(" to ");
            put(high);
        }
    }
}

static void put_row(const struct figure *f, const struct score *s)
{
    printf("| %s | %s | ", f->quantity, f->unit);
    put_range(f->low, f->high);
    printf(" | ");
    put_range(f->pass_low, f->pass_high);
    printf(" | ");
    put(s->band.mid);
    printf(" | ");
    put(s->band.low);
    printf(" to ");
    put(s->band.high);
    printf(" | %s |\n", s->met ? "in" : "**out**");
}

static void put_head(const struct experiment *e)
{
    printf("\n### %s\n\n%s\n", e->id, e->source);
    if (*e->left_out)
        printf("\nNot scored: %s.\n", e->left_out);
    printf("\n| figure | unit | published | scored as met | median | 8 in 10 | |\n"
           "| --- | --- | --- | --- | --- | --- | --- |\n");
}

static void score_experiment(const char *folder, const char *id, int members,
                             const struct fitted *fitted, struct totals *t)
{
    struct experiment *e = calloc(1, sizeof *e);
    struct trouble *why = calloc(1, sizeof *why);
    if (!figures_read(e, folder, id, why))
        stop(why);
    struct crew_done *done = calloc((size_t)e->runs + 1, sizeof *done);
    for (int i = 0; i < e->runs; i++)
        run_members(folder, e, &e->run[i], members, fitted, &done[i]);
    if (!fitted)
        put_head(e);
    int met = 0;
    for (int i = 0; i < e->figures; i++) {
        struct score s = score_of(e, &e->figure[i], done, members);
        if (!fitted)
            put_row(&e->figure[i], &s);
        count(t, &e->figure[i], &s);
        met += s.met;
    }
    count_course(t, e, done, members, !fitted);
    t->experiments++;
    t->met_share += e->figures ? met / (double)e->figures : 0;
    fprintf(stderr, "%s: %d of %d\n", id, met, e->figures);
    for (int i = 0; i < e->runs; i++)
        crew_free(&done[i]);
    free(done);
    free(why);
    free(e);
}

static void put_totals(const struct totals *t, const char *what)
{
    printf("\n## Totals, %s\n\n| | |\n| --- | --- |\n"
           "| experiments | %d |\n| figures | %d |\n| figures met | %d = %.0f %% |\n"
           "| the same, each experiment counting alike | %.0f %% |\n"
           "| published values and ranges | %d |\n| of them our 8 in 10 overlap | %d = %.0f %% |\n",
           what, t->experiments, t->figures, t->met, 100.0 * t->met / t->figures,
           100 * t->met_share / t->experiments, t->two_sided, t->covered,
           100.0 * t->covered / t->two_sided);
    if (t->peaks)
        printf("| peaks of temperature: mean error, worst | %.1f K, %.1f K (%d) |\n",
               t->peak_error_K / t->peaks, t->peak_worst_K, t->peaks);
    if (t->times)
        printf("| days of peaks: mean error | %.1f d (%d) |\n", t->time_error_d / t->times, t->times);
    if (t->courses)
        printf("| courses of temperature: mean error, worst | %.1f K, %.1f K (%d) |\n",
               t->course_error_K / t->courses, t->course_worst_K, t->courses);
}

int main(int argc, char **argv)
{
    char id[FIGURES_FOLDERS][8];
    struct totals totals = {0};
    struct fitted *fitted = NULL;
    bool left_out = argc > 1 && strcmp(argv[1], "-left-out") == 0;
    argc -= left_out;
    argv += left_out;
    const char *folder = argc > 1 ? argv[1] : "tests/field";
    int members = argc > 2 ? atoi(argv[2]) : USUAL_MEMBERS, found = figures_find(folder, "x", NULL, id);
    if (left_out) {
        char path[512];
        snprintf(path, sizeof path, "%s/fitted.csv", folder);
        fitted = calloc(1, sizeof *fitted);
        if (!fitted || !fitted_read(fitted, path)) {
            fprintf(stderr, "validate: %s can't be read\n", path);
            return 1;
        }
    } else {
        fputs(preface, stdout);
    }
    if (members < 1)
        members = USUAL_MEMBERS;
    for (int i = 0; i < found; i++) {
        bool asked = argc <= 3;
        for (int k = 3; k < argc; k++)
            asked |= strcmp(argv[k], id[i]) == 0;
        if (asked)
            score_experiment(folder, id[i], members, fitted, &totals);
    }
    if (totals.figures)
        put_totals(&totals, fitted ? "each experiment left out of the fit" : "fitted to all");
    free(fitted);
    return 0;
}
