/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/excerpt.h - what the terminal says, as parts of a page. */
#ifndef TELL_EXCERPT_H
#define TELL_EXCERPT_H
#include "tell/margin.h"
#include "tell/tale.h"

void excerpt_heading(FILE *out, const char *id, const char *text);
/* Lines with one of some labels, "why have do": a list of each label and its sentence, or, without
 * `labels`, the sentences at the left edge as paragraphs. Returns how many there were. */
int excerpt_lines(FILE *out, const struct margin *margin, const char *labels);
/* The cautions that concern this pile, in full, each once. */
void excerpt_cautions(FILE *out, const struct tale *tale);
#endif
