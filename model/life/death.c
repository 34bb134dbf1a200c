/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/death.c - see life/death.h. */
#include "life/death.h"

static const double Z_K[SEEDS] = {9.0, 6.5, 12.0};
static const double FLOOR_K[SEEDS] = {42, 42, 50};
static const double ROTS[SEEDS] = {1.0, 0.5, 0.1}; /* of the rate of easy seeds [trade] */
static const double LN_10 = 2.302585092994046;
static const double REFERENCE_K = 55;

struct death_law death_law_of(const struct param param[LANES])
{
    struct death_law law;
    for (int i = 0; i < LANES; i++) {
        lane_put(&law.tenfold_s[0], i, param[i].easy_seed_s);
        lane_put(&law.tenfold_s[1], i, param[i].moderate_seed_s);
        lane_put(&law.tenfold_s[2], i, param[i].hard_seed_s);
        lane_put(&law.rot_per_s, i, param[i].rot_seed_per_day / 86400.0);
    }
    return law;
}

/* Rate of ln N at a temperature, 1/s, seeds of one class, moist. */
static lane heat_rate(const struct death_law *law, int class, lane over_K)
{
    lane rate = LN_10 / law->tenfold_s[class] *
                lane_exp((over_K - REFERENCE_K) * (LN_10 / Z_K[class]));
    return lane_if(lane_less(over_K, lane_of(FLOOR_K[class])), lane_of(0), rate);
}

static lane rot_rate(const struct death_law *law, lane over_K)
{
    lane_mask warm = lane_less(lane_of(15), over_K) & lane_less(over_K, lane_of(42));
    return lane_if(warm, law->rot_per_s, lane_of(0));
}

void death_log_left(const struct death_law *law, lane from_K, lane to_K, lane wet_share, lane step_s,
                    lane log_left[SEEDS])
{
    lane middle = 0.5 * (from_K + to_K);
    lane dry = lane_if(lane_less(wet_share, lane_of(0.3)), lane_of(0.2), lane_of(1));
    lane_mask parched = lane_less(wet_share, lane_of(0.2)) & lane_less(middle, lane_of(60));
    dry = lane_if(parched, lane_of(0), dry);
    lane rot = lane_if(lane_less(wet_share, lane_of(0.35)), lane_of(0), rot_rate(law, middle));
    lane_mask hot = lane_less(lane_of(FLOOR_K[0]), lane_max(from_K, to_K));
    bool any = lane_any(hot);
    for (int k = 0; k < SEEDS; k++) {
        lane rate = rot * ROTS[k];
        if (any) /* the same for a member whether or not another is hot: the rates are zero below */
            rate += dry * (1.0 / 6.0) * (heat_rate(law, k, from_K) + 4.0 * heat_rate(law, k, middle) +
                                         heat_rate(law, k, to_K));
        log_left[k] = -step_s * rate;
    }
}
