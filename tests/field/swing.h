/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/swing.h - which global constants the published figures feel most, by which those to be
 * fitted are chosen. No measured value enters but the widths of bands.
 */
#ifndef FIELD_SWING_H
#define FIELD_SWING_H
#include "field/tried.h"

/* Prints a line for each constant held by `tried`, which fits none: by how many half widths of their
 * bands figures differ on the central pile between half way to its least and half way to its most, on
 * average, each experiment weighing by the root of how many figures it has; then its name. What lies
 * far outside its band saturates. Takes some minutes. */
void swing_print(const struct tried *tried);
#endif
