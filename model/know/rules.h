/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/rules.h - published rules of time and temperature, and the doses of heat they count.
 *
 * Several rules count the same dose to different ends, so doses have a table of their own: a season
 * follows doses (life/dose), and a rule is met by material that stands at its stage or beyond.
 */
#ifndef KNOW_RULES_H
#define KNOW_RULES_H

enum rules_count { RULES_COUNT_RUN, RULES_COUNT_SUM, RULES_COUNT_WARM, RULES_COUNT_EQUATION };

enum {
#define DOSE(name, count, over_C, water_share, stage_h, stages) RULES_DOSE_##name,
#include "know/rules.def"
#undef DOSE
    RULES_DOSES
};

/* stages of all doses; one that stands at none isn't counted among them */
enum {
    RULES_STAGES = 0
#define DOSE(name, count, over_C, water_share, stage_h, stages) + stages
#include "know/rules.def"
#undef DOSE
};

enum {
#define RULE(key, name, dose, stage, hot_C, turns, apart, days, cn_low, cn_high, water, where, \
             source, mark, reading)                                                             \
    RULES_##key,
#include "know/rules.def"
#undef RULE
    RULES
};

struct rules_dose {
    enum rules_count count;
    double over_C, water_share, stage_h;
    int stages, first;          /* the first of its stages among all */
};

struct rules_row {
    const char *name;
    int dose, stage;            /* met from this stage on; the last is 'stages' of the dose */
    double turn_C;              /* the middle's temperature at which a turn counts; 0 = any */
    int turns, turns_apart_days, days;
    double least_c_to_n, most_c_to_n; /* when it was built; 0 = none asked */
    double water_share;         /* that the text asks for; 0 = none */
    const char *where, *source, *mark, *reading;
};

extern const struct rules_dose rules_doses[RULES_DOSES];
extern const struct rules_row rules_rows[RULES];
#endif
