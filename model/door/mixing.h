/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/mixing.h - the command `mix`. */
#ifndef DOOR_MIXING_H
#define DOOR_MIXING_H
#include "door/ask.h"

bool mixing_answer(const struct ask *ask, struct trouble *why);
#endif
