/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/telling.h - a season, or many, told in the form that the command line asks for. */
#ifndef DOOR_TELLING_H
#define DOOR_TELLING_H
#include "door/ask.h"
#include "many/crew.h"
#include "tell/tale.h"

/* What the tale holds, as it stands. */
bool telling_tale(const struct ask *ask, const struct tale *tale, struct trouble *why);
/* The members that could be run put into the tale, the others by number. */
bool telling_many(const struct ask *ask, struct tale *tale, const struct crew_done *done,
                  struct trouble *why);
#endif
