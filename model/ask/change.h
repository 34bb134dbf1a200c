/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/change.h - one thing done otherwise: on a day, on top of the plan, or in how a pile was built.
 *
 * Each is a copy of the scenario with that one thing changed, to be run with the same unknowns and the
 * same weather. What a pile has already, or what would be no use to it, is no change; it says so.
 */
#ifndef ASK_CHANGE_H
#define ASK_CHANGE_H
#include "run/plan.h"

enum change_kind {
    CHANGE_WATER,       /* poured on top, up to the wetness that is wanted */
    CHANGE_TURN_MIXED, CHANGE_TURN_IN,
    CHANGE_LOOSEN,
    CHANGE_COVER,       /* the keeper's, or 10 cm of straw */
    CHANGE_GREENS,      /* a tenth of the pile's volume, dug in 20 cm deep */
    CHANGE_BROWNS,      /* the same of browns, turned in with all the rest */
    /* from the beginning */
    CHANGE_LID, CHANGE_CHOPPED,
    CHANGE_TWICE,       /* all amounts: higher in the same bay if it takes them, else on twice the ground */
    CHANGE_FENCED,      /* a low pile on half the ground of its bay, so twice as high */
    CHANGE_KINDS
};
/* why it is left out */
enum change_bar {
    CHANGE_CAN,
    CHANGE_HAS,         /* it is so already */
    CHANGE_WET_ENOUGH, CHANGE_DRY_ENOUGH,
    CHANGE_SAME_DAY,    /* the pile is built or turned that day */
    CHANGE_FOUND,       /* how it was built isn't known */
    CHANGE_HIGH,        /* not low in a bin */
    CHANGE_GROWS,       /* more is to come, so its height isn't known yet */
    CHANGE_NONE,        /* no such ingredient, or no room for more in the plan */
    CHANGE_FAILS        /* no possible pile could be run so: no free bin, most often */
};

/* the pile on the day before the change, in the middle of what is likely */
struct change_pile {
    const struct scenario *scenario;
    int plan, day;              /* day of the change, 0 = the start date */
    double thirst_kg;           /* water it lacks, as in ask/cause */
    double water_share, volume_m3;
};

struct change {
    enum change_kind kind;
    enum change_bar bar;
    double water_l;             /* poured */
    int stuff;                  /* added: row of the changed scenario's ingredients */
    double vessels, bury_m;     /* buckets of it, dug in so deep */
    int cover;                  /* row of know/bound */
    double cover_m;
    bool higher;                /* twice as much in the same bay */
    double length_m, width_m;   /* fenced: of what is left of the bay */
};

/* Does this plan add to what was built? */
bool change_grows(const struct plan *plan);
bool change_from_start(enum change_kind kind);
/* Kinds of one family are ways of doing the same: only the best of them is worth telling. */
int change_family(enum change_kind kind);
/* The change and, in `changed`, the scenario with it, which is only half made where it can't be. */
struct change change_make(struct scenario *changed, enum change_kind kind,
                          const struct change_pile *pile);
#endif
