/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/seen.h - what was there where and when a keeper read it, without any error of reading. */
#ifndef RUN_SEEN_H
#define RUN_SEEN_H
#include "run/watch.h"

/* After a step: the readings whose moment lies within it, between its start and its end. */
void seen_step(const struct watch *watch, const struct scenario *scenario, lane from_s, lane took_s,
               struct record record[LANES]);
#endif
