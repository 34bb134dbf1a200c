/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/twins/twin.h - a pile of which everything is known, and what its keeper would have read.
 *
 * A twin is one possible pile of another draw. Its readings are made with every error that
 * many/likely reckons with, from the same figures but by other means: what the model gets wrong is a
 * process drawn forward in time, wild readings are tossed.
 */
#ifndef TWINS_TWIN_H
#define TWINS_TWIN_H
#include "base/draw.h"
#include "many/crew.h"
#include "many/likely.h"
#include "run/handful.h"
#include "run/thermometer.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* the true pile: its chances and its season */
struct twin {
    struct unknowns unknowns;
    double chance[UNKNOWN_MOST];
    struct record record;
    double wrong_K[PLAN_READINGS];
    bool wild[PLAN_READINGS];
};

/* Fills in the values of a scenario's readings, which stand in order of time. */
static inline void twin_read(struct twin *twin, struct scenario *scenario, uint64_t seed)
{
    const struct likely_figures *f = &likely_figures;
    double off_K, hand, wrong = f->wrong_K * draw_normal(seed, 0, 0, 1), day = 0;
    unknown_eyes(&twin->unknowns, twin->chance, scenario, &off_K, &hand);
    for (int i = 0; i < scenario->readings; i++) {
        struct plan_reading *r = &scenario->reading[i];
        double kept = exp(-(r->day - day) / f->wrong_days), is = twin->record.seen[i];
        double e = draw_normal(seed, (uint32_t)i, 1, 0), far = draw_normal(seed, (uint32_t)i, 2, 0);
        wrong = kept * wrong + sqrt(1 - kept * kept) * f->wrong_K * draw_normal(seed, (uint32_t)i, 3, 0);
        day = r->day;
        twin->wrong_K[i] = wrong;
        twin->wild[i] = draw_uniform(seed, (uint32_t)i, 4, 0) < f->wild_share;
        if (r->what <= PLAN_READ_INSIDE)
            r->value = is + off_K + wrong + likely_slip_K(scenario, r) * e +
                       (twin->wild[i] ? f->wild_K * far : 0);
        else if (r->what == PLAN_READ_SQUEEZE)
            r->squeeze = twin->wild[i] ? (enum plan_squeeze)(PLAN_SQUEEZES *
                                                             draw_uniform(seed, (uint32_t)i, 5, 0))
                                       : handful_word(is + hand + f->handful_share * e);
        else if (r->what == PLAN_READ_HEIGHT)
            r->value = is + (f->height_m + f->height_share * is) * e + (twin->wild[i] ? 0.3 * far : 0);
    }
}

/* Draws and runs a twin; false where that pile can't be run. record_free in any case. */
static inline bool twin_make(struct twin *twin, const struct crew *crew, uint64_t draw, int member,
                             struct trouble *why)
{
    struct crew other = *crew;
    struct crew_done done;
    *twin = (struct twin){.record = {0}};
    other.draw = draw;
    other.first = other.last = member;
    unknown_list(&twin->unknowns, crew->scenario, crew->plan, crew->fixed);
    crew_chances(&other, &twin->unknowns, member, twin->chance);
    bool good = crew_run(&done, &other, why) && !done.failures;
    if (good) {
        twin->record = done.record[0];
        done.record[0] = (struct record){0};
    }
    crew_free(&done);
    return good;
}
#endif
