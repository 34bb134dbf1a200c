/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/around.c - see run/around.h. */
#include "run/around.h"
#include "flow/gas.h"

static const double STEFAN_BOLTZMANN = 5.670374e-8;
static const double SUN_SHARE[] = {1.0, 0.5, 0.15}; /* by enum plan_sun [trade] */
static const double SNOW_HIDES_M = 0.03;            /* this much snow hides the surface [trade] */
static const double SNOW_TURNS_BACK = 0.76;         /* albedo 0.8 against what the top takes up */
/* middles of the soil layers of pile/mesh.c, then the floor */
static const double GROUND_M[MESH_SOIL_LAYERS + 1] = {0.025, 0.11, 0.295, 0.67, 1.46, 2.0};

void around_param(struct around *a, const struct param param[LANES],
                  const struct plan_place_on_earth *place, const struct curve *const sky[LANES])
{
    a->sun_share = lane_of(SUN_SHARE[place->sun]);
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &param[i];
        a->sky[i] = sky[i];
        double wind[] = {p->open_wind_share, p->some_wind_share, p->sheltered_wind_share};
        lane_put(&a->wind_share, i, wind[place->wind]);
        lane_put(&a->film, i, p->film_W_per_m2K);
        lane_put(&a->film_wind, i, p->film_wind_J_per_m3K);
        lane_put(&a->emissivity, i, p->emissivity);
        lane_put(&a->snow_W_per_mK, i, p->snow_W_per_mK);
        lane_put(&a->wind_through, i, p->wind_through);
    }
}

void around_day_of(struct around *a, int i, int day)
{
    for (int k = 0; k <= MESH_SOIL_LAYERS; k++)
        lane_put(&a->ground_over_K[k], i,
                 curve_ground_K(a->sky[i], GROUND_M[k], (day + 0.5) * 86400.0) - GAS_ICE_POINT_K);
}

void around_day(struct around *a, int day)
{
    for (int i = 0; i < LANES; i++)
        around_day_of(a, i, day);
}

static lane at(const struct around *a, enum curve_thing thing, lane time_s)
{
    lane value = lane_of(0);
    for (int i = 0; i < LANES; i++)
        lane_put(&value, i, curve_at(a->sky[i], thing, lane_get(time_s, i)));
    return value;
}

lane around_air(const struct around *a, lane from_s, lane step_s)
{
    lane first = at(a, CURVE_AIR_K, from_s), middle = at(a, CURVE_AIR_K, from_s + 0.5 * step_s);
    lane last = at(a, CURVE_AIR_K, from_s + step_s);
    return (first + 4.0 * middle + last) * (1.0 / 6.0) - GAS_ICE_POINT_K;
}

lane around_rain(const struct around *a, lane from_s, lane step_s)
{
    lane rate = lane_of(0);
    for (int i = 0; i < LANES; i++) {
        double from = lane_get(from_s, i), step = lane_get(step_s, i);
        double fell = curve_wet_until(a->sky[i], from + step) - curve_wet_until(a->sky[i], from);
        lane_put(&rate, i, step > 0 ? fell / step : 0);
    }
    return rate;
}

void around_fill(const struct around *a, lane time_s, struct outside *out)
{
    lane air_K = at(a, CURVE_AIR_K, time_s);
    lane wind = a->wind_share * at(a, CURVE_WIND_M_PER_S, time_s);
    lane snow = at(a, CURVE_SNOW_M, time_s) * out->skin[MESH_TOP].rain_share;
    out->air_Pa = lane_of(a->sky[0]->air_Pa);
    out->over_K = air_K - GAS_ICE_POINT_K;
    out->vapour_Pa = at(a, CURVE_VAPOUR_PA, time_s);
    out->humid = gas_humidity(out->vapour_Pa, out->air_Pa);
    out->dry_rho = gas_dry_density(out->over_K, out->vapour_Pa, out->air_Pa);
    out->rho = gas_density(out->dry_rho, out->humid, lane_of(GAS_OXYGEN_OUTSIDE));
    out->film_W_per_m2K = a->film + a->film_wind * wind;
    out->radiant_W_per_m2K = 4.0 * a->emissivity * STEFAN_BOLTZMANN * air_K * air_K * air_K;
    out->sun_W_per_m2 = a->sun_share * at(a, CURVE_SUN_W_PER_M2, time_s);
    out->sky_W_per_m2 = a->emissivity * (at(a, CURVE_LONG_W_PER_M2, time_s) -
                        STEFAN_BOLTZMANN * air_K * air_K * air_K * air_K);
    out->snow_m2K_per_W = snow / a->snow_W_per_mK;
    out->snow_share = SNOW_TURNS_BACK * lane_min(snow * (1.0 / SNOW_HIDES_M), lane_of(1));
    /* 0.9 of the stagnation pressure of the wind at the pile, over its width [derived] */
    out->wind_Pa_per_m = a->wind_through * 0.9 * 0.5 * out->rho * wind * wind / a->across_m;
    for (int k = 0; k <= MESH_SOIL_LAYERS; k++)
        out->ground_over_K[k] = a->ground_over_K[k];
}
