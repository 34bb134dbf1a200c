/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/learner.c - see tests/field/learner.h.
 *
 * What a learner believes: the prior, normal in places, times how well figures are met, guessed
 * between trials by an emulator. A grade sinks no further than "hopeless", so that figures which no
 * constants reach, for want of physics, pull at nothing. Belief is sampled by several walkers at
 * once (stretch moves of Goodman and Weare 2010, Commun. Appl. Math. Comput. Sci. 5, 65-80,
 * memory), from the prior on, with the figures counting more and more.
 */
#include "field/learner.h"
#include "base/draw.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { WALKERS = 64, SWEEPS = 300 };
static const double TRADE = 4; /* weight of what the trade knows against an experiment */
static const double WORTH = 6; /* log-likelihood between hopeless and met, where there is one figure */

/* Each experiment weighs by the root of how many figures it has. */
void learner_school(struct school *school, const struct tried *tried)
{
    school->tried = tried;
    for (int i = 0; i < tried->trial->experiments; i++) {
        const struct experiment *e = tried->trial->experiment[i];
        bool counts = trial_counts(e);
        school->fold[i] = counts ? (7 * i + 3) % LEARNER_FOLDS : -1;
        school->weight[i] = (counts ? 1 : TRADE) / sqrt(fmax(1, e->figures));
    }
}

/* What the grades of the figures are worth that a learner may see, less the price of straying. */
static double score_of(const struct school *school, int learner, const double *position,
                       const double place[EMULATE_INPUTS])
{
    const struct trial *t = school->tried->trial;
    double score = 0;
    for (int i = 0; i < t->experiments; i++) {
        const struct experiment *e = t->experiment[i];
        for (int f = 0; school->fold[i] != learner && f < e->figures; f++)
            score += WORTH * school->weight[i] *
                     trial_grade(&e->figure[f], position[t->first_figure[i] + f]);
    }
    return score - tried_stray(school->tried, place);
}

static bool knows(const struct school *school, int learner, int trial)
{
    return school->tried->origin[trial] == learner || school->tried->origin[trial] < 0;
}

/* Where the figures of a trial lie in their bands, the far ones by their logarithm. */
static void positions(const struct school *school, int trial, double *position)
{
    const struct trial *t = school->tried->trial;
    for (int i = 0; i < t->experiments; i++)
        for (int f = 0; f < t->experiment[i]->figures; f++) {
            int at = t->first_figure[i] + f;
            position[at] = asinh(
                trial_position(&t->experiment[i]->figure[f], school->tried->value[trial][at]));
        }
}

static double score_of_trial(const struct school *school, int learner, int trial, const double *lean)
{
    int figures = school->tried->trial->figures;
    double *position = calloc((size_t)figures, sizeof(double));
    positions(school, trial, position);
    for (int f = 0; f < figures; f++)
        position[f] = sinh(position[f] + (lean ? lean[f] : 0));
    double score = score_of(school, learner, position, school->tried->place[trial]);
    free(position);
    return score;
}

/* The last medians of a learner, or -1. */
static int last_medians(const struct school *school, int learner)
{
    int t = school->tried->trials - 1;
    while (t >= 0 && school->tried->origin[t] != TRIED_MEDIANS + learner)
        t--;
    return t;
}

/* The trial of the central pile under the constants of some medians; row 0, the prior, where there is none. */
static int central_of(const struct tried *tried, int medians)
{
    int t = tried->trials - 1;
    while (t > 0 && (tried->origin[t] >= TRIED_MEDIANS ||
                     memcmp(tried->place[t], tried->place[medians], sizeof *tried->place) != 0))
        t--;
    return t;
}

/* How far a learner's last medians lie from the central pile under the same constants; 0 for what lies
 * out of sight in either, and before there are any. */
static double *lean_of(const struct school *school, int learner)
{
    static const double OUT_OF_SIGHT = 2.3; /* five half widths */
    const struct tried *tried = school->tried;
    int figures = tried->trial->figures, medians = last_medians(school, learner);
    double *lean = calloc((size_t)figures, sizeof *lean), *from = calloc((size_t)figures, sizeof *from);
    if (medians >= 0) {
        positions(school, medians, lean);
        positions(school, central_of(tried, medians), from);
    }
    for (int f = 0; f < figures; f++)
        lean[f] = fabs(lean[f]) > OUT_OF_SIGHT || fabs(from[f]) > OUT_OF_SIGHT ? 0 : lean[f] - from[f];
    free(from);
    return lean;
}

/* The trial of the best score among the medians of a learner, or among the central piles it knows; -1 if none. */
static int best_of(const struct school *school, int learner, bool medians, const double *lean)
{
    double best = -INFINITY;
    int answer = -1;
    for (int t = 0; t < school->tried->trials; t++) {
        bool asked = medians ? school->tried->origin[t] == TRIED_MEDIANS + learner : knows(school, learner, t);
        double score = asked ? score_of_trial(school, learner, t, lean) : -INFINITY;
        if (score > best) {
            best = score;
            answer = t;
        }
    }
    return answer;
}

