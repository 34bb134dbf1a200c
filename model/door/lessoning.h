/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/lessoning.h - the command `lesson`. */
#ifndef DOOR_LESSONING_H
#define DOOR_LESSONING_H
#include "door/ask.h"
#include <signal.h>

bool lessoning_answer(const struct ask *ask, const volatile sig_atomic_t *stop,
                      struct trouble *why);
#endif
