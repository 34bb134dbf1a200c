/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/calibrate.c - global constants tried on, and fitted to, all published experiments.
 *
 *     calibrate try FOLDER [-q] [-m] [NAME=VALUE...]
 *         scores one set of constants on the central pile, or by medians of possible piles (-m)
 *     calibrate swing FOLDER
 *         tells which constants the figures feel most (field/swing)
 *     calibrate fit FOLDER MINUTES TRIALS RESULT [NAME=VALUE...]
 *         fits, some constants held; goes on with the trials of the file TRIALS, if it is there
 *
 * Few constants are fitted: those that move the figures most when each is swung alone over half
 * of its range, a measure which no measured value enters. All others stay where FOLDER/prior.csv
 * has them, from before any fit. First comes a design that fills the space about the prior, drawn
 * without a look at any data, so that every learner may use it. Then the learners work apart
 * (field/learner): each guesses the figures between its trials (field/emulate), tries four places
 * it believes in, and again; then the medians of possible piles at the best it ran, from which it
 * sees how these lean, and goes on. Its answer is the best of its medians. What was left out is scored by
 * the learner that never saw it; what the trade knows (tNN) is fitted to by all and scored by none.
 */
#include "field/fitted.h"
#include "field/learner.h"
#include "field/swing.h"
#include "base/draw.h"
#include "many/crew.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* By how far the figures swing (field/swing), most first: 0.49 to 0.20 half widths on average. Next
 * come diffusion_factor and hold_factor (0.16), ammonia_per_day, coldest_C and so on down. necromass_per_day swung by
 * 0.29, but is held at what was measured (docs/decisions.md). */
static const char *const NAMES[] = {"slow_per_day", "lag_share", "microbe_death_per_day",
                                    "permeability_factor", "fast_per_day", "protein_per_day"};

enum { CONSTANTS = sizeof NAMES / sizeof *NAMES, FOLDS = LEARNER_FOLDS, DESIGN = 128,
       STAGES = 3, ROUNDS = 2, /* a stage is so many rounds of four on the central pile, then medians */
       STAGE = ROUNDS * TRIAL_WIDE + 1,
       PRIOR_MEDIANS = TRIED_MEDIANS + LEARNERS, /* the last origin: what no learner chose */
       WHOLE = 2 + DESIGN + LEARNERS * STAGES * STAGE /* trials of a fit */ };
static const char SLOW[] = "x22"; /* takes as long as all the others together: not fitted to */

static void stop(const struct trouble *why)
{
    fprintf(stderr, "calibrate: %s\n", why->text);
    exit(1);
}

static void set(struct param *param, const char *name, double value)
{
    struct trouble why = {0};
    if (!param_set(param, name, value, &why))
        stop(&why);
}

/* ---- try ---- */

static void print_value(const struct figure *f, double value)
{
    printf("   %-44.44s %8.3g  want %.3g to %.3g\n", f->quantity, value, f->pass_low, f->pass_high);
}

static void print_scores(const struct trial *trial, const double *value, bool quiet)
{
    double all = 0, grade = 0, share = 0;
    int figures = 0, experiments = 0;
    for (int i = 0; i < trial->experiments; i++) {
        const struct experiment *e = trial->experiment[i];
        const double *v = value + trial->first_figure[i];
        int met = 0;
        for (int f = 0; f < e->figures; f++) {
            met += figures_met(&e->figure[f], v[f]);
            if (trial_counts(e))
                grade += trial_grade(&e->figure[f], trial_position(&e->figure[f], v[f]));
        }
        printf("%s %d of %d\n", e->id, met, e->figures);
        figures += trial_counts(e) ? e->figures : 0;
        experiments += trial_counts(e);
        for (int f = 0; !quiet && f < e->figures; f++)
            if (!figures_met(&e->figure[f], v[f]))
                print_value(&e->figure[f], v[f]);
        all += trial_counts(e) ? met : 0;
        share += trial_counts(e) ? met / (double)e->figures : 0;
    }
    printf("met %.0f of %d = %.1f %%, by experiment %.1f %%, grade %.3f\n", all, figures,
           100 * all / figures, 100 * share / experiments, grade / figures);
}

