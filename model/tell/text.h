/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/text.h - a season in words and everyday units. */
#ifndef TELL_TEXT_H
#define TELL_TEXT_H
#include "tell/phrase.h"
#include "tell/tale.h"

enum { TEXT_LINES = 12 };   /* of the short form */

/* The answer first, then the margin lines. The long form adds the cautions and assumed values in
 * full and a table of the days; the short one keeps to twelve lines. */
bool text_season(FILE *out, const struct tale *tale, const struct phrase_style *style,
                 bool long_form, struct trouble *why);
/* Every line of the short form, however many they are. */
void text_margin(FILE *out, const struct tale *tale, const struct phrase_style *style);
/* Where the weather came from: 'invented sky "mild winters" (--draw 1)'. */
struct phrase text_sky(const struct tale *tale);
#endif
