/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/trial.c - see tests/field/trial.h. */
#include "field/trial.h"
#include "door/climate.h"
#include "field/measure.h"
#include "many/band.h"
#include "many/crew.h"
#include "run/season.h"
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DRAW = 2 }; /* validation has 1 */

bool trial_read(struct trial *t, const char *folder, const char *without, struct trouble *why)
{
    char id[FIGURES_FOLDERS][8];
    *t = (struct trial){0};
    int found = figures_find(folder, "tx", without, id);
    for (int i = 0; i < found; i++) {
        struct experiment *e = t->experiment[i] = calloc(1, sizeof *e);
        t->experiments++;
        if (!e || !figures_read(e, folder, id[i], why))
            return false;
        t->first_figure[i] = t->figures;
        t->figures += e->figures;
        t->run[i] = calloc((size_t)e->runs + 1, sizeof *t->run[i]);
        for (int r = 0; r < e->runs; r++) {
            struct trial_run *run = &t->run[i][r];
            run->scenario = calloc(1, sizeof *run->scenario);
            if (!run->scenario || !figures_open(run->scenario, &run->plan, folder, e, &e->run[r], why) ||
                !climate_curve(&run->sky, run->scenario, 0, why))
                return false;
        }
    }
    t->first_figure[found] = t->figures;
    return true;
}

void trial_free(struct trial *t)
{
    for (int i = 0; i < t->experiments; i++) {
        for (int r = 0; t->run[i] && r < t->experiment[i]->runs; r++) {
            curve_free(&t->run[i][r].sky);
            free(t->run[i][r].scenario);
        }
        free(t->run[i]);
        free(t->experiment[i]);
    }
}

/* ---- running ---- */

static void run_four(const struct trial_run *run, const struct param param[TRIAL_WIDE],
                     struct record record[TRIAL_WIDE])
{
    struct possible *possible = calloc(TRIAL_WIDE, sizeof *possible);
    struct trouble *why = calloc(1, sizeof *why);
    const struct curve *sky[TRIAL_WIDE] = {&run->sky, &run->sky, &run->sky, &run->sky};
    for (int i = 0; i < TRIAL_WIDE; i++)
        possible_usual(&possible[i], run->scenario, &param[i]);
    struct setup setup = {.scenario = run->scenario, .plan = run->plan, .sky = sky,
                          .possible = possible};
    if (season_width(run->scenario, run->plan) < TRIAL_WIDE ||
        !season_run_wide(TRIAL_WIDE, record, &setup, why))
        for (int i = 0; i < TRIAL_WIDE; i++) {
            record_free(&record[i]);
            setup.possible = &possible[i];
            if (!season_run(&record[i], &setup, why))
                record_free(&record[i]); /* no days: its figures are NAN */
        }
    free(possible);
    free(why);
}

static void measure_all(const struct trial *t, int i, struct record (*record)[TRIAL_WIDE],
                        double *const value[TRIAL_WIDE])
{
    const struct experiment *e = t->experiment[i];
    for (int m = 0; m < TRIAL_WIDE; m++) {
        const struct record *of[FIGURES_EXPERIMENT_RUNS];
        bool whole = true;
        for (int r = 0; r < e->runs; r++) {
            of[r] = &record[r][m];
            whole &= of[r]->days > 0;
        }
        for (int f = 0; f < e->figures; f++)
            value[m][t->first_figure[i] + f] = whole ? measure_over_runs(of, e, &e->figure[f])
                                                     : (double)NAN;
    }
}

struct work {
    const struct trial *trial;
    const struct param *param;
    double *const *value;
    int next;
    pthread_mutex_t lock;
};

static void *labour(void *shared)
{
    struct work *work = shared;
    const struct trial *t = work->trial;
    for (;;) {
        pthread_mutex_lock(&work->lock);
        int i = work->next++;
        pthread_mutex_unlock(&work->lock);
        if (i >= t->experiments)
            return NULL;
        int runs = t->experiment[i]->runs;
        struct record (*record)[TRIAL_WIDE] = calloc((size_t)runs, sizeof *record);
        for (int r = 0; r < runs; r++)
            run_four(&t->run[i][r], work->param, record[r]);
        measure_all(t, i, record, work->value);
        for (int r = 0; r < runs; r++)
            for (int m = 0; m < TRIAL_WIDE; m++)
                record_free(&record[r][m]);
        free(record);
    }
}

