/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/flux.h - every movement has a name, an amount it moves, and two ends.
 *
 * The ledger, the CSV, the plots and the heat budget all read these rows (pile/flux.def); nothing
 * can change an amount of the pile without a row here. Positive means into the pile.
 */
#ifndef PILE_FLUX_H
#define PILE_FLUX_H

enum flux_of { FLUX_OF_ENERGY, FLUX_OF_WATER, FLUX_OF_CARBON, FLUX_OF_NITROGEN, FLUX_OF_SEEDS };

enum flux {
#define FLUX(name, of, group, meaning) FLUX_##name,
#include "pile/flux.def"
#undef FLUX
    FLUXES
};

struct flux_row {
    const char *name;       /* as in CSV and JSON */
    enum flux_of of;
    const char *group;      /* the line of a heat or water budget it belongs to */
    const char *meaning;
};

extern const struct flux_row flux_rows[FLUXES];
/* "MJ", "kg" or "seeds", and the factor from SI to it. */
const char *flux_unit(enum flux flux);
double flux_factor(enum flux flux);
#endif
