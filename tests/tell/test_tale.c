/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_tale.c - tell/tale: which cautions a pile deserves.
 *
 * Which concern whom is common practice [trade]: manure that of hands and raw crops, hay, straw and
 * manure that of weedkillers, heat that of scalding; weight, spores and local codes everybody.
 */
#include "tell/tale.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

#define TOP "midden: 1\nstart: 2026-02-01\nplace: {latitude: 50 N, elevation: 100 m}\n" \
    "sky: mild and wet\nbin: 1 x 1 x 1 m\nbuild:\n  - mixed leaves: 8 bags\n"

static struct saying care(const char *text, const struct record *record)
{
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct trouble why = {0};
    bool applies[TALE_CAUTIONS];
    assert_non_null(scenario);
    if (!scenario_read_text(scenario, text, strlen(text), "test", &why))
        fail_msg("%s", why.text);
    struct tale tale = {.record = record, .scenario = scenario};
    for (int i = 0; i < TALE_CAUTIONS; i++)
        applies[i] = tale_caution_applies(&tale, (enum tale_caution)i);
    free(scenario);
    return tale_care(applies);
}

static void leaves_have_the_cautions_of_every_pile(void **state)
{
    (void)state;
    assert_string_equal(care(TOP, NULL).text, "small loads; damp down dust; local codes first");
}

static void manure_has_two_more(void **state)
{
    (void)state;
    struct saying said = care(TOP "    horse manure: 10 buckets\n", NULL);
    assert_non_null(strstr(said.text, "manure"));
    assert_non_null(strstr(said.text, "weedkiller"));
    assert_null(strstr(said.text, "hot"));
}

static void a_pile_above_45_C_is_hot(void **state)
{
    (void)state;
    struct record_day day = {.hottest_K = TALE_HOT_K};
    struct record record = {.days = 1, .day = &day};
    assert_non_null(strstr(care(TOP, &record).text, "hot"));
    day.hottest_K -= 0.01;
    assert_null(strstr(care(TOP, &record).text, "hot"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(leaves_have_the_cautions_of_every_pile),
        cmocka_unit_test(manure_has_two_more),
        cmocka_unit_test(a_pile_above_45_C_is_hot),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
