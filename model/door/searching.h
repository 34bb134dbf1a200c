/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/searching.h - the command `search`. */
#ifndef DOOR_SEARCHING_H
#define DOOR_SEARCHING_H
#include "door/ask.h"
#include <signal.h>

/* True also where no plan makes it: then `why` is TROUBLE_NO without words, for the exit status. */
bool searching_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