/* Each experiment's figures met, and those missed with their values. */
static int try_one(const char *folder, int count, char **word)
{
    struct trouble *why = calloc(1, sizeof *why);
    struct trial *trial = calloc(1, sizeof *trial);
    struct param param[TRIAL_WIDE];
    double *value[TRIAL_WIDE];
    bool quiet = false, medians = false;
    param[0] = param_usual();
    for (int i = 0; i < count; i++) {
        char *equals = strchr(word[i], '=');
        quiet |= strcmp(word[i], "-q") == 0;
        medians |= strcmp(word[i], "-m") == 0;
        if (equals) {
            *equals = '\0';
            set(&param[0], word[i], strtod(equals + 1, NULL));
        }
    }
    if (!trial_read(trial, folder, SLOW, why))
        stop(why);
    for (int i = 0; i < TRIAL_WIDE; i++) {
        param[i] = param[0];
        value[i] = calloc((size_t)trial->figures, sizeof(double));
    }
    if (medians)
        trial_medians(trial, &param[0], value[0], crew_threads());
    else
        trial_evaluate(trial, param, value, crew_threads());
    print_scores(trial, value[0], quiet);
    for (int i = 0; i < TRIAL_WIDE; i++)
        free(value[i]);
    trial_free(trial);
    free(trial);
    free(why);
    return 0;
}

static int swing(const char *folder)
{
    struct trouble *why = calloc(1, sizeof *why);
    struct trial *trial = calloc(1, sizeof *trial);
    struct tried *tried = calloc(1, sizeof *tried);
    char prior[512];
    snprintf(prior, sizeof prior, "%s/prior.csv", folder);
    if (!trial_read(trial, folder, SLOW, why) || !tried_begin(tried, trial, NULL, 0, prior, why))
        stop(why);
    swing_print(tried);
    tried_free(tried);
    trial_free(trial);
    free(tried);
    free(trial);
    free(why);
    return 0;
}

/* ---- fit ---- */

struct fit {
    struct trial trial;
    struct tried tried;
    struct school school;
};

/* Four places of a Latin hypercube over the prior, row `first` and those after it. */
static void design(const struct fit *fit, int first, double (*place)[EMULATE_INPUTS])
{
    for (int d = 0; d < fit->tried.fitted; d++) {
        int order[DESIGN];
        for (int i = 0; i < DESIGN; i++) {
            int at = (int)(draw_uniform(2026, 1, (uint32_t)d, (uint32_t)i) * (i + 1));
            order[i] = order[at];
            order[at] = i;
        }
        for (int i = 0; i < TRIAL_WIDE; i++) {
            double within = draw_uniform(2026, 2, (uint32_t)d, (uint32_t)(first + i));
            place[i][d] = tried_prior((order[first + i] + within) / DESIGN);
        }
    }
}

static int count_of(const struct tried *tried, int origin)
{
    int count = 0;
    for (int t = 0; t < tried->trials; t++)
        count += tried->origin[t] == origin;
    return count;
}

static int count_of_learner(const struct tried *tried, int learner)
{
    return count_of(tried, learner) + count_of(tried, TRIED_MEDIANS + learner);
}

/* Whose turn it is: the design's, the prior's, then the learner's with the fewest trials. */
static int next_origin(const struct tried *tried)
{
    if (count_of(tried, TRIED_DESIGN) < DESIGN)
        return TRIED_DESIGN;
    if (count_of(tried, PRIOR_MEDIANS) == 0)
        return PRIOR_MEDIANS;
    int next = 0;
    for (int k = 1; k < LEARNERS; k++)
        if (count_of_learner(tried, k) < count_of_learner(tried, next))
            next = k;
    bool stage_done = count_of_learner(tried, next) % STAGE == STAGE - 1;
    return stage_done ? TRIED_MEDIANS + next : next;
}

