/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/repeat.c - see ask/repeat.h. */
#include "ask/repeat.h"

enum { LONGEST_TURN = 8 };

static bool same_layer(const struct plan_layer *one, const struct plan_layer *other)
{
    bool same = one->portions == other->portions && one->water_kg.low == other->water_kg.low
                && one->water_kg.high == other->water_kg.high;
    for (int i = 0; same && i < one->portions; i++) {
        const struct plan_portion *a = &one->portion[i], *b = &other->portion[i];
        same = a->stuff == b->stuff && a->wet_kg.mid == b->wet_kg.mid
               && a->volume_m3.mid == b->volume_m3.mid && a->water_share.mid == b->water_share.mid;
    }
    return same;
}

/* How often the layers from `first` on come again in turns of `period`, the first time included. */
static int times_over(const struct scenario *scenario, int first, int period)
{
    int alike = period;
    while (first + alike < scenario->layers
           && same_layer(&scenario->layer[first + alike - period], &scenario->layer[first + alike]))
        alike++;
    return alike / period;
}

struct repeat repeat_at(const struct scenario *scenario, int first)
{
    struct repeat best = {first, 1, 1};
    for (int period = 1; period <= LONGEST_TURN && first + period < scenario->layers; period++) {
        int times = times_over(scenario, first, period);
        if ((times - 1) * period > (best.times - 1) * best.period)
            best = (struct repeat){first, period, times};
    }
    return best;
}
