/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/starter.c - a first scenario with notes, for `midden new`.
 *
 * It runs as it stands. Notes show the alternatives a beginner asks for first; whatever is left out
 * is assumed, and `midden check` says with which value.
 */
#include "tell/starter.h"

static const char *const lines[] = {
    "# A compost pile for midden. Change what differs in your garden, then:",
    "#   midden check pile.yaml     how it is understood",
    "#   midden run pile.yaml       what the pile does",
    "# An amount is a number or a range, and a unit: 8 bags, 5 to 7 buckets, 40 L, 3 lb, 2 ft3.",
    "midden: 1                        # the version of this format",
    "name: first pile",
    "start: 2025-10-18                # the day the pile is finished",
    "show: metric                     # or US, or both",
    "measures: {bucket: 12 L, barrow: 85 L, bag: 110 L}   # your own, level to the brim",
    "place: {latitude: 47 N, elevation: 430 m, sun: half the day, wind: sheltered}",
    "",
    "# Weather: the name of an invented climate (midden list skies), or a file of daily weather",
    "# (weather: days.csv), or your own monthly figures under night low, day high, rain, wet days.",
    "sky: cold winters",
    "",
    "# Length x width x height. Walls, floors and lids: midden list walls.",
    "bin: {size: 1.2 x 1.2 x 1.1 m, walls: pallets, floor: soil, lid: none}",
    "",
    "# From the bottom up. What stands in one item goes in as one layer, mixed.",
    "# Ingredients: midden list ingredients. Words after the unit say how it is packed",
    "# (loose level heaped pressed), its state (crisp wilted fresh soaked) and whether it is whole",
    "# or chopped.",
    "build:",
    "  - repeat: 4",
    "    layers:",
    "      - mixed leaves: 2 bags pressed crisp whole",
    "        grass clippings: 12 buckets fresh",
    "        water: 1 to 2 buckets",
    "",
    "# midden run follows the first plan unless --plan names another.",
    "plans:",
    "  leave it: []",
    "  two turns:",
    "    - {day: 2025-11-15, turn: outside in, water: 2 buckets}",
    "    - {day: 2026-03-14, turn: mixed, water: 2 buckets}",
    "",
    "need: by 2026-05-16              # when the compost is wanted",
    "",
    "# What you read at the pile: midden sheet pile.yaml -o log.csv begins a log; midden learn takes it.",
    "# readings: {thermometer: {kind: dial, in ice water: 1 C}, log: log.csv}",
};

void starter_write(FILE *out)
{
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
        fprintf(out, "%s\n", lines[i]);
}