void trial_evaluate(const struct trial *trial, const struct param param[TRIAL_WIDE],
                    double *const value[TRIAL_WIDE], int threads)
{
    enum { MOST = 64 };
    pthread_t thread[MOST];
    struct work work = {.trial = trial, .param = param, .value = value};
    int started = 0;
    pthread_mutex_init(&work.lock, NULL);
    while (started < threads - 1 && started < MOST &&
           pthread_create(&thread[started], NULL, labour, &work) == 0)
        started++;
    labour(&work);
    for (int i = 0; i < started; i++)
        pthread_join(thread[i], NULL);
    pthread_mutex_destroy(&work.lock);
}

/* ---- many possible piles ---- */

/* A run's members; where they can't be run there are none. */
static void run_members(const struct trial_run *run, const struct param *param, int threads,
                        struct crew_done *done)
{
    static const bool fixed[PARAM_ROWS];
    struct trouble *why = calloc(1, sizeof *why);
    struct crew crew = {.scenario = run->scenario, .plan = run->plan, .param = param, .fixed = fixed,
                        .sky = run->scenario->sky == PLAN_SKY_FILE ? &run->sky : NULL, .draw = DRAW,
                        .first = 1, .last = TRIAL_MEMBERS, .threads = threads};
    if (!why || !crew_run(done, &crew, why))
        *done = (struct crew_done){0};
    free(why);
}

static double median_of(const struct experiment *e, const struct figure *f, const struct crew_done *done)
{
    double value[TRIAL_MEMBERS];
    int count = measure_members(value, e, f, done, TRIAL_MEMBERS);
    return count ? band_of(value, count).mid : (double)NAN;
}

void trial_medians(const struct trial *t, const struct param *param, double *value, int threads)
{
    for (int i = 0; i < t->experiments; i++) {
        const struct experiment *e = t->experiment[i];
        struct crew_done done[FIGURES_EXPERIMENT_RUNS] = {{0}};
        for (int r = 0; r < e->runs; r++)
            run_members(&t->run[i][r], param, threads, &done[r]);
        for (int f = 0; f < e->figures; f++)
            value[t->first_figure[i] + f] = median_of(e, &e->figure[f], done);
        for (int r = 0; r < e->runs; r++)
            crew_free(&done[r]);
    }
}

/* ---- judging ---- */

bool trial_counts(const struct experiment *e)
{
    return e->id[0] == 'x';
}

/* Half a band's width; of an open one a fifth of its end. */
static double half_of(const struct figure *f)
{
    double end = fabs(isnan(f->pass_low) ? f->pass_high : f->pass_low);
    bool open = isnan(f->pass_low) || isnan(f->pass_high);
    return fmax(open ? 0.2 * end : 0.5 * (f->pass_high - f->pass_low), 1e-6 + 0.02 * end);
}

double trial_position(const struct figure *f, double value)
{
    static const double FAR = 20;
    double middle = isnan(f->pass_low)    ? f->pass_high
                    : isnan(f->pass_high) ? f->pass_low
                                          : 0.5 * (f->pass_low + f->pass_high);
    if (isnan(value))
        return isnan(f->pass_high) ? -FAR : FAR;
    return fmax(-FAR, fmin(FAR, (value - middle) / half_of(f)));
}

double trial_grade(const struct figure *f, double position)
{
    double ends = 0.5 * (f->pass_high - f->pass_low) / half_of(f); /* of a band with two */
    double out = isnan(f->pass_low)    ? position
                 : isnan(f->pass_high) ? -position
                                       : fabs(position) - ends;
    double z = out + 0.5; /* 0 where the outer half of the band begins */
    return z <= 0 ? 1 : 1 / (1 + 4 * z * z);
}
