/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/compare.h - plans side by side under the same weather and the same unknowns.
 *
 * Member 7 of every contender is the same pile in the same winter, so differences are taken member by
 * member: what both share cancels, and far fewer members tell two plans apart (common random
 * numbers; Conway 1963, Management Science 10, 47-61, memory).
 */
#ifndef ASK_COMPARE_H
#define ASK_COMPARE_H
#include "ask/outcome.h"
#include "many/able.h"

/* one plan of one scenario, and what became of each member */
struct contender {
    const char *file;           /* as named on the command line */
    const struct scenario *scenario;
    const struct scenario *asked;   /* whose need all are held to: that of the first file */
    int plan;                   /* row of scenario.plan */
    int members;
    struct outcome *outcome;    /* [members] */
    struct span *middle_K;      /* [days] of each day's mean, over the members; NULL = not kept */
    int days;
};

enum { COMPARE_MOST = 64 };      /* contenders */

/* what is said of one contender */
struct standing {
    struct span ready_day;      /* for the use asked for; NAN = not within the season */
    struct span chance;         /* of being ready on the day of need, with its sampling error; NAN
                                 * where there is no need */
    struct span person_s, water_kg, hot_days, peak_K;
};

/* b against a; where one is never ready, its day is taken as the day after the season's end, so that
 * a gain is never overstated */
struct pair {
    struct span sooner_days;    /* by how many days a is ready before b */
    double chance_sooner;       /* that it is before */
    int sooner, later, piles;   /* of so many piles: those ready before it, and after it */
    struct span extra_person_s; /* of a, beyond b's */
    double chance_hotter;       /* that a's peak is the higher by 1 K */
    double extra_chance;        /* of a being ready on the day of need, over b's */
};

/* Fills what became of each member of a crew, and the range of the middle; `able` are those of them that
 * could be run. Its outcome and middle_K are the caller's to free, in any case. */
bool compare_fill(struct contender *contender, const struct crew_done *done,
                  const struct able *able, struct trouble *why);

/* `room` has as many doubles as there are members. */
struct standing compare_standing(const struct contender *contender, double *room);
struct pair compare_pair(const struct contender *a, const struct contender *b, double *room);

/* Which one to take: of those that are ready by the day of need with the chance asked, the one with
 * the least work; where none is, the nearest to it; where no need was said, the soonest. `room` as above. */
int compare_choice(const struct standing *standing, const struct contender *contender, int count,
                   double *room);
/* Neither does it: is a, with as much work as b or more, the nearer? For more work it must be no less likely and
 * worth that work; for as much, likelier, or as likely and sooner. */
bool compare_nearer(const struct contender *a, const struct contender *b, double *room);
/* Order to tell them in: by work. */
void compare_order(int *order, const struct standing *standing, int count);
/* Is a not worth its work against b? It takes longer, and is neither a week sooner nor one in ten
 * likelier to be in time. */
bool compare_idle(const struct pair *a_against_b);
/* Can so many piles tell which of the two is ready first? Were chances even, it would be 1 in 20 at most that so
 * few go one way (sign test; Dixon and Mood 1946, J. Am. Stat. Assoc. 41, 557-566, memory). */
bool compare_clear(const struct pair *pair);
#endif
