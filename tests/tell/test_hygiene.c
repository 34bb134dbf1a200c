/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_hygiene.c - what is said of rules, germs and manure keeps its width and its promises. */
#include "tell/hygiene.h"
#include "tell/season_made.h"

static const struct phrase_style LETTERS = {true, 0, 0.012}, PLAIN = {false, 0, 0.012};

/* free() it */
static char *said(const struct tale *tale, const struct phrase_style *style, bool long_form)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    hygiene_lines(out, tale, style, long_form);
    assert_int_equal(fclose(out), 0);
    return text;
}

static struct made *with_manure(void)
{
    struct made *made = made_new();
    for (int i = 6; i < MADE_DAYS; i++)
        made->day[i].met_share[RULES_THREE_DAYS_55] = 0.6;
    made->scenario.stuff[0].dung = true;
    made->scenario.need.harvests = 2;
    snprintf(made->scenario.need.harvest[0].crop, PLAN_NAME, "kale");
    made->scenario.need.harvest[0].day = made->scenario.start + 300;
    snprintf(made->scenario.need.harvest[1].crop, PLAN_NAME, "lettuce");
    made->scenario.need.harvest[1].day = made->scenario.start + 101;
    made->record.germs_laid[0] = made->record.germs_laid[1] = 100;
    made->record.germs_alive[0] = 1e-9;
    return made;
}

static void the_short_form_is_a_line_and_one_more_for_manure(void **state)
{
    (void)state;
    struct made *made = with_manure();
    char *text = said(&made->tale, &LETTERS, false);
    assert_non_null(strstr(text, "heat  55 °C for 3 days reached by 60 % of it; a forecast, not a record"));
    assert_non_null(strstr(text, "wait  lettuce 27 Jan: 101 days after manure (18 Oct), 120 wanted: from 15 Feb"));
    assert_null(strstr(text, "kale"));  /* it has time enough */
    assert_true(made_widest(text) <= PHRASE_COLUMNS);
    assert_int_equal(made_lines(text), 2);
    free(text);
    made->scenario.stuff[0].dung = false;
    text = said(&made->tale, &LETTERS, false);
    assert_int_equal(made_lines(text), 1);
    free(text);
    free(made);
}

/* where there is room for one line, the harvest that comes too early has it */
static void one_line_alone_is_the_one_that_matters(void **state)
{
    (void)state;
    struct made *made = with_manure();
    for (int harvests = 1; harvests <= 2; harvests++) { /* kale has time enough, lettuce hasn't */
        char *text = NULL;
        size_t size = 0;
        FILE *out = open_memstream(&text, &size);
        assert_non_null(out);
        made->scenario.need.harvests = harvests;
        hygiene_line(out, &made->tale, &LETTERS);
        assert_int_equal(fclose(out), 0);
        assert_int_equal(made_lines(text), 1);
        assert_non_null(strstr(text, harvests == 1 ? "reached by 60 %" : "wait  lettuce"));
        free(text);
    }
    free(made);
}

static void the_long_form_names_every_rule_and_its_source(void **state)
{
    (void)state;
    struct made *made = with_manure();
    char *text = said(&made->tale, &LETTERS, true);
    int rules = 0;
    for (const char *at = text; (at = strstr(at, "\n  rule  ")); at++)
        rules++;
    assert_int_equal(rules, RULES);
    assert_non_null(strstr(text, "503.32(a)(3)"));
    assert_non_null(strstr(text, "kale"));
    assert_non_null(strstr(text, "germs under 1 % of gut bacteria"));
    assert_true(made_widest(text) <= PHRASE_COLUMNS);
    free(text);
    free(made);
}

/* nothing is called safe or clean, and where there is no manure nothing is said of its germs */
static void nothing_is_promised(void **state)
{
    (void)state;
    struct made *made = with_manure();
    for (int form = 0; form < 2; form++) {
        char *text = said(&made->tale, &PLAIN, form == 1);
        static const char *const never[] = {" safe", "certified", "weed-free", "sterile", "no germs",
                                            "no seeds", "\xc2\xb0"};
        for (size_t i = 0; i < sizeof never / sizeof *never; i++)
            assert_null(strstr(text, never[i]));
        free(text);
    }
    made->record.germs_laid[0] = made->record.germs_laid[1] = 0;
    char *text = said(&made->tale, &PLAIN, true);
    assert_null(strstr(text, "germs "));
    free(text);
    made->record.days = 0;
    text = said(&made->tale, &PLAIN, true);
    assert_string_equal(text, "");
    free(text);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_short_form_is_a_line_and_one_more_for_manure),
        cmocka_unit_test(one_line_alone_is_the_one_that_matters),
        cmocka_unit_test(the_long_form_names_every_rule_and_its_source),
        cmocka_unit_test(nothing_is_promised),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
