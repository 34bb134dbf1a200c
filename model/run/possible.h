/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/possible.h - one pile among all those that fit what its keeper says.
 *
 * A keeper says `5 to 7 buckets`, the table of ingredients gives a low, a usual and a high figure,
 * a constant has a range. A possible pile has chosen: for every such span it holds a chance from 0
 * to 1, and a half is the usual value. The central pile has chosen the usual everywhere.
 */
#ifndef RUN_POSSIBLE_H
#define RUN_POSSIBLE_H
#include "know/param.h"
#include "run/plan.h"
#include <stdint.h>

struct possible {
    struct param param;
    struct stuff stuff[PLAN_STUFF];     /* rows of scenario.stuff, composition as drawn */
    double water_at[PLAN_STUFF], bulk_at[PLAN_STUFF], amount_at[PLAN_STUFF]; /* chances */
    double fill[PLAN_STUFF];            /* factor: how full vessels of it are, or how true the scale */
    double piece[PLAN_STUFF];           /* factor on the size of its pieces */
    double pace[PLAN_STUFF];            /* factor on how fast it decays, against its kind */
    double felt_at, pour_at;            /* chances: a squeezed handful, water poured */
    double pour;                        /* factor: how full the buckets of water are */
    double found_middle_at, found_hand_at; /* chances: a found pile's temperatures */
    double thermometer_K;               /* what the keeper's thermometer shows, less what is true */
    double handful_share;               /* how much wetter a handful feels to the keeper than it is */
    uint64_t slips;                     /* seeds the errors of single readings; 0 = there are none */
};

/* The central pile of a scenario, with these parameters. */
void possible_usual(struct possible *possible, const struct scenario *scenario,
                    const struct param *param);

/* The value of a span that chance picks: half of all chances lie below its usual value, evenly
 * spread down to its low end, the other half evenly up to its high end. */
static inline double possible_span(const struct span *span, double chance)
{
    return chance < 0.5 ? span->low + 2 * chance * (span->mid - span->low)
                        : span->mid + (2 * chance - 1) * (span->high - span->mid);
}

/* some of one ingredient as it lies, before its own weight presses it */
struct possible_portion {
    double wet_kg, water_share, volume_m3;
};
struct possible_portion possible_portion(const struct possible *possible,
                                         const struct plan_portion *portion);
/* Of the volume as laid, what is left once it has settled. An ingredient settles to one density, so what
 * was laid denser than usual has less to go, and what was pressed already next to nothing. */
double possible_settled(const struct stuff *stuff, double dry_kg_per_m3);
double possible_poured_kg(const struct possible *possible, const struct span *water_kg);
#endif
