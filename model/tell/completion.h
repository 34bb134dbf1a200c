/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/completion.h - what a shell offers at the tab key, from the rows that --help prints. */
#ifndef TELL_COMPLETION_H
#define TELL_COMPLETION_H
#include <stdio.h>

void completion_bash(FILE *out);
void completion_zsh(FILE *out);
#endif
