/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/handover.h - one sheet of paper for the next keeper, who knows nothing of the pile yet: what
 * stands where, what is due, what to read and what it should show.
 */
#ifndef TELL_HANDOVER_H
#define TELL_HANDOVER_H
#include "ask/due.h"
#include "tell/tale.h"
#include <stdio.h>

struct handover {
    struct tale tale;
    struct due_pile pile;
    int day;            /* of the handing over, from 0 */
    const char *file;   /* the scenario as it was named */
};

bool handover_write(FILE *out, const struct handover *handover, struct trouble *why);
#endif
