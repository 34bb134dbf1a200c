/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/hygiene.h - rules met, weed seeds and germs alive, and waiting dates, as lines in the margin. */
#ifndef TELL_HYGIENE_H
#define TELL_HYGIENE_H
#include "tell/phrase.h"
#include "tell/tale.h"

/* One line, two with manure and a harvest; the long form has every rule with its source, what is alive,
 * and what a log on paper would need. Says nothing of a season without days. */
void hygiene_lines(FILE *out, const struct tale *tale, const struct phrase_style *style,
                   bool long_form);
/* One line alone: a harvest that would come too early for manure, else how much has had its heat. */
void hygiene_line(FILE *out, const struct tale *tale, const struct phrase_style *style);
#endif
