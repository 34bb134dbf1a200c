/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/seasons.h - the command `run`: one season of the central pile, or of many possible piles, or a
 * slice of them kept for later, or slices put together.
 */
#ifndef DOOR_SEASONS_H
#define DOOR_SEASONS_H
#include "door/ask.h"
#include <signal.h>

bool seasons_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
