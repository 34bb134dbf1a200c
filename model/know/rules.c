/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/rules.c - see know/rules.h; the numbers stand in know/rules.def. */
#include "know/rules.h"
#include <stddef.h>

/* where each dose's stages begin: the stages of all before it */
struct places {
#define DOSE(name, count, over_C, water_share, stage_h, stages) char name[stages];
#include "know/rules.def"
#undef DOSE
};

const struct rules_dose rules_doses[RULES_DOSES] = {
#define DOSE(name, count, over_C, water_share, stage_h, stages) \
    {RULES_COUNT_##count, over_C, water_share, stage_h, stages, (int)offsetof(struct places, name)},
#include "know/rules.def"
#undef DOSE
};

const struct rules_row rules_rows[RULES] = {
#define RULE(key, name, dose, stage, hot_C, turns, apart, days, cn_low, cn_high, water, where, \
             source, mark, reading)                                                             \
    {name, RULES_DOSE_##dose, stage, hot_C, turns, apart, days, cn_low, cn_high, water, where,  \
     source, mark, reading},
#include "know/rules.def"
#undef RULE
};
