/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/calibrate.c - global constants tried on, and fitted to, all published experiments.
 *
 *     calibrate try FOLDER [-q] [NAME=VALUE...]    scores one set of constants on the central pile
 *     calibrate fit FOLDER MINUTES FILE [NAME=VALUE...]  fits, some constants held, and writes what was
 *                                                  found; begins with what FILE holds, if it is there
 *
 * Only constants of the whole model are fitted, within the ranges of know/param, never anything of
 * one experiment. Six learners search at once: one that sees every experiment, and five of which
 * each never sees a fifth of them and knows of no trial proposed by one that does: they begin at the
 * values of FOLDER/prior.csv, from before any fit. New trials come half about the mean of a learner's best (an evolution
 * strategy with weighted recombination), half by differential evolution among them (Storn and Price
 * 1997, J. Global Optim. 11, 341-359). The score of what was left out is that of
 * each fifth under the constants of the learner that never saw it. What the trade knows (tNN) is
 * fitted to by all and scored by none.
 */
#include "field/fitted.h"
#include "field/trial.h"
#include "base/draw.h"
#include "many/crew.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* The mesh and tolerance of a fit are coarser than a forecast's, for speed. */
static const char *const COARSE[][2] = {{"tolerance_K", "0.25"}, {"rim_m", "0.03"},
                                        {"mesh_growth", "1.4"}, {"row_most_m", "0.08"},
                                        {"column_growth", "2"}};
static const char *const NAMES[] = {
    "fast_per_day", "protein_per_day", "slow_per_day", "lignin_shield", "lignin_per_day",
   
    "microbe_death_per_day", "humus_per_day", "airless_share", "size_half_m", "coldest_C",
    "hottest_C", "lignin_best_C", "cold_floor", "wet_slope", "wet_offset", "oxygen_half_share", "film_slope",
    "lag_share", "start_microbe_share", "grow_share", "grow_slow_share", "humus_slow_share",
    "humus_microbe_share", "starved_share", "ammonia_per_day", "ammonia_hinders_kg_per_kg", "ripe_ph",
    "activity_half", "capillary_m2_per_s", "drain_m_per_s", "hold_factor", "heap_rain_share",
    "permeability_factor", "grain_power", "permeability_least_m2", "permeability_most_m2",
    "diffusion_factor", "wind_through", "film_W_per_m2K", "dry_conductivity_W_per_mK",
    "wall_gaps_factor", "press_Pa", "shrink_power", "creep_days", "trodden_share", "laid_warmer_K",
    "turn_air_kg_per_m3", "turn_lift", "rot_seed_per_day"};

enum { DIMENSIONS = sizeof NAMES / sizeof *NAMES, FOLDS = 5, LEARNERS = FOLDS + 1, ELITE = 24,
       EACH = 4, MOST_TRIALS = 6000, NOBODY = -1 };
static const double LEAST_SPREAD = 0.03;
static const double TRADE = 4; /* weight of what the trade knows against an experiment */
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
            grade += trial_counts(e) ? trial_grade(&e->figure[f], v[f]) : 0;
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
    bool quiet = false;
    param[0] = param_usual();
    for (int i = 0; i < count; i++) {
        char *equals = strchr(word[i], '=');
        quiet |= strcmp(word[i], "-q") == 0;
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
    trial_evaluate(trial, param, value, crew_threads());
    print_scores(trial, value[0], quiet);
    for (int i = 0; i < TRIAL_WIDE; i++)
        free(value[i]);
    trial_free(trial);
    free(trial);
    free(why);
    return 0;
}

/* ---- fit ---- */

struct fit {
    struct trial trial;
    int fold[TRIAL_EXPERIMENTS];        /* of each experiment */
    double weight[TRIAL_EXPERIMENTS];   /* of each of its figures */
    int trials;
    double place[MOST_TRIALS][DIMENSIONS];      /* -1 least, 0 usual, 1 most of a row */
    double *value[MOST_TRIALS];
    double rank[LEARNERS][MOST_TRIALS];         /* learner k < FOLDS never sees fold k */
    int origin[MOST_TRIALS];                    /* learner that proposed it; NOBODY: it was there at first */
    uint32_t drawn;
    int holds;
    struct { const struct param_row *row; double value; } hold[16]; /* constants not to be fitted */
};

static double uniform(struct fit *fit)
{
    return draw_uniform(2026, fit->drawn++, 0, 0);
}

