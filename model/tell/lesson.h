/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson.h - forty minutes with a class, told with one pile's numbers: a page to be read
 * through.
 *
 * Steps come one by one, so that a class can guess before each is revealed.
 */
#ifndef TELL_LESSON_H
#define TELL_LESSON_H
#include "tell/lesson_shows.h"
#include <stdio.h>

void lesson_head(FILE *out, const struct lesson_tale *tale, const struct phrase_style *style);
/* What is done and asked; then what the program shows, and what the real pile would. `guess`: what
 * the class said, NULL where it wasn't asked. */
void lesson_before(FILE *out, enum lesson_step step);
void lesson_reveal(FILE *out, const struct lesson_tale *tale, enum lesson_step step,
                   const char *guess, const struct phrase_style *style);
/* What not to say, and the sums behind it. */
void lesson_tail(FILE *out, const struct lesson_tale *tale, const struct phrase_style *style);
#endif
