/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/allot.h - memory for jansson that remembers whether any was refused. */
#ifndef TELL_ALLOT_H
#define TELL_ALLOT_H
#include <stdbool.h>

/* Once, before jansson is used. */
void allot_watch(void);
/* Was there, since then, a request that could not be met? */
bool allot_refused(void);
#endif
