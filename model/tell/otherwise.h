/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/otherwise.h - one thing done otherwise, and what it would do, in words. */
#ifndef TELL_OTHERWISE_H
#define TELL_OTHERWISE_H
#include "ask/why.h"
#include "tell/saying.h"
#include "tell/phrase.h"

extern const char *const otherwise_key[CHANGE_KINDS];  /* closed list, as in JSON */
extern const char *const otherwise_bar[CHANGE_FAILS + 1]; /* why it is left out */

/* "pour 3 buckets of water (34 L)", "twice as much from the start, so higher" */
struct phrase otherwise_said(const struct why_effect *effect, const struct scenario *scenario,
                             const struct phrase_style *style);
/* What it does to the middle and to the ready date; what isn't clear is called so. */
struct saying otherwise_does(const struct why_effect *effect, const char *use,
                             const struct phrase_style *style);
#endif
