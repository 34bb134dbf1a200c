/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_text.c - tell/text on a made-up season: the answer, and the room it keeps to. */
#include "tell/text.h"
#include "tell/season_made.h"

static char *told(const struct tale *tale, const struct phrase_style *style, bool long_form)
{
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    assert_true(text_season(out, tale, style, long_form, &why));
    assert_int_equal(fclose(out), 0);
    return text;
}

static const struct phrase_style UTF8 = {true, 2, 0.012};
static const struct phrase_style ASCII = {false, 0, 0.012};

/* Does it hold, whatever was wrapped between the words? */
static bool holds(const char *text, const char *words)
{
    for (; *text; text++) {
        const char *t = text, *w = words;
        while (*w && (*t == *w || (*w == ' ' && (*t == '\n' || *t == ' ')))) {
            bool blank = *w == ' ';
            w++;
            t++;
            while (blank && (*t == ' ' || *t == '\n'))
                t++;
        }
        if (!*w)
            return true;
    }
    return false;
}

static void first_line_says_how_hot_how_long_and_when_it_is_over(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale, &ASCII, false);
    assert_int_equal(strncmp(text, "Heats: 63 degC in the middle on day 4, ", 39), 0);
    assert_true(holds(text, "above 55 degC for 9 days"));
    assert_true(holds(text, "cool again by 7 Nov.")); /* day 21 of a pile of 18 October */
    free(text);
    free(made);
}

static void a_pile_that_stays_cool_is_not_said_to_heat(void **state)
{
    (void)state;
    struct made *made = made_new();
    for (int i = 0; i < MADE_DAYS; i++)
        made->day[i].middle_K = 290.15;
    char *text = told(&made->tale, &UTF8, false);
    assert_int_equal(strncmp(text, "Stays cool: at most 17 °C (63 °F)", 34), 0);
    assert_null(strstr(text, "Heats"));
    free(text);
    free(made);
}

static void a_pile_still_hot_at_the_end_is_not_said_to_cool(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->day[MADE_DAYS - 1].middle_K = 320.0;
    char *text = told(&made->tale, &UTF8, false);
    assert_true(holds(text, "still hot on 25 Jan"));
    assert_null(strstr(text, "cool again"));
    free(text);
    free(made);
}

static void short_form_keeps_to_twelve_lines_of_eighty_columns(void **state)
{
    (void)state;
    struct made *made = made_new();
    for (int show = 0; show < 3; show++)
        for (int day = 0; day <= MADE_DAYS; day += MADE_DAYS)
            for (int named = 0; named < 2; named++) {
                struct phrase_style style = {true, show, 0.012};
                made->tale.plan = 1;
                made->tale.day = day;
                made->tale.plan_named = named;
                char *text = told(&made->tale, &style, false);
                assert_true(made_widest(text) <= 80);
                assert_true(made_lines(text) <= 12);
                assert_true(made_lines(text) >= 6);
                free(text);
            }
    free(made);
}

static void long_form_has_a_line_a_day_within_eighty_columns(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale, &UTF8, true);
    assert_true(made_widest(text) <= 80);
    assert_true(made_lines(text) > MADE_DAYS);
    assert_non_null(strstr(text, "\n 100 2026-01-25 "));
    assert_true(holds(text, "assumed walls: pallets"));
    free(text);
    free(made);
}

static void the_plan_taken_for_want_of_a_name_is_said(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale, &UTF8, false);
    assert_true(holds(text, "leave it (first of 2, none named)"));
    free(text);
    made->tale.plan_named = true;
    text = told(&made->tale, &UTF8, false);
    assert_false(holds(text, "none named"));
    free(text);
    free(made);
}

static void an_answer_says_that_it_is_a_forecast_without_a_range(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale, &UTF8, false);
    assert_true(holds(text, "forecasts only"));
    assert_true(holds(text, "central pile, no range"));
    assert_true(holds(text, "2 values assumed"));
    assert_true(holds(text, "local codes first"));
    assert_false(holds(text, "your readings"));
    free(text);
    made->scenario.readings = 1;
    text = told(&made->tale, &UTF8, false);
    assert_true(holds(text, "your readings aren't in it: midden learn"));
    free(text);
    free(made);
}

static void nothing_is_called_safe_and_no_seeds_are_promised_away(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale, &UTF8, true);
    assert_null(strstr(text, "safe"));
    assert_null(strstr(text, " no seeds"));
    assert_null(strstr(text, "0 % of those"));
    assert_true(holds(text, "under 1 % of those that are middling may still be alive"));
    free(text);
    free(made);
}

static void values_that_are_not_numbers_are_said_to_be_unknown(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->day[MADE_DAYS - 1].volume_m3 = NAN;
    made->record.person_s = NAN;
    char *text = told(&made->tale, &UTF8, false);
    assert_null(strstr(text, "nan"));
    assert_null(strstr(text, "inf"));
    assert_non_null(strstr(text, "unknown"));
    free(text);
    free(made);
}

static void an_empty_season_is_told_without_a_crash(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->record.days = 0;
    char *text = told(&made->tale, &UTF8, false);
    assert_int_equal(strncmp(text, "Nothing can be said", 19), 0);
    free(text);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_line_says_how_hot_how_long_and_when_it_is_over),
        cmocka_unit_test(a_pile_that_stays_cool_is_not_said_to_heat),
        cmocka_unit_test(a_pile_still_hot_at_the_end_is_not_said_to_cool),
        cmocka_unit_test(short_form_keeps_to_twelve_lines_of_eighty_columns),
        cmocka_unit_test(long_form_has_a_line_a_day_within_eighty_columns),
        cmocka_unit_test(the_plan_taken_for_want_of_a_name_is_said),
        cmocka_unit_test(an_answer_says_that_it_is_a_forecast_without_a_range),
        cmocka_unit_test(nothing_is_called_safe_and_no_seeds_are_promised_away),
        cmocka_unit_test(values_that_are_not_numbers_are_said_to_be_unknown),
        cmocka_unit_test(an_empty_season_is_told_without_a_crash),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
