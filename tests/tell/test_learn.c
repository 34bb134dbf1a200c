/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_learn.c - what the readings taught of single unknowns, in words. What was learnt is made up;
 * tests/cli/learn.sh has some that was.
 */
#include "tell/learn.h"
#include "know/param.h"
#include "tell/season_made.h"
#include <string.h>

enum { DAY = 30 };

static struct lesson {
    struct learnt learnt;
    struct unknown of[5];
} *l;

static void row(enum unknown_kind kind, const char *name, const char *unit, struct span before, struct span after)
{
    int i = l->learnt.unknowns++;
    int at = kind == UNKNOWN_PARAM ? (int)(param_find(name) - param_rows) : 0;
    l->of[i] = (struct unknown){.kind = kind, .row = at};
    snprintf(l->of[i].name, sizeof l->of[i].name, "%s", name);
    l->learnt.unknown[i] =
        (struct learn_unknown){.unknown = &l->of[i], .unit = unit, .before = before, .after = after};
}

static int setup(void **state)
{
    (void)state;
    l = calloc(1, sizeof *l);
    assert_non_null(l);
    row(UNKNOWN_PARAM, "slow_per_day", "1/d", (struct span){0.05, 0.152, 0.23}, (struct span){0.02, 0.05, 0.18});
    row(UNKNOWN_PARAM, "lag_share", "1", (struct span){0.005, 0.022, 0.032}, (struct span){0.02, 0.028, 0.038});
    row(UNKNOWN_PARAM, "permeability_least_m2", "m2", (struct span){26e-12, 100e-12, 391e-12},
        (struct span){12e-12, 115e-12, 314e-12});
    row(UNKNOWN_THERMOMETER, "thermometer", "K", (struct span){-0.2, 1, 2.2}, (struct span){-0.7, 0.7, 1.8});
    row(UNKNOWN_WATER, "water of wheat straw", "share", (struct span){0.05, 0.10, 0.24},
        (struct span){0.05, 0.14, 0.26});
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    free(l);
    return 0;
}

/* The long form with so many of them taught; free() it. */
static char *told(int taught)
{
    static const struct phrase_style style = {true, 0, 0.012};
    struct made *made = made_new();
    struct learn_tale tale = {.learnt = &l->learnt, .before = &made->tale, .after = &made->tale, .now = DAY};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    l->learnt.taught = taught;
    learn_text(out, &tale, &style, true);
    assert_int_equal(fclose(out), 0);
    assert_true(made_widest(text) <= PHRASE_COLUMNS);
    free(made);
    return text;
}

static void assert_says(const char *text, const char *words)
{
    if (!strstr(text, words))
        fail_msg("no \"%s\" in\n%s", words, text);
}

static void what_was_learnt_is_told_in_words_and_the_rest_counted(void **state)
{
    (void)state;
    char *text = told(2);
    assert_says(text, "\n  - decay of cellulose and hemicellulose (slow_per_day): 0.05 (0.02-0.18) 1/d,\n"
                      "    was 0.15 (0.05-0.23)\n");
    assert_says(text, "(lag_share): 0.028\n    (0.020-0.038), was 0.022 (0.005-0.032)\n");
    assert_says(text, "\nand 3 others as before (--json has them all)\n");
    assert_null(strstr(text, "permeability"));
    assert_null(strstr(text, "wheat straw"));
    free(text);
    text = told(4);
    assert_says(text, "\nand 1 other as before");
    free(text);
}

static void numbers_are_told_as_they_can_be_read(void **state)
{
    (void)state;
    char *text = told(5);
    assert_says(text, "permeability of sodden material (permeability_least_m2): 115 (12-314) x\n"
                      "    10^-12 m2, was 100 (26-391) x 10^-12\n");
    assert_says(text, "\n  - thermometer off by: 0.7 (-0.7 to 1.8) °C, was 1.0 (-0.2 to 2.2)\n");
    assert_says(text, "\n  - water of wheat straw: 14 (5-26) %, was 10 (5-24)\n");
    assert_null(strstr(text, "as before"));
    free(text);
}

static void where_nothing_sure_was_learnt_that_is_said(void **state)
{
    (void)state;
    char *text = told(0);
    assert_says(text, "\nOf the figures that the forecast starts from none alone is better known now: all\n"
                      "5 as before (--json has them).\n");
    assert_null(strstr(text, "slow_per_day"));
    free(text);
}

/* Rain and decay change the wetness that a keeper felt at the start, so it is told of its day. */
static void wetness_is_told_of_its_day(void **state)
{
    (void)state;
    static const struct phrase_style style = {true, 0, 0.012};
    struct made *before = made_new(), *after = made_new();
    struct learn_tale tale = {.learnt = &l->learnt, .before = &before->tale, .after = &after->tale, .now = DAY};
    char *text = NULL, words[200];
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    before->day[DAY - 1].water_share = 0.62;
    after->day[DAY - 1].water_share = 0.50;
    learn_text(out, &tale, &style, false);
    assert_int_equal(fclose(out), 0);
    struct phrase day = phrase_day(after->scenario.start + DAY - 1);
    snprintf(words, sizeof words, "On %s the pile is drier than was forecast: 50 %% water, not 62.", day.text);
    assert_says(text, words);
    snprintf(words, sizeof words, "learnt   %s: water 50 %%, was 62; air in its gaps", day.text);
    assert_says(text, words);
    free(text);
    free(before);
    free(after);
}

/* A meaning stands alone: "the same" as the row above it wouldn't. */
static void every_meaning_can_be_told_by_itself(void **state)
{
    (void)state;
    for (int i = 0; i < param_count; i++)
        if (strncmp(param_rows[i].meaning, "the same", 8) == 0 || strncmp(param_rows[i].meaning, "that ", 5) == 0)
            fail_msg("%s: \"%s\"", param_rows[i].name, param_rows[i].meaning);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_was_learnt_is_told_in_words_and_the_rest_counted, setup, teardown),
        cmocka_unit_test_setup_teardown(numbers_are_told_as_they_can_be_read, setup, teardown),
        cmocka_unit_test_setup_teardown(where_nothing_sure_was_learnt_that_is_said, setup, teardown),
        cmocka_unit_test_setup_teardown(wetness_is_told_of_its_day, setup, teardown),
        cmocka_unit_test(every_meaning_can_be_told_by_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
