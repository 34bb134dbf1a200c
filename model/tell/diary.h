/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/diary.h - a season as a table for the eye: a line a day. */
#ifndef TELL_DIARY_H
#define TELL_DIARY_H
#include "tell/phrase.h"
#include "tell/tale.h"

void diary_write(FILE *out, const struct tale *tale, const struct phrase_style *style);
#endif
