/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/hours.c - see run/hours.h. */
#include "run/hours.h"
#include "flow/gas.h"

static const double HOUR_S = 3600, DAY_S = 86400;

/* Of the dry mass as it is. */
static lane mean_of(const struct watch *w)
{
    const struct pile *pile = w->balance->pile;
    const lane *dry = pile_state(pile, STATE_DRY_KG);
    lane all = lane_of(0), warm = lane_of(0);
    for (int c = 0; c < pile->mesh->cells; c++) {
        all += dry[c];
        warm += dry[c] * w->over_K[c];
    }
    return warm / all;
}

/* Is any member in the day whose hours are kept? */
static bool any_in(const struct hours *h, const int day[LANES])
{
    for (int i = 0; i < LANES; i++)
        if (day[i] == h->day)
            return true;
    return false;
}

void hours_before(struct hours *h, const int day[LANES], const struct watch *w)
{
    if (!any_in(h, day))
        return;
    for (int k = 0; k < WATCH_PROBES; k++)
        h->probe_K[k] = w->probe_now[k];
    h->mean_K = mean_of(w);
}

static void add_to(lane *sum, int member, double more)
{
    lane_put(sum, member, lane_get(*sum, member) + more);
}

/* The part of one member's step that lies within an hour, from `a` to `b` as shares of the step. */
static void share(struct hours *h, int hour, int i, const struct watch *w, lane mean_K, double took_s,
                  double a, double b, lane air_over_K, const lane flux[FLUXES])
{
    double part = b - a, middle = 0.5 * (a + b), part_s = part * took_s;
    for (int k = 0; k < FLUXES; k++)
        add_to(&h->flux[hour][k], i, part * lane_get(flux[k], i));
    for (int k = 0; k < WATCH_PROBES; k++) {
        double from = lane_get(h->probe_K[k], i), to = lane_get(w->probe_now[k], i);
        add_to(&h->probe_K_s[hour][k], i, part_s * (from + middle * (to - from)));
    }
    double from = lane_get(h->mean_K, i), to = lane_get(mean_K, i);
    add_to(&h->mean_K_s[hour], i, part_s * (from + middle * (to - from)));
    add_to(&h->air_K_s[hour], i, part_s * lane_get(air_over_K, i));
    add_to(&h->seen_s[hour], i, part_s);
}

void hours_step(struct hours *h, const int day[LANES], const struct watch *w, lane from_s,
                lane took_s, lane air_over_K, const lane flux[FLUXES])
{
    if (!any_in(h, day))
        return;
    lane mean_K = mean_of(w);
    for (int i = 0; i < LANES; i++) {
        if (day[i] != h->day)
            continue;
        double took = lane_get(took_s, i), from = lane_get(from_s, i) - h->day * DAY_S, a = 0;
        for (int hour = 0; hour < RECORD_HOURS && took > 0 && a < 1; hour++) {
            double b = hour == RECORD_HOURS - 1 ? 1 : ((hour + 1) * HOUR_S - from) / took;
            b = b > 1 ? 1 : b;
            if (b <= a)
                continue;
            share(h, hour, i, w, mean_K, took, a, b, air_over_K, flux);
            a = b;
        }
    }
}

void hours_deed(struct hours *h, const struct moment *at, double after_s, const lane flux[FLUXES])
{
    int hour = (int)(after_s / HOUR_S);
    for (int i = 0; i < LANES; i++)
        for (int k = 0; k < FLUXES && moment_has(at, i) && at->day[i] == h->day; k++)
            add_to(&h->flux[hour][k], i, lane_get(flux[k], i));
}

static void keep_hour(const struct hours *h, int hour, int i, struct record_hour *row)
{
    double seen = lane_get(h->seen_s[hour], i);
    double *probe[WATCH_PROBES] = {&row->middle_K, &row->deep_30cm_K, &row->hand_deep_K};
    row->seen_s = seen;
    for (int k = 0; k < FLUXES; k++)
        row->flux[k] = lane_get(h->flux[hour][k], i);
    for (int k = 0; k < WATCH_PROBES; k++)
        *probe[k] = lane_get(h->probe_K_s[hour][k], i) / seen + GAS_ICE_POINT_K;
    row->mean_K = lane_get(h->mean_K_s[hour], i) / seen + GAS_ICE_POINT_K;
    row->air_K = lane_get(h->air_K_s[hour], i) / seen + GAS_ICE_POINT_K;
}

void hours_keep(const struct hours *h, const struct moment *midnight, struct record record[LANES])
{
    for (int i = 0; i < LANES; i++)
        for (int hour = 0;
             hour < RECORD_HOURS && moment_has(midnight, i) && midnight->day[i] == h->day; hour++)
            keep_hour(h, hour, i, &record[i].hour[hour]);
}
