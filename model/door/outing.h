/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/outing.h - the command `next`. */
#ifndef DOOR_OUTING_H
#define DOOR_OUTING_H
#include "door/ask.h"
#include <signal.h>

bool outing_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
