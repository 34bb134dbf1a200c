/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/learning.h - the command `learn`. */
#ifndef DOOR_LEARNING_H
#define DOOR_LEARNING_H
#include "door/ask.h"
#include <signal.h>

/* Learns from the readings of a scenario and answers with what they say and the forecast after them.
 * Fails with TROUBLE_ABSENT where there are no readings. */
bool learning_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
