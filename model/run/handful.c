/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/handful.c - see run/handful.h. */
#include "run/handful.h"
#include <math.h>

const double handful_wanted_share = 0.55, handful_wet_share = 0.60;

static const double SHARE[PLAN_SQUEEZES] = {0.30, 0.40, 0.48, 0.55, 0.65};

double handful_share(enum plan_squeeze word)
{
    return SHARE[word];
}

double handful_most(enum plan_squeeze word)
{
    return word == PLAN_RUNS ? INFINITY : (SHARE[word] + SHARE[word + 1]) / 2;
}

enum plan_squeeze handful_word(double water_share)
{
    int word = PLAN_DUSTY;
    while (water_share > handful_most((enum plan_squeeze)word))
        word++;
    return (enum plan_squeeze)word;
}

double handful_thirst_kg(double dry_kg, double water_share)
{
    double wanted = handful_wanted_share / (1 - handful_wanted_share);
    return fmax(0, dry_kg * (wanted - water_share / (1 - water_share)));
}
