/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/thermometer.c - see run/thermometer.h. */
#include "run/thermometer.h"

static const struct {
    double unsure_K, in_ice_K, slip_K;
} errors[THERMOMETER_KINDS] = {
    [PLAN_DIAL] = {4, 2, 1}, [PLAN_GLASS] = {2, 1, 0.75},
    [PLAN_DIGITAL] = {1, 0.5, 0.5}, [PLAN_PROBE] = {2, 1, 0.5},
};

const char *const thermometer_kinds[THERMOMETER_KINDS] = {"dial", "glass", "digital", "probe"};

double thermometer_unsure_K(const struct plan_thermometer *thermometer)
{
    return thermometer->in_ice ? errors[thermometer->kind].in_ice_K
                               : errors[thermometer->kind].unsure_K;
}

double thermometer_slip_K(const struct plan_thermometer *thermometer)
{
    return errors[thermometer->kind].slip_K;
}

double thermometer_taken_K(const struct plan_thermometer *thermometer, double shown_K)
{
    return shown_K - thermometer->ice_K;
}
