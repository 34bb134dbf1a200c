/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/learner.h - who learns the constants from which experiments, and what they try next.
 *
 * One learner sees every experiment, five never see a fifth of them. Each knows the prior, the shared
 * design and the trials it proposed, and nothing of the others: what a learner proposes carries
 * what it saw. What the trade knows is seen by all.
 *
 * Trials are of the central pile, which is cheap; scored are medians of possible piles. How far these lie from
 * the central pile a learner finds out where it believes most, and takes it to be the same nearby.
 */
#ifndef FIELD_LEARNER_H
#define FIELD_LEARNER_H
#include "field/tried.h"

enum { LEARNER_FOLDS = 5, LEARNERS = LEARNER_FOLDS + 1 };

struct school {
    const struct tried *tried;
    int fold[TRIAL_EXPERIMENTS];        /* of each experiment; learner k never sees fold k */
    double weight[TRIAL_EXPERIMENTS];   /* of each of its figures */
};

void learner_school(struct school *school, const struct tried *tried);
/* The best trial of the central pile that a learner knows of, leaning to medians as its last medians do: how
 * well the figures are met which it may see, less the price of straying from the prior. */
int learner_best(const struct school *school, int learner);
/* The best of its medians; -1 before there are any. */
int learner_answer(const struct school *school, int learner);
/* Four places to try: the mean of what the learner believes, the best of it and two at random.
 * False when memory is short. */
bool learner_propose(const struct school *school, int learner, int round,
                     double (*place)[EMULATE_INPUTS]);
#endif
