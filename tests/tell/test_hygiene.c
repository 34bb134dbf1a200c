/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_hygiene.c - what is said of rules, germs and manure keeps its width and its promises. */
#include "tell/hygiene.h"
#include "tell/season_made.h"

static const struct phrase_style LETTERS = {true, 0, 0.012}, PLAIN = {false, 0, 0.012};

enum { ALL = -1 };

/* At most so many lines, or all; free() it. */
static char *said(const struct tale *tale, const struct phrase_style *style, int most)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    if (most == ALL)
        hygiene_lines(out, tale, style);
    else
        hygiene_brief(out, tale, style, most);
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

static void the_short_form_is_two_lines_and_one_more_for_manure(void **state)
{
    (void)state;
    struct made *made = with_manure();
    char *text = said(&made->tale, &LETTERS, 3);
    assert_non_null(strstr(text, "heat  55 °C for 3 days reached by 60 % of it; a forecast, not a record"));
    assert_non_null(strstr(text, "wait  lettuce 27 Jan: 101 days after manure (18 Oct), 120 wanted: from 15 Feb"));
    assert_null(strstr(text, "kale"));  /* it has time enough */
    assert_true(made_widest(text) <= PHRASE_COLUMNS);
    assert_int_equal(made_lines(text), 3);
    free(text);
    made->scenario.stuff[0].dung = false;
    text = said(&made->tale, &LETTERS, 3);
    assert_int_equal(made_lines(text), 2);
    free(text);
    free(made);
}

/* Of a thousand easy seeds ten lived on, of hardy ones none was laid; where some were and all are dead by
 * the count, they are still not said to be gone. */
static void the_short_form_says_how_many_weed_seeds_live_on(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = said(&made->tale, &LETTERS, 3);
    assert_non_null(strstr(text, "  seeds of weeds alive: 1 % of easily killed\n"));
    free(text);
    made->record.seeds_laid[2] = 1000;
    made->record.seeds_alive[0] = 0;
    made->record.seeds_alive[2] = 704;
    text = said(&made->tale, &LETTERS, 3);
    assert_non_null(strstr(text, "  seeds of weeds alive: under 1 % of easily killed, 70 % of hardy\n"));
    free(text);
    for (int i = 0; i < 3; i++)
        made->record.seeds_laid[i] = 0;
    text = said(&made->tale, &LETTERS, 3);
    assert_null(strstr(text, "seeds"));
    free(text);
    free(made);
}

/* Two possible piles: between 2 and 20 % of the easy ones. */
static void of_many_possible_piles_the_weed_seeds_have_a_range(void **state)
{
    (void)state;
    struct made *made = made_new();
    struct record two[2] = {made->record, made->record};
    double room[2];
    two[0].seeds_alive[0] = 20;
    two[1].seeds_alive[0] = 200;
    made->tale.record = two;
    made->tale.room = room;
    made->tale.members = 2;
    char *text = said(&made->tale, &LETTERS, 3);
    assert_non_null(strstr(text, "of weeds alive: 11 % of easily killed (2-20)\n"));
    free(text);
    free(made);
}

/* where there is room for one line, the harvest that comes too early has it; for two, the seeds as well */
static void with_little_room_what_matters_comes_first(void **state)
{
    (void)state;
    struct made *made = with_manure();
    for (int harvests = 1; harvests <= 2; harvests++) /* kale has time enough, lettuce hasn't */
        for (int most = 0; most <= 2; most++) {
            made->scenario.need.harvests = harvests;
            char *text = said(&made->tale, &LETTERS, most);
            assert_int_equal(made_lines(text), most);
            if (most >= 1)
                assert_non_null(strstr(text, harvests == 1 ? "reached by 60 %" : "wait  lettuce"));
            assert_true((most >= 2) == (strstr(text, "  seeds ") != NULL));
            free(text);
        }
    free(made);
}

static void the_long_form_names_every_rule_and_its_source(void **state)
{
    (void)state;
    struct made *made = with_manure();
    char *text = said(&made->tale, &LETTERS, ALL);
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
        char *text = said(&made->tale, &PLAIN, form == 1 ? ALL : 3);
        static const char *const never[] = {" safe", "certified", "weed-free", "sterile", "no germs",
                                            "no seeds", "\xc2\xb0"};
        for (size_t i = 0; i < sizeof never / sizeof *never; i++)
            assert_null(strstr(text, never[i]));
        free(text);
    }
    made->record.germs_laid[0] = made->record.germs_laid[1] = 0;
    char *text = said(&made->tale, &PLAIN, ALL);
    assert_null(strstr(text, "germs "));
    free(text);
    made->record.days = 0;
    text = said(&made->tale, &PLAIN, ALL);
    assert_string_equal(text, "");
    free(text);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_short_form_is_two_lines_and_one_more_for_manure),
        cmocka_unit_test(the_short_form_says_how_many_weed_seeds_live_on),
        cmocka_unit_test(of_many_possible_piles_the_weed_seeds_have_a_range),
        cmocka_unit_test(with_little_room_what_matters_comes_first),
        cmocka_unit_test(the_long_form_names_every_rule_and_its_source),
        cmocka_unit_test(nothing_is_promised),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
