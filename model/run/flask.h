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

/* Best rise in K of a sample of the pile as it stands; the pile is left alone. Clocks are folded.
 */
lane flask_rise(const struct balance *balance, lane cools_s);
#endif