/* The value at a place; a lognormal row goes by its logarithm. */
static double value_at(const struct param_row *row, double place)
{
    double end = place < 0 ? row->least : row->most, share = fabs(place);
    if (row->spread == PARAM_LOGNORMAL)
        return row->usual * pow(end / row->usual, share);
    return row->usual + share * (end - row->usual);
}

static struct param param_at(const struct fit *fit, const double place[DIMENSIONS])
{
    struct param param = param_usual();
    for (size_t i = 0; i < sizeof COARSE / sizeof *COARSE; i++)
        set(&param, COARSE[i][0], strtod(COARSE[i][1], NULL));
    for (int d = 0; d < DIMENSIONS; d++) {
        const struct param_row *row = param_find(NAMES[d]);
        double value = value_at(row, place[d]);
        set(&param, NAMES[d], fmax(row->least, fmin(row->most, value)));
    }
    for (int i = 0; i < fit->holds; i++)
        param_put(&param, fit->hold[i].row, fit->hold[i].value);
    return param;
}

/* What a learner thinks of a trial: grades of the figures it may see, each experiment weighing by the
 * root of how many it has, less a little for straying from the usual values. */
static double rank_of(const struct fit *fit, int learner, int trial)
{
    double sum = 0, weights = 0, stray = 0;
    for (int i = 0; i < fit->trial.experiments; i++) {
        const struct experiment *e = fit->trial.experiment[i];
        if (fit->fold[i] == learner)
            continue;
        for (int f = 0; f < e->figures; f++)
            sum += fit->weight[i] *
                   trial_grade(&e->figure[f], fit->value[trial][fit->trial.first_figure[i] + f]);
        weights += fit->weight[i] * e->figures;
    }
    for (int d = 0; d < DIMENSIONS; d++)
        stray += fit->place[trial][d] * fit->place[trial][d];
    return sum / weights - 0.03 * stray / DIMENSIONS;
}

/* May a learner know of a trial? One that never sees a fifth takes none from those that do: what they
 * propose carries what they saw. */
static bool knows(const struct fit *fit, int learner, int trial)
{
    return learner == FOLDS || fit->origin[trial] == learner || fit->origin[trial] == NOBODY;
}

/* The learner's best so far, best first. */
static int elite_of(const struct fit *fit, int learner, int elite[ELITE])
{
    int count = 0;
    for (int t = 0; t < fit->trials; t++) {
        if (!knows(fit, learner, t) ||
            (count == ELITE && fit->rank[learner][t] <= fit->rank[learner][elite[ELITE - 1]]))
            continue;
        int at = count < ELITE ? count++ : ELITE - 1;
        for (; at > 0 && fit->rank[learner][t] > fit->rank[learner][elite[at - 1]]; at--)
            elite[at] = elite[at - 1];
        elite[at] = t;
    }
    return count;
}

/* About the mean of the elite, the best of them counting most, as far as they are spread: a mean of
 * many is nearer to what they have in common than any of them. */
static void near_mean(struct fit *fit, const int elite[ELITE], int count, double place[DIMENSIONS])
{
    double reach = 0.3 + uniform(fit), part = uniform(fit) < 0.5 ? 1 : 0.2; /* all at once, or some */
    for (int d = 0; d < DIMENSIONS; d++) {
        double sum = 0, square = 0, weights = 0;
        for (int i = 0; i < count; i++) {
            double x = fit->place[elite[i]][d], weight = 1.0 / (1 + i);
            weights += weight;
            sum += weight * x;
            square += weight * x * x;
        }
        double mean = sum / weights, spread = sqrt(fmax(0, square / weights - mean * mean));
        place[d] = mean;
        if (uniform(fit) < part)
            place[d] += reach * fmax(spread, LEAST_SPREAD / part) *
                        draw_normal(2026, fit->drawn++, 1, 0);
    }
}

/* A new place: about the mean of the elite, or between some of them. */
static void propose(struct fit *fit, int learner, double place[DIMENSIONS])
{
    int elite[ELITE], count = elite_of(fit, learner, elite);
    if (count < ELITE || uniform(fit) < 0.5) {
        near_mean(fit, elite, count, place);
    } else {
        int a = elite[(int)(uniform(fit) * uniform(fit) * count)];
        int b = elite[(int)(uniform(fit) * count)], c = elite[(int)(uniform(fit) * count)];
        double keep = 0.2 + 0.7 * uniform(fit);
        for (int d = 0; d < DIMENSIONS; d++) {
            place[d] = fit->place[a][d];
            if (uniform(fit) < keep)
                place[d] += 0.6 * (fit->place[b][d] - fit->place[c][d]) +
                            0.04 * (uniform(fit) + uniform(fit) - 1);
        }
    }
    for (int d = 0; d < DIMENSIONS; d++)
        place[d] = fmax(-1, fmin(1, place[d]));
}

