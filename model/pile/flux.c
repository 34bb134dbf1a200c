/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pile/flux.c - the rows of pile/flux.def, and the units they are told in. */
#include "pile/flux.h"

const struct flux_row flux_rows[FLUXES] = {
#define FLUX(name, of, group, meaning) {#name, FLUX_OF_##of, group, meaning},
#include "pile/flux.def"
#undef FLUX
};

const char *flux_unit(enum flux flux)
{
    switch (flux_rows[flux].of) {
    case FLUX_OF_ENERGY:
        return "MJ";
    case FLUX_OF_SEEDS:
        return "seeds";
    case FLUX_OF_WATER:
    case FLUX_OF_CARBON:
    case FLUX_OF_NITROGEN:
        break;
    }
    return "kg";
}

double flux_factor(enum flux flux)
{
    return flux_rows[flux].of == FLUX_OF_ENERGY ? 1e-6 : 1.0;
}
