/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/eyes.c - see run/eyes.h. */
#include "run/eyes.h"
#include "base/draw.h"
#include "flow/gas.h"
#include "run/handful.h"
#include "run/thermometer.h"

/* what is drawn anew each morning; a temperature's is that of its place */
enum slip { SLIP_TEMP, SLIP_HANDFUL = 8, SLIP_AIR = 16 };

static const double HANDFUL_SHARE = 0.025; /* a handful differs from its neighbour: one standard
                                              deviation; with the keeper's own hand the seven points
                                              of the squeeze test [trade] */
static const double AIR_K = 0.5;           /* thermometer by the door, standard deviation [trade] */
static const double RINGS_SHARE = 0.5;     /* of the water in the crust is ice: it rings [trade] */

/* Three even draws summed: a bell of standard deviation 1 that ends at three of them, and no
 * logarithm, whose last digit differs between processors. */
static double slip_of(const struct setting *s, int day, int what, int member)
{
    uint64_t seed = s->setup->possible[member].slips;
    if (seed == 0)
        return 0;
    double sum = 0;
    for (uint32_t i = 0; i < 3; i++)
        sum += draw_uniform(seed, (uint32_t)day, (uint32_t)what, i) - 0.5;
    return 2 * sum;
}

double eyes_temp_K(const struct setting *s, enum plan_place place, int day, int member)
{
    const struct plan_thermometer *thermometer = &s->scenario->thermometer;
    double is_K = lane_get(s->watch.probe_now[place], member) + GAS_ICE_POINT_K;
    double off_K = s->setup->possible[member].thermometer_K;
    double slip = slip_of(s, day, SLIP_TEMP + (int)place, member);
    double shown_K = is_K + off_K + slip * thermometer_slip_K(thermometer);
    return thermometer_taken_K(thermometer, shown_K);
}

double eyes_air_K(const struct setting *s, int day, int member)
{
    return lane_get(s->balance.outside.over_K, member) + GAS_ICE_POINT_K +
           AIR_K * slip_of(s, day, SLIP_AIR, member);
}

double eyes_handful_share(const struct setting *s, enum plan_place place, int day, int member)
{
    const struct pile *pile = &s->pile;
    const struct watch_probe *probe = &s->watch.probe[place][member];
    double share = 0;
    for (int k = 0; k < 4; k++) {
        double water = lane_get(pile_state(pile, STATE_WATER_KG)[probe->cell[k]], member);
        double dry = lane_get(pile_state(pile, STATE_DRY_KG)[probe->cell[k]], member);
        share += probe->weight[k] * water / (water + dry);
    }
    return share + s->setup->possible[member].handful_share +
           HANDFUL_SHARE * slip_of(s, day, SLIP_HANDFUL + (int)place, member);
}

enum plan_squeeze eyes_squeeze(const struct setting *s, enum plan_place place, int day, int member)
{
    return handful_word(eyes_handful_share(s, place, day, member));
}

static bool too_cold(const struct setting *s, const struct plan_event *e, int day, int member)
{
    if (e->unless_air_below_K > 0 && eyes_air_K(s, day, member) < e->unless_air_below_K)
        return true;
    return e->unless_frozen && lane_get(keeper_frozen_crust(&s->keeper), member) > RINGS_SHARE;
}

/* Is it on the side that the rule asks for, and was it seen on the other, if it is to pass? */
static bool warm_or_cold_enough(struct setting *s, int event, int day, int member)
{
    const struct plan_event *e = &s->plan->event[event];
    if (!(e->rule_K > 0))
        return true;
    double seen_K = eyes_temp_K(s, e->rule_place, day, member);
    bool there = e->rule_hotter ? seen_K > e->rule_K : seen_K < e->rule_K;
    if (!there)
        s->seen_before[event][member] = true;
    return there && (!e->rule_passes || s->seen_before[event][member]);
}

bool eyes_look(struct setting *s, int event, int day, int member)
{
    const struct plan_event *e = &s->plan->event[event];
    bool wanted = warm_or_cold_enough(s, event, day, member);
    const int last = s->last_done[event][member];
    if (last >= 0 && day - last < e->at_most_days)
        return false;
    if (!wanted || too_cold(s, e, day, member))
        return false;
    return e->rule_squeeze < 0 ||
           (int)eyes_squeeze(s, e->squeeze_place, day, member) <= e->rule_squeeze;
}