/* Medians where a learner believes most, or at the prior, which is row 0. */
static bool run_medians(struct fit *fit, int turn, struct trouble *why)
{
    int learner = turn - TRIED_MEDIANS;
    int at = turn == PRIOR_MEDIANS ? 0 : learner_best(&fit->school, learner);
    return tried_run_medians(&fit->tried, learner, fit->tried.place[at], why);
}

static bool run_four(struct fit *fit, int turn, struct trouble *why)
{
    double place[TRIAL_WIDE][EMULATE_INPUTS] = {{0}};
    int had = count_of(&fit->tried, turn);
    const int origin[TRIAL_WIDE] = {turn, turn, turn, turn};
    if (turn == TRIED_DESIGN)
        design(fit, had, place);
    else if (!learner_propose(&fit->school, turn, had / TRIAL_WIDE, place))
        return trouble_set(why, TROUBLE_SOLVE, "the trials of learner %d can't be learned from",
                           turn + 1);
    return tried_run(&fit->tried, origin, (const double (*)[EMULATE_INPUTS])place, why);
}

static void run_next(struct fit *fit, struct trouble *why)
{
    int turn = next_origin(&fit->tried);
    if (!(turn < TRIED_MEDIANS ? run_four(fit, turn, why) : run_medians(fit, turn, why)))
        stop(why);
    fprintf(stderr, "\r%d of %d trials", fit->tried.trials, WHOLE);
}

/* ---- result ---- */

struct share {
    int met, figures, experiments;
    double of_experiments;
};

/* Figures met under a trial, of the experiments of one fold; fold -1 is all. */
static void add_share(const struct fit *fit, int trial, int fold, struct share *share)
{
    for (int i = 0; i < fit->trial.experiments; i++) {
        const struct experiment *e = fit->trial.experiment[i];
        int met = 0;
        if ((fold >= 0 && fit->school.fold[i] != fold) || !trial_counts(e))
            continue;
        for (int f = 0; f < e->figures; f++)
            met += figures_met(&e->figure[f], fit->tried.value[trial][fit->trial.first_figure[i] + f]);
        share->met += met;
        share->figures += e->figures;
        share->experiments++;
        share->of_experiments += met / (double)e->figures;
    }
}

static void write_share(FILE *out, const char *what, const struct share *s)
{
    fprintf(out, "# %s: %d of %d figures = %.1f %%; each experiment alike %.1f %%\n", what, s->met,
            s->figures, 100.0 * s->met / s->figures, 100 * s->of_experiments / s->experiments);
}

static void write_constant(FILE *out, const struct tried_constant *c, const double place[LEARNERS])
{
    double fold[FITTED_FOLDS];
    fprintf(out, "%s,%.4g,%.4g", c->row->name, tried_value(c, place[FOLDS]), c->row->usual);
    for (int k = 0; k < FOLDS; k++) {
        fold[k] = tried_value(c, place[k]);
        fprintf(out, ",%.4g", fold[k]);
    }
    if (c->row->within > 0)
        fprintf(out, ",%.3g", fitted_within(fold));
    fputc('\n', out);
}

static void write_constants(FILE *out, const struct fit *fit, const int best[LEARNERS])
{
    double place[LEARNERS] = {0};
    fprintf(out, "name,fitted,usual,fold1,fold2,fold3,fold4,fold5,within\n");
    for (int d = 0; d < fit->tried.fitted; d++) {
        for (int k = 0; k < LEARNERS; k++)
            place[k] = fit->tried.place[best[k]][d];
        write_constant(out, &fit->tried.fit[d], place);
    }
    memset(place, 0, sizeof place);
    for (int h = 0; h < fit->tried.held; h++)
        if (fit->tried.hold[h].row->spread != PARAM_EXACT) /* but for the mesh */
            write_constant(out, &fit->tried.hold[h], place);
}

static void write_totals(FILE *out, const struct fit *fit, const int best[LEARNERS])
{
    struct share prior = {0}, fitted = {0}, left = {0};
    add_share(fit, learner_answer(&fit->school, PRIOR_MEDIANS - TRIED_MEDIANS), -1, &prior);
    add_share(fit, best[FOLDS], -1, &fitted);
    for (int k = 0; k < FOLDS; k++)
        add_share(fit, best[k], k, &left);
    write_share(out, "left out", &left);
    write_share(out, "fitted", &fitted);
    write_share(out, "prior", &prior);
}

