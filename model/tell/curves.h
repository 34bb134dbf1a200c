/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/curves.h - figures of the pictures that draw lines against days. */
#ifndef TELL_CURVES_H
#define TELL_CURVES_H
#include "tell/chart.h"

bool curves_temperature(const struct chart *chart, struct trouble *why);
bool curves_water(const struct chart *chart, struct trouble *why);
#endif