int learner_best(const struct school *school, int learner)
{
    double *lean = lean_of(school, learner);
    int best = best_of(school, learner, false, lean);
    free(lean);
    return best;
}

int learner_answer(const struct school *school, int learner)
{
    return best_of(school, learner, true, NULL);
}

/* An emulator of positions, leaning to medians, from the trials a learner knows. */
static bool learn(const struct school *school, int learner, struct emulator *emulator)
{
    static double place[TRIED_MOST][EMULATE_INPUTS];
    static double *output[TRIED_MOST];
    double *lean = lean_of(school, learner);
    int known = 0;
    for (int t = 0; t < school->tried->trials; t++) {
        if (!knows(school, learner, t))
            continue;
        output[known] = calloc((size_t)school->tried->trial->figures, sizeof(double));
        positions(school, t, output[known]);
        for (int f = 0; f < school->tried->trial->figures; f++)
            output[known][f] += lean[f];
        memcpy(place[known++], school->tried->place[t], sizeof *place);
    }
    bool good = emulate_learn(emulator, known, school->tried->fitted, school->tried->trial->figures,
                              (const double (*)[EMULATE_INPUTS])place, output);
    while (known > 0)
        free(output[--known]);
    free(lean);
    return good;
}

/* ---- sampling ---- */

struct walk {
    const struct school *school;
    const struct emulator *emulator;
    int learner;
    uint32_t stream, drawn;     /* of chance */
    double *position;
    double place[WALKERS][EMULATE_INPUTS], score[WALKERS];
    double mean[EMULATE_INPUTS], best[EMULATE_INPUTS], best_score;
};

static double uniform(struct walk *w)
{
    return draw_uniform(2026, w->stream, w->drawn++, 0);
}

static double guessed_score(struct walk *w, const double place[EMULATE_INPUTS])
{
    for (int d = 0; d < w->emulator->inputs; d++)
        if (fabs(place[d]) > 1)
            return -INFINITY;
    emulate_guess(w->emulator, place, w->position);
    for (int f = 0; f < w->emulator->outputs; f++)
        w->position[f] = sinh(w->position[f]);
    return score_of(w->school, w->learner, w->position, place);
}

/* One walker stretches towards or away from another; figures count by `heed`, from 0 to 1. */
static void stretch(struct walk *w, int walker, double heed)
{
    int d = w->emulator->inputs, other = (walker + 1 + (int)(uniform(w) * (WALKERS - 1))) % WALKERS;
    double z = 0.5 * pow(1 + uniform(w), 2), chance = uniform(w), place[EMULATE_INPUTS] = {0};
    for (int i = 0; i < d; i++)
        place[i] = w->place[other][i] + z * (w->place[walker][i] - w->place[other][i]);
    double score = guessed_score(w, place);
    double stray =
        tried_stray(w->school->tried, place) - tried_stray(w->school->tried, w->place[walker]);
    double better = heed * (score - w->score[walker] + stray) - stray;
    if (isinf(score) || log(chance) >= (d - 1) * log(z) + better)
        return;
    memcpy(w->place[walker], place, sizeof place);
    w->score[walker] = score;
    if (score > w->best_score) {
        w->best_score = score;
        memcpy(w->best, place, sizeof place);
    }
}

/* From the prior on; the mean is over the second half, in which the figures count in full. */
static void walk(struct walk *w)
{
    w->best_score = -INFINITY;
    for (int i = 0; i < WALKERS; i++) {
        for (int d = 0; d < w->emulator->inputs; d++)
            w->place[i][d] = tried_prior(uniform(w));
        w->score[i] = guessed_score(w, w->place[i]);
    }
    for (int sweep = 1; sweep <= SWEEPS; sweep++)
        for (int i = 0; i < WALKERS; i++) {
            stretch(w, i, fmin(1, 2.0 * sweep / SWEEPS));
            for (int d = 0; 2 * sweep > SWEEPS && d < w->emulator->inputs; d++)
                w->mean[d] += w->place[i][d] / (WALKERS * (SWEEPS - SWEEPS / 2));
        }
}

bool learner_propose(const struct school *school, int learner, int round,
                     double (*place)[EMULATE_INPUTS])
{
    struct emulator emulator;
    struct walk *w = calloc(1, sizeof *w);
    double *position = calloc((size_t)school->tried->trial->figures, sizeof(double));
    bool good = learn(school, learner, &emulator) && w && position;
    if (good) {
        *w = (struct walk){.school = school, .emulator = &emulator, .learner = learner,
                           .stream = (uint32_t)(100 + round * LEARNERS + learner),
                           .position = position};
        walk(w);
        memcpy(place[0], w->mean, sizeof *place);
        memcpy(place[1], w->best, sizeof *place);
        memcpy(place[2], w->place[0], sizeof *place);
        memcpy(place[3], w->place[WALKERS / 2], sizeof *place);
    }
    emulate_free(&emulator);
    free(position);
    free(w);
    return good;
}

