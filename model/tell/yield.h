/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/yield.h - what there is to spread, in words. */
#ifndef TELL_YIELD_H
#define TELL_YIELD_H
#include "ask/yield.h"
#include "tell/phrase.h"
#include "tell/tale.h"

/* One line on the day of need, or the season's last: how much is there, in barrows, and the beds it
 * covers; not in brief: its weight and water as well. */
void yield_line(FILE *out, const struct tale *tale, const struct phrase_style *style, bool brief);
/* What more a long answer says: what it is made of, what the sieve keeps, its nitrogen. */
void yield_more(FILE *out, const struct tale *tale, const struct phrase_style *style);
#endif