static void write_result(const struct fit *fit, const char *path, struct trouble *why)
{
    FILE *out = fopen(path, "w");
    int best[LEARNERS];
    if (!out) {
        trouble_set(why, TROUBLE_CREATE, "%s can't be written", path);
        stop(why);
    }
    for (int k = 0; k < LEARNERS; k++)
        best[k] = learner_answer(&fit->school, k);
    fprintf(out,
            "# `make calibrate`: %d global constants fitted, %d trials on %d experiments, medians of %d\n"
            "# possible piles, coarse mesh; the constants after the first %d are held at prior.csv\n"
            "# column `fitted`: by the learner that sees every experiment; fold1 to fold5: by those that\n"
            "# never saw that fifth; `within`: the factor to either side by a jackknife over them\n",
            fit->tried.fitted, fit->tried.trials, fit->trial.experiments, TRIAL_MEMBERS,
            fit->tried.fitted);
    write_totals(out, fit, best);
    fprintf(out, "# folds:");
    for (int k = 0; k < FOLDS; k++)
        for (int i = 0; i < fit->trial.experiments; i++)
            if (fit->school.fold[i] == k)
                fprintf(out, " %s=%d", fit->trial.experiment[i]->id, k + 1);
    fputc('\n', out);
    write_constants(out, fit, best);
    fclose(out);
    fputc('\n', stderr);
    write_totals(stderr, fit, best);
}

static double minutes_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec / 60;
}

/* "NAME=VALUE" of the command line. */
static bool hold(struct tried *tried, char *word, struct trouble *why)
{
    char *equals = strchr(word, '=');
    if (!equals)
        return trouble_set(why, TROUBLE_USAGE, "`%s` isn't NAME=VALUE", word);
    *equals = '\0';
    return tried_hold(tried, word, strtod(equals + 1, NULL), why);
}

static void open_fit(struct fit *fit, const char *folder, const char *trials, int words, char **word,
                     struct trouble *why)
{
    char prior[512];
    snprintf(prior, sizeof prior, "%s/prior.csv", folder);
    bool good = trial_read(&fit->trial, folder, SLOW, why) &&
                tried_begin(&fit->tried, &fit->trial, NAMES, CONSTANTS, prior, why);
    for (int i = 0; good && i < words; i++)
        good = hold(&fit->tried, word[i], why);
    learner_school(&fit->school, &fit->tried);
    if (!good || !tried_resume(&fit->tried, trials, why))
        stop(why);
}

static int fit_all(const char *folder, double minutes, const char *trials, const char *result,
                   int words, char **word)
{
    struct trouble *why = calloc(1, sizeof *why);
    struct fit *fit = calloc(1, sizeof *fit);
    double began = minutes_now();
    open_fit(fit, folder, trials, words, word, why);
    while (minutes_now() - began < minutes && fit->tried.trials < WHOLE)
        run_next(fit, why);
    if (fit->tried.trials >= WHOLE)
        write_result(fit, result, why);
    else
        fprintf(stderr, "\ntime is up; the same command goes on, %s is as it was\n", result);
    tried_free(&fit->tried);
    trial_free(&fit->trial);
    free(fit);
    free(why);
    return 0;
}

int main(int argc, char **argv)
{
    if (argc >= 3 && strcmp(argv[1], "try") == 0)
        return try_one(argv[2], argc - 3, argv + 3);
    if (argc == 3 && strcmp(argv[1], "swing") == 0)
        return swing(argv[2]);
    if (argc >= 6 && strcmp(argv[1], "fit") == 0)
        return fit_all(argv[2], strtod(argv[3], NULL), argv[4], argv[5], argc - 6, argv + 6);
    fprintf(stderr, "usage: calibrate try FOLDER [-q] [-m] [NAME=VALUE...]\n"
                    "       calibrate swing FOLDER\n"
                    "       calibrate fit FOLDER MINUTES TRIALS RESULT [NAME=VALUE...]\n");
    return 64;
}
