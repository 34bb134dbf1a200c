/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/starter.h - a first scenario with notes, for `midden new`. */
#ifndef TELL_STARTER_H
#define TELL_STARTER_H
#include <stdio.h>

void starter_write(FILE *out);
#endif
