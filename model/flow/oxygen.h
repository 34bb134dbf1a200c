/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/oxygen.h - how much of the oxygen that life could use arrives.
 *
 * y, mol of oxygen per mol of dry air, is carried by the draught and diffuses through free air
 * space; it is used at R s y/(K + s y), s = (P - p)/P the dilution by vapour [Monod form; Richard,
 * Walker and Gossett 2006], R the uptake at full supply. Its store in the pores is small, so it is
 * in balance at every moment. Twice: R s/(K + s y) frozen at the last y makes an M-matrix, whose
 * answer cannot be negative, then one correction with the same factors.
 */
#ifndef FLOW_OXYGEN_H
#define FLOW_OXYGEN_H
#include "flow/air.h"

struct oxygen {
    lane *share;            /* y, [cells] */
    lane *factor;           /* Monod factor, [cells] */
    lane *matrix, *rest;
    /* the transport part, for the correction: what leaves a cell, what crosses a face from either side */
    lane *leaves, *from_a, *from_b;
};

void oxygen_take(struct oxygen *oxygen, const struct mesh *mesh, struct arena *arena);
/* `felt` is the oxygen to start from; uptake in kg/s at full supply, at half of it where the moist gas
 * holds half_share. */
void oxygen_solve(struct oxygen *oxygen, const struct mesh *mesh, const struct medium *medium,
                  const struct air *air, const struct outside *outside, const lane *uptake_kg_per_s,
                  const lane *felt, const lane *half_share);
#endif
