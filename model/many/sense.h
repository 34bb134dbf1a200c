/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/sense.h - which unknown carries the variance of an answer: Sobol's indices.
 *
 * Of an answer's variance over all possible piles, an unknown's first-order index is the share that
 * would go if it alone were known, its total index the share that would stay if all others were. The
 * most telling unknowns are found first, by how their draws go with the answers; the rest are one.
 */
#ifndef MANY_SENSE_H
#define MANY_SENSE_H
#include "many/crew.h"

enum sense_answer { SENSE_PEAK, SENSE_HOT_DAYS, SENSE_STABLE, SENSE_LIVE_SEEDS, SENSE_VOLUME,
                    SENSE_ANSWERS };
enum { SENSE_TELLING = 12 };

struct sense_index {
    struct span first, total;   /* each with the ends of 80 % of its bootstrap */
};

struct sense {
    int members, seasons;       /* of each set; all that were run */
    int unknowns;               /* of the pile, those taken together included */
    int rows;                   /* the telling ones, then "all others" */
    char name[SENSE_TELLING + 1][96];
    struct sense_index index[SENSE_TELLING + 1][SENSE_ANSWERS];
    double variance[SENSE_ANSWERS]; /* 0: the answer is the same for all, and has no indices */
};

extern const char *const sense_names[SENSE_ANSWERS];    /* in words, with the unit */
double sense_answer(const struct record *record, enum sense_answer answer);

/* Runs members of two draws, and for every row members of the first that have one unknown of the
 * second (Saltelli et al. 2010, Comput. Phys. Commun. 181, 259-270; total index by Jansen 1999, ibid.
 * 117, 35-43). Fails as crew_run does. */
bool sense_run(struct sense *sense, const struct crew *crew, struct trouble *why);
#endif
