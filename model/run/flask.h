/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/flask.h - the self-heating test: how warm a sample of the whole pile would get in a flask.
 *
 * The test as laboratories make it: an insulated flask of 1.5 litres in a room of 20 C holds
 * material of the whole pile, mixed and wetted to the squeeze test, for up to ten days; the highest
 * rise above the room is read, and its class tells how ripe the compost is [Brinton et al. 1995,
 * Compost Sci. Util.; EN 16087-2; both memory]. Here the sample is one cell in open air that
 * follows the laws of life/decay:
 *
 *     C dT/dt = heat of decay - C (T - 20 C)/t_flask
 *
 * with C its heat capacity and t_flask the time in which a flask loses all but 37 % of its warmth.
 * Pools decay at their closed form over each step, mineral nitrogen is solved for at its end, and
 * the rest is explicit; run/flask.c says how far that is off.
 */
#ifndef RUN_FLASK_H
#define RUN_FLASK_H
#include "run/balance.h"
#include "run/moment.h"

/* a sample of each member's pile; nothing but lanes, so that one can be put beside another's */
struct flask {
    struct pile_stuff stuff[PILE_MOST_STUFFS];
    lane left_kg[PILE_MOST_STUFFS][POOLS];
    struct decay_law law;
    struct decay_state state; /* its clocks stay at zero: pools are folded at each step */
    lane dry_kg, ash_kg, water_kg, fast_laid_kg;
    lane over_K, air;         /* air: Monod factor of oxygen */
    lane heat_J_per_kg, cools_s;
};

/* Samples that wait until as many are together as go side by side: few members come to a midnight
 * at once, and a flask is as dear for one as for all. */
struct flask_shelf {
    struct flask flask;
    int stuffs, count;
    double *rise_K[LANES];    /* where each answer goes */
};

/* Best rise in K of a sample of the pile as it stands; the pile is left alone. Clocks are folded.
 */
lane flask_rise(const struct balance *balance, lane cools_s);

/* Puts samples of those who stand at midnight on the shelf; their answers come now or later, to rise_K. */
void flask_put(struct flask_shelf *shelf, const struct balance *balance, lane cools_s,
               const struct moment *midnight, double *const rise_K[LANES]);
/* Answers for all that wait. */
void flask_test(struct flask_shelf *shelf);
#endif
