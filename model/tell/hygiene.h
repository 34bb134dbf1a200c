/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/hygiene.h - rules met, weed seeds and germs alive, and waiting dates, as lines in the margin. */
#ifndef TELL_HYGIENE_H
#define TELL_HYGIENE_H
#include "tell/phrase.h"
#include "tell/tale.h"

/* Every rule with its source, what is alive, and what a log on paper would need. Both say nothing of a
 * season without days. */
void hygiene_lines(FILE *out, const struct tale *tale, const struct phrase_style *style);
/* Of three matters at most so many, a line each: how much has had its heat, which weed seeds live on, and
 * the harvest that lacks most days after manure, which comes first where it is too early. */
void hygiene_brief(FILE *out, const struct tale *tale, const struct phrase_style *style, int most);
#endif
