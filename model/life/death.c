/* SPDX-License-Identifier: GPL-3.0-or-later */
/* life/death.c - see life/death.h. */
#include "life/death.h"

static const double Z_K[DEATH_HEATS] = {9.0, 6.5, 12.0, 6.5, 4.7};
static const double FLOOR_K[DEATH_HEATS] = {42, 42, 50, 45, 45};
static const double HARDY_K = 70;
static const double ROTS[SEEDS] = {1.0, 0.5, 0.1}; /* of the rate of easy seeds [trade] */
static const double ROT_FROM_K = 15, ROT_TO_K = 45;
/* germs outlast the cold; eggs want warmth to age [trade] */
static const double GERMS_FROM_K[GERMS] = {5, 15};
static const double LN_10 = 2.302585092994046;
static const double REFERENCE_K = 55;
static const double SMALL = 0.05;
enum { HARD = 2 };

struct death_law death_law_of(const struct param param[LANES])
{
    struct death_law law;
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &param[i];
        lane_put(&law.tenfold_s[0], i, p->easy_seed_s);
        lane_put(&law.tenfold_s[1], i, p->moderate_seed_s);
        lane_put(&law.tenfold_s[HARD], i, p->hard_seed_s);
        lane_put(&law.tenfold_s[SEEDS], i, p->gut_bacteria_s);
        lane_put(&law.tenfold_s[SEEDS + 1], i, p->worm_egg_s);
        lane_put(&law.rot_per_s, i, p->rot_seed_per_day / 86400.0);
        lane_put(&law.germ_per_s[0], i, p->gut_bacteria_per_day / 86400.0);
        lane_put(&law.germ_per_s[1], i, p->worm_egg_per_day / 86400.0);
    }
    return law;
}

/* Rate of ln N at a temperature, 1/s, moist; none below a floor. */
static lane heat_rate(const struct death_law *law, int kind, lane over_K, double floor_K)
{
    lane rate = LN_10 / law->tenfold_s[kind] *
                lane_exp((over_K - REFERENCE_K) * (LN_10 / Z_K[kind]));
    return lane_if(lane_less(over_K, lane_of(floor_K)), lane_of(0), rate);
}

/* Mean of that rate over a step. */
static lane mean_rate(const struct death_law *law, int kind, lane from_K, lane to_K, double floor_K)
{
    return (1.0 / 6.0) * (heat_rate(law, kind, from_K, floor_K) +
                          4.0 * heat_rate(law, kind, 0.5 * (from_K + to_K), floor_K) +
                          heat_rate(law, kind, to_K, floor_K));
}

/* What dies without heat: rates of ln N. */
static void slow_rates(const struct death_law *law, lane over_K, lane wet_share, lane rate[DEATH_LIVES])
{
    lane none = lane_of(0);
    lane_mask mild = lane_less(lane_of(ROT_FROM_K), over_K) & lane_less(over_K, lane_of(ROT_TO_K));
    lane rot = lane_if(lane_less(wet_share, lane_of(0.35)), none,
                       lane_if(mild, law->rot_per_s, none));
    for (int k = 0; k < SEEDS; k++)
        rate[k] = rate[SEEDS + k] = rot * ROTS[k];
    for (int k = 0; k < GERMS; k++)
        rate[DEATH_GERMS + k] = lane_if(lane_less(lane_of(GERMS_FROM_K[k]), over_K),
                                        law->germ_per_s[k], none);
}

void death_log_left(const struct death_law *law, lane from_K, lane to_K, lane wet_share, lane step_s,
                    lane log_left[DEATH_LIVES])
{
    lane middle = 0.5 * (from_K + to_K), hottest = lane_max(from_K, to_K), rate[DEATH_LIVES];
    lane dry = lane_if(lane_less(wet_share, lane_of(0.3)), lane_of(0.2), lane_of(1));
    lane_mask parched = lane_less(wet_share, lane_of(0.2)) & lane_less(middle, lane_of(60));
    dry = lane_if(parched, lane_of(0), dry);
    slow_rates(law, middle, wet_share, rate);
    /* the same for a member whether or not another is hot: the rates are zero below the floors */
    if (lane_any(lane_at_most(lane_of(FLOOR_K[0]), hottest)))
        for (int k = 0; k < DEATH_HEATS; k++)
            rate[k < SEEDS ? k : SEEDS + k] += dry * mean_rate(law, k, from_K, to_K, FLOOR_K[k]);
    if (lane_any(lane_at_most(lane_of(HARDY_K), hottest))) {
        lane hardy = dry * mean_rate(law, HARD, from_K, to_K, HARDY_K);
        for (int k = 0; k < SEEDS; k++)
            rate[SEEDS + k] += hardy;
    }
    for (int k = 0; k < DEATH_LIVES; k++)
        log_left[k] = -step_s * rate[k];
}

lane death_share(lane log_left)
{
    lane q = -log_left, few = lane_of(1);
    for (int n = 6; n >= 2; n--)
        few = 1.0 - q * (1.0 / n) * few;
    lane_mask many = lane_less(lane_of(SMALL), q);
    if (!lane_any(many))
        return q * few;
    return lane_if(many, 1.0 - lane_exp(lane_max(log_left, lane_of(-600))), q * few);
}