/* The place of a value, clipped to its row. */
static double place_at(const struct param_row *row, double value)
{
    double end = value < row->usual ? row->least : row->most;
    if (end == row->usual)
        return 0;
    double share = row->spread == PARAM_LOGNORMAL ? log(value / row->usual) / log(end / row->usual)
                                                  : (value - row->usual) / (end - row->usual);
    return (value < row->usual ? -1 : 1) * fmax(0, fmin(1, share));
}

/* FOLDER/prior.csv, lines "name,value", into the first trial. */
static void begin_at_prior(struct fit *fit, const char *folder)
{
    char path[512], line[256], name[64];
    double value;
    snprintf(path, sizeof path, "%s/prior.csv", folder);
    FILE *in = fopen(path, "r");
    while (in && fgets(line, sizeof line, in))
        if (sscanf(line, "%63[^,],%lf", name, &value) == 2)
            for (int d = 0; d < DIMENSIONS; d++)
                if (strcmp(name, NAMES[d]) == 0)
                    fit->place[0][d] = place_at(param_find(name), value);
    if (in)
        fclose(in);
}

/* Trials to begin with: what an earlier fit found, if it left a file. */
static void begin_at(struct fit *fit, const char *path)
{
    struct fitted *f = calloc(1, sizeof *f);
    bool found = f && fitted_read(f, path);
    for (int r = 0; found && r < f->rows; r++)
        for (int d = 0; d < DIMENSIONS; d++)
            if (f->row[r] == param_find(NAMES[d]))
                for (int i = 1; i < TRIAL_WIDE; i++)
                    fit->place[fit->trials + i][d] = place_at(f->row[r], i == 1 ? f->all[r] : f->fold[r][i]);
    free(f);
}

static void evaluate_four(struct fit *fit)
{
    struct param param[TRIAL_WIDE];
    double *value[TRIAL_WIDE];
    for (int i = 0; i < TRIAL_WIDE; i++) {
        param[i] = param_at(fit, fit->place[fit->trials + i]);
        value[i] = fit->value[fit->trials + i] = calloc((size_t)fit->trial.figures, sizeof(double));
    }
    trial_evaluate(&fit->trial, param, value, crew_threads());
    for (int i = 0; i < TRIAL_WIDE; i++, fit->trials++)
        for (int k = 0; k < LEARNERS; k++)
            fit->rank[k][fit->trials] = rank_of(fit, k, fit->trials);
}

static int best_of(const struct fit *fit, int learner)
{
    int best = 0;
    for (int t = 1; t < fit->trials; t++)
        if (knows(fit, learner, t) && fit->rank[learner][t] > fit->rank[learner][best])
            best = t;
    return best;
}

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
        if ((fold >= 0 && fit->fold[i] != fold) || !trial_counts(e))
            continue;
        for (int f = 0; f < e->figures; f++)
            met += figures_met(&e->figure[f], fit->value[trial][fit->trial.first_figure[i] + f]);
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

static void write_result(const struct fit *fit, const char *path)
{
    FILE *out = fopen(path, "w");
    struct share usual = {0}, fitted = {0}, left = {0};
    int best[LEARNERS];
    if (!out)
        return;
    for (int k = 0; k < LEARNERS; k++)
        best[k] = best_of(fit, k);
    add_share(fit, 0, -1, &usual); /* the prior */
    add_share(fit, best[FOLDS], -1, &fitted);
    for (int k = 0; k < FOLDS; k++)
        add_share(fit, best[k], k, &left);
    fprintf(out, "# global constants fitted by `make calibrate`: %d trials on %d experiments, central "
            "pile, coarse mesh\n", fit->trials, fit->trial.experiments);
    write_share(out, "left out", &left);
    write_share(out, "fitted", &fitted);
    write_share(out, "prior", &usual);
    fprintf(out, "# folds:");
    for (int k = 0; k < FOLDS; k++)
        for (int i = 0; i < fit->trial.experiments; i++)
            if (fit->fold[i] == k)
                fprintf(out, " %s=%d", fit->trial.experiment[i]->id, k + 1);
    fprintf(out, "\nname,fitted,usual,fold1,fold2,fold3,fold4,fold5\n");
    for (int d = 0; d < DIMENSIONS; d++) {
        const struct param_row *row = param_find(NAMES[d]);
        fprintf(out, "%s,%.4g,%.4g", NAMES[d], value_at(row, fit->place[best[FOLDS]][d]), row->usual);
        for (int k = 0; k < FOLDS; k++)
            fprintf(out, ",%.4g", value_at(row, fit->place[best[k]][d]));
        fputc('\n', out);
    }
    fclose(out);
    fprintf(stderr, "%5d trials: left out %.1f %%, fitted %.1f %%, prior %.1f %%; rank %.4f\n",
            fit->trials, 100.0 * left.met / left.figures, 100.0 * fitted.met / fitted.figures,
            100.0 * usual.met / usual.figures, fit->rank[FOLDS][best[FOLDS]]);
}

