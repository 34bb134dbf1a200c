/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/standing.h - a pile of the bench's seasons as it stands at some midnight.
 *
 * Built and run by the program's own steps up to there, so that two integrators can begin from the
 * same state. Tests run in the top folder.
 */
#ifndef RUN_STANDING_H
#define RUN_STANDING_H
#include "door/climate.h"
#include "door/scenario.h"
#include "lib/near.h"
#include "run/setting.h"
#include <stdlib.h>

struct standing {
    struct scenario scenario;
    struct curve sky;
    struct param param;
    const struct curve *skies[1];
    struct possible possible;
    struct setup setup;
    struct setting setting;
    struct trouble why;
};

/* Steps of the program until a moment; returns the attempts. */
static inline int standing_go(struct standing *s, double until_s)
{
    int attempts = 0;
    while (s->setting.step.time_s < until_s) {
        step_try(&s->setting.step, until_s);
        assert_true(++attempts < 100000);
    }
    return attempts;
}

/* The central pile by the parameters as they are now: again after they were changed. */
static inline void standing_choose(struct standing *s)
{
    possible_usual(&s->possible, &s->scenario, &s->param);
}

/* Scenario and weather of a file; parameters may be changed before standing_build. */
static inline struct standing *standing_open(const char *path)
{
    struct standing *s = calloc(1, sizeof *s);
    assert_non_null(s);
    if (!scenario_read(&s->scenario, path, &s->why) ||
        !climate_curve(&s->sky, &s->scenario, 1, &s->why))
        fail_msg("%s", s->why.text);
    s->param = param_usual();
    s->skies[0] = &s->sky;
    s->setup = (struct setup){.scenario = &s->scenario, .sky = s->skies, .possible = &s->possible};
    standing_choose(s);
    return s;
}

/* The pile at the end of day `days`, nobody having come; settled, clocks at zero. */
static inline void standing_build(struct standing *s, int days)
{
    standing_choose(s);
    if (!setting_make(&s->setting, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
    for (int day = 0; day < days; day++) {
        around_day(&s->setting.around, day);
        if (day == 0)
            setting_build(&s->setting);
        standing_go(s, (day + 1) * SETTING_DAY_S);
        setting_settle(&s->setting, (day + 1) * SETTING_DAY_S);
    }
    around_day(&s->setting.around, days);
}

static inline void standing_free(struct standing *s)
{
    setting_free(&s->setting);
    curve_free(&s->sky);
    free(s);
}

/* The steps to come are all of this length, whatever their error. */
static inline void standing_even_steps(struct standing *s, double step_s)
{
    s->setting.step.tolerance_K = 1e30;
    s->setting.step.longest_s = s->setting.step.size_s = step_s;
}
#endif
