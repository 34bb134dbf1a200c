/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/comparing.h - the command `compare`. */
#ifndef DOOR_COMPARING_H
#define DOOR_COMPARING_H
#include "door/ask.h"
#include <signal.h>

bool comparing_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
