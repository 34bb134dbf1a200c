/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/trial.c - see tests/field/trial.h. */
#include "field/trial.h"
#include "door/climate.h"
#include "door/scenario.h"
#include "field/measure.h"
#include "run/season.h"
#include <dirent.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int by_name(const void *a, const void *b)
{
    return strcmp(a, b);
}

static int find_all(const char *folder, const char *without, char id[TRIAL_EXPERIMENTS][8])
{
    int count = 0;
    DIR *dir = opendir(folder);
    for (struct dirent *d; dir && (d = readdir(dir));)
        if (strchr("tx", d->d_name[0]) && strlen(d->d_name) == 3 && count < TRIAL_EXPERIMENTS &&
            !(without && strstr(without, d->d_name)))
            strcpy(id[count++], d->d_name);
    if (dir)
        closedir(dir);
    qsort(id, (size_t)count, sizeof id[0], by_name);
    return count;
}

static bool read_run(struct trial_run *to, const char *folder, const struct experiment *e,
                     const struct figures_run *run, struct trouble *why)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s/%s.yaml", folder, e->id, run->file);
    to->scenario = calloc(1, sizeof *to->scenario);
    if (!to->scenario || !scenario_read(to->scenario, path, why))
        return false;
    if (!climate_curve(&to->sky, to->scenario, 0, why))
        return false;
    struct plan_bay *home = &to->scenario->bay[to->scenario->home];
    if (run->held_K > 0)
        home->held_K = run->held_K;
    if (run->held_water_share > 0)
        home->held_water_share = run->held_water_share;
    if (run->held_oxygen_share > 0)
        home->held_oxygen_share = run->held_oxygen_share;
    for (to->plan = 0; to->plan < to->scenario->plans; to->plan++)
        if (!*run->plan || strcmp(to->scenario->plan[to->plan].name, run->plan) == 0)
            return true;
    return trouble_set(why, TROUBLE_INPUT, "%s has no plan %s", path, run->plan);
}

bool trial_read(struct trial *t, const char *folder, const char *without, struct trouble *why)
{
    char id[TRIAL_EXPERIMENTS][8];
    *t = (struct trial){0};
    int found = find_all(folder, without, id);
    for (int i = 0; i < found; i++) {
        struct experiment *e = t->experiment[i] = calloc(1, sizeof *e);
        t->experiments++;
        if (!e || !figures_read(e, folder, id[i], why))
            return false;
        t->first_figure[i] = t->figures;
        t->figures += e->figures;
        t->run[i] = calloc((size_t)e->runs + 1, sizeof *t->run[i]);
        for (int r = 0; r < e->runs; r++)
            if (!read_run(&t->run[i][r], folder, e, &e->run[r], why))
                return false;
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

const struct figure *trial_figure(const struct trial *t, int figure, int *experiment)
{
    int i = 0;
    while (t->first_figure[i + 1] <= figure)
        i++;
    *experiment = i;
    return &t->experiment[i]->figure[figure - t->first_figure[i]];
}

/* ---- running ---- */

static bool run_wide(struct record record[TRIAL_WIDE], const struct setup *setup, struct trouble *why)
{
#ifdef SEASON_AVX2
    if (season_wide(&setup->scenario->plan[setup->plan]))
        return season_run_x4(record, setup, why);
#endif
    (void)record, (void)setup;
    return trouble_set(why, TROUBLE_NO, "one at a time");
}

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
    if (!run_wide(record, &setup, why))
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

/* ---- judging ---- */

bool trial_counts(const struct experiment *e)
{
    return e->id[0] == 'x';
}


bool trial_met(const struct figure *f, double value)
{
    return !isnan(value) && !(value < f->pass_low) && !(value > f->pass_high);
}

double trial_grade(const struct figure *f, double value)
{
    if (isnan(value))
        return 0;
    double low = f->pass_low, high = f->pass_high;
    double half = isnan(low) || isnan(high) ? 0.2 * fabs(isnan(low) ? high : low) : 0.5 * (high - low);
    half = fmax(half, 1e-6 + 0.02 * fabs(isnan(low) ? high : low));
    double out = fmax(isnan(low) ? -INFINITY : low - value, isnan(high) ? -INFINITY : value - high);
    if (isinf(out))
        return out > 0 ? 0 : 1;
    double z = out / half + 0.5; /* 0 where the outer half of the band begins */
    return z <= 0 ? 1 : 1 / (1 + 4 * z * z);
}
