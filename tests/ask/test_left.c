/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_left.c - ask/left: a mix too dry works longer with the water that is advised.
 *
 * That decay all but stops below 40 % water stands in every handbook (NRAES-54: 40 to 65 % reasonable
 * [memory]).
 */
#include "ask/left.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

#define DRY "midden: 1\nstart: 2026-05-01\nplace: {latitude: 50 N}\nsky: mild and wet\n" \
    "bin: {size: 1 x 1 x 1 m, walls: boards, lid: boards}\n" \
    "ingredients:\n  old bedding: {like: used straw bedding, water: 30 %}\nbuild:\n  - old bedding: 220 kg\n"

static void water_that_is_advised_makes_a_dry_mix_work(void **state)
{
    (void)state;
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct trouble why = {0};
    struct param param = param_usual();
    static const bool fixed[PARAM_ROWS];
    struct plan_layer offer = {0};
    struct mix mix;
    struct left left;
    assert_non_null(scenario);
    if (!scenario_read_text(scenario, DRY, strlen(DRY), "test", &why))
        fail_msg("%s", why.text);
    struct mix_ask ask = {.scenario = scenario, .offer = &offer, .param = &param, .fixed = fixed,
                          .draw = 1, .first = 1, .last = 16};
    if (!mix_run(&mix, &ask, &why))
        fail_msg("%s", why.text);
    assert_true(mix.wrong[AMEND_DRY]);
    struct crew crew = {.param = &param, .fixed = fixed, .draw = 1, .threads = 1};
    if (!left_run(&left, &mix, scenario, crew, &why))
        fail_msg("%s", why.text);
    assert_true(left.is && left.with);
    assert_true(left.warm_days[1].mid > left.warm_days[0].mid);
    assert_true(left.peak_K[1].mid > left.peak_K[0].mid + 3);
    scenario->sky = PLAN_SKY_FILE;
    assert_true(left_run(&left, &mix, scenario, crew, &why));
    assert_false(left.is);
    mix_free(&mix);
    free(scenario);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(water_that_is_advised_makes_a_dry_mix_work)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
