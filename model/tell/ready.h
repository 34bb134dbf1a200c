/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/ready.h - when compost serves which use, in words. */
#ifndef TELL_READY_H
#define TELL_READY_H
#include "ask/ready.h"
#include "tell/phrase.h"
#include "tell/tale.h"

enum { READY_SAID = 512 };

/* The answer as one sentence: for the use that is needed (beds where none is named), then, unless
 * it is to be brief, for the next stricter or milder one. Empty where there are no days. */
void ready_sentence(char text[READY_SAID], const struct tale *tale, bool brief);
/* A line for each use with its range and chance, and what holds the rest. */
void ready_lines(FILE *out, const struct tale *tale);
/* What to try before it is spread or sown into. */
void ready_try(FILE *out, const struct tale *tale);
/* "14 Apr (2 Apr-3 May)", "after 23 May": a day of the season with its range. */
struct phrase ready_date(const struct tale *tale, struct span day);
#endif