static double minutes_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec / 60;
}

/* "NAME=VALUE" of the command line. */
static void hold(struct fit *fit, char *word)
{
    char *equals = strchr(word, '=');
    struct param check = param_usual();
    if (!equals || fit->holds == 16)
        return;
    *equals = '\0';
    set(&check, word, strtod(equals + 1, NULL)); /* refuses what isn't there or out of range */
    fit->hold[fit->holds].row = param_find(word);
    fit->hold[fit->holds++].value = strtod(equals + 1, NULL);
}

/* The prior and three near it, known to all; then the usual values and what an earlier fit found, which
 * only the learner that sees everything may know. */
static void begin(struct fit *fit, const char *folder, const char *path)
{
    begin_at_prior(fit, folder);
    for (int i = 0; i < TRIAL_WIDE; i++) {
        for (int d = 0; d < DIMENSIONS; d++)
            fit->place[i][d] = fmax(-1, fmin(1, fit->place[0][d] + (i ? 0.3 * (uniform(fit) - 0.5) : 0)));
        fit->origin[i] = NOBODY;
    }
    evaluate_four(fit);
    for (int i = 0; i < TRIAL_WIDE; i++)
        fit->origin[fit->trials + i] = FOLDS;
    begin_at(fit, path);
    evaluate_four(fit);
}

static int fit_all(const char *folder, double minutes, const char *path, int words, char **word)
{
    struct trouble *why = calloc(1, sizeof *why);
    struct fit *fit = calloc(1, sizeof *fit);
    double began = minutes_now();
    for (int i = 0; i < words; i++)
        hold(fit, word[i]);
    if (!trial_read(&fit->trial, folder, SLOW, why))
        stop(why);
    for (int i = 0; i < fit->trial.experiments; i++) {
        bool counts = trial_counts(fit->trial.experiment[i]);
        fit->fold[i] = counts ? (7 * i + 3) % FOLDS : -1; /* what the trade knows is never left out */
        fit->weight[i] = (counts ? 1 : TRADE) / sqrt(fmax(1, fit->trial.experiment[i]->figures));
    }
    begin(fit, folder, path);
    while (minutes_now() - began < minutes && fit->trials + LEARNERS * EACH <= MOST_TRIALS) {
        for (int n = 0; n < LEARNERS * EACH / TRIAL_WIDE; n++) {
            for (int i = 0; i < TRIAL_WIDE; i++) {
                int learner = (n * TRIAL_WIDE + i) % LEARNERS;
                propose(fit, learner, fit->place[fit->trials + i]);
                fit->origin[fit->trials + i] = learner;
            }
            evaluate_four(fit);
        }
        write_result(fit, path);
    }
    for (int t = 0; t < fit->trials; t++)
        free(fit->value[t]);
    trial_free(&fit->trial);
    free(fit);
    free(why);
    return 0;
}

int main(int argc, char **argv)
{
    if (argc >= 3 && strcmp(argv[1], "try") == 0)
        return try_one(argv[2], argc - 3, argv + 3);
    if (argc >= 5 && strcmp(argv[1], "fit") == 0)
        return fit_all(argv[2], strtod(argv[3], NULL), argv[4], argc - 5, argv + 5);
    fprintf(stderr, "usage: calibrate try FOLDER [-q] [NAME=VALUE...]\n"
                    "       calibrate fit FOLDER MINUTES FILE [NAME=VALUE...]\n");
    return 64;
}
