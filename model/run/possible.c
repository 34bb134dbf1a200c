/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/possible.c - see run/possible.h.
 *
 * What was measured holds, and the rest follows: of buckets their volume, of a scale the wet mass.
 * Density and wetness go together: water fills pores and leaves the dry matter of a bucket as it
 * was [derived], unless the bucket itself was weighed, wet as it came. So a dense draw has less
 * free air space, as in life, without a correlation having to be written down.
 */
#include "run/possible.h"
#include "pile/read.h"
#include <math.h>

/* what is laid settles at least and at most to this share of its volume [trade] */
static const double LEAST_SETTLED = 0.4, MOST_SETTLED = 0.95;
static const double LEAST_AIR = 0.05;   /* of the volume, however it is packed [trade] */

void possible_usual(struct possible *p, const struct scenario *scenario, const struct param *param)
{
    *p = (struct possible){.param = *param, .felt_at = 0.5, .pour_at = 0.5, .pour = 1,
                           .found_middle_at = 0.5, .found_hand_at = 0.5,
                           .thermometer_K = scenario->thermometer.ice_K};
    for (int i = 0; i < PLAN_STUFF; i++) {
        p->stuff[i] = scenario->stuff[i];
        p->water_at[i] = p->bulk_at[i] = p->amount_at[i] = 0.5;
        p->fill[i] = p->piece[i] = p->pace[i] = 1;
    }
}

/* No closer than its solids and water with a little air between. */
static double least_volume(const struct stuff *stuff, double dry_kg, double water_kg)
{
    double solid = dry_kg * ((1 - stuff->ash_share) / READ_ORGANIC_KG_PER_M3 +
                             stuff->ash_share / READ_ASH_KG_PER_M3);
    return (solid + water_kg / READ_WATER_KG_PER_M3) / (1 - LEAST_AIR);
}

struct possible_portion possible_portion(const struct possible *p, const struct plan_portion *portion)
{
    int i = portion->stuff;
    const struct stuff *stuff = &p->stuff[i];
    double water = possible_span(&portion->water_share, portion->felt ? p->felt_at : p->water_at[i]);
    double bulk = possible_span(&portion->bulk_kg_per_m3, p->bulk_at[i]);
    bool weighed_wet = stuff->bulk_mark == STUFF_GIVEN && !portion->felt;
    double usual_water = weighed_wet ? water : portion->water_share.mid;
    double dry_per_m3 = bulk * (1 - usual_water);
    struct possible_portion lies = {.water_share = water};
    if (portion->weighed) {
        lies.wet_kg = p->fill[i] * possible_span(&portion->wet_kg, p->amount_at[i]);
        lies.volume_m3 = lies.wet_kg * (1 - water) / dry_per_m3;
    } else {
        lies.volume_m3 = p->fill[i] * possible_span(&portion->volume_m3, p->amount_at[i]);
        lies.wet_kg = lies.volume_m3 * dry_per_m3 / (1 - water);
    }
    double least = least_volume(stuff, lies.wet_kg * (1 - water), lies.wet_kg * water);
    lies.volume_m3 = fmax(lies.volume_m3, least);
    return lies;
}

double possible_settled(const struct stuff *stuff, double dry_kg_per_m3)
{
    double usual = stuff->like_dry_kg_per_m3;
    if (!(usual > 0))
        usual = stuff->bulk_kg_per_m3.mid * (1 - stuff->water_share.mid);
    double share = (1 - stuff->settle_share) * dry_kg_per_m3 / usual;
    return fmax(LEAST_SETTLED, fmin(MOST_SETTLED, share));
}

double possible_poured_kg(const struct possible *p, const struct span *water_kg)
{
    return p->pour * possible_span(water_kg, p->pour_at);
}
