/* SPDX-License-Identifier: GPL-3.0-or-later */
/* flow/gas.h - moist air: vapour pressure, humidity, enthalpy, weight, diffusivities.
 *
 * Temperatures are `over_K`, kelvin above the ice point, since every formula here is written so.
 * Humidity is kg of vapour per kg of dry air, enthalpy J per kg of dry air with dry air and liquid
 * water at the ice point at zero; both ride on flows of dry air.
 *
 *   ln p_sat   Hyland and Wexler 1983 over liquid water (ASHRAE Fundamentals 2017 ch. 1 eq. 6),
 *              as a polynomial of degree 8 in (T - 22.5 K)/72.5 K, within 4e-7 from -50 to 95 C;
 *              below freezing it is that of supercooled water
 *   x          0.621945 p/(P - p)                                          [same, eq. 20]
 *   h          1006 T + x (2.501e6 + 1860 T)                               [same, eq. 30]
 *   rho_dry    (P - p)/(287.042 T)                                         [same, eq. 26]
 *   D          Massman 1998, exponent 1.81, as a quadratic within 2e-4 from -30 to 85 C
 *   viscosity  saturated air, Wilke 1950 [memory], cubic within 0.1 % from 0 to 70 C
 */
#ifndef FLOW_GAS_H
#define FLOW_GAS_H
#include "base/lane.h"

#define GAS_ICE_POINT_K 273.15
#define GAS_DRY_J_PER_KGK 1006.0
#define GAS_VAPOUR_J_PER_KG 2.501e6
#define GAS_VAPOUR_J_PER_KGK 1860.0
#define GAS_HUMIDITY 0.621945
#define GAS_OXYGEN_OUTSIDE 0.2095       /* mol per mol of dry air */
#define GAS_OXYGEN_KG 1.10489           /* kg of oxygen per kg of dry air and mol/mol: 31.998/28.96 */
#define GAS_GRAVITY 9.80665

/* Vapour pressure over pure water, and its slope. */
static inline lane gas_pressure_Pa(lane over_K, lane *slope_Pa_per_K)
{
    static const double a[9] = {
        7.910773220864599e+00, 4.405371606272332e+00, -1.224407428635585e+00,
        3.160029261295730e-01, -7.687481903963742e-02, 1.843287970454005e-02,
        -4.463378427604455e-03, 1.257311547180260e-03, -3.113722303777676e-04};
    lane s = (over_K - 22.5) * (1.0 / 72.5);
    lane log_p = lane_of(a[8]), d = lane_of(0);
    for (int k = 7; k >= 0; k--) {
        d = d * s + log_p;
        log_p = log_p * s + a[k];
    }
    lane p = lane_exp(log_p);
    *slope_Pa_per_K = p * d * (1.0 / 72.5);
    return p;
}

static inline lane gas_humidity(lane vapour_Pa, lane air_Pa)
{
    return GAS_HUMIDITY * vapour_Pa / (air_Pa - vapour_Pa);
}

static inline lane gas_vapour_enthalpy(lane over_K)
{
    return GAS_VAPOUR_J_PER_KG + GAS_VAPOUR_J_PER_KGK * over_K;
}

static inline lane gas_enthalpy(lane over_K, lane humidity)
{
    return GAS_DRY_J_PER_KGK * over_K + humidity * gas_vapour_enthalpy(over_K);
}

static inline lane gas_dry_density(lane over_K, lane vapour_Pa, lane air_Pa)
{
    return (air_Pa - vapour_Pa) / (287.042 * (over_K + GAS_ICE_POINT_K));
}

/* Weight of the gas: dry air and vapour, and carbon dioxide in place of oxygen used up. */
static inline lane gas_density(lane dry_density, lane humidity, lane oxygen)
{
    return dry_density * (1.0 + humidity + (12.011 / 28.96) * (GAS_OXYGEN_OUTSIDE - oxygen));
}

/* (T/273.15)^1.81: multiply by 1.820e-5 (oxygen) or 2.178e-5 (vapour) and 101325/P */
static inline lane gas_diffusion(lane over_K)
{
    return 1.00007135 + over_K * (6.6267778e-3 + over_K * 9.65332e-6);
}

static inline lane gas_viscosity_Pa_s(lane over_K)
{
    return 1.71057576e-5 + over_K * (3.98373016e-8 + over_K * (1.51623377e-10 - over_K * 9.59596e-12));
}
#endif
