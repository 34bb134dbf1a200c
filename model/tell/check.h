/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/check.h - what was understood of a scenario, and whether it can be done. */
#ifndef TELL_CHECK_H
#define TELL_CHECK_H
#include "tell/phrase.h"
#include "tell/tale.h"
#include "tell/visits.h"

enum { CHECK_REASON = 512, CHECK_ODDS = 4 };

/* what the recipe adds up to, and what stands in the way */
struct check {
    double laid_m3;         /* as it lies after packing */
    double settled_m3;      /* after it has pressed itself together, about a metre high */
    double holds_m3;        /* of the bay it is built in; infinite for a heap or windrow */
    struct span wet_kg;     /* with the water poured on while building */
    struct span water_kg;   /* all of it: in the ingredients and poured */
    char reason[CHECK_REASON]; /* why it can't be done; empty = it can */
    char look[CHECK_REASON];   /* what deserves a second look; empty = nothing */
    int last_looked;           /* day to which commands that ask when it is ready look on; 0 = not said */
    int odds;                  /* visits that don't fit the calendar, of which the first are kept */
    struct visit_odd odd[CHECK_ODDS];
};

struct check check_scenario(const struct scenario *scenario, const struct phrase_style *style);
void check_text(FILE *out, const struct check *check, const struct scenario *scenario,
                const struct phrase_style *style);
bool check_json(FILE *out, const struct check *check, const struct scenario *scenario,
                const char *version, struct trouble *why);
#endif
