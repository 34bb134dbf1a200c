/* SPDX-License-Identifier: GPL-3.0-or-later */
/* open/guest.h - the manners of a library in somebody else's program.
 *
 * What belongs to the whole program and matters to us is as we need it from guest_enter to
 * guest_leave, then as it was: GSL's error handler, which would end the program, and the locale of
 * numbers, of this thread alone.
 */
#ifndef OPEN_GUEST_H
#define OPEN_GUEST_H
#include "base/trouble.h"
#include <locale.h>

struct guest {
    locale_t plain, was;
};

/* Fails only for want of memory; guest_leave only after it succeeded. */
bool guest_enter(struct guest *guest, struct trouble *why);
void guest_leave(struct guest *guest);
#endif
