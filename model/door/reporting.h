/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/reporting.h - the command `report`: a page, a sheet for the next keeper, a film, a poster. */
#ifndef DOOR_REPORTING_H
#define DOOR_REPORTING_H
#include "door/ask.h"
#include <signal.h>

bool reporting_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why);
#endif
