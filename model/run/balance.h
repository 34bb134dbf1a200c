/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/balance.h - the one place that sees life and flow: how fast everything changes, and by whom.
 *
 * A moment's order: the medium is read from the amounts; life says what oxygen it could use; the
 * draught is found, then the oxygen that arrives; life and flow then give their rates, which are
 * summed into dy/dt and booked under their names.
 */
#ifndef RUN_BALANCE_H
#define RUN_BALANCE_H
#include "flow/oxygen.h"
#include "flow/transport.h"
#include "life/decay.h"
#include "pile/pile.h"

/* struct decay_store and struct decay_potential, an array [stride] for each member, so that a loop
 * over cells runs along memory */
struct balance_store {
    lane *moment[POOLS][DECAY_MOMENTS];
    lane *protein_oxygen, *protein_water, *protein_nitrogen, *protein_dry, *enclosed, *carbon_kg, *ph;
};

struct balance_potential {
    lane *pace[POOLS], *carbon[POOLS];
    lane *dying, *eaten, *humus, *sour, *grown, *humified, *grown_slope, *humified_slope;
    lane *ammonia_kg, *warming_per_K;
};

/* a jar takes on the temperature of its room with this delay, longer while it freezes or thaws */
#define BALANCE_JAR_S 600.0

struct balance {
    struct pile *pile;
    /* by the member's parameters */
    struct decay_law decay;
    struct medium_law law;
    lane gas_lag_s, heat_J_per_kg, press, shrink_power, creep_days, hold_factor, grain_factor;
    /* of today */
    struct medium_frame frame;
    struct balance_store store;         /* its moments are of the step's start */
    /* of this moment */
    struct outside outside;
    struct medium medium;
    struct air air;
    struct oxygen oxygen;
    struct transport transport;         /* its flux rows hold life's too after balance_fill */
    struct balance_potential potential;
    lane *oxygen_kg, *water_kg, *pool_nitrogen_kg, *carbon_kg; /* what life uses and makes, per s */
    lane *uptake, *half_share, *soil_over_K; /* half_share: oxygen at which decay is halved */
    lane vapour_share;                  /* greatest vapour pressure over air pressure */
    lane jar_W_per_K;                   /* from a jar to its room */
};

void balance_take(struct balance *balance, struct pile *pile, struct arena *arena);
void balance_param(struct balance *balance, const struct param param[LANES], double air_Pa);
/* Moments of the pools as they are now; clocks count from here. */
void balance_store(struct balance *balance);
/* dy/dt at y into `rate` (same layout), fluxes into balance->transport.flux. */
void balance_fill(struct balance *balance, const lane *y, lane *rate);
/* Adds to them what the outside's rain does, where balance_fill was told of none. */
void balance_rain(struct balance *balance, const lane *y, lane *rate);
/* Carbon that a cell would breathe out at another temperature (over the ice point) and wetness in
 * open air, kg/s: what a laboratory's test of stability measures. After balance_fill or _store. */
lane balance_breath(const struct balance *balance, int cell, double over_K, double wet_share);
#endif
