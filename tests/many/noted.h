/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/noted.h - a pile whose keeper wrote four days of readings down, and a crew of its members, on the
 * coarse mesh: what tests of learning begin with.
 */
#ifndef MANY_NOTED_H
#define MANY_NOTED_H
#include "many/crew.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <string.h>

#define NOTED_PILE                                                                                  \
    "midden: 1\nname: noted\nstart: 2025-09-20\nplace: {latitude: 50 N, elevation: 100 m}\n"         \
    "sky: mild and wet\nbin: 1.1 x 1.1 x 1.2 m\nbuild:\n  - repeat: 3\n    layers:\n"                \
    "      - straw: 70 L\n        horse manure: 60 L\n        grass clippings: 20 to 60 L\n"         \
    "        water: 2 to 12 L\nneed: {by: 2025-11-20, for: mulch}\nreadings:\n"                      \
    "  thermometer: {kind: digital}\n  also:\n"                                                      \
    "    - {day: 2025-09-22, middle: 50 C, hand deep: 40 C}\n"                                       \
    "    - {day: 2025-09-25, middle: 50 C, squeeze: holds}\n"                                        \
    "    - {day: 2025-09-29, middle: 50 C, height: 80 cm}\n"                                         \
    "    - {day: 2025-10-04, middle: 50 C, hand deep: 40 C}\n"

static inline void noted_open(struct crew *crew, struct scenario *scenario, struct param *param,
                              bool fixed[PARAM_ROWS], int members)
{
    struct trouble why = {0};
    if (!scenario_read_text(scenario, NOTED_PILE, strlen(NOTED_PILE), "test", &why))
        fail_msg("%s", why.text);
    *param = param_usual();
    for (int i = 0; i < PARAM_COARSER; i++) {
        assert_true(param_set(param, param_coarser[i].name, param_coarser[i].value, &why));
        fixed[param_find(param_coarser[i].name) - param_rows] = true;
    }
    *crew = (struct crew){.scenario = scenario, .param = param, .fixed = fixed, .draw = 3,
                          .first = 1, .last = members, .threads = crew_threads()};
}
#endif
