/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/whying.h - the command `why`. */
#ifndef DOOR_WHYING_H
#define DOOR_WHYING_H
#include "door/ask.h"
#include <signal.h>

bool whying_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
