/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/skies.h - a few invented climates, shipped by name for a beginner without figures. */
#ifndef KNOW_SKIES_H
#define KNOW_SKIES_H

struct skies {
    const char *name, *meaning;
    double low_C[12], high_C[12], rain_mm[12], wet_days[12]; /* January first, northern; table only */
    double wind_m_per_s, elevation_m;   /* mean wind at 2 m; the height the figures hold for */
    int coastal;
};

extern const struct skies skies_rows[];
extern const int skies_count;
int skies_find(const char *name);       /* -1 when there is none */
#endif
