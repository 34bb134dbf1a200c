/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/rivals.h - plans side by side, as a part of a page. */
#ifndef TELL_RIVALS_H
#define TELL_RIVALS_H
#include "tell/compare.h"
#include <stdio.h>

/* Writes nothing where there are not two, or no comparison. */
bool rivals_write(FILE *out, const struct comparison *comparison, struct trouble *why);
#endif
