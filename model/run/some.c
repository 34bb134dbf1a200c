/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/some.c - see run/some.h. */
#include "run/some.h"

void some_begin(struct keeper *h, lane_mask who)
{
    if (!lane_any(~who))
        return;
    pile_copy(~who, h->passed_by, h->pile);
    h->noted = h->notes;
}

void some_end(struct keeper *h, lane_mask who)
{
    if (!lane_any(~who))
        return;
    pile_copy(~who, h->pile, h->passed_by);
    lane_copy(~who, (lane *)&h->notes, (const lane *)&h->noted, LANES_IN(h->notes));
}
