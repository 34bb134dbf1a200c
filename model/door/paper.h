/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/paper.h - the command `sheet`. */
#ifndef DOOR_PAPER_H
#define DOOR_PAPER_H
#include "door/ask.h"
#include <signal.h>

bool paper_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
