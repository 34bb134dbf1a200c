/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/posterior.h - possible piles in keeping with a keeper's readings.
 *
 * The members of a draw are the first guess. The readings are let in little by little; at each stage
 * members that fit are taken more often and others less (sequential Monte Carlo; Del Moral, Doucet
 * and Jasra 2006, J. R. Stat. Soc. B 68, 411-436), and every one then walks on: many steps on a
 * surrogate, and one season run to say whether it stays there (Liu 2001, Monte Carlo Strategies in
 * Scientific Computing, 9.4.3 [memory]), so that what is kept is what the seasons say and not the
 * surrogate. In the end all members count alike.
 */
#ifndef MANY_POSTERIOR_H
#define MANY_POSTERIOR_H
#include "many/crew.h"

struct posterior {
    struct unknowns unknowns;
    int members;
    double *chance;             /* [members][unknowns.count]: for crew.chance, with unknowns */
    double *log_likely;         /* [members] of the readings */
    double (*wild)[PLAN_READINGS]; /* [members] the chance that each reading is wild */
    double *seen;               /* [members][scenario.readings] */
    double *seen_before;        /* the same of the members as drawn */
    int stages, rounds, seasons;/* how often readings were let in, members walked, and what was run */
    double moved_share;         /* of all walks at the end's likelihood, those that were kept */
};

/* Learns from the readings of crew->scenario up to its last day. crew->first to last say how many
 * members there are. Fails as crew_run does, and with TROUBLE_NO where no member could be run.
 * posterior_free in any case. */
bool posterior_learn(struct posterior *posterior, const struct crew *crew, struct trouble *why);
void posterior_free(struct posterior *posterior);
#endif
