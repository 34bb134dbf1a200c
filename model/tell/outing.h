/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/outing.h - what to do on a day, told: who, what, how much, what to read, when next. */
#ifndef TELL_OUTING_H
#define TELL_OUTING_H
#include "ask/outing.h"
#include "base/trouble.h"
#include "tell/phrase.h"

/* how the day was come by */
enum outing_day { OUTING_NAMED, OUTING_LAST_READING, OUTING_START };

/* Fails only for want of memory. */
bool outing_text(FILE *out, const struct outing *visit, enum outing_day day,
                const struct phrase_style *style, struct trouble *why);
#endif
