/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sky/curve.c - reading the curves of the weather during a season.
 *
 * The arithmetic is +, -, *, / and base/lane's exp, so that it gives the same bits on all machines.
 */
#include "sky/curve.h"
#include "base/lane.h"
#include <math.h>
#include <stdlib.h>

static const double PI = 3.14159265358979323846;
static const double DAY_S = 86400.0;
static const double YEAR_S = 365.2425 * 86400.0;
enum { HOURS = 24 };

void curve_free(struct curve *curve)
{
    free(curve->block);
    *curve = (struct curve){0};
}

bool curve_cut(struct curve *curve, date_count start, int days, struct trouble *why)
{
    long skip = start - curve->start;
    if (days < 1 || skip < 0 || skip + days > curve->days) {
        char first[DATE_TEXT], last[DATE_TEXT], from[DATE_TEXT], until[DATE_TEXT];
        date_write(curve->start, first);
        date_write(curve->start + curve->days - 1, last);
        date_write(start, from);
        date_write(start + days - 1, until);
        return trouble_set(why, TROUBLE_INPUT,
                           "the weather runs from %s to %s, the season from %s to %s; weather for "
                           "each of its days is expected",
                           first, last, from, until);
    }
    curve->start = start;
    curve->days = days;
    curve->knots = HOURS * days + 1;
    for (int thing = 0; thing < CURVE_THINGS; thing++) {
        curve->value[thing] += HOURS * skip;
        curve->slope_per_s[thing] += HOURS * skip;
    }
    curve->wet_kg_per_m2 += skip;
    for (int d = 0; d < days; d++) /* summed afresh rather than less the sum so far: no rounding */
        curve->wet_before_kg_per_m2[d + 1] =
            curve->wet_before_kg_per_m2[d] + curve->wet_kg_per_m2[d];
    curve->ground_coldest_s -= (double)skip * DAY_S;
    return true;
}

double curve_at(const struct curve *curve, enum curve_thing thing, double time_s)
{
    const double *value = curve->value[thing], *slope = curve->slope_per_s[thing];
    int last = curve->knots - 1;
    double place = time_s / curve->knot_s;
    if (place >= last)
        return value[last];
    if (place <= 0.0)
        return value[0];
    if (place != place)
        return place; /* NaN stays visible */
    int k = (int)place;
    double s = place - k, h = curve->knot_s;
    double rise = value[k + 1] - value[k];
    double bend0 = h * slope[k] - rise, bend1 = h * slope[k + 1] - rise;
    return value[k] + s * rise + s * (1.0 - s) * ((1.0 - s) * bend0 - s * bend1);
}

/* Sine of a part of a turn, to the last bits, without the C library's, which differs between
 * processors: Taylor's series to the 21st power of at most a quarter turn. */
static double sine_of_turn(double turn)
{
    turn -= floor(turn + 0.5);
    if (turn > 0.25)
        turn = 0.5 - turn;
    if (turn < -0.25)
        turn = -0.5 - turn;
    double x = 2.0 * PI * turn, sum = 1.0;
    for (int n = 20; n >= 2; n -= 2)
        sum = 1.0 - sum * x * x / (n * (n + 1));
    return x * sum;
}

double curve_wet_until(const struct curve *curve, double time_s)
{
    double days = time_s / DAY_S;
    if (days <= 0.0)
        return 0.0;
    if (days >= curve->days)
        return curve->wet_before_kg_per_m2[curve->days];
    if (days != days)
        return days;
    int day = (int)days;
    double tau = days - day;
    double share = tau - sine_of_turn(tau) / (2.0 * PI);
    return curve->wet_before_kg_per_m2[day] + curve->wet_kg_per_m2[day] * share;
}

double curve_ground_K(const struct curve *curve, double depth_m, double time_s)
{
    double deep = depth_m / curve->ground_depth_m;
    double turn = (time_s - curve->ground_coldest_s) / YEAR_S - deep / (2.0 * PI);
    double damped = lane_get(lane_exp(lane_of(-deep)), 0);
    return curve->ground_mean_K - curve->ground_swing_K * damped * sine_of_turn(turn + 0.25);
}
